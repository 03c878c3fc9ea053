// On every page: where a session's clock runs on this device, its strip is brought and stays in sight while
// something is looked up. Brings nothing where none runs.
"use strict";

(() => {
  const FIRST = ["make", "bring", "own-bring"];
  const THEN = ["book", "own-clock", "clock", "run", "run-keep", "run-signals", "running", "run-strip"];
  const root = document.body.dataset.root || "";
  let asked = false;

  function runs() {
    try {
      return localStorage.getItem("rungbook-clock") !== null;
    } catch {
      return false;
    }
  }

  /** @param {string} file */
  const isHere = (file) => document.querySelector(`head > [src="${root + file}"], head > [href="${root + file}"]`) !== null;

  /** @param {HTMLScriptElement | HTMLLinkElement} element */
  const come = (element) => new Promise((/** @type {(value: unknown) => void} */ done, fail) => {
    element.addEventListener("load", done);
    element.addEventListener("error", fail);
    document.head.append(element);
  });

  async function bring() {
    if (asked) return;
    asked = true;
    if (!isHere("styles/clock.css")) {
      await come(Object.assign(document.createElement("link"), { rel: "stylesheet", href: `${root}styles/clock.css` }));
    }
    for (const name of FIRST) {
      const file = `scripts/${name}.js`;
      if (!isHere(file)) await come(Object.assign(document.createElement("script"), { src: root + file }));
    }
    // What others of the page bring too comes by one hand: nobody goes on before it is there.
    await rungbookBring.files(THEN.map((name) => `scripts/${name}.js`));
  }

  const look = () => runs() && bring().catch(() => (asked = false));
  // What the page itself names runs first: twice would fail.
  if (document.readyState === "loading") document.addEventListener("DOMContentLoaded", look);
  else look();
  window.addEventListener("storage", look);
  // A page that starts a clock asks for the same files.
  document.addEventListener("rungbook-clock-wanted", (event) => {
    const { come: coming } = /** @type {CustomEvent<{come: (files: Promise<void>) => void}>} */ (event).detail;
    coming(bring());
  });
})();
