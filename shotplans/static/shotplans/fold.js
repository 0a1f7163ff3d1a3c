// A plan on a phone: what is rarely needed on set is folded, each behind its own words; the drawing, the camera, the
// lights, the meter round and the shots stay open. On a wider screen, and without this script, everything is open.
"use strict";

if (window.matchMedia("(max-width: 40rem)").matches) {
  for (const part of document.querySelectorAll("details[data-fold]")) part.open = false;
}
