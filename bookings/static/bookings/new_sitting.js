// The pages of a new sitting and of a change to one work without this: the server adds rows and fills in the kind's
// times, which only a new sitting takes. Here it happens at once.
"use strict";

(() => {
  const rows = document.getElementById("people-rows");
  const pattern = document.getElementById("empty-person");
  const total = document.getElementById("id_people-TOTAL_FORMS");
  const most = Number(document.getElementById("id_people-MAX_NUM_FORMS").value);

  document.getElementById("more-people").addEventListener("click", (event) => {
    event.preventDefault();
    const number = Number(total.value);
    if (number >= most) return;
    const holder = document.createElement("div");
    holder.innerHTML = pattern.innerHTML.replaceAll("__prefix__", String(number));
    const row = holder.firstElementChild;
    rows.append(row);
    total.value = String(number + 1);
    row.querySelector("input[type=text]").focus();
  });

  // A kind's times are written where nobody has typed other ones.
  const kind = document.getElementById("id_kind");
  const fields = ["minutes", "setup_minutes", "strike_minutes"].map((name) => [name, document.getElementById("id_" + name)]);
  const written = new Map();
  const fill = () => {
    const option = kind.selectedOptions[0];
    for (const [name, field] of fields) {
      const value = option ? option.getAttribute("data-" + name) : null;
      if (value !== null && (field.value === "" || field.value === written.get(name))) {
        field.value = value;
        written.set(name, value);
      }
    }
  };
  if (kind) kind.addEventListener("change", fill);
})();
