// A client's intake: keeps each answer as it is given, and takes a drawn signature. Without it, the buttons do all.
"use strict";
(() => {
  const post = (body) => fetch(location.pathname, { method: "POST", body, headers: { "X-Fragment": "1" }, credentials: "omit" });
  const opened = new FormData();
  opened.append("part", "opened");
  post(opened).catch(() => {});

  for (const form of document.querySelectorAll("form[data-kept]")) {
    const told = form.querySelector(".kept");
    let last = Promise.resolve();
    const keep = async (field) => {
      const body = new FormData();
      for (const name of ["part", "who"]) body.append(name, form.elements[name].value);
      const place = field.closest(".asked");
      for (const one of place.querySelectorAll("input")) {
        if (one.checked || !["radio", "checkbox"].includes(one.type)) body.append(one.name, one.value);
      }
      if (!field.value.trim()) body.append("emptied", field.name);
      told.textContent = "…";
      try {
        const answer = await post(body);
        const said = await answer.json();
        told.textContent = said.kept || Object.values(said.wrong).join(" ");
        place.querySelector(".now-kept")?.remove();
        const note = document.createElement("p");
        note.className = "hint now-kept";
        note.textContent = told.textContent;
        place.append(note);
      } catch {
        told.textContent = form.dataset.lost || "! not saved: try the button";
      }
    };
    form.addEventListener("change", (event) => { last = last.then(() => keep(event.target)); });
  }

  for (const form of document.querySelectorAll("form.sign")) {
    const box = form.querySelector(".draw"), canvas = box.querySelector("canvas"), pen = canvas.getContext("2d");
    const kept = form.querySelector("[name$=-drawn]");
    let strokes = [], stroke = null;
    box.hidden = false;
    pen.lineWidth = 3; pen.lineCap = "round"; pen.lineJoin = "round"; pen.strokeStyle = "#161616";
    const at = (event) => {
      const area = canvas.getBoundingClientRect();
      const within = (share, most) => Math.max(0, Math.min(most, Math.round(share * most)));
      return [within((event.clientX - area.left) / area.width, 600), within((event.clientY - area.top) / area.height, 200)];
    };
    canvas.addEventListener("pointerdown", (event) => {
      event.preventDefault(); canvas.setPointerCapture(event.pointerId);
      stroke = [at(event)]; strokes.push(stroke);
    });
    canvas.addEventListener("pointermove", (event) => {
      if (!stroke) return;
      const from = stroke[stroke.length - 1], to = at(event);
      if (Math.abs(from[0] - to[0]) + Math.abs(from[1] - to[1]) < 3) return;
      stroke.push(to);
      pen.beginPath(); pen.moveTo(...from); pen.lineTo(...to); pen.stroke();
    });
    const end = () => { stroke = null; kept.value = strokes.map((one) => one.map((p) => p.join(",")).join(" ")).join("; "); };
    canvas.addEventListener("pointerup", end);
    canvas.addEventListener("pointercancel", end);
    box.querySelector(".clear").addEventListener("click", () => {
      strokes = []; kept.value = ""; pen.clearRect(0, 0, canvas.width, canvas.height);
    });
  }
})();
