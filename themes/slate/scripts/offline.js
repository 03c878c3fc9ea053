// Keeps the site for use without a signal, and says when a newer one has come: never loads a page again by
// itself. Does nothing from disk.
"use strict";

if ("serviceWorker" in navigator && location.protocol.startsWith("http")) {
  const root = document.body.dataset.root || "./";
  const workers = navigator.serviceWorker;
  /** How long a page that stays open goes without asking for a newer site, milliseconds. */
  const ASKS_AGAIN = 30 * 60 * 1000;
  /** The first copy replaces nothing: what is open came with it. */
  const wasKept = Boolean(workers.controller);

  function tellOfNewer() {
    if (!wasKept) return;
    const strip = document.createElement("p");
    strip.className = "newer";
    strip.dataset.newer = "";
    strip.setAttribute("role", "status");
    const again = document.createElement("button");
    again.textContent = "Open the newer page";
    again.addEventListener("click", () => location.reload());
    document.body.append(strip);
    strip.append("The club has changed its pages since this one was opened. ", again);
  }

  workers.addEventListener("controllerchange", tellOfNewer, { once: true });
  workers.register(`${root}offline-worker.js`).then((kept) => {
    const ask = () => void kept?.update().catch(() => undefined); // No signal: what is kept serves on.
    setInterval(ask, ASKS_AGAIN);
    document.addEventListener("visibilitychange", () => document.hidden || ask());
  }).catch(() => {
    // Without the worker the site still works while there is a signal.
  });
}
