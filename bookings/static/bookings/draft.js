// What is typed into a new sitting is kept in this browser until it is booked, so that a closed tab loses nothing; but
// never notes, wishes and what says how somebody moves. `drafts.js` forgets it when it has become a sitting and when somebody signs out.
"use strict";

(() => {
  const form = document.querySelector("form[data-draft]");
  const key = `tenthstop.draft.${form.dataset.member}.${form.dataset.draft}`;
  const words = document.getElementById("draft-words").dataset;
  const told = document.getElementById("draft-told");
  const rows = document.getElementById("people-rows");
  const total = document.getElementById("id_people-TOTAL_FORMS");
  const who = document.getElementById("who");
  const NEVER_KEPT = /-(notes|wishes)-|_FORMS$|^(csrfmiddlewaretoken|acknowledged|behind)$/;
  let keeping = true;

  const MOBILITY = words.mobility.split("|");
  const withoutMobility = (one) => {
    if (one.name.endsWith("-posture")) return one.value === "wheelchair" ? "" : one.value;
    if (one.name !== "people_line") return one.value;
    return one.value.split(/([,;:])/).map((part) => {
      const found = MOBILITY.find((word) => part.toLowerCase().includes(word.toLowerCase()));
      return found ? part.slice(0, part.toLowerCase().indexOf(found.toLowerCase())) : part;
    }).join("");
  };
  const valueOf = (one) => (one.type === "checkbox" ? (one.checked ? "on" : "") : withoutMobility(one));
  const fields = () => [...form.elements].filter((one) => one.name && one.type !== "submit" && !NEVER_KEPT.test(one.name)
    && (one.type !== "radio" || one.checked));
  const atFirst = new Map(fields().map((one) => [one.name, valueOf(one)]));
  const isNote = (one) => /-(notes|wishes)-/.test(one.name) && !/_FORMS$/.test(one.name);
  const saysMore = () => [...form.elements].some((one) => (isNote(one) && !["", "unknown"].includes(one.value))
    || (/-posture$|^people_line$/.test(one.name) && withoutMobility(one) !== one.value));

  const keep = () => {
    if (!keeping) return;
    const typed = fields().map((one) => [one.name, valueOf(one)]).filter(([name, value]) => value !== (atFirst.get(name) ?? ""));
    try {
      if (typed.length === 0) return localStorage.removeItem(key);
      const draft = { at: Date.now(), from: location.search, typed, lost: saysMore() };
      localStorage.setItem(key, JSON.stringify(draft));
    } catch {
      keeping = false;  // a browser that keeps nothing: the page works all the same
    }
  };
  const kept = () => {
    try {
      return JSON.parse(localStorage.getItem(key));
    } catch {
      return null;
    }
  };

  const bringBack = (draft) => {
    const needed = draft.typed.map(([name]) => /^people-(\d+)-/.exec(name)).filter(Boolean).map((found) => Number(found[1]) + 1);
    while (Number(total.value) < Math.max(...needed, 0)) {
      const before = total.value;
      rows.dispatchEvent(new Event("row-wanted"));
      if (total.value === before) break;
    }
    for (const [name, value] of draft.typed) {
      const field = form.elements[name];
      if (name === "client") who.dispatchEvent(new CustomEvent("client-known", { detail: value }));
      else if (field && field.type === "checkbox") field.checked = value === "on";
      else if (field) field.value = value;
    }
    document.getElementById("id_kind").dispatchEvent(new Event("change", { bubbles: true }));
  };
  const tell = (draft, sentence, buttons) => {
    const moment = new Date(draft.at).toLocaleString(document.documentElement.lang, { dateStyle: "long", timeStyle: "short" });
    const count = draft.typed.filter(([name, value]) => value !== "" && name !== "client").length;
    const text = document.createElement("p");
    text.textContent = `${sentence.replace("{moment}", moment).replace("{count}", String(count))} ${draft.lost ? words.lost : words.never}`;
    const act = document.createElement("p");
    act.className = "act";
    for (const [label, does] of buttons) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = label;
      button.addEventListener("click", does);
      act.append(button);
    }
    told.replaceChildren(text, act);
  };
  const throwAway = () => {
    keeping = false;
    localStorage.removeItem(key);
    location.reload();
  };

  const draft = kept();
  if (form.dataset.bound) {
    atFirst.clear();
    keep();
  } else if (draft && draft.from === location.search) {
    bringBack(draft);
    tell(draft, words.back, [[words.away, throwAway]]);
  } else if (draft) {
    // Somebody came here with another time or client: what was typed before waits until it is asked for.
    keeping = false;
    const takeUp = () => {
      bringBack(draft);
      keeping = true;
      tell(draft, words.back, [[words.away, throwAway]]);
      keep();
    };
    const away = () => {
      localStorage.removeItem(key);
      keeping = true;
      told.replaceChildren();
      keep();
    };
    tell(draft, words.kept, [[words.bring, takeUp], [words.away, away]]);
  }
  form.addEventListener("input", keep);
  form.addEventListener("change", keep);
  // Booked or thrown away in another window, or somebody signed out there: from then on nothing more is kept here.
  window.addEventListener("storage", (event) => {
    if (event.key === key && event.newValue === null) keeping = false;
  });
})();
