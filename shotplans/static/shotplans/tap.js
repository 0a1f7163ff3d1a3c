// A picture to touch may be as wide as the page: the server is told how wide it was shown.
"use strict";

for (const picture of document.querySelectorAll("input.tap")) {
  picture.classList.add("large");
  picture.addEventListener("click", () => {
    picture.form.elements.shown.value = picture.clientWidth;
  });
}
