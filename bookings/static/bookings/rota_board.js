// The board and the slate work without this, by loading them again. Here they are asked for anew every few seconds, only
// while they are looked at, and a tap is sent without leaving the page. Where the house does not answer, what is shown
// stays and says that it may be old; a tap then waits on the device and is shown at once (`rota_offline.js`).
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
  // What the device keeps is this page as it was opened: after news it is asked for once more, for the worker.
  const keepAnew = () => {
    document.dispatchEvent(new Event("page-is-fresh"));
    if (navigator.serviceWorker?.controller) fetch(location.pathname, { headers: { "X-Keep": "yes" }, credentials: "same-origin" }).catch(() => {});
  };
  const failed = () => { told.textContent = live.dataset.failed; };

  const ask = async () => {
    if (asking || document.visibilityState !== "visible" || isTyping()) return;
    if ((await OfflineBoard.pending()).length) return; // what waits here would vanish from sight
    if (asking) return;
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
          keepAnew();
        }
      }
      told.textContent = "";
    } catch {
      failed();
    } finally {
      asking = false;
    }
  };

  const wait = async (form) => {
    await OfflineBoard.add(form);
    form.querySelector("input[type=text]")?.form.reset();
    await OfflineBoard.draw();
    Queue.flush(); // in its turn; the board is drawn anew when it is through
  };
  const send = async (form) => {
    sending += 1;
    const mayWait = OfflineBoard.canTake(form);
    const isWalkIn = Boolean(form.querySelector("input[type=text]"));
    // Behind what waits already, in order; and a name sent twice would be two people.
    if (mayWait && (isWalkIn || (await OfflineBoard.pending()).length)) return wait(form);
    const body = new FormData(form);
    const buttons = [...live.querySelectorAll("button")];
    for (const button of buttons) button.disabled = true;
    try {
      const answer = await fetch(form.action, {
        method: "POST", body, headers: { "X-Fragment": "yes" }, credentials: "same-origin", redirect: "error",
      });
      if (!answer.ok && answer.status !== 409) throw new Error(String(answer.status));
      tag = "";
      show(await answer.text());
      keepAnew();
      told.textContent = "";
    } catch (error) {
      for (const button of buttons) button.disabled = false;
      failed();
      if (mayWait && error instanceof TypeError) await wait(form); // no network, or nobody signed in any more
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
  OfflineBoard.draw();
  if (Queue.works) {
    Queue.listen(async () => {
      if (!await OfflineBoard.draw()) {
        tag = "";
        ask();
      }
    });
  }
  setInterval(ask, EVERY_MS);
  document.addEventListener("visibilitychange", () => ask());
})();
