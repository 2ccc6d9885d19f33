// Changes of the design.

import { refresh, written } from "./fresh.js";
import { byId, post, say, worded } from "./talk.js";

// Edits are meant for the text that was shown when they were begun.
export const shownNumber = () => Number(byId("head")?.dataset.number);
const isEdit = ({ what }) => what === "set" || what === "edits";
export const meant = (body, number) => (isEdit(body) ? { ...body, number } : body);

// Does something; gives what is wrong with it, nothing when it was done.
export function act(body) {
  const begun = "number" in body ? body : meant(body, shownNumber());
  const done = before.then(() => acted(begun));
  before = done.catch(() => {});
  return done;
}

// One deed after another: requests side by side may overtake each other on their way.
let before = Promise.resolve();

async function acted(body) {
  // What this page has written since is meant, too, unless the body was made without it.
  const { exact, ...deed } = body;
  const answer = await post("/do", exact ? deed : meant(deed, Math.max(deed.number, written.least)));
  if (!answer) return [{ place: "", message: "the bench does not answer", advice: "" }];
  const told = (answer.headers.get("Content-Type") || "").startsWith("application/json");
  const { number = 0, problems: found = [] } = told ? await answer.json() : {};
  if (answer.ok) {
    written.least = Math.max(written.least, number);
    refresh();
    return [];
  }
  return found.length ? found : [{ place: "", message: "this could not be done", advice: "" }];
}

export async function actAloud(body) {
  const problems = await act(body);
  if (problems.length) say(worded(problems));
  return !problems.length;
}

export const set = (key, value) => ({ what: "set", key, value });
