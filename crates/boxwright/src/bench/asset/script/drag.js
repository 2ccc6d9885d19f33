// Taking hold of parts and dimensions.

import { actAloud, shownNumber } from "./deed.js";
import { go, refresh } from "./fresh.js";
import { hand } from "./hand.js";
import { onDrawing, SVG } from "./drawing.js";
import { Lengths } from "./length.js";
import { attempt, leaveTrial } from "./trial.js";

const numbers = (text) => text.split(" ").filter(Boolean).map(Number);

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

class Hold {
  constructor(element) {
    this.element = element;
    this.svg = element.ownerSVGElement;
    this.isHandle = element.classList.contains("handle");
    this.number = shownNumber();
    this.from = numbers(element.dataset.at);
    this.at = [...this.from];
    this.lengths = new Lengths(JSON.parse(element.dataset.written || '{"pieces":[""],"numbers":[]}'));
    if (this.isHandle) {
      const length = Number(element.dataset.length);
      const within = [Number(element.getAttribute("aria-valuemin")), Number(element.getAttribute("aria-valuemax"))];
      this.moves = [{ length, run: numbers(element.dataset.run), within }];
    } else {
      this.moves = JSON.parse(element.dataset.moves || "[]");
    }
  }

  by(amounts) {
    this.moves.forEach(({ length, within }, index) => {
      this.at[length] = this.lengths.move(length, this.from[length] + amounts[index], within);
    });
    this.show();
  }

  get moved() {
    return this.at.some((mm, index) => Math.abs(mm - this.from[index]) > 0.05);
  }

  get body() {
    const { key, remove } = this.element.dataset;
    const edits = [{ key, value: this.lengths.text }];
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
    text.textContent = this.lengths.text;
    if (this.isHandle) {
      const { length } = this.moves[0];
      this.element.setAttribute("aria-valuenow", Math.round(this.at[length] * 10) / 10);
      this.element.setAttribute("aria-valuetext", `${this.lengths.said[length]} ${this.lengths.numbers[length].unit}`);
    }
    const label = this.element.dataset.label || this.element.getAttribute("aria-label");
    if (this.moved) attempt(this.body, { quick: true, title: `${label}: ${this.lengths.text}` });
  }

  async end(keep) {
    this.element.removeAttribute("transform");
    this.element.classList.remove("moving");
    this.svg.querySelector(".measuring")?.remove();
    hand.on = null;
    leaveTrial();
    if (keep && this.moved) await actAloud({ ...this.body, number: this.number, exact: true });
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
    if (!hand.on && Math.hypot(...way) < 1) return;
    if (!hand.on) {
      hand.on = hold.element;
      hold.element.setPointerCapture(event.pointerId);
    }
    event.preventDefault();
    hold.by(along(hold.moves, way));
  }
});

document.addEventListener("pointerup", () => {
  const held = hold;
  hold = null;
  if (!held) return;
  if (hand.on === held.element) held.end(true);
  else if (held.element.dataset.href) go(held.element.dataset.href);
});

document.addEventListener("pointercancel", () => {
  const held = hold;
  hold = null;
  if (held && hand.on === held.element) held.end(false);
});

// The arrow keys: one mark of the rule, several with Shift; kept when they rest.
let keyed = null;

function rest(keep) {
  const { hold: held, timer } = keyed;
  clearTimeout(timer);
  keyed = null;
  held.end(keep);
}

document.addEventListener("keydown", (event) => {
  const element = event.target.closest?.(".grip, .handle");
  if (!element) return;
  if ((event.key === "Enter" || event.key === " ") && element.dataset.href) {
    event.preventDefault();
    go(element.dataset.href);
    return;
  }
  if (event.key === "Escape" && keyed) {
    rest(false);
    return;
  }
  const step = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
  if (!step || !element.dataset.key) return;
  event.preventDefault();
  if (keyed && keyed.hold.element !== element) rest(true);
  if (!keyed) {
    const held = new Hold(element);
    if (!held.moves.length) return;
    keyed = { hold: held, amounts: held.moves.map(() => 0) };
    hand.on = element;
  }
  const { moves } = keyed.hold;
  // The motion that runs most the way the arrow points; up and right both lengthen a dimension.
  const agrees = ({ run: [x, y] }) => (x * step[0] + y * step[1]) / Math.hypot(x, y);
  const best = moves.reduce((one, other) => (Math.abs(agrees(other)) > Math.abs(agrees(one)) ? other : one));
  const sign = keyed.hold.isHandle ? step[0] - step[1] : Math.sign(agrees(best)) || 1;
  const { per, step: mark, many } = keyed.hold.lengths.numbers[best.length];
  keyed.amounts[moves.indexOf(best)] += sign * per * mark * (event.shiftKey ? many : 1);
  keyed.hold.by(keyed.amounts);
  clearTimeout(keyed.timer);
  keyed.timer = setTimeout(() => rest(true), 700);
});
