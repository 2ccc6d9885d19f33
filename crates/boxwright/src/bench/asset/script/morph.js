// One element made like another, as far as nobody is at work in it.

import { hand } from "./hand.js";
import { byId } from "./talk.js";

// Whether somebody is at work in an element just now.
const inUse = (own) =>
  (own === document.activeElement && own.matches("input[type=text], input[type=search]") && own.value !== (own.dataset.was ?? own.defaultValue))
  || (own.matches("textarea") && own.value !== own.defaultValue)
  || own.getAttribute("aria-invalid") === "true"
  || own.contains(hand.on);

// Makes one element like another, and keeps focus, caret, scroll and what is folded open.
export function morph(own, other) {
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
    if (range !== hand.on) range.value = next.getAttribute("value");
  }
  for (const value of own.querySelectorAll("output")) {
    const next = other.querySelector("#" + CSS.escape(value.id));
    if (next && value.id !== hand.on?.dataset?.output) value.textContent = next.textContent;
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
