// Words edited where they stand, and the way back.

import { act, actAloud, meant, shownNumber } from "./deed.js";
import { refresh } from "./fresh.js";
import { byId, worded } from "./talk.js";
import { leaveTrial } from "./trial.js";

// The text that was shown when a word began to be typed over.
const begun = new WeakMap();

document.addEventListener("input", ({ target }) => {
  if (target.matches(".word[data-key]") && !begun.has(target)) begun.set(target, shownNumber());
});

export async function save(word) {
  const value = word.value.trim();
  const was = word.dataset.was;
  if (value === was || word.dataset.sent === value) return;
  word.dataset.sent = value;
  word.setAttribute("aria-busy", "true");
  const { key } = word.dataset;
  const body = value === "" ? { what: "edits", edits: [{ key, remove: true }] } : { what: "set", key, value };
  const number = begun.get(word) ?? shownNumber();
  begun.delete(word);
  const problems = await act(meant(body, number));
  delete word.dataset.sent;
  word.removeAttribute("aria-busy");
  const error = byId(word.id + "-error");
  if (problems.length) {
    word.setAttribute("aria-invalid", "true");
    if (error) error.textContent = worded(problems);
  } else {
    word.dataset.was = value;
    leave(word);
  }
}

function leave(word) {
  word.removeAttribute("aria-invalid");
  const error = byId(word.id + "-error");
  if (error) error.textContent = "";
}

document.addEventListener("keydown", (event) => {
  const { target, key } = event;
  if (target.matches?.(".word[data-key]")) {
    if (key === "Enter") {
      event.preventDefault();
      save(target);
    } else if (key === "Escape") {
      target.value = target.dataset.was;
      begun.delete(target);
      leave(target);
      target.blur();
      refresh();
    }
  } else if (key === "Escape" && byId("tried")?.hidden === false) {
    event.preventDefault();
    leaveTrial();
  }
  const typing = target.matches?.("textarea, input[type=search]") || (target.matches?.("input.word") && target.value !== target.dataset.was);
  if ((event.ctrlKey || event.metaKey) && !event.altKey && !typing) {
    const letter = key.toLowerCase();
    const back = letter === "z" && !event.shiftKey;
    const forth = (letter === "z" && event.shiftKey) || letter === "y";
    if (back || forth) {
      event.preventDefault();
      actAloud({ what: back ? "undo" : "redo" });
    }
  }
});
