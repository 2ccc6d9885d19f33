// Reading values off curves.

import { onDrawing, SVG } from "./drawing.js";

const plots = new WeakMap();
const positions = new WeakMap();

// A curve that was drawn anew goes on being read where it was.
export function readAgain() {
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

document.addEventListener("pointermove", (event) => {
  const reader = event.target.closest?.(".reader");
  if (reader) read(reader, onDrawing(reader.querySelector("svg"), event)[0]);
});

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
