// Parts, the shelf they come from, and drivers that are to come onto it.

import { actAloud, set } from "./deed.js";
import { byId, post, say } from "./talk.js";
import { attemptFrom } from "./trial.js";

let searching;
export function search() {
  clearTimeout(searching);
  searching = setTimeout(async () => {
    const query = new URLSearchParams({ search: byId("shelf-search").value, kind: byId("shelf-kind").value });
    const answer = await fetch("/shelf?" + query);
    if (answer.ok) byId("shelf-found").innerHTML = await answer.text();
  }, 120);
}

export function swapPart(button) {
  const { swap: key, kind } = button.dataset;
  byId("shelf-key").value = key;
  byId("shelf-kind").value = kind;
  byId("shelf-for").textContent = "For " + button.getAttribute("aria-label").replace("swap the part for ", "") + ":";
  search();
  byId("shelf-search").focus();
}

export function take(button) {
  const key = byId("shelf-key").value;
  if (!key) {
    say("Choose “swap” beside the part that it is to replace.");
    return;
  }
  const body = set(key, button.dataset.take);
  if (button.dataset.trial) attemptFrom(button, body, button.getAttribute("aria-label"));
  else actAloud(body);
}

const typed = () => [...byId("driver-form").querySelectorAll("input[name]")].filter((input) => input.value.trim());
const sheet = () => Object.fromEntries(typed().map((input) => [input.name, input.value.trim()]));

let deriving;
export function derive() {
  clearTimeout(deriving);
  deriving = setTimeout(async () => {
    const answer = await post("/driver", { values: sheet() });
    const derived = byId("driver-derived");
    if (answer?.ok && derived) derived.innerHTML = await answer.text();
  }, 200);
}

// A driver from its data sheet: onto the shelf, and into the design where that is wanted.
export async function shelve(button) {
  const how = button.dataset.driver;
  const key = how === "keep" ? null : byId("driver-for").value || null;
  const body = { what: "driver", values: sheet(), key };
  if (how === "try") attemptFrom(button, body, "With this driver", shelved);
  else if (await actAloud(body)) shelved();
}

function shelved() {
  say("It is on your shelf.");
  if (!byId("driver-form")) return;
  for (const input of typed()) input.value = "";
  derive();
  if (byId("shelf-found").childElementCount) search();
}
