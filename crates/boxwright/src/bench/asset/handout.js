"use strict";
// The build order on a phone: what is checked off there is remembered there, without any
// network. What was checked off when the file was saved is so until it is changed here.

(() => {
  const key = `build of ${document.title}`;
  const boxes = [...document.querySelectorAll("input[data-step]")];
  const small = document.querySelector("#steps-title small");
  const progress = document.querySelector("#steps progress");

  const read = (text) => {
    const found = JSON.parse(text);
    return found && typeof found === "object" ? found : {};
  };
  // A viewer without a store of its own may still keep what stands in the address.
  function kept() {
    try {
      return read(localStorage.getItem(key));
    } catch {
      try {
        return read(decodeURIComponent(location.hash.slice(1)) || "{}");
      } catch {
        return {};
      }
    }
  }

  const changes = kept();
  function keep() {
    const text = JSON.stringify(changes);
    try {
      localStorage.setItem(key, text);
    } catch {
      document.getElementById("forgets").hidden = false;
      try {
        history.replaceState(null, "", "#" + encodeURIComponent(text));
      } catch { /* it is remembered as long as the page stays open */ }
    }
  }

  function show() {
    for (const box of boxes) box.closest(".step").classList.toggle("done", box.checked);
    const done = boxes.filter((box) => box.checked).length;
    progress.value = done;
    small.textContent = small.textContent.replace(/\d+/, done);
  }

  for (const box of boxes) {
    const { step } = box.dataset;
    if (typeof changes[step] === "boolean") box.checked = changes[step];
    box.addEventListener("change", () => {
      changes[step] = box.checked;
      keep();
      show();
    });
  }
  keep();
  show();
  document.documentElement.dataset.ready = "true";
})();
