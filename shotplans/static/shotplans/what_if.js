// What if: shows the answer under the form without leaving the page. Without this script the form posts and the
// answer comes as a page; nothing here reckons light.
"use strict";

for (const form of document.querySelectorAll("form.what-if")) {
  const answer = form.parentElement.querySelector(".answer");
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    try {
      const found = await fetch(form.action, {
        method: "POST",
        body: new FormData(form),
        headers: { "X-Fragment": "answer" },
        credentials: "same-origin",
      });
      if (!found.ok) throw new Error(found.statusText);
      answer.innerHTML = await found.text();
    } catch {
      form.submit();
    }
  });
}
