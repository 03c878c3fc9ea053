// Starting a session's clock from a page: whose words, and what has to be answered first. Never starts in
// anybody's own words before limits are answered, and the class's clock only when it is asked for by name.
"use strict";

const rungbookRunStart = (() => {
  const { make, button } = rungbookMake;
  const NOBODY = " It is for nobody in particular: who has limits asks the coach what to do.";

  /** What waits for an answer. @type {{wanted: RunWanted, after: Element} | null} */
  let waits = null;

  /** Every file that the clock needs. @returns {Promise<void>} */
  async function bring() {
    /** @type {Promise<void>[]} */
    const coming = [];
    document.dispatchEvent(new CustomEvent("rungbook-clock-wanted", { detail: coming }));
    await Promise.all(coming);
  }

  /** @param {Element} after @param {HTMLElement | null} box what is asked before a clock runs; null: nothing */
  function ask(after, box) {
    document.querySelectorAll("[data-clock-asks]").forEach((one) => one.remove());
    if (!box) return;
    box.dataset.clockAsks = "";
    after.after(box);
    box.querySelector("button")?.focus();
  }

  /** @param {RunWanted} wanted @param {Element} after */
  async function go(wanted, after) {
    ask(after, null);
    try {
      await bring();
      await rungbookRunning.start(wanted);
      await rungbookRunStrip.openFace();
    } catch {
      ask(after, make("p", "own-question flag", "The clock could not be read on this device. ", button("Try again", () => go(wanted, after))));
    }
  }

  /** @param {RunWanted} wanted @param {Element} after */
  const classButton = (wanted, after) => button("Run the class's clock", () => go({ ...wanted, mode: "class" }, after));

  function runs() {
    try {
      return localStorage.getItem("rungbook-clock") !== null;
    } catch {
      return false;
    }
  }

  /** Back to what runs. @param {Element} after */
  async function back(after) {
    ask(after, null);
    try {
      await bring();
      await rungbookRunStrip.openFace();
    } catch {
      ask(after, make("p", "own-question flag", "The clock could not be read on this device."));
    }
  }

  /** Another clock runs, or one of another day was left: it goes only when that is said. @param {RunWanted} wanted @param {Element} after */
  async function instead(wanted, after) {
    await bring().catch(() => {});
    const run = typeof rungbookRunKeep === "undefined" ? null : rungbookRunKeep.run();
    const day = run ? rungbookRunKeep.from(run) : "";
    const yes = button("Start this one instead", () => startNow(wanted, after));
    const said = make("strong", "", day ? `The clock from ${day} is neither noted nor dropped.` : "Another clock is running.");
    ask(after, make("p", "own-question", said, " ", button(day ? "Note or drop it" : "Back to it", () => back(after)), " ", yes));
  }

  /** @param {RunWanted} wanted @param {Element} after */
  async function startNow(wanted, after) {
    const person = rungbookPerson.who();
    waits = null;
    ask(after, null);
    if (wanted.mode === "class" && !person.front) return go(wanted, after);
    const own = { ...wanted, mode: /** @type {const} */ ("own") };
    if (!person.asked) {
      waits = { wanted: own, after };
      return ask(after, rungbookOwnBring.question(" ", classButton(own, after), make("span", "quiet", NOBODY)));
    }
    const versions = await rungbookBring.inWeek(own.session, own.week)
      .then((steps) => rungbookOwnBring.versions(/** @type {RunBlock[]} */ (/** @type {unknown} */ (steps.blocks)), person), () => null);
    if (versions) return go(own, after);
    const [whose, who] = person.front ? ["This person's", "they"] : ["Your", "you"];
    const words = `${whose} version could not be read on this device, so the clock cannot say what ${who} do. `;
    return ask(after, make("p", "own-question flag", words, classButton(own, after), make("span", "quiet", NOBODY)));
  }

  /** Starts a clock; `after` is where what must be answered first is asked. @param {RunWanted} wanted @param {Element} after */
  const start = (wanted, after) => (runs() ? instead(wanted, after) : startNow(wanted, after));

  document.addEventListener("rungbook-person", () => {
    if (waits && rungbookPerson.who().asked) startNow(waits.wanted, waits.after);
  });

  return { start, back, runs };
})();
