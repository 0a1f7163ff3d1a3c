// Find in the head bar: `/` goes there, answers stand below it as one types, arrow keys and Enter open one, the tab key
// goes to what stands beside it. Without this Enter leads to the page Find. Asked by POST, so that no name stands in an
// address or a log.
"use strict";

(() => {
  const form = document.querySelector(".finder");
  if (!form) return; // a page without a head bar: the slate
  const [box, below, said] = ["input[type=search]", ".found-below", "[aria-live]"].map((one) => form.querySelector(one));
  const token = form.querySelector("[name=csrfmiddlewaretoken]").value;
  const PAUSE_MS = 120;
  const LEAST = 2;
  let asked = 0, waiting = 0;

  const lines = () => [...below.querySelectorAll("li > a:first-child")];
  const close = () => {
    clearTimeout(waiting);
    asked += 1;
    below.hidden = true;
    said.textContent = "";
  };
  const look = async () => {
    const mine = ++asked;
    if ([...box.value.trim()].length < LEAST) return close();
    const answer = await fetch(form.action, {
      method: "POST", credentials: "same-origin",
      headers: { "X-CSRFToken": token, "X-Fragment": "1" }, body: new URLSearchParams({ q: box.value }),
    }).catch(() => null);
    if (mine !== asked || !answer || !answer.ok || answer.redirected) return;
    const text = await answer.text();
    if (mine !== asked) return;
    below.innerHTML = text;
    said.textContent = below.firstElementChild.dataset.said;
    below.hidden = false;
  };

  box.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(look, PAUSE_MS);
  });
  form.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && !below.hidden) {
      event.preventDefault();
      box.focus();
      close();
    } else if ((event.key === "ArrowDown" || event.key === "ArrowUp") && !below.hidden && lines().length) {
      event.preventDefault();
      const all = [box, ...lines()];
      const at = document.activeElement.closest("li")?.querySelector("a") ?? box; // also from what stands beside one
      const step = event.key === "ArrowDown" ? 1 : -1;
      all[(all.indexOf(at) + step + all.length) % all.length].focus();
    }
  });
  form.addEventListener("focusout", (event) => { if (!form.contains(event.relatedTarget)) close(); });
  below.addEventListener("pointerdown", (event) => event.preventDefault());  // the focus stays until the link opens
  document.addEventListener("keydown", (event) => {
    if (event.key !== "/" || event.ctrlKey || event.metaKey || event.altKey || event.defaultPrevented) return;
    if (document.documentElement.hasAttribute("data-keys-off")) return; // turned off in the list of keys
    if (event.target.closest("input, select, textarea, [contenteditable], dialog[open]")) return;
    event.preventDefault();
    box.focus();
    box.select();
  });
})();
