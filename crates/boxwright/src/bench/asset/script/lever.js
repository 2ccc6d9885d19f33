// Levers: shown while they are pulled, written when they rest.

import { actAloud, set } from "./deed.js";
import { refresh } from "./fresh.js";
import { hand } from "./hand.js";
import { handWritten } from "./length.js";
import { byId } from "./talk.js";
import { attempt, leaveTrial } from "./trial.js";

const numberOf = (range) => handWritten(range.valueAsNumber, "fraction" in range.dataset);
const textOf = (range) => range.dataset.template.replace("{}", numberOf(range));

export function pull(range) {
  hand.on = range;
  const now = `${numberOf(range)} ${range.dataset.unit}`.trim();
  byId(range.dataset.output).textContent = now;
  attempt(set(range.dataset.key, textOf(range)), { quick: true, title: `${range.dataset.label}: ${now}` });
}

// Arrow keys move a lever in many small steps: it is written once they rest.
let resting;
let byKey = false;
document.addEventListener("keydown", () => { byKey = true; }, true);
document.addEventListener("pointerdown", () => { byKey = false; }, true);

export async function pulled(range) {
  clearTimeout(resting);
  if (byKey) {
    await new Promise((rest) => { resting = setTimeout(rest, 500); });
  }
  hand.on = null;
  leaveTrial();
  await actAloud(set(range.dataset.key, textOf(range)));
  refresh();
}
