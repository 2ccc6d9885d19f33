// Keeping the page as new as the design, and moving about it.

import { readAgain } from "./curve.js";
import { morph } from "./morph.js";
import { byId, say } from "./talk.js";
import { themed } from "./theme.js";

const STAGES = ["broken", "nominal", "bands", "whole"];

const shown = { number: -1, stage: -1 };
// The newest text this page knows to be in the file: nothing older is shown after it.
export const written = { least: -1 };
let asking = null;
let again = false;
let asked = 0;

function stateOf(word) {
  const [number, stage] = (word || "").split("-");
  return { number: Number(number), stage: STAGES.indexOf(stage) };
}

const older = (a, b) => a.number < b.number || (a.number === b.number && a.stage < b.stage);

// Fetches the parts of the page; one request at a time, the newest wish wins.
export async function refresh() {
  if (asking) {
    again = true;
    return asking;
  }
  asking = (async () => {
    do {
      again = false;
      const mine = ++asked;
      const query = location.search;
      let answer;
      try {
        answer = await fetch("/parts" + query);
      } catch {
        break;
      }
      if (!answer.ok) break;
      const state = stateOf(answer.headers.get("X-State"));
      const text = await answer.text();
      if (mine !== asked || older(state, shown) || state.number < written.least) continue;
      if (query !== location.search) { again = true; continue; }
      Object.assign(shown, state);
      swap(text);
    } while (again);
  })();
  try {
    await asking;
  } finally {
    asking = null;
  }
}

function swap(text) {
  const page = new DOMParser().parseFromString(text, "text/html");
  const parts = [...page.body.children].filter((part) => part.id);
  const ids = new Set(parts.map((part) => part.id));
  let before = document.querySelector(".skip");
  for (const part of parts) {
    const own = byId(part.id);
    if (own) {
      morph(own, part);
      before = own;
    } else {
      before.after(document.importNode(part, true));
      before = byId(part.id);
    }
  }
  for (const id of ["troubles", "brief", "promises", "sheets", "side"]) {
    if (!ids.has(id)) byId(id)?.remove();
  }
  themed();
  readAgain();
}

function listen() {
  const events = new EventSource("/events");
  events.addEventListener("state", (event) => {
    const told = JSON.parse(event.data);
    const drawn = byId("drawn");
    if (drawn && told.of) {
      drawn.max = told.of;
      drawn.value = told.drawn;
    }
    const state = { number: told.number, stage: STAGES.indexOf(told.stage) };
    const busy = Boolean(byId("stop")) !== Boolean(told.busy);
    if (older(shown, state) || busy || !("number" in told)) refresh();
  });
  events.onerror = () => {
    if (events.readyState === EventSource.CLOSED) say("The bench has ended. Start it again and reload this page.");
  };
}

// Moving about the bench

export function go(address) {
  if (address !== location.pathname + location.search) history.pushState(null, "", address);
  return refresh();
}

addEventListener("popstate", () => refresh());

document.addEventListener("click", (event) => {
  const link = event.target.closest('a[href^="/?"]');
  if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
  event.preventDefault();
  go(link.getAttribute("href"));
});

// Begins to hear of changes, from the state the page was drawn in.
export function begin() {
  const head = byId("head");
  Object.assign(shown, { number: Number(head.dataset.number), stage: STAGES.indexOf(head.dataset.stage) });
  listen();
}
