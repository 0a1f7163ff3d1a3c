// Sends camera files one by one, each as `parts.js` cuts it. Every file has its line where something was not read. Without
// this script the same form sends whole files. A test frame's form waits for the network (`on_set.js`) where it can.
"use strict";

async function packed(form, file) {
  const body = new FormData();
  body.append("csrfmiddlewaretoken", form.elements.csrfmiddlewaretoken.value);
  const parts = await Parts.of(file, "files");
  for (const [name, value] of parts.fields) body.append(name, value);
  for (const [name, part, called] of parts.files) body.append(name, part, called);
  return body;
}

function line(form, text) {
  const item = document.createElement("li");
  item.className = "ruled";
  item.textContent = text;
  form.querySelector(".file-lines").append(item);
}

function link(page, words) {
  const made = document.createElement("a");
  made.href = page;
  made.textContent = words;
  return made;
}

// A network that drops for a moment is asked again before a person has to.
const WAITS_MS = [1000, 3000, 8000];

async function asked(address, how) {
  for (const wait of WAITS_MS) {
    try {
      return await fetch(address, how);
    } catch {
      await new Promise((go) => setTimeout(go, wait));
    }
  }
  return fetch(address, how);
}

// What the house has already: a folder that is dropped again sends only what is new in it.
async function unknown(form, files) {
  if (!form.dataset.known) return files;
  const answer = await asked(form.dataset.known, { headers: { Accept: "application/json" }, redirect: "error" });
  if (!answer.ok) return files;
  const there = new Set((await answer.json()).known.map(String));
  return files.filter((file) => !there.has(String([file.name, file.size, file.lastModified])));
}

async function send(form, chosen) {
  const told = form.querySelector(".progress");
  const button = form.querySelector("button");
  button.disabled = true;
  let page = location.href;
  let odd = 0;
  try {
    const files = await unknown(form, chosen);
    const here = chosen.length - files.length;
    if (here) line(form, here + " " + form.dataset.here);
    for (const [n, file] of files.entries()) {
      told.textContent = form.dataset.busy + " " + (n + 1) + "/" + files.length + ": " + file.name;
      const body = await packed(form, file).catch(() => null); // its card was taken out meanwhile
      const answer = body && await asked(form.action, {
        method: "POST",
        body,
        headers: { Accept: "application/json" },
        credentials: "same-origin",
        redirect: "error",
      });
      if (answer && (answer.status >= 500 || answer.status === 403)) throw new Error(String(answer.status));
      // One file that is refused stops no other: it has its line.
      const found = answer && answer.ok ? await answer.json() : { lines: [{ name: file.name, says: form.dataset.refused }] };
      page = found.page || page;
      for (const one of found.lines) {
        if (one.says) {
          odd += 1;
          line(form, one.name + ": " + one.says);
        }
      }
    }
    told.textContent = files.length + " " + form.dataset.done;
    if (!odd && !here) location.assign(page.split("#")[0]);
    else told.append(" ", link(page.split("#")[0], form.dataset.look));
  } catch {
    told.textContent = form.dataset.lost;
  } finally {
    button.disabled = false;
  }
}

// A dropped folder is walked; entries come in portions until there is none left.
async function walked(entry, found) {
  if (entry.isFile) {
    found.push(await new Promise((give, fail) => entry.file(give, fail)));
    return;
  }
  const reader = entry.createReader();
  for (;;) {
    const portion = await new Promise((give, fail) => reader.readEntries(give, fail));
    if (!portion.length) return;
    for (const one of portion) await walked(one, found);
  }
}

for (const form of document.querySelectorAll("form.send-files")) {
  const field = form.elements.files;
  form.addEventListener("submit", (event) => {
    if (!field.files.length) return;
    event.preventDefault();
    send(form, [...field.files]);
  });
  if (!field.multiple) {
    field.addEventListener("change", () => field.files.length && form.requestSubmit());
    continue;
  }
  form.querySelector(".drop-hint").hidden = false;
  document.addEventListener("dragover", (event) => {
    event.preventDefault();
    document.body.classList.add("dropping");
  });
  document.addEventListener("dragleave", () => document.body.classList.remove("dropping"));
  document.addEventListener("drop", async (event) => {
    event.preventDefault();
    document.body.classList.remove("dropping");
    const entries = [...event.dataTransfer.items].map((item) => item.webkitGetAsEntry()).filter(Boolean);
    const files = [];
    for (const entry of entries) await walked(entry, files);
    files.sort((a, b) => a.name.localeCompare(b.name));
    if (files.length) send(form, files);
  });
}
