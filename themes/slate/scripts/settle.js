// Where this device knows whom a page answers for, the page is seen once the answer stands in it: nothing
// moves under the thumb, and nobody reads first what is not for them. Runs before the page is laid out, and
// never holds it for longer than the styles do (`.settling`). Reads that something is kept, never what.
"use strict";

(() => {
  /** So long nothing changed in the page: what it had to say is said. A guess, no source. */
  const QUIET_MS = 120;
  const root = document.documentElement;
  /** @param {"localStorage" | "sessionStorage"} store @param {string[]} keys */
  function has(store, ...keys) {
    try {
      return keys.some((key) => window[store].getItem(key) !== null);
    } catch {
      return false;
    }
  }
  if (!has("localStorage", "rungbook-kit", "rungbook-limits", "rungbook-book") && !has("sessionStorage", "rungbook-limits", "rungbook-front")) return;
  root.classList.add("settling");

  document.addEventListener("DOMContentLoaded", () => {
    /** @type {ReturnType<typeof setTimeout> | undefined} */
    let quiet;
    const watch = new MutationObserver(wait);
    function settled() {
      watch.disconnect();
      root.classList.remove("settling");
    }
    function wait() {
      clearTimeout(quiet);
      quiet = setTimeout(settled, QUIET_MS);
    }
    watch.observe(document.body, { childList: true, subtree: true, characterData: true, attributes: true });
    wait();
  });
})();
