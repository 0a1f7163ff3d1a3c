// The client's box as one types: who is known stands below it, to be chosen by arrow keys or touch. Without this the
// page's button "Find" does it. Everything is asked by POST, so that no name stands in an address or a log.
"use strict";

(() => {
  const who = document.getElementById("who");
  const form = who.closest("form");
  const box = document.getElementById("id_new_name");
  const list = document.getElementById("found-clients");
  const said = document.getElementById("found-said");
  const choices = document.getElementById("client-choices");
  const token = form.querySelector("[name=csrfmiddlewaretoken]").value;
  const PAUSE_MS = 120;
  const LEAST = 2;
  let asked = 0, waiting = 0, choosing = 0;

  document.getElementById("find-client").hidden = true;
  box.setAttribute("role", "combobox");
  box.setAttribute("aria-autocomplete", "list");
  box.setAttribute("aria-controls", list.id);
  box.setAttribute("aria-expanded", "false");

  const post = async (address, values) => {
    const answer = await fetch(address, {
      method: "POST", credentials: "same-origin",
      headers: { "X-CSRFToken": token }, body: new URLSearchParams(values),
    });
    return answer.ok && !answer.redirected ? answer.text() : null;
  };
  const options = () => [...list.querySelectorAll("[role=option]")];
  const active = () => list.querySelector("[aria-selected=true]");

  const close = () => {
    clearTimeout(waiting);
    asked += 1;
    list.hidden = true;
    list.replaceChildren();
    box.setAttribute("aria-expanded", "false");
    box.removeAttribute("aria-activedescendant");
  };
  const mark = (option) => {
    options().forEach((one) => one.setAttribute("aria-selected", String(one === option)));
    if (!option) return box.removeAttribute("aria-activedescendant");
    box.setAttribute("aria-activedescendant", option.id);
    option.scrollIntoView({ block: "nearest" });
  };
  const look = async () => {
    const mine = ++asked;
    if (box.value.trim().length < LEAST) return close();
    const text = await post(who.dataset.find, { text: box.value }).catch(() => null);
    if (mine !== asked || text === null) return;
    const holder = document.createElement("div");
    holder.innerHTML = text;
    const found = holder.firstElementChild;
    list.replaceChildren(...found.children);
    said.textContent = found.dataset.said;
    list.hidden = options().length === 0;
    box.setAttribute("aria-expanded", String(!list.hidden));
    mark(null);
  };

  // The known client chosen, or those who may be the same as the one being named.
  const showChoices = async (client) => {
    const mine = ++choosing;
    const values = { client };
    for (const name of ["new_name", "new_email", "new_phone"]) values[name] = form.elements[name].value;
    const text = await post(who.dataset.choices, values).catch(() => null);
    if (mine !== choosing || text === null) return;
    choices.innerHTML = text;
    choices.dispatchEvent(new Event("input", { bubbles: true }));
  };
  const chosen = () => (choices.querySelector("input:checked") || { value: "" }).value;
  const choose = (option) => {
    box.value = option.dataset.name;
    close();
    showChoices(option.dataset.pk).then(next);
  };
  const next = () => {
    const kind = document.getElementById("id_kind");
    if (document.activeElement === box && kind.value === "") kind.focus();
  };

  box.addEventListener("input", () => {
    if (chosen()) {  // another name is another client
      choosing += 1;
      choices.replaceChildren();
    }
    clearTimeout(waiting);
    waiting = setTimeout(look, PAUSE_MS);
  });
  box.addEventListener("keydown", (event) => {
    const all = options();
    if (event.key === "Escape" && !list.hidden) {
      event.preventDefault();
      close();
    } else if ((event.key === "ArrowDown" || event.key === "ArrowUp") && all.length) {
      event.preventDefault();
      const step = event.key === "ArrowDown" ? 1 : -1;
      const from = all.indexOf(active());
      mark(all[from < 0 && step < 0 ? all.length - 1 : (from + step + all.length) % all.length]);
    } else if (event.key === "Enter" && active()) {
      event.preventDefault();
      choose(active());
    }
  });
  list.addEventListener("pointerdown", (event) => event.preventDefault());  // the box keeps the focus
  list.addEventListener("click", (event) => {
    const option = event.target.closest("[role=option]");
    if (option) choose(option);
  });
  box.addEventListener("blur", close);
  for (const name of ["new_name", "new_email", "new_phone"]) {
    form.elements[name].addEventListener("change", () => { if (!chosen()) showChoices(""); });
  }
  who.addEventListener("client-known", (event) => showChoices(event.detail));
  choices.addEventListener("change", () => {
    const label = choices.querySelector("input:checked + label bdi");
    if (label && chosen()) {
      box.value = label.textContent;
      showChoices(chosen());
    }
  });
})();
