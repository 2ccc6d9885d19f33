// Changes of the design.

import { refresh, written } from "./fresh.js";
import { post, say, worded } from "./talk.js";

// Does something; gives what is wrong with it, nothing when it was done.
export function act(body) {
  const done = before.then(() => acted(body));
  before = done.catch(() => {});
  return done;
}

// One deed after another: requests side by side may overtake each other on their way.
let before = Promise.resolve();

async function acted(body) {
  const answer = await post("/do", body);
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
