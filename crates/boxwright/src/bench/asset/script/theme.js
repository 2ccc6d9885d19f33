// Paper or blueprint.

import { byId } from "./talk.js";

const dark = matchMedia("(prefers-color-scheme: dark)");
const kept = () => { try { return localStorage.getItem("theme"); } catch { return null; } };

export function themed() {
  const theme = kept();
  if (theme) document.documentElement.dataset.theme = theme;
  const isDark = theme ? theme === "blueprint" : dark.matches;
  byId("theme")?.setAttribute("aria-pressed", String(isDark));
}

export function switchTheme() {
  const isDark = byId("theme").getAttribute("aria-pressed") === "true";
  try { localStorage.setItem("theme", isDark ? "paper" : "blueprint"); } catch { /* not kept */ }
  document.documentElement.dataset.theme = isDark ? "paper" : "blueprint";
  themed();
}

dark.addEventListener("change", themed);
themed();
