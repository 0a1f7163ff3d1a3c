// Sends camera files one by one: a JPEG whole, anything else its first and last megabyte, cut here. Every file has its
// line where something was not read. Without this script the same form sends whole files.
"use strict";

const MEGABYTE = 1 << 20;

async function isJpeg(file) {
  const first = new Uint8Array(await file.slice(0, 3).arrayBuffer());
  return first[0] === 0xff && first[1] === 0xd8 && first[2] === 0xff;
}

async function packed(form, file) {
  const body = new FormData();
  body.append("csrfmiddlewaretoken", form.elements.csrfmiddlewaretoken.value);
  body.append("file_time", String(file.lastModified || 0));
  if ((await isJpeg(file)) || file.size === 0) {
    body.append("files", file, file.name);
  } else {
    body.append("name", file.name);
    body.append("size", String(file.size));
    body.append("head", file.slice(0, MEGABYTE), "head");
    body.append("tail", file.slice(Math.max(0, file.size - MEGABYTE)), "tail");
  }
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

async function send(form, files) {
  const told = form.querySelector(".progress");
  const button = form.querySelector("button");
  button.disabled = true;
  let page = location.href;
  let odd = 0;
  try {
    for (const [n, file] of files.entries()) {
      told.textContent = form.dataset.busy + " " + (n + 1) + "/" + files.length + ": " + file.name;
      const answer = await fetch(form.action, {
        method: "POST",
        body: await packed(form, file),
        headers: { Accept: "application/json" },
        credentials: "same-origin",
        redirect: "error",
      });
      if (!answer.ok) throw new Error(String(answer.status));
      const found = await answer.json();
      page = found.page || page;
      for (const one of found.lines) {
        if (one.says) {
          odd += 1;
          line(form, one.name + ": " + one.says);
        }
      }
    }
    told.textContent = files.length + " " + form.dataset.done;
    if (!odd) location.assign(page.split("#")[0]);
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
    field.addEventListener("change", () => field.files.length && send(form, [...field.files]));
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
