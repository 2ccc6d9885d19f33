"use strict";
// The bench's own script: it swaps parts of the page, sends edits, drags, and reads values
// off curves. Everything that is shown was drawn by the program.

const token = document.querySelector('meta[name="token"]').content;
const byId = (id) => document.getElementById(id);
const SVG = "http://www.w3.org/2000/svg";
const STAGES = ["broken", "nominal", "bands", "whole"];

// Talking to the program

async function post(path, body, headers = {}) {
  try {
    return await fetch(path, {
      method: "POST",
      headers: { "Content-Type": "application/json", "X-Token": token, ...headers },
      body: JSON.stringify(body),
    });
  } catch {
    say("The bench does not answer. Is it still running?");
    return null;
  }
}

// Does something; gives what is wrong with it, nothing when it was done.
async function act(body) {
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

const worded = (problems) =>
  problems.map((p) => [p.place && p.place + ":", p.message, p.advice && "– " + p.advice].filter(Boolean).join(" ")).join(" ");

async function actAloud(body) {
  const problems = await act(body);
  if (problems.length) say(worded(problems));
  return !problems.length;
}

let saying;
function say(text) {
  byId("say").textContent = text;
  clearTimeout(saying);
  saying = setTimeout(() => { byId("say").textContent = ""; }, 6000);
}

// Keeping the page as new as the design

const shown = { number: -1, stage: -1 };
// The newest text this page knows to be in the file: nothing older is shown after it.
const written = { least: -1 };
let asking = null;
let again = false;
let asked = 0;

function stateOf(word) {
  const [number, stage] = (word || "").split("-");
  return { number: Number(number), stage: STAGES.indexOf(stage) };
}

const older = (a, b) => a.number < b.number || (a.number === b.number && a.stage < b.stage);

// Fetches the parts of the page; one request at a time, the newest wish wins.
async function refresh() {
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
  await asking;
  asking = null;
}

let dragging = null;

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

// Whether somebody is at work in an element just now.
const inUse = (own) =>
  (own === document.activeElement && own.matches("input[type=text], input[type=search]") && own.value !== (own.dataset.was ?? own.defaultValue))
  || (own.matches("textarea") && own.value !== own.defaultValue)
  || own.getAttribute("aria-invalid") === "true"
  || own.contains(dragging);

// Makes one element like another, and keeps focus, caret, scroll and what is folded open.
function morph(own, other) {
  if (own.nodeType !== other.nodeType || own.nodeName !== other.nodeName) {
    own.replaceWith(document.importNode(other, true));
    return;
  }
  if (own.nodeType !== Node.ELEMENT_NODE) {
    if (own.nodeValue !== other.nodeValue) own.nodeValue = other.nodeValue;
    return;
  }
  if (own.dataset.keep !== undefined) return;
  // What is wrong with a word is told until the word is mended.
  if (own.matches(".error") && document.querySelector(`[aria-invalid="true"][aria-describedby="${own.id}"]`)) return;
  if (own.matches("input, select, textarea, svg.drawing") && inUse(own)) return;
  if (own.id === "levers" && own.dataset.ranked === "true" && other.dataset.ranked === "false" && sameLevers(own, other)) return;
  if (own.isEqualNode(other) && !own.matches("input, select, textarea") && !own.querySelector("input, select, textarea")) return;
  attributes(own, other);
  if (own.matches("svg.drawing")) {
    const focused = own.contains(document.activeElement) ? document.activeElement.id : "";
    own.replaceChildren(...[...other.childNodes].map((node) => document.importNode(node, true)));
    if (focused) byId(focused)?.focus({ preventScroll: true });
    return;
  }
  if (own.matches("input, textarea")) {
    const value = own.nodeName === "TEXTAREA" ? other.textContent : other.getAttribute("value") ?? "";
    if (own.type === "checkbox") own.checked = other.hasAttribute("checked");
    else if (own.dataset.was !== undefined || own.nodeName === "TEXTAREA" || own.type === "range") own.value = value;
    if (own.nodeName === "TEXTAREA") own.defaultValue = value;
    return;
  }
  children(own, other);
  if (own.nodeName === "SELECT" && own.dataset.was !== undefined) {
    own.value = other.dataset.was;
  }
}

// While the studies run, levers stay where they are and follow the design's values.
function sameLevers(own, other) {
  const ranges = (of) => [...of.querySelectorAll("input[type=range]")];
  const values = new Map(ranges(other).map((range) => [range.id, range]));
  const mine = ranges(own);
  if (own.dataset.promise !== other.dataset.promise) return false;
  if (mine.length !== values.size || !mine.every((range) => values.has(range.id))) return false;
  for (const range of mine) {
    const next = values.get(range.id);
    range.dataset.template = next.dataset.template;
    if (range !== dragging) range.value = next.getAttribute("value");
  }
  for (const value of own.querySelectorAll("output")) {
    const next = other.querySelector("#" + CSS.escape(value.id));
    if (next && value.id !== dragging?.dataset?.output) value.textContent = next.textContent;
  }
  own.dataset.stale = "true";
  return true;
}

function attributes(own, other) {
  for (const { name } of [...own.attributes]) {
    const stays = (name === "open" && own.nodeName === "DETAILS") || name === "aria-busy";
    if (!other.hasAttribute(name) && !stays) own.removeAttribute(name);
  }
  for (const { name, value } of other.attributes) {
    if (name === "open" && own.nodeName === "DETAILS") continue;
    if (own.getAttribute(name) !== value) own.setAttribute(name, value);
  }
}

function children(own, other) {
  let at = own.firstChild;
  const kept = new Map([...own.children].filter((c) => c.id).map((c) => [c.id, c]));
  for (const next of [...other.childNodes]) {
    let mine = null;
    if (next.id && kept.has(next.id)) {
      mine = kept.get(next.id);
      if (mine !== at) own.insertBefore(mine, at);
      else at = at.nextSibling;
    } else if (at && !at.id && !next.id && at.nodeName === next.nodeName) {
      mine = at;
      at = at.nextSibling;
    }
    if (mine) morph(mine, next);
    else own.insertBefore(document.importNode(next, true), at);
  }
  while (at) {
    const gone = at;
    at = at.nextSibling;
    gone.remove();
  }
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

function go(address) {
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

// Words edited where they stand

async function save(word) {
  const value = word.value.trim();
  const was = word.dataset.was;
  if (value === was || word.dataset.sent === value) return;
  word.dataset.sent = value;
  word.setAttribute("aria-busy", "true");
  const { key } = word.dataset;
  const body = value === "" ? { what: "edits", edits: [{ key, remove: true }] } : { what: "set", key, value };
  const problems = await act(body);
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
  else if (target.closest("#driver-form")) derive();
});

document.addEventListener("submit", (event) => event.preventDefault());

document.addEventListener("keydown", (event) => {
  const { target, key } = event;
  if (target.matches?.(".word[data-key]")) {
    if (key === "Enter") {
      event.preventDefault();
      save(target);
    } else if (key === "Escape") {
      target.value = target.dataset.was;
      leave(target);
      target.blur();
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

// What a change would do, before it is made

const trial = { sequence: 0, running: false, next: null, accept: null };

// Tries a change: one request at a time, the newest wish wins, late answers are dropped.
async function attempt(body, { quick = false, accept = null, title = "What would change" } = {}) {
  trial.next = { body, quick, accept, title };
  if (trial.running) return;
  trial.running = true;
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
  trial.running = false;
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

function leaveTrial() {
  trial.sequence++;
  trial.next = null;
  trial.accept = null;
  const box = byId("tried");
  const back = box.contains(document.activeElement);
  box.hidden = true;
  for (const grip of document.querySelectorAll(".grip.meets")) grip.classList.remove("meets");
  if (back) trial.from?.focus?.({ preventScroll: true });
}

function attemptFrom(button, body, title) {
  trial.from = button;
  attempt(body, { title, accept: () => actAloud(body) });
}

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
  else if (dataset.saveText) saveText();
  else if (dataset.open !== undefined) begun({ what: "open", recent: Number(dataset.open) });
  else if (dataset.begin !== undefined) begun({ what: "begin", name: byId("new-name").value, example: dataset.begin || null });
  else if (button.id === "tried-accept") {
    const accept = trial.accept;
    leaveTrial();
    accept?.();
  } else if (button.id === "tried-leave") leaveTrial();
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

// Levers

const textOf = (range) => range.dataset.template.replace("{}", range.value);

function pull(range) {
  dragging = range;
  const now = `${range.value} ${range.dataset.unit}`.trim();
  byId(range.dataset.output).textContent = now;
  attempt(set(range.dataset.key, textOf(range)), { quick: true, title: `${range.dataset.label}: ${now}` });
}

const set = (key, value) => ({ what: "set", key, value });

// Arrow keys move a lever in many small steps: it is written once they rest.
let resting;
let byKey = false;
document.addEventListener("keydown", () => { byKey = true; }, true);
document.addEventListener("pointerdown", () => { byKey = false; }, true);

async function pulled(range) {
  clearTimeout(resting);
  if (byKey) {
    await new Promise((rest) => { resting = setTimeout(rest, 500); });
  }
  dragging = null;
  leaveTrial();
  await actAloud(set(range.dataset.key, textOf(range)));
  refresh();
}

// Parts and the shelf

let searching;
function search() {
  clearTimeout(searching);
  searching = setTimeout(async () => {
    const query = new URLSearchParams({ search: byId("shelf-search").value, kind: byId("shelf-kind").value });
    const answer = await fetch("/shelf?" + query);
    if (answer.ok) byId("shelf-found").innerHTML = await answer.text();
  }, 120);
}

function swapPart(button) {
  const { swap: key, kind } = button.dataset;
  byId("shelf-key").value = key;
  byId("shelf-kind").value = kind;
  byId("shelf-for").textContent = "For " + button.getAttribute("aria-label").replace("swap the part for ", "") + ":";
  search();
  byId("shelf-search").focus();
}

function take(button) {
  const key = byId("shelf-key").value;
  if (!key) {
    say("Choose “swap” beside the part that it is to replace.");
    return;
  }
  const body = set(key, button.dataset.take);
  if (button.dataset.trial) attemptFrom(button, body, button.getAttribute("aria-label"));
  else actAloud(body);
}

let deriving;
function derive() {
  clearTimeout(deriving);
  deriving = setTimeout(async () => {
    const values = {};
    for (const input of byId("driver-form").querySelectorAll("input[name]")) {
      if (input.value.trim()) values[input.name] = input.value.trim();
    }
    const answer = await post("/driver", { values });
    if (answer?.ok) byId("driver-derived").innerHTML = await answer.text();
  }, 200);
}

// Taking hold of parts and dimensions

const numbers = (text) => text.split(" ").filter(Boolean).map(Number);
const clamp = (value, [least, most]) => Math.min(Math.max(value, Math.min(least, most)), Math.max(least, most));

function onDrawing(svg, event) {
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
  return [point.x, point.y];
}

// How far along each motion, in mm, a way on the drawing leads.
function along(moves, [dx, dy]) {
  const runs = moves.map((move) => move.run.map((mm) => mm / 1000));
  if (runs.length === 1) {
    const [[x, y]] = runs;
    return [(dx * x + dy * y) / (x * x + y * y)];
  }
  const [[a, c], [b, d]] = runs;
  const det = a * d - b * c;
  return [(dx * d - dy * b) / det, (dy * a - dx * c) / det];
}

const joined = (at) => at.map((mm) => Math.round(mm * 10) / 10).join(" x ") + " mm";

class Hold {
  constructor(element) {
    this.element = element;
    this.svg = element.ownerSVGElement;
    this.isHandle = element.classList.contains("handle");
    this.from = numbers(element.dataset.at);
    this.at = [...this.from];
    if (this.isHandle) {
      const length = Number(element.dataset.length);
      const within = [Number(element.getAttribute("aria-valuemin")), Number(element.getAttribute("aria-valuemax"))];
      this.moves = [{ length, run: numbers(element.dataset.run), within }];
    } else {
      this.moves = JSON.parse(element.dataset.moves || "[]");
    }
  }

  by(amounts) {
    this.moves.forEach((move, index) => {
      const to = Math.round(this.from[move.length] + amounts[index]);
      this.at[move.length] = clamp(to, move.within);
    });
    this.show();
  }

  get moved() {
    return this.at.some((mm, index) => mm !== this.from[index]);
  }

  get body() {
    const { key, remove } = this.element.dataset;
    const edits = [{ key, value: joined(this.at) }];
    if (remove) edits.push({ key: remove, remove: true });
    return { what: "edits", edits };
  }

  show() {
    let [x, y] = [0, 0];
    for (const move of this.moves) {
      const by = (this.at[move.length] - this.from[move.length]) / 1000;
      x += move.run[0] * by;
      y += move.run[1] * by;
    }
    this.element.setAttribute("transform", `translate(${x} ${y})`);
    this.element.classList.add("moving");
    let text = this.svg.querySelector(".measuring");
    if (!text) {
      text = document.createElementNS(SVG, "text");
      text.setAttribute("class", "measuring");
      this.svg.append(text);
    }
    const box = this.element.getBBox();
    text.setAttribute("x", box.x + x);
    text.setAttribute("y", Math.max(box.y + y - 1.5, this.svg.viewBox.baseVal.y + 4));
    text.textContent = joined(this.at);
    if (this.isHandle) this.element.setAttribute("aria-valuenow", this.at[this.moves[0].length]);
    const label = this.element.dataset.label || this.element.getAttribute("aria-label");
    if (this.moved) attempt(this.body, { quick: true, title: `${label}: ${joined(this.at)}` });
  }

  async end(keep) {
    this.element.removeAttribute("transform");
    this.element.classList.remove("moving");
    this.svg.querySelector(".measuring")?.remove();
    dragging = null;
    leaveTrial();
    if (keep && this.moved) await actAloud(this.body);
    refresh();
  }
}

let hold = null;

document.addEventListener("pointerdown", (event) => {
  const element = event.target.closest?.(".grip, .handle");
  if (!element || event.button) return;
  const held = new Hold(element);
  held.start = onDrawing(held.svg, event);
  held.pointer = event.pointerId;
  hold = held;
});

document.addEventListener("pointermove", (event) => {
  if (hold && event.pointerId === hold.pointer && hold.element.dataset.key && hold.moves.length) {
    const at = onDrawing(hold.svg, event);
    const way = [at[0] - hold.start[0], at[1] - hold.start[1]];
    if (!dragging && Math.hypot(...way) < 1) return;
    if (!dragging) {
      dragging = hold.element;
      hold.element.setPointerCapture(event.pointerId);
    }
    event.preventDefault();
    hold.by(along(hold.moves, way));
  }
  const reader = event.target.closest?.(".reader");
  if (reader) read(reader, onDrawing(reader.querySelector("svg"), event)[0]);
});

document.addEventListener("pointerup", () => {
  const held = hold;
  hold = null;
  if (!held) return;
  if (dragging === held.element) held.end(true);
  else if (held.element.dataset.href) go(held.element.dataset.href);
});

document.addEventListener("pointercancel", () => {
  const held = hold;
  hold = null;
  if (held && dragging === held.element) held.end(false);
});

// The arrow keys: one millimetre, ten with Shift; kept when they rest.
let keyed = null;
document.addEventListener("keydown", (event) => {
  const element = event.target.closest?.(".grip, .handle");
  if (!element) return;
  if ((event.key === "Enter" || event.key === " ") && element.dataset.href) {
    event.preventDefault();
    go(element.dataset.href);
    return;
  }
  if (event.key === "Escape" && keyed) {
    clearTimeout(keyed.timer);
    keyed.hold.end(false);
    keyed = null;
    return;
  }
  const step = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
  if (!step || !element.dataset.key) return;
  event.preventDefault();
  if (keyed?.hold.element !== element) {
    const held = new Hold(element);
    if (!held.moves.length) return;
    keyed = { hold: held, amounts: held.moves.map(() => 0) };
    dragging = element;
  }
  const { moves } = keyed.hold;
  // The motion that runs most the way the arrow points; up and right both lengthen a dimension.
  const agrees = ({ run: [x, y] }) => (x * step[0] + y * step[1]) / Math.hypot(x, y);
  const best = moves.reduce((one, other) => (Math.abs(agrees(other)) > Math.abs(agrees(one)) ? other : one));
  const sign = keyed.hold.isHandle ? step[0] - step[1] : Math.sign(agrees(best)) || 1;
  keyed.amounts[moves.indexOf(best)] += sign * (event.shiftKey ? 10 : 1);
  keyed.hold.by(keyed.amounts);
  clearTimeout(keyed.timer);
  keyed.timer = setTimeout(() => {
    const { hold: held } = keyed;
    keyed = null;
    held.end(true);
  }, 700);
});

// Reading values off curves

const plots = new WeakMap();
const positions = new WeakMap();

// A curve that was drawn anew goes on being read where it was.
function readAgain() {
  for (const reader of document.querySelectorAll(".reader:hover, .reader:focus")) {
    if (positions.has(reader)) readAt(reader, positions.get(reader));
  }
}

function values(reader) {
  const figure = reader.closest(".plot");
  const text = figure.dataset.values;
  const known = plots.get(figure);
  if (known?.text === text) return known.values;
  const parsed = JSON.parse(text);
  plots.set(figure, { text, values: parsed });
  return parsed;
}

const share = (axis, value) =>
  axis.log ? Math.log(value / axis.from) / Math.log(axis.to / axis.from) : (value - axis.from) / (axis.to - axis.from);
const valueAt = (axis, at) => (axis.log ? axis.from * (axis.to / axis.from) ** at : axis.from + at * (axis.to - axis.from));
const unitOf = (axis) => axis.label.split(" in ")[1] || axis.label.split(" ")[0];
const digits = (value) => (Math.abs(value) >= 100 ? value.toFixed(0) : Math.abs(value) >= 10 ? value.toFixed(1) : value.toFixed(2));

function between(xs, ys, x) {
  let high = xs.findIndex((at) => at >= x);
  if (high < 0) return null;
  if (high === 0) return xs[0] === x ? ys[0] : null;
  const [a, b] = [ys[high - 1], ys[high]];
  if (a === null || b === null) return null;
  return a + ((x - xs[high - 1]) / (xs[high] - xs[high - 1])) * (b - a);
}

function read(reader, x) {
  const { plot: [left, , wide] } = values(reader);
  readAt(reader, (x - left) / wide);
}

function readAt(reader, position) {
  const of = values(reader);
  const [left, top, wide, high] = of.plot;
  const at = Math.min(Math.max(position, 0), 1);
  const x = valueAt(of.x, at);
  const cross = reader.querySelector(".cross");
  const mm = left + at * wide;
  cross.replaceChildren();
  line(cross, { x1: mm, x2: mm, y1: top, y2: top + high });
  const said = [`${digits(x)} ${unitOf(of.x)}`];
  for (const series of of.series) {
    const y = between(series.x, series.y, x);
    if (y === null) continue;
    const up = share(of.y, y);
    if (up >= 0 && up <= 1) {
      const spot = top + (1 - up) * high;
      line(cross, { x1: left, x2: left + wide, y1: spot, y2: spot });
      mark(cross, { cx: mm, cy: spot, r: 0.9 });
    }
    let words = `${series.name ? series.name + ": " : ""}${digits(y)} ${unitOf(of.y)}`;
    if (series.low && series.high) {
      const [low, top10] = [between(series.x, series.low, x), between(series.x, series.high, x)];
      if (low !== null && top10 !== null) words += ` (eight of ten: ${digits(low)} – ${digits(top10)})`;
    }
    said.push(words);
  }
  const text = said.join(" · ");
  positions.set(reader, at);
  reader.setAttribute("aria-valuenow", x.toPrecision(4));
  reader.setAttribute("aria-valuetext", text);
  reader.closest(".plot").querySelector(".reading").textContent = text;
}

const line = (into, at) => shape(into, "line", at);
const mark = (into, at) => shape(into, "circle", at);
function shape(into, name, at) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(at)) made.setAttribute(key, value);
  into.append(made);
}

function unread(reader) {
  positions.delete(reader);
  reader.querySelector(".cross")?.replaceChildren();
  reader.closest(".plot").querySelector(".reading").textContent = "\u00a0";
}

document.addEventListener("pointerout", (event) => {
  const reader = event.target.closest?.(".reader");
  if (reader && !reader.contains(event.relatedTarget) && document.activeElement !== reader) unread(reader);
});

document.addEventListener("focusout", (event) => {
  if (event.target.matches?.(".reader")) unread(event.target);
});

document.addEventListener("keydown", (event) => {
  const reader = event.target;
  if (!reader.matches?.(".reader")) return;
  const now = positions.get(reader) ?? 0.5;
  const step = event.shiftKey ? 0.1 : 0.01;
  const to = {
    ArrowRight: now + step, ArrowUp: now + step, ArrowLeft: now - step, ArrowDown: now - step,
    PageUp: now + 0.1, PageDown: now - 0.1, Home: 0, End: 1,
  }[event.key];
  if (to === undefined) return;
  event.preventDefault();
  readAt(reader, to);
});

// Paper or blueprint

const dark = matchMedia("(prefers-color-scheme: dark)");
const kept = () => { try { return localStorage.getItem("theme"); } catch { return null; } };

function themed() {
  const theme = kept();
  if (theme) document.documentElement.dataset.theme = theme;
  const isDark = theme ? theme === "blueprint" : dark.matches;
  byId("theme")?.setAttribute("aria-pressed", String(isDark));
}

function switchTheme() {
  const isDark = byId("theme").getAttribute("aria-pressed") === "true";
  try { localStorage.setItem("theme", isDark ? "paper" : "blueprint"); } catch { /* not kept */ }
  document.documentElement.dataset.theme = isDark ? "paper" : "blueprint";
  themed();
}

dark.addEventListener("change", themed);
themed();
if (!document.body.dataset.chooser) {
  const head = byId("head");
  Object.assign(shown, { number: Number(head.dataset.number), stage: STAGES.indexOf(head.dataset.stage) });
  listen();
}
document.documentElement.dataset.ready = "true";
