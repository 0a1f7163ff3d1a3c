// The board and the slate work without this, by loading them again. Here they are asked for anew every few seconds, only
// while they are looked at, and a tap is sent without leaving the page. Where the house does not answer, what is shown
// stays and says that it may be old.
"use strict";

(() => {
  const EVERY_MS = 4_000;
  const live = document.querySelector("#live");
  const told = document.querySelector("#live-told");
  let tag = "";
  let asking = false;
  let sending = 0; // taps begun: an answer asked for before the last of them is old

  const isTyping = () => {
    const one = live.querySelector("input[type=text]");
    return Boolean(one && (one === document.activeElement || one.value !== one.defaultValue));
  };
  const place = () => {
    const one = document.activeElement;
    return one && live.contains(one) ? one.textContent : null;
  };
  const show = (html) => {
    const kept = place();
    live.innerHTML = html;
    if (kept) [...live.querySelectorAll("a, button")].find((one) => one.textContent === kept)?.focus({ preventScroll: true });
    offerFullScreen();
  };
  const failed = () => { told.textContent = live.dataset.failed; };

  const ask = async () => {
    if (asking || document.visibilityState !== "visible" || isTyping()) return;
    asking = true;
    const begun = sending;
    try {
      const headers = { "X-Fragment": "yes" };
      if (tag) headers["If-None-Match"] = tag;
      const answer = await fetch(location.pathname, { headers, credentials: "same-origin", redirect: "error", cache: "no-store" });
      if (answer.status !== 304) {
        if (!answer.ok) throw new Error(String(answer.status));
        const html = await answer.text();
        if (begun === sending && !isTyping()) {
          tag = answer.headers.get("ETag") ?? "";
          show(html);
        }
      }
      told.textContent = "";
    } catch {
      failed();
    } finally {
      asking = false;
    }
  };

  const send = async (form) => {
    sending += 1;
    const body = new FormData(form);
    for (const button of live.querySelectorAll("button")) button.disabled = true;
    try {
      const answer = await fetch(form.action, {
        method: "POST", body, headers: { "X-Fragment": "yes" }, credentials: "same-origin", redirect: "error",
      });
      if (!answer.ok && answer.status !== 409) throw new Error(String(answer.status));
      tag = "";
      show(await answer.text());
      told.textContent = "";
    } catch {
      for (const button of live.querySelectorAll("button")) button.disabled = false;
      failed();
    }
  };

  live.addEventListener("submit", (event) => {
    event.preventDefault();
    send(event.target);
  });

  const offerFullScreen = () => {
    const button = live.querySelector("[data-full]");
    if (!button || !document.documentElement.requestFullscreen || document.fullscreenElement) return;
    button.hidden = false;
    button.addEventListener("click", () => document.documentElement.requestFullscreen().then(() => { button.hidden = true; }));
  };

  offerFullScreen();
  setInterval(ask, EVERY_MS);
  document.addEventListener("visibilitychange", () => ask());
})();
