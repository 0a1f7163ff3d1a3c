// What is wrong with a form that came back, gathered above it: each fault leads to its field, and the focus begins here.
// Without this every fault still stands beside its field.
"use strict";

(() => {
  const said = document.currentScript.dataset;
  const fields = [...document.querySelectorAll("main form [aria-invalid='true']")];
  const firstOfName = (field, at) => fields.findIndex((one) => one.name === field.name && one.form === field.form) === at;
  const wrong = fields.filter((field, at) => field.type !== "hidden" && firstOfName(field, at));
  if (!wrong.length) return;
  const words = (element) => element ? element.textContent.replace(/[\s*]+/g, " ").trim() : "";
  const nameOf = (field) => {
    const group = field.type === "radio" || field.type === "checkbox" ? field.closest("fieldset") : null;
    const label = (group && group.querySelector("legend")) || (field.labels && field.labels[0]);
    return words(label) || field.getAttribute("aria-label") || field.name;
  };
  const faultOf = (field) => {
    const told = (field.getAttribute("aria-describedby") || "").split(" ").find((id) => id.endsWith("_error"));
    return words((told && document.getElementById(told)) || field.closest("div, fieldset, p").querySelector(".invalid-feedback, .errorlist"));
  };
  const list = document.createElement("ul");
  for (const field of wrong) {
    const link = document.createElement("a");
    link.href = `#${field.id}`;
    const fault = faultOf(field);
    link.textContent = fault ? `${nameOf(field)}: ${fault}` : nameOf(field);
    link.addEventListener("click", (event) => {
      event.preventDefault();
      for (let fold = field.closest("details"); fold; fold = fold.parentElement.closest("details")) fold.open = true;
      field.focus();
    });
    list.appendChild(document.createElement("li")).append(link);
  }
  const head = document.createElement("p");
  head.textContent = wrong.some((field) => field.form.querySelector("[type=file]")) ? said.files : said.words;
  const above = document.createElement("div");
  above.className = "alert faults";
  above.tabIndex = -1;
  above.append(head, list);
  wrong[0].form.before(above);
  above.focus();
})();
