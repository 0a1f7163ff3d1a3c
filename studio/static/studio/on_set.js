// What every page does for the set: starts the worker where a page is needed there, takes over forms marked
// `data-entry`, says what is not yet sent, and lets nobody sign out unaware of it. Without a secure address nothing of
// this is possible: then the forms post as they stand, and a page for the set says so.
"use strict";

(() => {
  const bar = document.getElementById("unsent");
  const words = bar ? bar.dataset : {};
  const OWN = "tenthstop.on-set.";
  const EVERY_MS = 15_000;
  const AT_ONCE_MS = 1_000; // what is sent sooner is shown by its own page alone, and moves nothing under a thumb

  const forgetPages = async () => {
    if (!("caches" in window)) return;
    for (const name of await caches.keys()) if (name.startsWith(OWN)) await caches.delete(name);
  };
  if (document.currentScript.dataset.out !== undefined) forgetPages();
  if (!bar) return;

  const line = (text, link, at) => {
    const found = document.createElement("p");
    found.textContent = text;
    if (link) {
      const anchor = document.createElement("a");
      anchor.href = at;
      anchor.textContent = link;
      found.append(" ", anchor);
    }
    return found;
  };
  const time = (at) => new Date(at).toLocaleTimeString(document.documentElement.lang, { hour: "2-digit", minute: "2-digit" });
  const onSet = words.onSet !== undefined;
  if (!Queue.works) {
    if (onSet && !window.isSecureContext) {
      bar.replaceChildren(line(words.insecure));
      bar.hidden = false;
    }
    return;
  }

  // What a person would recognise of an entry: what was typed, without what the page put in by itself.
  const typed = (entry) => entry.shown.filter(Boolean).join(", ");
  const noted = (entry) => (entry.note ? `: ${entry.note}` : "");
  const isOf = (form, entry) => new URL(form.action).pathname === entry.path
    && [...form.querySelectorAll("input[type=hidden]")].every((one) => ["csrfmiddlewaretoken", "seen", "then"].includes(one.name)
      || entry.fields.some(([name, value]) => name === one.name && value === one.value));

  const seenButton = (entry) => {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = words.drop;
    made.addEventListener("click", () => Queue.remove(entry.order).then(show));
    return made;
  };
  let isKept = false; // this page is what the device kept, not what the house says now
  let isBack = false; // the house answers again since
  let isLeaving = false; // somebody is being asked whether to lose it
  const isOnItsWay = (entry) => !entry.says && !Queue.state() && !Queue.isFile(entry) && Math.abs(Date.now() - entry.at) < AT_ONCE_MS;
  let later;
  const show = async () => {
    const all = await Queue.mine();
    const entries = all.filter((one) => !isOnItsWay(one));
    clearTimeout(later);
    if (entries.length < all.length) later = setTimeout(show, AT_ONCE_MS);
    const waiting = entries.filter((one) => !one.says);
    const refused = entries.filter((one) => one.says);
    const others = await Queue.others();
    document.documentElement.toggleAttribute("data-from-device", isKept);
    if (isLeaving) return;
    const lines = [];
    if (isKept && isBack) lines.push(line(words.again, words.anew, location.href));
    else if (isKept) lines.push(line(words.kept));
    if (waiting.length) {
      const why = { expired: words.expired, offline: words.offline }[Queue.state()] ?? "";
      const at = Queue.state() === "expired" ? [words.signIn, `${words.signInAt}?next=${encodeURIComponent(location.pathname)}`] : [words.which, words.list];
      lines.push(line(`${words.waiting.replace("{n}", waiting.length)} ${why}`.trim(), ...at));
    }
    if (refused.length) lines.push(line(words.refused.replace("{n}", refused.length), words.which, words.list));
    if (others.length) lines.push(line(words.others.replace("{n}", others.length)));
    bar.replaceChildren(...lines);
    bar.hidden = lines.length === 0;
    for (const old of document.querySelectorAll(".not-sent")) old.remove();
    const forms = [...document.querySelectorAll("form[data-entry]:not([data-unmarked])")];
    for (const entry of entries) {
      const said = entry.says ? `${words.notTaken} ${typed(entry)}. ${entry.says}` : `${words.notYet} ${typed(entry)} (${time(entry.at)})${noted(entry)}`;
      const one = line(said);
      one.className = "not-sent";
      if (entry.says && Queue.isFile(entry)) one.append(" ", seenButton(entry));
      forms.find((form) => isOf(form, entry))?.after(one);
    }
  };

  const take = async (form, button) => {
    const sent = [...new FormData(form, button)].filter(([name, value]) => name !== "csrfmiddlewaretoken" && typeof value === "string");
    const own = new Set([...form.querySelectorAll("input[type=hidden]")].map((one) => one.name));
    const shown = sent.filter(([name, value]) => !own.has(name) && value.trim()).map(([, value]) => value);
    if (!shown.length && button) shown.push(button.textContent.trim());
    const stays = form.matches("[data-stay]"); // its own script shows what came of it
    const made = new CustomEvent("entry-made", { detail: { fields: sent, note: "", waits: false }, bubbles: true });
    form.dispatchEvent(made); // a page may know what it means, and whether to go on from there
    const { note, waits } = made.detail;
    return Queue.add({ path: new URL(form.action).pathname, page: location.pathname, fields: sent, shown, stays, note, waits });
  };

  const plainly = (form, button) => {
    form.dataset.plain = "yes";
    form.requestSubmit(button);
  };
  // It stands below its form from now on, so that nobody enters it twice; a step that is right goes on to the next.
  const goOn = (there) => {
    if (there.pathname !== location.pathname) return location.assign(there);
    location.hash = there.hash; // on this page: loaded anew all the same
    return location.reload();
  };
  const waitsHere = (form, entry) => {
    if (form.dataset.next && !entry.waits) location.assign(form.dataset.next);
    else form.reset();
  };
  // A form with files: each is an entry of its own, so that one that is refused or breaks off holds up no other.
  const filesIn = (form) => [...new FormData(form)].filter(([, value]) => value instanceof File && value.name);
  const megabytes = (file) => `${file.name} (${(file.size / 1e6).toFixed(1)} MB)`;
  const takeFile = async (form, [field, file]) => {
    const parts = form.matches("[data-ends]") ? await Parts.of(file, field) : { fields: [], files: [[field, file, file.name]] };
    const own = [...new FormData(form)].filter(([name, value]) => name !== "csrfmiddlewaretoken" && typeof value === "string");
    const entry = { path: new URL(form.action).pathname, page: location.pathname, fields: [...own, ...parts.fields], files: parts.files,
      shown: [megabytes(file)], stays: false, note: "", waits: false };
    return Queue.add(entry).catch(() => Queue.flushAll().then(() => Queue.add(entry))); // room once the others are sent
  };
  const sendFiles = async (form) => {
    const says = form.querySelector(".progress");
    const button = form.querySelector("button");
    button.disabled = true;
    says.textContent = words.sending;
    const made = [];
    const left = [];
    for (const one of filesIn(form)) {
      const entry = await takeFile(form, one).catch(() => null);
      if (entry) made.push(fresh.add(entry.id) && entry.id);
      else left.push(one[1].name);
    }
    if (!left.length) form.reset(); // they stand below the form from now on
    await Queue.flushAll();
    button.disabled = false;
    says.textContent = left.length ? words.full.replace("{names}", left.join(", ")) : "";
    const told = made.map((id) => outcomes.get(id));
    const kept = told.filter((one) => one && one.outcome === "kept");
    if (!left.length && kept.length && told.every(Boolean)) goOn(new URL(kept[0].then ?? location.href, location.href));
  };
  const outcomes = new Map(); // by id, of what was sent from here
  const fresh = new Set(); // made on this page as it stands, which shows itself what came of them
  const told = (form, entry, outcome) => form.dispatchEvent(new CustomEvent("entry-told", { detail: { entry, outcome }, bubbles: true }));
  const untold = new Map(); // forms, by the entry of theirs that still waits
  Queue.listen(({ entry, outcome }) => {
    if (!entry) return;
    outcomes.set(entry.id, outcome);
    if (untold.has(entry.id)) told(untold.get(entry.id), entry, outcome);
    untold.delete(entry.id);
    if (entry.page === location.pathname && !fresh.has(entry.id) && !document.getElementById("live")) isKept = isBack = true;
  });
  document.addEventListener("submit", async (event) => {
    const form = event.target;
    if (!form.matches("form[data-entry]") || form.dataset.plain) return;
    event.preventDefault();
    event.stopPropagation();
    if (filesIn(form).length) {
      await sendFiles(form);
      return;
    }
    const entry = await take(form, event.submitter).catch(() => null);
    if (entry === null) {
      plainly(form, event.submitter); // this browser keeps nothing
      return;
    }
    fresh.add(entry.id);
    await Queue.flush();
    const outcome = outcomes.get(entry.id);
    if (outcome && outcome.outcome === "refused") await Queue.remove(entry.order); // it is said here and now
    if (entry.stays && !outcome) untold.set(entry.id, form); // told once it is sent
    if (entry.stays) told(form, entry, outcome);
    else if (!outcome) waitsHere(form, entry);
    else if (outcome.outcome === "refused") plainly(form, event.submitter); // the page says it beside the field
    else goOn(new URL(outcome.then ?? location.href, location.href));
  }, { capture: true });

  // Nobody signs out unaware of what would be lost.
  const leave = document.querySelector(`form[action="${words.signOutAt}"]`);
  const isSure = async (form) => {
    await Queue.flushAll();
    const left = await Queue.mine();
    if (!left.length) return true;
    isLeaving = true;
    const list = document.createElement("ul");
    for (const entry of left) {
      const item = document.createElement("li");
      item.textContent = `${time(entry.at)}: ${typed(entry)}`;
      list.append(item);
    }
    const stay = document.createElement("button");
    stay.type = "button";
    stay.textContent = words.stay;
    stay.addEventListener("click", () => {
      isLeaving = false;
      show();
    });
    const lose = document.createElement("button");
    lose.type = "button";
    lose.textContent = words.lose;
    lose.addEventListener("click", async () => {
      for (const entry of await Queue.mine()) await Queue.remove(entry.order);
      await forgetPages();
      form.submit();
    });
    const act = document.createElement("p");
    act.className = "act";
    const isOff = Queue.state() === "offline"; // then nobody can sign out either
    act.append(stay, ...(isOff ? [] : [lose]));
    bar.replaceChildren(line(isOff ? words.cannot : words.losing), list, act);
    bar.hidden = false;
    stay.focus();
    return false;
  };
  leave?.addEventListener("submit", async (event) => {
    event.preventDefault();
    if (!await isSure(leave)) return;
    await forgetPages();
    leave.submit();
  });

  const ask = (data) => new Promise((resolve) => {
    const channel = new MessageChannel();
    channel.port1.onmessage = (event) => resolve(event.data);
    navigator.serviceWorker.controller.postMessage(data, [channel.port2]);
  });
  const fetched = async (address) => {
    const whole = new URL(address, location.href).href;
    if (await ask({ isKept: whole })) return "";
    return fetch(whole, { headers: { "X-Keep": "yes" }, credentials: "same-origin" }).then((answer) => answer.text()).catch(() => "");
  };
  const filesOf = (page) => [...page.querySelectorAll("link[rel~=stylesheet], link[rel~=icon], script[src]")]
    .map((one) => one.getAttribute("href") ?? one.getAttribute("src"));
  // The first page came before the worker; and where a page says so, those it leads to are kept before they are opened,
  // with what they are drawn with.
  const keep = async () => {
    const ahead = [...document.querySelectorAll("a[data-keep]")].map((one) => one.href);
    const files = new Set(filesOf(document));
    for (const address of new Set([location.href.split("#")[0], words.list, ...ahead])) {
      const html = await fetched(address);
      if (html) for (const file of filesOf(new DOMParser().parseFromString(html, "text/html"))) files.add(file);
    }
    for (const file of files) await fetched(file);
    document.documentElement.dataset.kept = "yes";
  };
  const start = async () => {
    await navigator.serviceWorker.register(words.worker, { scope: "/" }).catch(() => {});
    if (!navigator.serviceWorker.controller) {
      const taken = new Promise((resolve) => navigator.serviceWorker.addEventListener("controllerchange", resolve, { once: true }));
      (await navigator.serviceWorker.ready).active.postMessage("take this page"); // it came before the worker
      if (!navigator.serviceWorker.controller) await taken;
    }
    isKept = await ask("was I kept?");
    if (!isKept) await keep();
  };

  let isSending = false;
  const trySending = async () => {
    const waiting = (await Queue.mine()).filter((one) => !one.says);
    if (waiting.length) await Queue.flush();
    if (!isSending && waiting.some(Queue.isFile)) {
      isSending = true; // a large file may take longer than the time to the next try
      Queue.flushAll().finally(() => { isSending = false; });
    }
    if (isKept) isBack = await Queue.isThere();
    await show();
  };
  Queue.listen(show);
  trySending();
  if (onSet) start().then(show);
  document.addEventListener("page-is-fresh", () => {
    isKept = false;
    show();
  });
  window.addEventListener("online", trySending);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && trySending());
  setInterval(trySending, EVERY_MS);
})();
