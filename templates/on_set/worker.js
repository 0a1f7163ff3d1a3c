{# The worker of the on-set pages: sent by `studio.views.on_set.worker`, which puts in addresses and a version. #}// Keeps the pages the house marks as needed on set, and the files they are drawn with, for the one person signed in at
// this device; shows them where the house does not answer. It stores only answers of 200 that were not redirected, so
// never the page for signing in, and never sends or changes anything.
"use strict";

const OWN = "tenthstop.on-set.";
const VERSION = "{{ version }}";
const FILES = `${OWN}files.${VERSION}`;
const STATIC = "{{ static }}";
const FALLBACK = "{{ fallback }}";
const HEADER = "{{ header }}";
const UNTIL = "X-Kept-Until";
const PATIENCE_MS = 4000; // a network that is there but answers nothing
const keptFor = (member) => `${OWN}${member}.${VERSION}`;
const shownKept = new Set(); // windows that were answered from what is kept

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil((async () => {
  const old = (await caches.keys()).filter((name) => name.startsWith(OWN) && !name.endsWith(`.${VERSION}`));
  await Promise.all(old.map((name) => caches.delete(name)));
  await self.clients.claim();
})()));

async function pages() {
  return (await caches.keys()).filter((name) => name.startsWith(OWN) && name !== FILES);
}

// Only whole answers of the house itself; a page only with the mark that says whose it is and for how long.
async function store(address, answer) {
  if (answer.status !== 200 || answer.redirected || answer.type !== "basic") return;
  if (new URL(address).pathname.startsWith(STATIC)) {
    await (await caches.open(FILES)).put(address, answer);
    return;
  }
  const mark = /^(\d+) (\d+)$/.exec(answer.headers.get(HEADER) ?? "");
  if (!mark) return;
  const name = keptFor(mark[1]);
  for (const other of await pages()) if (other !== name) await caches.delete(other); // somebody else was here before
  const headers = new Headers(answer.headers);
  headers.set(UNTIL, String(Date.now() + Number(mark[2]) * 1000)); // by this device's own clock, right or wrong
  await (await caches.open(name)).put(address, new Response(await answer.blob(), { status: 200, headers }));
}

async function kept(address) {
  for (const name of await caches.keys()) {
    if (!name.startsWith(OWN)) continue;
    const cache = await caches.open(name);
    const found = await cache.match(address, { ignoreVary: true });
    if (!found) continue;
    const until = found.headers.get(UNTIL);
    if (until === null || Number(until) > Date.now()) return found;
    await cache.delete(address);
  }
  return undefined;
}

// Pages whose time is over go, asked for or not.
async function sweep() {
  for (const name of await pages()) {
    const cache = await caches.open(name);
    for (const request of await cache.keys()) {
      const found = await cache.match(request, { ignoreVary: true });
      if (found && Number(found.headers.get(UNTIL)) <= Date.now()) await cache.delete(request);
    }
  }
}

async function fromNetwork(event, address) {
  const answer = await fetch(event.request);
  if (answer.status === 200) event.waitUntil(store(address, answer.clone()).catch(() => {}));
  return answer;
}

async function answered(event, isPage) {
  const address = event.request.url.split("#")[0];
  const network = fromNetwork(event, address);
  event.waitUntil(network.then(() => sweep()).catch(() => {}));
  try {
    const late = new Promise((resolve) => setTimeout(resolve, PATIENCE_MS));
    const first = await Promise.race([network, late]);
    if (first && first.status !== 503) return first; // a house whose database is away: what is kept is better
  } catch {
    // the network is off: below
  }
  const found = await kept(address) ?? (isPage ? await kept(new URL(FALLBACK, location.origin).href) : undefined);
  if (!found) return network;
  if (isPage) shownKept.add(event.resultingClientId);
  return found;
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || !request.url.startsWith(`${location.origin}/`)) return;
  const isPage = request.mode === "navigate";
  const isWanted = isPage || request.headers.has("X-Keep") || new URL(request.url).pathname.startsWith(STATIC);
  if (isWanted) event.respondWith(answered(event, isPage));
});

self.addEventListener("message", (event) => {
  if (event.data === "take this page") event.waitUntil(self.clients.claim());
  if (event.data === "was I kept?") event.ports[0].postMessage(shownKept.has(event.source.id));
  if (event.data && event.data.isKept) {
    event.waitUntil(kept(event.data.isKept).then((found) => event.ports[0].postMessage(Boolean(found))));
  }
});
