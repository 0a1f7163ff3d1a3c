// Shots on set without a network: a tick waits on the device, and the card of the next picture stands there at once.
"use strict";

(() => {
  const cards = [...document.querySelectorAll("[data-shot]")];
  if (!cards.length || !Queue.works) return;
  const path = new URL(document.querySelector("[data-shot] form").action).pathname;
  const show = async () => {
    const waits = (await Queue.mine()).filter((one) => one.path === path && !one.says).map((one) => new Map(one.fields));
    const said = new Map(waits.map((one) => [one.get("key"), one.get("done")])); // the newest of each counts
    const isTaken = (card) => (said.has(card.dataset.shot) ? said.get(card.dataset.shot) === "yes" : "taken" in card.dataset);
    const next = cards.find((card) => !isTaken(card));
    for (const card of cards) card.hidden = card !== next;
    document.getElementById("all-taken").hidden = Boolean(next);
  };
  Queue.listen(show);
  show();
})();
