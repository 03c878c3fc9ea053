// On every page: where a session's clock runs on this device, its strip is brought and stays in sight while
// something is looked up. Brings nothing where none runs.
"use strict";

(() => {
  /** @type {Promise<void> | null} */
  let coming = null;

  const arrive = () => new Promise((/** @type {(value: Promise<void>) => void} */ done, fail) => {
    const script = document.createElement("script");
    script.src = `${document.body.dataset.root || ""}scripts/run-bring.js`;
    script.onload = () => done(rungbookRunBring.all());
    script.onerror = fail;
    document.head.append(script);
  });

  function bring() {
    if (coming) return coming;
    coming = typeof rungbookRunBring === "undefined" ? arrive() : rungbookRunBring.all();
    // Asked again, it may come.
    coming.catch(() => (coming = null));
    return coming;
  }

  function look() {
    try {
      if (localStorage.getItem("rungbook-clock")) bring();
    } catch {
      // A browser that keeps nothing keeps no clock either.
    }
  }

  // What the page itself names runs first: twice would fail.
  document.addEventListener("DOMContentLoaded", look);
  window.addEventListener("storage", look);
  // A page that starts a clock asks for the same files.
  document.addEventListener("rungbook-clock-wanted", (event) => /** @type {CustomEvent<Promise<void>[]>} */ (event).detail.push(bring()));
})();
