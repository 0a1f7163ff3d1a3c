// The diary works without this: every gap and block is a link, and "Move" leads to the page where a sitting is changed.
// Here the arrow keys go from one to the next, a gap is started where it is pressed, and a sitting is moved by dragging
// it, or by the keys: the server is asked what that takes before anything is saved.
"use strict";

(() => {
  const diary = document.querySelector(".diary");
  const panel = document.querySelector("dialog.moving");
  const token = diary.querySelector("[name=csrfmiddlewaretoken]");
  const MINUTES = 15;
  const isList = () => matchMedia("(max-width: 40rem)").matches;
  const lanes = () => [...diary.querySelectorAll(".lane")];
  const rowHeight = (list) => parseFloat(getComputedStyle(list).gridAutoRows);
  const minutesOf = (clock) => Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3));
  const clockOf = (minutes) => [Math.floor(minutes / 60), minutes % 60].map((part) => String(part).padStart(2, "0")).join(":");
  const rowOf = (item) => Number(/(?:^| )from-(\d+)/.exec(item.className)[1]);
  const factsOf = (item) => document.querySelector(`.movable [data-of="${CSS.escape(item.dataset.number)}"]`).dataset;
  const setRow = (item, row) => { item.className = item.className.replace(/(^| )from-\d+/, `$1from-${row}`); };

  // A week that is wider than its window opens on today, beside the hours.
  const today = isList() ? null : diary.querySelector(".day.today");
  const besideHours = () => diary.querySelector(".hours").offsetWidth + parseFloat(getComputedStyle(diary).columnGap);
  if (today) diary.scrollLeft = today.offsetLeft - besideHours();

  // --- the keys -----------------------------------------------------------------------------------------------------
  const stops = (lane) => [...lane.querySelectorAll(".gap a, a.open")].filter((one) => one.checkVisibility());
  const nearest = (links, row) => links.reduce((best, one) => {
    const away = Math.abs(rowOf(one.closest("li")) - row);
    return !best || away < best.away ? { one, away } : best;
  }, null)?.one;

  const go = (link, key) => {
    const lane = link.closest(".lane");
    if (key === "ArrowUp" || key === "ArrowDown") {
      const here = stops(lane);
      return here[here.indexOf(link) + (key === "ArrowDown" ? 1 : -1)];
    }
    const all = lanes();
    const step = key === "ArrowRight" ? 1 : -1;
    for (let at = all.indexOf(lane) + step; at >= 0 && at < all.length; at += step) {
      const found = nearest(stops(all[at]), rowOf(link.closest("li")));
      if (found) return found;
    }
    return null;
  };

  // --- a gap is started where it is pressed ---------------------------------------------------------------------------
  const startAt = (link, y) => {
    const box = link.closest("li").getBoundingClientRect();
    const rows = Math.floor((y - box.top) / rowHeight(link.closest("ol")));
    return rows > 1 ? clockOf(minutesOf(link.dataset.from) + rows * MINUTES) : null;
  };

  diary.addEventListener("pointermove", (event) => {
    const link = event.target.closest(".gap a");
    if (!link || isList() || event.pointerType !== "mouse") return;
    link.dataset.words ??= link.textContent;
    const at = startAt(link, event.clientY);
    link.textContent = at ? `${link.dataset.words}, ${diary.dataset.atWords} ${at}` : link.dataset.words;
  });

  diary.addEventListener("click", (event) => {
    const link = event.target.closest(".gap a");
    if (!link || isList() || event.detail === 0) return;
    const at = startAt(link, event.clientY);
    if (!at) return;
    const address = new URL(link.href);
    address.searchParams.set("at", at);
    link.href = address;
  });

  // --- moving ---------------------------------------------------------------------------------------------------------
  let moving = null; // { item, lane, ghost, to, rows, by }

  const begin = (item) => {
    leave();
    const ghost = item.cloneNode(true);
    ghost.classList.add("ghost");
    ghost.classList.remove("waiting", "has-waiting");
    ghost.removeAttribute("data-number");
    ghost.querySelectorAll("a").forEach((one) => one.removeAttribute("href"));
    const lane = item.closest(".lane");
    item.classList.add("leaves");
    diary.classList.add("moves");
    moving = { item, lane, ghost, to: lane, rows: 0 };
    show();
  };

  const show = () => {
    const { item, ghost, to, rows } = moving;
    setRow(ghost, Math.max(rowOf(item) + rows, 0));
    ghost.querySelector(".when").textContent = clockOf(start());
    const list = to.querySelector("ol");
    if (ghost.parentElement !== list) list.append(ghost);
  };

  const start = () => {
    const wanted = minutesOf(factsOf(moving.item).start) + moving.rows * MINUTES;
    return Math.min(Math.max(wanted, 0), 24 * 60 - MINUTES);
  };

  const leave = () => {
    if (!moving) return null;
    const { item, ghost } = moving;
    ghost.remove();
    item.classList.remove("leaves");
    diary.classList.remove("moves");
    moving = null;
    return item;
  };

  const fits = (lane) => lane && lane.dataset.lane === moving.lane.dataset.lane;

  const asked = () => {
    const { item, lane, to } = moving;
    const facts = factsOf(item);
    const data = new FormData();
    data.set("csrfmiddlewaretoken", token.value);
    data.set("number", item.dataset.number);
    data.set("seen", facts.version);
    data.set("day", to.dataset.day === lane.dataset.day ? facts.day : to.dataset.day);
    data.set("time", clockOf(start()));
    for (const name of ["room", "photographer", "assistant"]) data.set(name, facts[name]);
    if (to.dataset.id !== lane.dataset.id) {
      const names = lane.dataset.lane === "room" ? ["room"] : ["photographer", "assistant"];
      const name = names.find((one) => facts[one] === lane.dataset.id);
      if (name) data.set(name, to.dataset.id);
    }
    data.set("back", location.pathname + location.search);
    return data;
  };

  const preview = async () => {
    if (moving.rows === 0 && moving.to === moving.lane) {
      leave()?.querySelector("a.open").focus();
      return;
    }
    diary.classList.remove("moves");
    try {
      const answer = await fetch(diary.dataset.move, {
        method: "POST", body: asked(), headers: { "X-Fragment": "yes" }, credentials: "same-origin", redirect: "error",
      });
      if (!answer.ok && answer.status !== 422) throw new Error(String(answer.status));
      panel.innerHTML = await answer.text();
    } catch {
      leave();
      panel.textContent = panel.dataset.failed;
    }
    if (!panel.open) panel.show();
    panel.querySelector("button")?.focus();
  };

  const close = () => {
    if (panel.open) panel.close();
    panel.replaceChildren();
    leave()?.querySelector("a.open").focus();
  };

  panel.addEventListener("click", (event) => {
    if (!event.target.closest("[data-leave]")) return;
    event.preventDefault();
    close();
  });

  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && (moving || panel.open)) {
      event.preventDefault();
      close();
      return;
    }
    const link = event.target.closest?.(".diary .gap a, .diary a.open");
    if (!link || event.altKey || event.ctrlKey || event.metaKey) return;
    if (moving && !panel.open && event.key === "Enter") {
      event.preventDefault();
      preview();
    } else if (event.key.startsWith("Arrow")) {
      event.preventDefault();
      if (!moving) go(link, event.key)?.focus();
      else if (!panel.open) step(event.key);
    } else if (event.key.toLowerCase() === "m" && !moving && !isList()) {
      const item = link.closest("li[data-number]");
      if (item) begin(item);
    }
  });

  const step = (key) => {
    if (key === "ArrowUp" || key === "ArrowDown") {
      moving.rows += key === "ArrowDown" ? 1 : -1;
    } else {
      const all = lanes().filter(fits);
      moving.to = all[all.indexOf(moving.to) + (key === "ArrowRight" ? 1 : -1)] ?? moving.to;
    }
    show();
  };

  // A mouse takes the block anywhere; a finger takes it by the word "Move", so that the page can still be scrolled.
  let pressed = null;

  diary.addEventListener("pointerdown", (event) => {
    const item = event.target.closest("li[data-number]");
    const byHand = event.pointerType === "mouse" || event.target.closest("a.move");
    if (!item || !byHand || event.button !== 0 || isList() || panel.open) return;
    pressed = { item, x: event.clientX, y: event.clientY, pointer: event.pointerId };
  });

  document.addEventListener("pointermove", (event) => {
    if (!pressed || event.pointerId !== pressed.pointer) return;
    const [x, y] = [event.clientX - pressed.x, event.clientY - pressed.y];
    if (!moving) {
      if (Math.hypot(x, y) < 6) return;
      begin(pressed.item);
    }
    moving.rows = Math.round(y / rowHeight(moving.lane.querySelector("ol")));
    const under = document.elementsFromPoint(event.clientX, event.clientY).map((one) => one.closest(".lane")).find(fits);
    if (under) moving.to = under;
    show();
    event.preventDefault();
  });

  document.addEventListener("pointerup", (event) => {
    if (!pressed || event.pointerId !== pressed.pointer) return;
    const dragged = moving !== null;
    pressed = null;
    if (dragged) {
      // The press may end as a click on the link it began on: that is no wish to open it.
      const ignore = (click) => click.preventDefault();
      document.addEventListener("click", ignore, { capture: true });
      setTimeout(() => {
        document.removeEventListener("click", ignore, { capture: true });
        preview();
      });
    }
  });

  document.addEventListener("pointercancel", () => { pressed = null; close(); });
  diary.addEventListener("dragstart", (event) => event.preventDefault());
})();
