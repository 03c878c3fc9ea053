// Keeps the site for use without a signal, and lets a newer one be shown when no clock runs: never loads a
// page again by itself. Does nothing from disk.
"use strict";

if ("serviceWorker" in navigator && location.protocol.startsWith("http")) {
  const root = document.body.dataset.root || "./";
  const workers = navigator.serviceWorker;
  /** How long a page that stays open goes without asking for a newer site, and a clock without being kept, ms. */
  const [ASKS_AGAIN, RUNS] = [30 * 60 * 1000, 4 * 60 * 60 * 1000];

  function clockRuns() {
    try {
      const { wall } = JSON.parse(localStorage.getItem("rungbook-clock-time") || "{}");
      return localStorage.getItem("rungbook-clock") !== null && Date.now() - wall < RUNS;
    } catch {
      return false;
    }
  }

  const changeOver = () => clockRuns() || workers.controller?.postMessage("change over");
  workers.addEventListener("controllerchange", changeOver);
  for (const ended of ["rungbook-run", "visibilitychange"]) document.addEventListener(ended, changeOver);
  workers.addEventListener("message", ({ data }) => {
    if (data !== "changed" || document.querySelector("[data-newer]")) return;
    const script = document.createElement("script");
    script.src = `${root}scripts/newer.js`;
    document.head.append(script);
  });
  workers.register(`${root}offline-worker.js`).then((kept) => {
    const ask = () => void kept?.update().catch(() => undefined); // No signal: what is kept serves on.
    setInterval(ask, ASKS_AGAIN);
    document.addEventListener("visibilitychange", () => document.hidden || ask());
    changeOver();
  }).catch(() => {
    // Without the worker the site still works while there is a signal.
  });
}
