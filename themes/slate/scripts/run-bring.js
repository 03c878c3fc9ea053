// Brings what a running clock needs, in its order and by one hand; then its strip stands at the foot of the page.
"use strict";

const rungbookRunBring = (() => {
  const FIRST = ["make", "bring", "own-bring"];
  const THEN = ["book", "own-clock", "clock", "run", "run-keep", "run-signals", "running", "run-strip"];
  const root = document.body.dataset.root || "";

  /** @param {string} file */
  const isHere = (file) => document.querySelector(`head > [src="${root + file}"], head > [href="${root + file}"]`) !== null;

  /** @param {HTMLScriptElement | HTMLLinkElement} element */
  const come = (element) => new Promise((/** @type {(value: unknown) => void} */ done, fail) => {
    element.addEventListener("load", done);
    element.addEventListener("error", fail);
    document.head.append(element);
  });

  async function all() {
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

  return { all };
})();
