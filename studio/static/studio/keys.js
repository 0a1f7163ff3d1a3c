// Keys: `?` opens their list, `g` and a digit open a page of the top row. All keys of one sign can be turned off there,
// which this device remembers. And what scrolls sideways can be reached by the Tab key, where it does scroll.
"use strict";

(() => {
  const OFF = "tenthstop.keys.off";
  const list = document.querySelector("dialog.keys-list");
  const words = [...document.querySelectorAll(".head-bar nav a")];
  const WAIT_MS = 1500; // between g and the digit
  let pressed = 0;

  const off = (say) => {
    try {
      if (say === true) localStorage.setItem(OFF, "1");
      if (say === false) localStorage.removeItem(OFF);
      return localStorage.getItem(OFF) !== null;
    } catch {
      return false; // a browser that keeps nothing has its keys
    }
  };
  const reach = () => {
    for (const wide of document.querySelectorAll("div.wide")) {
      const scrolls = wide.scrollWidth > wide.clientWidth;
      if (scrolls) wide.setAttribute("tabindex", "0");
      else wide.removeAttribute("tabindex");
    }
  };
  reach();
  addEventListener("resize", reach);
  document.addEventListener("toggle", reach, true);

  if (!list) return;
  const on = list.querySelector("#keys-on");
  document.documentElement.toggleAttribute("data-keys-off", off());
  on.checked = !off();
  on.addEventListener("change", () => document.documentElement.toggleAttribute("data-keys-off", off(!on.checked)));
  document.querySelector("[data-keys]").addEventListener("click", () => list.showModal());
  document.addEventListener("keydown", (event) => {
    if (off() || event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
    if (event.target.closest("input, select, textarea, [contenteditable], dialog[open]")) return;
    const word = event.timeStamp - pressed < WAIT_MS ? words[Number(event.key) - 1] : undefined;
    pressed = event.key === "g" ? event.timeStamp : 0;
    if (event.key === "?" && !document.querySelector("dialog[open]")) list.showModal();
    else if (word) word.click();
    else return;
    event.preventDefault();
  });
})();
