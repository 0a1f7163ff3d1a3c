// The record page: shows the difference of a reading while it is typed and keeps it without leaving the page.
// Without this script the same forms post and come back; nothing here reckons light.
"use strict";

const wait = 250;

function show(form, found) {
  const output = form.querySelector(".difference");
  const broken = Boolean(found.error || found.outside);
  output.textContent = found.error ? found.error : (broken ? "! " : "") + found.shown + ", " + found.words;
  output.classList.toggle("broken", broken);
}

async function ask(form, address) {
  const answer = await fetch(address, {
    method: "POST",
    body: new FormData(form),
    headers: { Accept: "application/json" },
    credentials: "same-origin",
  });
  return answer.json();
}

// A kept reading may be a difference from the plan: the list below is asked for again, as the server words it.
async function freshen() {
  const part = "section[aria-labelledby='as-shot']";
  const answer = await fetch(location.href, { headers: { "X-Keep": "yes" }, credentials: "same-origin" });
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const found = page.querySelector(part);
  if (found) document.querySelector(part).replaceWith(found);
}

// Without the network: what a reading means, looked up in what the page brought along (`Step.table`).
function known(form, fields) {
  const table = form.querySelector("script[type='application/json']");
  if (!table) return undefined;
  const said = Object.fromEntries(fields);
  const found = /^\s*(?:f\s*\/?\s*)?(\d{1,2}(?:[.,]\d)?)(?:\s*\+\s*0?[.,]?(\d)|\s+(\d)(?:\s*\/\s*10)?)?\s*$/i.exec(said.text ?? "");
  const key = found ? `${found[1].replace(",", ".")} ${found[2] ?? found[3] ?? 0}` : `${said.stop} ${said.tenth}`;
  return JSON.parse(table.textContent)[key];
}
document.addEventListener("entry-made", (event) => {
  const found = known(event.target, event.detail.fields);
  if (!found) return;
  event.detail.note = `${found.outside ? "! " : ""}${found.shown}, ${found.words}`;
  event.detail.waits = found.outside; // the next reading waits until this one is right
});

for (const form of document.querySelectorAll("form.reading, form.typed")) {
  let timer = 0;
  let asked = 0;
  const field = form.elements.text;
  field.addEventListener("input", () => {
    clearTimeout(timer);
    const mine = ++asked;
    if (!field.value.trim()) {
      form.querySelector(".difference").textContent = "";
      return;
    }
    timer = setTimeout(async () => {
      try {
        const found = await ask(form, form.dataset.preview);
        if (mine === asked) show(form, found);
      } catch {
        // The network dropped: the reading is still in its field, and Save sends it.
      }
    }, wait);
  });
  // A step of the round posts as it stands and comes back with what to do.
  if (form.classList.contains("typed")) continue;
  form.addEventListener("entry-made", () => clearTimeout(timer));
  form.addEventListener("entry-told", (event) => {
    const { outcome } = event.detail;
    asked += 1;
    if (!outcome) return; // it waits, and the page says so
    show(form, outcome.outcome === "kept" ? outcome.answer : { error: outcome.says });
    if (outcome.outcome === "kept") freshen().catch(() => {});
  });
  form.addEventListener("submit", async (event) => {
    if (event.defaultPrevented) return; // taken over already
    event.preventDefault();
    clearTimeout(timer);
    asked += 1;
    const button = form.querySelector("button");
    button.disabled = true;
    try {
      const kept = await ask(form, form.action);
      show(form, kept);
      // The reading is kept by now, so a list that cannot be fetched is no reason to press Save again.
      if (!kept.error) await freshen().catch(() => {});
    } catch {
      show(form, { error: form.dataset.lost });
    } finally {
      button.disabled = false;
    }
  });
}
