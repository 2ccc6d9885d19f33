// The bench's own script: it swaps parts of the page, sends edits, drags, and reads values
// off curves. Everything that is shown was drawn by the program.

import { act, actAloud } from "./deed.js";
import "./drag.js";
import { begin, refresh } from "./fresh.js";
import { pull, pulled } from "./lever.js";
import { derive, search, shelve, swapPart, take } from "./shelf.js";
import { byId, worded } from "./talk.js";
import { switchTheme } from "./theme.js";
import { acceptTrial, attemptFrom, leaveTrial } from "./trial.js";
import { save } from "./word.js";

document.addEventListener("change", (event) => {
  const { target } = event;
  if (target.matches(".word[data-key]")) save(target);
  else if (target.matches("input[type=range][data-key]")) pulled(target);
  else if (target.matches("input[data-step]")) actAloud({ what: "step", id: target.dataset.step, done: target.checked });
  else if (target.id === "shelf-kind") search();
});

document.addEventListener("input", (event) => {
  const { target } = event;
  if (target.matches("input[type=range][data-key]")) pull(target);
  else if (target.id === "shelf-search") search();
  else if (target.closest("#driver-form") && target.name) derive();
});

document.addEventListener("submit", (event) => event.preventDefault());

document.addEventListener("click", async (event) => {
  const button = event.target.closest("button, a[data-explain]");
  if (!button) return;
  const { dataset } = button;
  if (dataset.explain) {
    if (event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    explain(dataset.explain);
  } else if (dataset.do) actAloud({ what: dataset.do });
  else if (dataset.mend) {
    leaveTrial();
    actAloud({ what: "mend", finding: dataset.mend, number: Number(dataset.number) });
  } else if (dataset.tryMend) {
    attemptFrom(button, { what: "mend", finding: dataset.tryMend, number: Number(dataset.number) }, button.getAttribute("aria-label"));
  } else if (dataset.try) attemptFrom(button, { what: "edits", edits: JSON.parse(dataset.try) }, button.textContent);
  else if (dataset.settle) actAloud({ what: "settle", keep: dataset.settle });
  else if (dataset.swap) swapPart(button);
  else if (dataset.take) take(button);
  else if (dataset.driver) shelve(button);
  else if (dataset.saveText) saveText();
  else if (dataset.open !== undefined) begun({ what: "open", recent: Number(dataset.open) });
  else if (dataset.begin !== undefined) begun({ what: "begin", name: byId("new-name").value, example: dataset.begin || null });
  else if (button.id === "tried-accept") acceptTrial();
  else if (button.id === "tried-leave") leaveTrial();
  else if (button.id === "explained-close") byId("explained").close();
  else if (button.id === "theme") switchTheme();
});

async function begun(body) {
  if (await actAloud(body)) location.assign("/");
}

async function explain(id) {
  const answer = await fetch("/explain/" + encodeURIComponent(id));
  byId("explained-text").textContent = await answer.text();
  byId("explained").showModal();
}

async function saveText() {
  const text = byId("file-text");
  const problems = await act({ what: "text", value: text.value, number: Number(text.dataset.number) });
  byId("file-error").textContent = worded(problems);
  if (!problems.length) {
    text.defaultValue = text.value;
    refresh();
  }
}

if (!document.body.dataset.chooser) begin();
document.documentElement.dataset.ready = "true";
