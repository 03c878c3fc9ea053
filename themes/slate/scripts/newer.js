// Says that the club has changed its pages since this one was opened. Never loads a page again by itself.
"use strict";

(() => {
  const strip = document.createElement("p");
  strip.className = "newer";
  strip.dataset.newer = "";
  strip.setAttribute("role", "status");
  const again = document.createElement("button");
  again.textContent = "Open the newer page";
  again.addEventListener("click", () => location.reload());
  document.body.append(strip);
  strip.append("The club has changed its pages since this one was opened. ", again);
})();
