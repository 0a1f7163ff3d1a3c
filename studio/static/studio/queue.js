// Entries that wait on this device for the network: kept in the browser's own database, each with an id and this
// device's clock, and sent one by one, in the order they were made, with a fresh token. An entry leaves the device
// only when the house has said what became of it; sent twice, it is one entry there (`studio/entries.py`).
"use strict";

const Queue = (() => {
  const NAME = "tenthstop.entries";
  const here = document.currentScript.dataset;
  const member = Number(here.member) || 0;
  const works = window.isSecureContext && "indexedDB" in window && "serviceWorker" in navigator && "locks" in navigator;
  const heard = new BroadcastChannel("tenthstop.entries");
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

  async function add(entry) {
    const whole = { ...entry, id: crypto.randomUUID(), member, at: Date.now() };
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

  async function send(entry, fresh) {
    const answer = await fetch(entry.path, {
      method: "POST", credentials: "same-origin", redirect: "manual", body: new URLSearchParams(entry.fields),
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

  // One sending at a time, over all windows of this browser.
  const flush = () => navigator.locks.request(NAME, async () => {
    const waiting = (await mine()).filter((one) => !one.says);
    try {
      const fresh = waiting.length ? await token() : { member };
      if (fresh.member !== member) throw new Error("expired"); // somebody else is signed in by now
      for (const entry of waiting) {
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
  });

  return {
    works, member, add, flush, mine, others, remove,
    isThere: () => token().then((fresh) => fresh.member === member, () => false),
    state: () => state,
    listen: (listener) => listeners.push(listener),
  };
})();
