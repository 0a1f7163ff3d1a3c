// A row of the shot list goes up or down at once, and the button keeps the focus; without this script the house does it.
"use strict";

document.querySelector(".shot-list")?.addEventListener("click", (event) => {
  const button = event.target.closest("button[name=move]");
  if (!button) return;
  event.preventDefault();
  const row = button.closest("li");
  const up = button.value.startsWith("up:");
  const other = up ? row.previousElementSibling : row.nextElementSibling;
  if (!other) return;
  if (up) other.before(row);
  else other.after(row);
  button.form.elements.in_order.checked = true;
  button.focus();
});
