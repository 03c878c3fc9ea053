// Asks the browser to keep the site for use without a signal, and says when a newer one has come: what an
// open page says of cautions may have been corrected since. Never loads a page again by itself, under
// nobody's thumb and no running clock. Does nothing when opened from disk.
"use strict";

if ("serviceWorker" in navigator && location.protocol.startsWith("http")) {
  const root = document.body.dataset.root || "./";
  const workers = navigator.serviceWorker;
  /** How long a page that stays open goes without asking for a newer site, milliseconds. */
  const ASKS_AGAIN = 30 * 60 * 1000;
  /** The first copy replaces nothing: what is open came with it. */
  const wasKept = Boolean(workers.controller);

  function tellOfNewer() {
    if (!wasKept || document.querySelector("[data-newer]")) return;
    const strip = document.createElement("p");
    strip.className = "newer";
    strip.dataset.newer = "";
    strip.setAttribute("role", "status");
    const again = document.createElement("button");
    again.type = "button";
    again.textContent = "Open the newer page";
    again.addEventListener("click", () => location.reload());
    document.body.append(strip);
    strip.append("The club has changed its pages since this one was opened: what it says may be corrected. ", again);
  }

  workers.addEventListener("controllerchange", tellOfNewer);
  workers.register(`${root}offline-worker.js`).then((kept) => {
    const ask = () => void kept?.update().catch(() => undefined); // No signal: what is kept serves on.
    setInterval(ask, ASKS_AGAIN);
    document.addEventListener("visibilitychange", () => document.hidden || ask());
  }).catch(() => {
    // Without the worker the site still works while there is a signal.
  });
}
