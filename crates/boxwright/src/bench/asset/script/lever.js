// Levers: shown while they are pulled, written when they rest.

import { actAloud, meant, set, shownNumber } from "./deed.js";
import { refresh } from "./fresh.js";
import { hand } from "./hand.js";
import { handWritten } from "./length.js";
import { byId } from "./talk.js";
import { attempt, leaveTrial } from "./trial.js";

const numberOf = (range) => handWritten(range.valueAsNumber, "fraction" in range.dataset);
const textOf = (range) => range.dataset.template.replace("{}", numberOf(range));

// The text that was shown when a lever was taken hold of.
const begun = new WeakMap();

export function pull(range) {
  if (!begun.has(range)) begun.set(range, shownNumber());
  hand.on = range;
  const now = `${numberOf(range)} ${range.dataset.unit}`.trim();
  byId(range.dataset.output).textContent = now;
  attempt(set(range.dataset.key, textOf(range)), { quick: true, title: `${range.dataset.label}: ${now}` });
}

// Arrow keys move a lever in many small steps: it is written once they rest.
const resting = new WeakMap();
let byKey = false;
document.addEventListener("keydown", () => { byKey = true; }, true);
document.addEventListener("pointerdown", () => { byKey = false; }, true);

export async function pulled(range) {
  clearTimeout(resting.get(range));
  const body = set(range.dataset.key, textOf(range));
  if (byKey) {
    await new Promise((rest) => { resting.set(range, setTimeout(rest, 500)); });
  }
  const number = begun.get(range);
  letGo(range);
  await actAloud(meant(body, number ?? shownNumber()));
  refresh();
}

function letGo(range) {
  begun.delete(range);
  if (hand.on === range) {
    hand.on = null;
    leaveTrial();
  }
}

// A lever that is back where it was tells of no change.
for (const type of ["pointerup", "pointercancel"]) {
  document.addEventListener(type, () => {
    const range = hand.on;
    if (!range?.matches("input[type=range]")) return;
    setTimeout(() => {
      if (hand.on !== range) return;
      letGo(range);
      refresh();
    });
  });
}
