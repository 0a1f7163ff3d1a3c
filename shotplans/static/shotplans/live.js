// The set under a hand: moves the grip that is dragged, asks the house what follows, and shows its answer. Nothing here
// reckons light or place; without it the form below the drawing posts and the answer comes as a page.
"use strict";

const REACH_PX = 22; // half of the 44 pixels a finger is given

for (const form of document.querySelectorAll("form.live")) {
  const svg = form.querySelector("svg.live");
  const layer = (name) => svg.querySelector(`g.${name}`);
  const grips = [...svg.querySelectorAll(".grip")];
  const changes = form.elements.namedItem("changes");
  const says = form.querySelector(".says");
  const refused = form.querySelector("[data-refused]");
  const answer = form.querySelector(".answer");
  const button = (name) => form.querySelector(`[data-do=${name}]`);
  const past = [], coming = [];
  let out = 0, sent = 0, shown = 0, waiting = null, held = null, otherRoom = false;

  for (const one of form.querySelectorAll(".scripted:not([data-refused])")) one.hidden = false;
  for (const one of form.querySelectorAll(".unscripted")) one.hidden = true;
  for (const grip of grips) grip.setAttribute("tabindex", "0");

  function sized() {
    const scale = svg.getScreenCTM()?.a;  // of what is drawn, however the element is shaped
    if (scale) for (const grip of grips) grip.setAttribute("r", (REACH_PX / scale).toFixed(2));
  }
  new ResizeObserver(sized).observe(svg);

  // One question at a time, two while a hand is moving (each says the whole place, so none needs the one before it, and
  // the house answers from two processes); of those that come meanwhile only the last is asked, and what is older than
  // the set that is drawn is not drawn.
  const room_for = (fields) => out < (fields.moving ? 2 : 1);
  function ask(fields, done) {
    if (!room_for(fields)) { waiting = [fields, done]; return; }
    const turn = sent += 1;
    out += 1;
    const body = new URLSearchParams();
    body.set("csrfmiddlewaretoken", form.elements.namedItem("csrfmiddlewaretoken").value);
    body.set("changes", changes.value);
    body.set("ruler", svg.dataset.ruler);
    if (otherRoom) body.set("other_room", "1");
    for (const [name, value] of Object.entries(fields)) body.set(name, value);
    fetch(form.action, { method: "POST", body, headers: { "X-Fragment": "live" }, credentials: "same-origin" })
      .then((found) => { if (!found.ok) throw new Error(found.statusText); return found.json(); })
      .then((found) => {
        if (turn < shown) return;
        shown = turn;
        show(found);
        if (!waiting) done?.(found);
      })
      .catch(() => { if (turn > shown) { refuse(form.dataset.noAnswer); seat(); } })
      .finally(() => {
        out -= 1;
        if (waiting && room_for(waiting[0])) { const [next, after] = waiting; waiting = null; ask(next, after); }
        form.dataset.asked = String(Number(form.dataset.asked || 0) + 1);
      });
  }

  function refuse(sentence) {
    refused.textContent = sentence;
    refused.hidden = !sentence;
  }

  // Grips go where the set that is drawn has them, but for the one in hand.
  let seats = Object.fromEntries(grips.map((grip) => [grip.dataset.key, [grip.getAttribute("cx"), grip.getAttribute("cy")]]));
  function seat() {
    for (const grip of grips) {
      const at = seats[grip.dataset.key];
      if (grip !== held?.grip && at) { grip.setAttribute("cx", at[0]); grip.setAttribute("cy", at[1]); }
    }
  }

  function show(found) {
    changes.value = found.changes;
    svg.dataset.ruler = found.ruler;
    if (svg.getAttribute("viewBox") !== found.box) { svg.setAttribute("viewBox", found.box); sized(); }
    if (found.room !== null) layer("room").innerHTML = found.room;
    otherRoom = !found.own_room;
    layer("ghost").innerHTML = found.ghost;
    layer("set").innerHTML = found.set;
    layer("set").setAttribute("aria-label", found.drawn);
    seats = found.grips;
    seat();
    for (const [name, [value, was, options]] of Object.entries(found.cells)) {
      const input = form.elements.namedItem(name);
      const offered = () => [...input.options].map((one) => [one.value, one.text]);
      if (options.length && JSON.stringify(offered()) !== JSON.stringify(options)) input.replaceChildren(...options.map(([at, words]) => new Option(words, at)));
      if (input !== document.activeElement || !found.refused) input.value = value;
      form.querySelector(`[data-for="${CSS.escape(name)}"]`).textContent = was;
    }
    answer.innerHTML = found.answer;
    refuse(found.refused);
  }

  // What is undone is a state the house wrote, sent back as it is.
  function done(before) {
    return (found) => {
      if (found.changes !== before) { past.push(before); coming.length = 0; }
      says.textContent = found.says;
      buttons();
    };
  }
  function buttons() {
    button("undo").disabled = !past.length;
    button("redo").disabled = !coming.length;
    button("back").disabled = changes.value === "[]";
  }
  function travel(from, to) {
    if (!from.length || out) return;
    const before = changes.value, state = from.pop();
    ask({ changes: state }, (found) => { to.push(before); says.textContent = found.says; buttons(); });
  }
  const acts = {
    undo: () => travel(past, coming),
    redo: () => travel(coming, past),
    back: () => { const before = changes.value; ask({ back: "1" }, done(before)); },
  };
  for (const name of Object.keys(acts)) button(name).addEventListener("click", acts[name]);
  form.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.target.matches("input")) return;
    const key = event.key.toLowerCase();
    const name = key === "y" || (key === "z" && event.shiftKey) ? "redo" : key === "z" ? "undo" : "";
    if (name) { event.preventDefault(); acts[name](); }
  });

  // By pointer: the nearest grip within reach is taken; where fingers cover two, the nearer one.
  function place(event) {
    const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.getScreenCTM().inverse());
    return [at.x, at.y];
  }
  const number = (grip, name) => Number(grip.getAttribute(name));
  layer("grips").addEventListener("pointerdown", (event) => {
    if (event.button || held) return;
    const [x, y] = place(event);
    const far = (grip) => Math.hypot(number(grip, "cx") - x, number(grip, "cy") - y);
    const grip = grips.reduce((a, b) => (far(b) < far(a) ? b : a));
    event.preventDefault();
    grip.focus({ preventScroll: true });
    svg.setPointerCapture(event.pointerId);
    held = { grip, off: [number(grip, "cx") - x, number(grip, "cy") - y], before: changes.value, moved: false, id: event.pointerId };
    grip.classList.add("held");
  });
  // A finger on a grip drags it; beside one it scrolls the page (browsers heed touch-action on whole drawings only).
  layer("grips").addEventListener("touchstart", (event) => { if (event.touches.length === 1) event.preventDefault(); }, { passive: false });
  svg.addEventListener("pointermove", (event) => {
    if (!held || event.pointerId !== held.id) return;
    const [x, y] = place(event), { grip, off } = held;
    const at = [x + off[0], y + off[1]];
    if (!held.moved && Math.hypot(at[0] - number(grip, "cx"), at[1] - number(grip, "cy")) < 0.3) return;
    held.moved = true;
    const side = grip.dataset.view === "side";
    if (!side) grip.setAttribute("cx", at[0].toFixed(2));
    grip.setAttribute("cy", at[1].toFixed(2));
    drag(grip, at, event.shiftKey);
  });
  function drag(grip, at, free, after) {
    const { thing, name, view } = grip.dataset;
    ask({ thing, name, key: "sheet", value: `${view} ${at[0].toFixed(2)} ${at[1].toFixed(2)}`, free: free || form.elements.namedItem("free").checked ? "on" : "", moving: after ? "" : "1" }, after);
  }
  function let_go(event) {
    if (!held || event.pointerId !== held.id) return;
    const { grip, before, moved } = held;
    grip.classList.remove("held");
    held = null;
    if (!moved) return;
    if (event.type === "pointercancel") ask({ changes: before }, done(before));
    else drag(grip, [number(grip, "cx"), number(grip, "cy")], event.shiftKey, done(before));
  }
  svg.addEventListener("pointerup", let_go);
  svg.addEventListener("pointercancel", let_go);

  // By keys: one step an arrow.
  const ways = { ArrowLeft: "left", ArrowRight: "right", ArrowUp: "up", ArrowDown: "down" };
  svg.addEventListener("keydown", (event) => {
    const grip = event.target.closest(".grip"), way = ways[event.key];
    if (!grip || !way || event.ctrlKey || event.altKey || event.metaKey) return;
    event.preventDefault();
    const { thing, name, view } = grip.dataset;
    if (out) return; // a key held down goes no faster than the answers
    ask({ thing, name, key: view === "side" ? "lift" : "arrow", value: way, free: event.shiftKey ? "on" : "" }, done(changes.value));
  });

  // By numbers: a value typed is a thing done like any other.
  form.addEventListener("change", (event) => {
    if (event.target.name.split("|").length !== 3) return;
    const free = form.elements.namedItem("free").checked ? "on" : "";
    ask({ [event.target.name]: event.target.value, free }, done(changes.value));
  });
  form.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && event.target.matches("table.by-hand input")) { event.preventDefault(); event.target.blur(); event.target.focus(); }
  });
  sized();
  buttons();
}
