// What a change would do, before it is made.

import { actAloud, meant, shownNumber } from "./deed.js";
import { byId, post, worded } from "./talk.js";

const trial = { sequence: 0, running: false, next: null, accept: null };

// Tries a change: one request at a time, the newest wish wins, late answers are dropped.
export async function attempt(body, { quick = false, accept = null, title = "What would change" } = {}) {
  trial.next = { body, quick, accept, title };
  if (trial.running) return;
  trial.running = true;
  try {
    while (trial.next) {
      const wish = trial.next;
      trial.next = null;
      const mine = ++trial.sequence;
      const answer = await post("/try", wish.body, wish.quick ? { "X-Quick": "1" } : {});
      if (!answer || mine !== trial.sequence || answer.status === 204) continue;
      const text = await answer.text();
      if (mine !== trial.sequence) continue;
      showTrial(answer, text, wish);
    }
  } finally {
    trial.running = false;
  }
}

function showTrial(answer, text, wish) {
  const found = byId("tried-found");
  if (answer.ok) {
    found.innerHTML = text;
  } else {
    let problems = [];
    try { problems = JSON.parse(text).problems; } catch { /* told in plain text */ }
    found.textContent = problems.length ? worded(problems) : text;
  }
  byId("tried-title").textContent = wish.title;
  trial.accept = answer.ok ? wish.accept : null;
  byId("tried-accept").hidden = !trial.accept;
  byId("tried-leave").hidden = !wish.accept;
  byId("tried").hidden = false;
  meeting();
  if (wish.accept) byId("tried-title").focus({ preventScroll: true });
}

// Shows on the drawing what a change would let meet.
function meeting() {
  const keys = new Set();
  for (const item of byId("tried-found").querySelectorAll('[data-severity="stop"]')) {
    for (const key of item.dataset.about.split(" ")) if (key) keys.add(key);
  }
  for (const grip of document.querySelectorAll(".grip")) {
    const { table } = grip.dataset;
    const met = [...keys].some((key) => key === table || key.startsWith(table + "."));
    grip.classList.toggle("meets", met);
  }
}

export function leaveTrial() {
  trial.sequence++;
  trial.next = null;
  trial.accept = null;
  const box = byId("tried");
  const back = box.contains(document.activeElement);
  box.hidden = true;
  for (const grip of document.querySelectorAll(".grip.meets")) grip.classList.remove("meets");
  if (back) trial.from?.focus?.({ preventScroll: true });
}

export function attemptFrom(button, body, title, then) {
  trial.from = button;
  const number = shownNumber();
  const accept = async () => { if (await actAloud(meant(body, number))) then?.(); };
  attempt(body, { title, accept });
}

// Makes the change that is being looked at.
export function acceptTrial() {
  const { accept } = trial;
  leaveTrial();
  accept?.();
}
