// Drafts that pages keep in this browser, each under `tenthstop.draft.<member>.<page>`. Here they are forgotten: when a
// page says that one has become what it was to be, when its member signs out, and when somebody else is signed in.
"use strict";

(() => {
  const ALL = "tenthstop.draft.";
  const { member, out } = document.currentScript.dataset;
  const forget = (isMeant) => {
    try {
      Object.keys(localStorage).filter((key) => key.startsWith(ALL) && isMeant(key)).forEach((key) => localStorage.removeItem(key));
    } catch {
      // a browser that keeps nothing has nothing to forget
    }
  };
  if (out !== undefined) forget(() => true);
  if (member === undefined) return;
  forget((key) => !key.startsWith(`${ALL}${member}.`));
  for (const message of document.querySelectorAll(".messages [data-done^='draft ']")) {
    forget((key) => key === `${ALL}${member}.${message.dataset.done.slice("draft ".length)}`);
  }
})();
