// The clocks of a session's page: the whole session, or one block of it, by the one clock that there is.
// Only starts it: whose words it says is run-start.js's and running.js's business.
"use strict";

(() => {
  const page = rungbookSessionPage;
  if (!page.article) return;

  /** The run that this device keeps, when it is of this session. @returns {{from: number, to: number} | null} */
  function running() {
    try {
      const run = JSON.parse(localStorage.getItem("rungbook-clock") || "null")?.run;
      // One of another day is not gone back to: its strip offers to note or drop it.
      const old = typeof rungbookRunKeep !== "undefined" && run && rungbookRunKeep.from(run);
      return run && !old && run.session === page.id ? run : null;
    } catch {
      return null;
    }
  }

  /** @param {number} from @param {number} to @param {Element} after */
  function start(from, to, after) {
    // Whoever is nobody to this device and did not ask for a version of their own gets the class's clock.
    const mode = !page.isOwn() && !page.knowsPerson() && page.person().asked ? "class" : "own";
    rungbookRunStart.start({ session: page.id, week: page.week, mode, from, to }, after);
  }

  /** A button of a clock, that leads back to it while it runs. @param {Element | null} place @param {number} from @param {number} to @param {string} words */
  function offer(place, from, to, words) {
    if (!place) return;
    // It has its place in the page, so that nothing moves when this script arrives.
    const one = place.nextElementSibling;
    if (!(one instanceof HTMLElement) || !one.classList.contains("clock-start")) return;
    if (!one.dataset.how) one.addEventListener("click", () => (one.dataset.how === "back" ? rungbookRunStart.back(one) : start(from, to, one)));
    const run = running();
    const here = run !== null && run.from === from && run.to === to;
    one.textContent = here ? "Back to the clock" : words;
    one.dataset.how = here ? "back" : "start";
  }

  function buttons() {
    const blocks = /** @type {HTMLElement[]} */ (Array.from(document.querySelectorAll("[data-block]")));
    offer(document.querySelector("[data-your-version]"), 0, blocks.length - 1, "Start the whole session");
    for (const section of blocks) {
      const at = Number(section.dataset.block);
      offer(section.querySelector(".times"), at, at, "Run the clock");
    }
  }

  for (const change of ["rungbook-own", "rungbook-run", "rungbook-running"]) document.addEventListener(change, buttons);
  buttons();
})();
