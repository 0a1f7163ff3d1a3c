// The board and the slate without a network: what was tapped waits on the device (`Queue`) and is shown as if it had
// been taken. Belongs here: the few rules by which a tap moves a name, the same as the house's own
// (`bookings/actions/rota_days.py`), and drawing the board from the list of places the page carries. When everything is
// sent, the house's own board is shown again.
"use strict";

const OfflineBoard = (() => {
  const live = document.querySelector("#live");
  const words = live.dataset;
  const own = words.tap ? words.tap.replace(/0\/$/, "") : ""; // the address of a tap, up to its place
  const isSlate = document.body.classList.contains("slate");
  let places = []; // as the house last said them

  const read = () => {
    const found = live.querySelector("#places");
    if (found) places = JSON.parse(found.textContent);
  };
  const value = (entry, name) => entry.fields.find(([one]) => one === name)?.[1];
  const placeOf = (entry) => Number(entry.path.slice(own.length).replace("/", ""));
  const isTap = (entry) => own !== "" && entry.path.startsWith(own) && placeOf(entry) > 0;
  const isWalkIn = (entry) => entry.path === words.walkIn;
  const pending = async () => (Queue.works ? (await Queue.mine()).filter((one) => !one.says && (isTap(one) || isWalkIn(one))) : []);

  const tapped = (board, place, to) => {
    const toCome = board.filter((one) => ["waiting", "retake"].includes(one.state)).map((one) => one.queue);
    if (to === "on_set") for (const one of board.filter((other) => other.state === "on_set")) Object.assign(one, { state: "done", version: one.version + 1 });
    if (to === "next") {
      place.queue = Math.min(...toCome, place.queue) - 1;
      if (place.state === "absent") place.state = "waiting";
    } else place.state = to;
    if (to === "retake") place.queue = Math.max(...board.map((one) => one.queue)) + 1;
    place.version += 1;
  };
  const after = (entries) => {
    const board = places.map((one) => ({ ...one }));
    for (const entry of entries.filter(isTap)) {
      const place = board.find((one) => one.pk === placeOf(entry));
      if (place && String(place.version) === value(entry, "seen")) tapped(board, place, value(entry, "to"));
    }
    return board.sort((one, other) => one.queue - other.queue || one.number - other.number);
  };

  const make = (tag, className, ...parts) => {
    const found = document.createElement(tag);
    if (className) found.className = className;
    found.append(...parts);
    return found;
  };
  const hidden = (name, text) => Object.assign(document.createElement("input"), { type: "hidden", name, value: text });
  const button = (place, to, label, isFirst) => {
    const form = Object.assign(make("form", ""), { method: "post", action: `${own}${place.pk}/` });
    form.append(hidden("seen", String(place.version)), hidden("to", to), make("button", isFirst ? "first" : "", label, make("span", "visually-hidden", `: ${place.name}`)));
    return form;
  };
  const listed = (place) => make("p", "", make("span", "time", place.at), " ", ...named(place, "").childNodes);
  const named = (place, className) => make("p", className, make("span", "number", String(place.number)), " ", make("bdi", "named", place.name));
  const needs = (place) => (place.needs.length ? [make("p", "", make("strong", "", place.needs.join(", ")))] : []);
  const now = (id, title, place, className, ...taps) => make("section", "person-now", Object.assign(make("h2", "", title), { id }), named(place, className), ...needs(place), make("div", "taps", ...taps));
  const rows = (title, found, taps) => (found.length ? [make("h2", "", title), make("ol", "plain queue",
    ...found.map((place) => make("li", "ruled", listed(place), make("div", "taps", ...taps(place)))))] : []);
  const takeBack = (entry) => {
    const name = isTap(entry) ? places.find((one) => one.pk === placeOf(entry))?.name ?? "" : value(entry, "name");
    const back = Object.assign(make("button", "", words.undo), { type: "button" });
    back.addEventListener("click", () => Queue.remove(entry.order).then(draw));
    return make("div", "undo", make("p", "", `${words.notSent} ${name}`), back);
  };

  const parts = (board, entries) => {
    const inState = (...states) => board.filter((one) => states.includes(one.state));
    const [onSet] = inState("on_set");
    const queue = inState("waiting", "retake");
    const large = onSet ?? queue[0];
    if (isSlate) {
      if (!large) return [make("p", "slate-name", words.nobody)];
      const tap = onSet ? button(large, "done", words.doneTap) : button(large, "on_set", words.onSet);
      return [make("p", "slate-number", String(large.number)), make("p", "slate-name", large.name), make("div", "taps slate-taps", tap)];
    }
    const next = queue[0];
    return [
      ...(onSet ? [now("on-set", words.onSet, onSet, "large", button(onSet, "done", words.doneTap, true), button(onSet, "retake", words.retake))] : []),
      ...(next ? [now("next", words.next, next, "large next-name", button(next, "on_set", words.onSet, true), button(next, "absent", words.absent))] : []),
      takeBack(entries.at(-1)),
      ...rows(words.then, queue.slice(1), (place) => [button(place, "next", words.takeNext), button(place, "absent", words.absent)]),
      ...entries.filter(isWalkIn).map((entry) => make("p", "ruled", `${words.notSent} ${value(entry, "name")}`)),
      ...rows(words.absent, inState("absent"), (place) => [button(place, "waiting", words.hereAfterAll)]),
      ...rows(words.doneTap, inState("done"), (place) => [button(place, "retake", words.retake)]),
    ];
  };

  // Draws what waits over what the house said; true where something waits.
  const draw = async () => {
    read();
    const entries = await pending();
    if (!entries.length) return false;
    const kept = live.querySelector("#places");
    const walkIn = live.querySelector("form.walk-in");
    live.replaceChildren(...parts(after(entries), entries), ...(walkIn ? [walkIn] : []), ...(kept ? [kept] : []));
    return true;
  };

  // A form of the board into the queue, with its name and tap as the person sees them.
  const add = async (form) => {
    const fields = [...new FormData(form)].filter(([name]) => name !== "csrfmiddlewaretoken");
    const shown = [form.querySelector("input[type=text]")?.value || form.querySelector("button").textContent];
    await Queue.add({ path: new URL(form.action).pathname, page: location.pathname, fields, shown, stays: false });
  };
  const canTake = (form) => Queue.works && (isTap({ path: new URL(form.action).pathname }) || isWalkIn({ path: new URL(form.action).pathname }));
  return { draw, pending, add, canTake };
})();
