// The people of one line, put in rows as soon as the line is left or the return key is pressed in it. The server takes
// the line apart, as it does for the button and for those without a script.
"use strict";

(() => {
  const form = document.getElementById("new-sitting");
  const line = document.getElementById("id_people_line");
  const around = document.getElementById("div_id_people_line");
  const rows = document.getElementById("people-rows");
  const total = document.getElementById("id_people-TOTAL_FORMS");
  const said = document.getElementById("rows-said");
  let busy = false;

  document.getElementById("make-rows").hidden = true;

  const isEmpty = (row) => [...row.querySelectorAll("input:not([type=hidden]), select")]
    .every((one) => (one.type === "checkbox" ? !one.checked : ["", "unknown"].includes(one.value)));
  const take = (fresh) => {
    const names = [];
    [...fresh.querySelectorAll("#people-rows > .person")].forEach((row, number) => {
      const kept = rows.children[number];
      if (kept && !isEmpty(kept)) return;
      if (kept) kept.replaceWith(row);
      else rows.append(row);
      names.push(row.querySelector("input[type=text]").value);
    });
    total.value = String(rows.children.length);
    said.textContent = `${said.dataset.words} ${names.join(", ")}`;
    line.value = "";
    line.dispatchEvent(new Event("input", { bubbles: true }));
  };
  const ask = async () => {
    const values = new FormData(form);
    values.append("rows", "1");
    const answer = await fetch(location.href, {
      method: "POST", credentials: "same-origin", body: new URLSearchParams(values),
    });
    return answer.ok && !answer.redirected ? new DOMParser().parseFromString(await answer.text(), "text/html") : null;
  };
  const parse = async () => {
    const text = line.value;
    if (busy || text.trim() === "") return;
    busy = true;
    try {
      const fresh = await ask();
      if (!fresh || line.value !== text) return;
      around.querySelectorAll(".invalid-feedback").forEach((one) => one.remove());
      if (fresh.getElementById("id_people_line").value === "") take(fresh);
      else line.after(...fresh.querySelectorAll("#div_id_people_line .invalid-feedback"));
    } catch {
      // Without a connection the line stays as it is, and is taken apart when the sitting is booked.
    } finally {
      busy = false;
    }
  };

  line.addEventListener("change", parse);
  line.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" || line.value.trim() === "") return;
    event.preventDefault();
    parse();
  });
})();
