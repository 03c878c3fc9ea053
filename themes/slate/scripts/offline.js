// Asks the browser to keep the site for use without a signal. Does nothing when opened from disk.
"use strict";

if ("serviceWorker" in navigator && location.protocol.startsWith("http")) {
  const root = document.body.dataset.root || "./";
  navigator.serviceWorker.register(`${root}offline-worker.js`).catch(() => {
    // Without the worker the site still works while there is a signal.
  });
}
