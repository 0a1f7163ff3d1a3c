// The pages of a new sitting and of a change to one work without this: the server adds rows and fills in the kind's
// times, which only a new sitting takes. Here it happens at once.
"use strict";

(() => {
  const rows = document.getElementById("people-rows");
  const pattern = document.getElementById("empty-person");
  const total = document.getElementById("id_people-TOTAL_FORMS");
  const most = Number(document.getElementById("id_people-MAX_NUM_FORMS").value);

  const addRow = () => {
    const number = Number(total.value);
    if (number >= most) return null;
    const holder = document.createElement("div");
    holder.innerHTML = pattern.innerHTML.replaceAll("__prefix__", String(number));
    const row = holder.firstElementChild;
    rows.append(row);
    total.value = String(number + 1);
    return row;
  };
  document.getElementById("more-people").addEventListener("click", (event) => {
    event.preventDefault();
    const row = addRow();
    if (row) row.querySelector("input[type=text]").focus();
  });
  // Another script of the page may need more rows.
  rows.addEventListener("row-wanted", addRow);

  // A kind's times are written where nobody has typed other ones, and what it says stands below it.
  const kind = document.getElementById("id_kind");
  if (!kind) return;
  const fields = ["minutes", "setup_minutes", "strike_minutes"].map((name) => [name, document.getElementById("id_" + name)]);
  const written = new Map();
  const says = document.getElementById("kind-says");
  const day = document.getElementById("id_day");
  const feeOn = (option) => {
    const on = day.value || new Date().toISOString().slice(0, 10);
    const begun = JSON.parse(option.dataset.fees).filter(([from]) => from <= on).sort();
    return begun.length ? begun[begun.length - 1][1] : "";
  };
  const say = () => {
    const option = kind.selectedOptions[0];
    says.textContent = option && option.dataset.says ? `${feeOn(option)} ${option.dataset.says}`.trim() : "";
  };
  const fill = () => {
    const option = kind.selectedOptions[0];
    for (const [name, field] of fields) {
      const value = option ? option.getAttribute("data-" + name) : null;
      if (value !== null && ["", value, written.get(name)].includes(field.value)) {
        field.value = value;
        written.set(name, value);
      }
    }
    say();
  };
  kind.addEventListener("change", fill);
  day.addEventListener("change", say);
  fill();
})();
