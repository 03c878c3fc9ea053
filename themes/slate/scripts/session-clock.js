// The clock of each block of a session's page: in the words of whom the page is for, or, when somebody
// asks for it by its name, the class's clock. Never orders what a person is not to do, and never goes on
// in the words of whoever was here before.
"use strict";

(() => {
  const page = rungbookSessionPage;
  if (!page.article) return;
  const { make, button } = rungbookMake;

  /** @type {SessionBlock[]} */
  let blocks = [];

  /** @param {string} key */
  function kept(key) {
    try {
      return JSON.parse(localStorage.getItem(key) || "null");
    } catch {
      return null;
    }
  }

  /** @typedef {ClockRun & {mode?: "own" | "class"}} KeptRun */

  /** The run that this device keeps, when it is of this session. @returns {KeptRun | null} */
  function running() {
    /** @type {KeptRun | null} */
    const run = kept("rungbook-clock")?.run || null;
    return run && run.session === page.id ? run : null;
  }

  /**
   * A block's clock for whom the page is for. Without their versions it says times alone; the class's clock
   * is asked for by name.
   * @param {number} at @param {"own" | "class"} mode @param {Map<string, OwnVersion> | null} versions
   * @returns {Promise<ClockBlock>}
   */
  async function clockOf(at, mode, versions) {
    const block = (await page.bringBlocks())[at];
    const named = { session: page.id, block: at, name: block.name, mode };
    if (mode === "class") return { ...named, plan: block.clock, whose: rungbookOwnClock.CLASS, done: "" };
    const lines = block.items.map((_, line) => versions?.get(`${at}/${line}`));
    const whose = page.person().front ? "For this person" : "In your own version";
    if (!versions) return { ...named, plan: rungbookOwnClock.unread(block.clock), whose: "Times alone", done: "" };
    return { ...named, plan: rungbookOwnClock.forPerson(block.clock, lines), whose, done: rungbookOwnClock.done(lines) };
  }

  /** @param {number} at @returns {(noted: ClockNoted) => string} */
  const noteIn = (at) => (noted) => {
    // What the person in front did is not the member's whose device this is.
    if (page.person().front) return "Not kept: this was for the person in front, and My book is the member's own.";
    const block = blocks[at];
    const done = rungbookBook.change((book) => {
      const rounds = noted.rounds > 0 ? noted.rounds : null;
      book.done.push({
        id: rungbookBook.newId(), day: rungbookBook.today(), session: page.id, block: block.name.slice(0, 120), rounds,
        reps: noted.reps, note: noted.note,
      });
    });
    return done ? "" : "This browser keeps nothing: write it on paper.";
  };

  async function bring() {
    blocks = await page.bringBlocks();
    await rungbookBring.files(["scripts/book.js", "scripts/own-clock.js", "scripts/clock.js", "scripts/clock-face.js"]);
  }

  /** Opens the class's clock. @param {number} at */
  async function openClass(at) {
    ask(at, null);
    try {
      await bring();
      rungbookClockFace.start(await clockOf(at, "class", null), noteIn(at));
    } catch {
      page.tell("The clock could not be read on this device.");
    }
  }

  /** @param {number} at @param {HTMLElement | null} box what is asked before a clock runs; null: nothing */
  function ask(at, box) {
    document.querySelectorAll("[data-clock-asks]").forEach((one) => one.remove());
    if (!box) return;
    box.dataset.clockAsks = "";
    document.querySelector(`[data-block="${at}"] .clock-start`)?.after(box);
    box.querySelector("button")?.focus();
  }

  /** @param {number} at */
  const classButton = (at) => button("Run the class's clock", () => openClass(at));
  const NOBODY = " It is for nobody in particular: who has limits asks the coach what to do.";

  /** What a block's clock wants to know first: no clock in anybody's words before limits are answered. @type {number | null} */
  let waits = null;

  /** Starts the clock of a block. @param {number} at */
  async function start(at) {
    const person = page.person();
    waits = null;
    ask(at, null);
    if (!person.asked) {
      waits = at;
      return ask(at, rungbookOwnBring.question(" ", classButton(at), make("span", "quiet", NOBODY)));
    }
    if (!page.isOwn() && !page.knowsPerson()) return openClass(at);
    const versions = await page.known();
    if (person !== page.person()) return start(at);
    if (!versions) {
      const [whose, who] = person.front ? ["This person's", "they"] : ["Your", "you"];
      const words = `${whose} version could not be read on this device, so the clock cannot say what ${who} do. `;
      return ask(at, make("p", "own-question flag", words, classButton(at), make("span", "quiet", NOBODY)));
    }
    try {
      await bring();
      rungbookClockFace.start(await clockOf(at, "own", versions), noteIn(at));
    } catch {
      page.tell("The clock could not be read on this device.");
    }
  }

  /** How a run goes on: the class's words are never shown to somebody with limits or kit of their own. @param {KeptRun} run */
  async function goesOn(run) {
    const somebody = rungbookOwnBring.isSomebody(page.person());
    if (run.mode === "class" && !somebody) return clockOf(run.block, "class", null);
    return clockOf(run.block, "own", await page.known());
  }

  /** Back to a run, after a reload or after hiding it; in a new tab once limits are answered. */
  async function back() {
    const run = running();
    if (!run) return;
    ask(run.block, null);
    waits = run.mode !== "class" && !page.person().asked ? run.block : null;
    if (waits !== null) return ask(waits, rungbookOwnBring.question());
    try {
      await bring();
      rungbookClockFace.back(await goesOn(run), noteIn(run.block));
    } catch {
      page.tell("The clock could not be read on this device.");
    }
  }

  /** The newest redrawing wins. */
  let drawing = 0;

  /** Somebody else is here, or their limits changed: the running clock says nothing of before. */
  async function redraw() {
    drawing += 1;
    const mine = drawing;
    buttons();
    const run = running();
    if (waits !== null && page.person().asked) return run ? back() : start(waits);
    if (!run || typeof rungbookClockFace === "undefined") return;
    const stays = run.mode === "class" && !rungbookOwnBring.isSomebody(page.person());
    if (stays) return;
    rungbookClockFace.redraw(await clockOf(run.block, "own", null));
    const now = await goesOn({ ...run, mode: "own" });
    if (mine === drawing) rungbookClockFace.redraw(now);
  }

  function buttons() {
    const run = running();
    for (const section of document.querySelectorAll("[data-block]")) {
      if (!(section instanceof HTMLElement)) continue;
      const at = Number(section.dataset.block);
      let one = section.querySelector("button.clock-start");
      if (!one) {
        one = button("", () => (one instanceof HTMLElement && one.dataset.how === "back" ? back() : start(at)));
        one.className = "clock-start";
        section.querySelector(".times")?.after(one);
      }
      const here = run !== null && run.block === at;
      one.textContent = here ? "Back to the clock" : "Run the clock";
      if (one instanceof HTMLElement) one.dataset.how = here ? "back" : "start";
    }
  }

  document.addEventListener("rungbook-own", redraw);
  document.addEventListener("rungbook-clock", buttons);
  buttons();
  if (running()) back();
})();
