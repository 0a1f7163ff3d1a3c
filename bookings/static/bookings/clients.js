// The list of clients as one types: those who are meant take the list's place. Without this the button "Find" does it.
// Asked by POST, so that no name stands in an address or a log.
"use strict";

(() => {
  const form = document.getElementById("find-clients");
  const box = document.getElementById("id_text");
  const list = document.getElementById("clients");
  const all = list.innerHTML;
  const PAUSE_MS = 150;
  const LEAST = 2;
  const began = box.value;
  let asked = 0, waiting = 0;

  const look = async () => {
    const mine = ++asked;
    if (box.value.trim().length < LEAST) {
      if (began === "") list.innerHTML = all;
      return;
    }
    const answer = await fetch(form.action, {
      method: "POST", credentials: "same-origin", headers: { "X-Fragment": "1" }, body: new FormData(form),
    }).catch(() => null);
    if (mine !== asked || !answer || !answer.ok || answer.redirected) return;
    const text = await answer.text();
    if (mine === asked) list.innerHTML = text;
  };
  box.addEventListener("input", () => {
    clearTimeout(waiting);
    waiting = setTimeout(look, PAUSE_MS);
  });
})();
