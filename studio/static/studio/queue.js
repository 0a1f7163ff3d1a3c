// Entries that wait on this device for the network: kept in the browser's own database, each with an id and this
// device's clock, and sent one by one, in the order they were made, with a fresh token. An entry leaves the device
// only when the house has said what became of it; sent twice, it is one entry there (`studio/entries.py`). Files follow
// what was typed and tapped, each an entry of its own.
"use strict";

const Queue = (() => {
  const NAME = "tenthstop.entries";
  const here = document.currentScript.dataset;
  const member = Number(here.member) || 0;
  const works = window.isSecureContext && "indexedDB" in window && "serviceWorker" in navigator && "locks" in navigator;
  const heard = new BroadcastChannel("tenthstop.entries");
  const MOST_BYTES = 150 * 2 ** 20; // of files that wait: a telephone has little room for one house
  const listeners = [];
  let opened;
  let state = ""; // "", "offline" or "expired": what stopped the last sending

  const open = () => {
    opened ??= new Promise((resolve, reject) => {
      const asked = indexedDB.open(NAME, 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore("entries", { keyPath: "order", autoIncrement: true });
      asked.onsuccess = () => resolve(asked.result);
      asked.onerror = () => reject(asked.error);
    });
    return opened;
  };
  const done = async (mode, act) => {
    const database = await open();
    return new Promise((resolve, reject) => {
      const write = database.transaction("entries", mode, { durability: "strict" });
      const asked = act(write.objectStore("entries"));
      write.oncomplete = () => resolve(asked.result);
      write.onabort = () => reject(write.error);
    });
  };
  const everything = () => done("readonly", (store) => store.getAll());
  const mine = async () => (await everything()).filter((one) => one.member === member);
  const others = async () => (await everything()).filter((one) => one.member !== member);
  const remove = (order) => done("readwrite", (store) => store.delete(order));
  const replace = (entry) => done("readwrite", (store) => store.put(entry));
  const told = (news = {}) => {
    for (const listener of listeners) listener(news);
  };
  const tell = (news) => {
    told(news);
    heard.postMessage("changed");
  };
  heard.addEventListener("message", () => told());

  const isFile = (entry) => Boolean(entry.files && entry.files.length);
  const bytes = (entries) => entries.flatMap((one) => one.files ?? []).reduce((sum, [, part]) => sum + part.size, 0);

  // Rejected where there is no room for its files.
  async function add(entry) {
    const whole = { ...entry, id: crypto.randomUUID(), member, at: Date.now() };
    if (isFile(whole) && bytes([whole, ...await everything()]) > MOST_BYTES) throw new Error("full");
    whole.order = await done("readwrite", (store) => store.add(whole));
    tell();
    return whole;
  }

  async function token() {
    const answer = await fetch(here.token, { credentials: "same-origin", redirect: "manual", cache: "no-store" });
    if (answer.type === "opaqueredirect" || answer.status === 403) throw new Error("expired");
    if (!answer.ok) throw new Error("offline");
    return answer.json();
  }

  function bodyOf(entry) {
    if (!isFile(entry)) return new URLSearchParams(entry.fields);
    const body = new FormData();
    for (const [name, value] of entry.fields) body.append(name, value);
    for (const [name, part, called] of entry.files) body.append(name, part, called);
    return body;
  }

  async function send(entry, fresh) {
    const answer = await fetch(entry.path, {
      method: "POST", credentials: "same-origin", redirect: "manual", body: bodyOf(entry),
      headers: {
        Accept: entry.stays ? "application/json" : "text/html", "X-CSRFToken": fresh.token,
        "X-Entry": entry.id, "X-Entry-Made": String(entry.at), "X-Entry-Sent": String(Date.now()),
      },
    });
    if (answer.type === "opaqueredirect") {
      await token(); // signed out in the middle: it stays; else the page took the form and went on
      return { outcome: "kept", says: "", answer: null, then: null };
    }
    if (answer.status >= 500 || answer.status === 429) throw new Error("offline");
    const isTold = (answer.headers.get("Content-Type") ?? "").startsWith("application/json");
    return isTold ? answer.json() : { outcome: "refused", says: here.gone, answer: null };
  }

  async function sendAll(withFiles) {
    const next = async () => (await mine()).find((one) => !one.says && isFile(one) === withFiles);
    try {
      for (let entry = await next(); entry; entry = await next()) {
        const fresh = await token();
        if (fresh.member !== member) throw new Error("expired"); // somebody else is signed in by now
        const outcome = await send(entry, fresh);
        state = "";
        if (outcome.outcome === "kept") await remove(entry.order);
        else await replace({ ...entry, says: outcome.says });
        tell({ entry, outcome });
      }
      state = "";
    } catch (error) {
      state = error.message === "expired" ? "expired" : "offline";
    }
    told();
    return state;
  }
  // One sending at a time, over all windows of this browser. Files have a lock of their own: a reading made while a
  // picture is on its way does not wait for it.
  const flush = () => navigator.locks.request(NAME, () => sendAll(false));
  const flushAll = async () => await flush() || navigator.locks.request(`${NAME}.files`, () => sendAll(true));

  return {
    works, member, add, flush, flushAll, isFile, mine, others, remove,
    isThere: () => token().then((fresh) => fresh.member === member, () => false),
    state: () => state,
    listen: (listener) => listeners.push(listener),
  };
})();
