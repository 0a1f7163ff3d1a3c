// The board works without this, by loading it again. Here it is asked for anew every minute, only while it is looked at,
// and never under somebody's fingers: not while a field of it is typed in, and the word that had the focus keeps it.
"use strict";

(() => {
  const EVERY_MS = 60_000;
  const board = document.querySelector("#board");
  const told = document.querySelector("#board-told");
  let asked = Date.now();
  let waiting = false;

  const isTouched = () => {
    const fields = [...board.querySelectorAll("input:not([type=hidden]), textarea, select")];
    return fields.some((one) => one === document.activeElement || one.value !== one.defaultValue);
  };
  const place = (one) => {
    const row = one?.closest?.("li[id]");
    return row && board.contains(one) ? [row.id, [...row.querySelectorAll("a, button")].indexOf(one)] : null;
  };
  const focusAgain = (kept) => {
    if (!kept) return;
    const row = document.getElementById(kept[0]);
    row?.querySelectorAll("a, button")[kept[1]]?.focus({ preventScroll: true });
  };

  const ask = async () => {
    if (waiting || document.visibilityState !== "visible" || isTouched()) return;
    waiting = true;
    asked = Date.now();
    try {
      const answer = await fetch(location.pathname + location.search, {
        headers: { "X-Fragment": "yes" }, credentials: "same-origin", redirect: "error", cache: "no-store",
      });
      if (!answer.ok) throw new Error(String(answer.status));
      const news = await answer.text();
      if (!isTouched()) {
        const kept = place(document.activeElement);
        board.innerHTML = news;
        focusAgain(kept);
      }
      if (told.textContent) told.textContent = "";
    } catch {
      told.textContent = board.dataset.failed;
    } finally {
      waiting = false;
    }
  };

  setInterval(ask, EVERY_MS);
  document.addEventListener("visibilitychange", () => { if (Date.now() - asked >= EVERY_MS) ask(); });
})();
