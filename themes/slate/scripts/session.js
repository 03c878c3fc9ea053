// A session's page on this device: each line in the member's own version, and the clock of each block.
// Reads kit, limits and book from the device and sends nothing; the page is complete without it.
"use strict";

/**
 * @typedef {Omit<StepBlock, "items"> & {clock: ClockPlan, items: OwnItem[]}} SessionBlock
 */

(() => {
  const article = document.querySelector("[data-session]");
  const strip = document.querySelector("[data-your-version]");
  if (!(article instanceof HTMLElement && strip instanceof HTMLElement)) return;
  const root = document.body.dataset.root || "";
  const id = article.dataset.session || "";

  /** @type {SessionBlock[]} */
  let blocks = [];
  /** @type {Person} */
  let person = { kit: null, limits: {}, noise: "loud" };
  /** @type {Map<string, OwnVersion>} */
  const versions = new Map();
  /** Whether the member sees their own version. */
  let own = false;

  const { make, button } = rungbookMake;

  /** @param {string} to @param {string} text @param {string} [className] */
  function link(to, text, className = "") {
    const made = make("a", className, text);
    made.href = root + to;
    return made;
  }

  async function bringSession() {
    if (blocks.length) return;
    await rungbookBring.files(["scripts/book.js"]);
    const session = await rungbookBring.session(id);
    blocks = /** @type {SessionBlock[]} */ (/** @type {unknown} */ (session.blocks));
  }

  /** What the lines need and no more: their ladders, and placing where there is a result. */
  async function tools() {
    const book = rungbookBook.read();
    const names = rungbookOwn.laddersOf(blocks.flatMap((block) => block.items));
    const tested = names.some((name) => book.results.some((result) => result.ladder === name));
    const measured = tested || (person.kit !== null && Object.keys(book.heights).length > 0);
    const placing = measured ? await rungbookBring.placing() : null;
    const found = await Promise.all(names.map((name) => rungbookBring.ladder(name)));
    /** @type {Record<string, LadderData>} */
    const ladders = Object.fromEntries(found.map((ladder) => [ladder.id, ladder]));
    return { person, book, ladders, cards: /** @type {Record<string, Card>} */ ({}), placing };
  }

  /** @param {OwnItem} item @param {OwnTools} known */
  async function versionOf(item, known) {
    let version = rungbookOwn.version(item, known);
    while (version.kind === "missing") {
      known.cards[version.movement] = await rungbookBring.card(version.movement);
      version = rungbookOwn.version(item, known);
    }
    return version;
  }

  /** The newest question wins: an answer to an older one is not shown. */
  let asked = 0;

  async function showOwn() {
    asked += 1;
    const mine = asked;
    try {
      await bringSession();
      await rungbookBring.files(["scripts/dose.js", "scripts/own.js"]);
      const known = await tools();
      /** @type {[string, OwnVersion][]} */
      const found = [];
      for (const [at, block] of blocks.entries()) {
        for (const [line, item] of block.items.entries()) found.push([`${at}/${line}`, await versionOf(item, known)]);
      }
      if (mine !== asked) return;
      versions.clear();
      for (const [place, version] of found) {
        versions.set(place, version);
        drawVersion(place, version);
      }
    } catch {
      // Half an answer could show something that does not fit: none is shown.
      hideOwn();
      tell("Your version could not be read on this device. The whole session stands below; ask your coach.");
    }
  }

  function hideOwn() {
    asked += 1;
    versions.clear();
    document.querySelectorAll(".own").forEach((one) => one.remove());
  }

  /** @param {string} place `block/line` @param {OwnVersion} version */
  function drawVersion(place, version) {
    const [block, line] = place.split("/");
    const row = article?.querySelector(`[data-block="${block}"] [data-item="${line}"]`);
    row?.querySelector(":scope > .own")?.remove();
    row?.prepend(ownRow(version));
  }

  /** @param {OwnVersion} version */
  function ownRow(version) {
    const reasons = version.why.map((words) => make("span", "why", `${words} `));
    if (version.kind === "ask") return make("div", "own ask", make("p", "own-what", "Ask your coach"), make("p", "quiet", ...reasons));
    const named = version.setting ? `${version.name}, ${version.setting}` : version.name;
    const what = make("p", "own-what", make("span", "way", version.swapped ? "Your swap" : "You"), link(`movements/${version.movement}.html`, named, "own-name"));
    if (version.dose) what.append(" ", make("span", "dose", version.dose));
    const row = make("div", "own", what);
    if (reasons.length) row.append(make("p", "quiet", ...reasons));
    row.append(cues(version));
    return row;
  }

  /** The movement's key poses. @param {{file: string, words: string}} figure */
  function picture({ file, words }) {
    const image = document.createElement("img");
    image.src = root + file;
    image.alt = words;
    image.className = "own-figure";
    return image;
  }

  /** Figure, cues, what counts and faults, brought when they are opened. @param {OwnVersion} version */
  function cues(version) {
    const details = make("details", "own-cues");
    details.append(make("summary", "", version.cue ? `“${version.cue}” and what to watch` : "Cues and what to watch"));
    details.addEventListener("toggle", async () => {
      if (!details.open || details.children.length > 1) return;
      const place = make("div", "");
      details.append(place);
      try {
        const card = await rungbookBring.card(version.movement);
        const faults = make("dl", "see-say");
        for (const { see, say } of card.faults) faults.append(make("dt", "", see), make("dd", "", say));
        const list = make("ul", "", ...card.cues.map((cue) => make("li", "", make("q", "", cue))));
        if (card.figure) place.append(picture(card.figure));
        place.append(list, make("p", "", card.standard), faults);
        if (card.caution) place.append(make("p", "caution-line", card.caution));
        place.append(make("p", "", link(card.page, "Its whole page", "button")));
      } catch {
        place.append(link(`movements/${version.movement}.html`, "Its whole page", "button"));
      }
    }, { passive: true });
    return details;
  }

  /** @param {string} words */
  function tell(words) {
    const line = strip?.querySelector("[aria-live]");
    if (line) line.textContent = words;
  }

  function fillStrip() {
    const toggle = button("My version", async () => {
      own = !own;
      toggle.setAttribute("aria-pressed", String(own));
      if (!own) {
        hideOwn();
        return tell("");
      }
      await showOwn();
      if (versions.size > 0) tell("Each line shows your version first.");
    });
    toggle.setAttribute("aria-pressed", "false");
    const said = make("span", "quiet");
    said.setAttribute("aria-live", "polite");
    strip?.replaceChildren(toggle, " ", link("kit-and-limits.html", "Kit and limits", "button"), " ", link("book.html", "My book", "button"), " ", said);
    if (strip instanceof HTMLElement) strip.hidden = false;
    return toggle;
  }

  /** What this device keeps under a name; nothing where it keeps nothing. @param {string} key */
  function kept(key) {
    try {
      return JSON.parse(localStorage.getItem(key) || "null");
    } catch {
      return null;
    }
  }

  /** Whether this device knows anything of its member. */
  function knowsMember() {
    const picked = person.kit !== null || Object.keys(person.limits).length > 0 || person.noise !== "loud";
    return picked || kept("rungbook-book") !== null;
  }

  // The clock.

  /** @param {number} at @returns {ClockBlock} */
  function clockOf(at) {
    const block = blocks[at];
    const words = (/** @type {number | null} */ line, /** @type {string} */ what) => {
      const version = line === null ? undefined : versions.get(`${at}/${line}`);
      if (!version || version.kind !== "do") return what;
      // What the round counts stays: `Row, 6` is `Strap row, lean 45 deg, 6`.
      const counted = /, (\d+(?:\+\d+)?)$/.exec(what);
      const named = version.setting ? `${version.name}, ${version.setting}` : version.name;
      return counted ? `${named}, ${counted[1]}` : `${named}${version.dose ? `: ${version.dose}` : ""}`;
    };
    return { session: id, block: at, name: block.name, plan: block.clock, words };
  }

  /** @param {number} at @returns {(noted: ClockNoted) => string} */
  const noteIn = (at) => (noted) => {
    const kept = rungbookBook.change((book) => {
      const rounds = noted.rounds > 0 ? noted.rounds : null;
      book.done.push({
        id: rungbookBook.newId(), day: rungbookBook.today(), session: id, block: blocks[at].name.slice(0, 120), rounds,
        reps: noted.reps, note: noted.note,
      });
    });
    return kept ? "" : "This browser keeps nothing: write it on paper.";
  };

  /** @param {number} at @param {"start" | "back"} how */
  async function openClock(at, how) {
    try {
      await bringSession();
      await rungbookBring.files(["scripts/clock.js", "scripts/clock-face.js"]);
      if (blocks[at]) rungbookClockFace[how](clockOf(at), noteIn(at));
    } catch {
      tell("The clock could not be read on this device.");
    }
  }

  function clockButtons() {
    /** @type {ClockRun | null} */
    const running = kept("rungbook-clock")?.run || null;
    for (const section of document.querySelectorAll("[data-block]")) {
      if (!(section instanceof HTMLElement)) continue;
      const at = Number(section.dataset.block);
      const here = running !== null && running.session === id && running.block === at;
      let one = section.querySelector("button.clock-start");
      if (!one) {
        one = button("", () => openClock(at, one instanceof HTMLElement && one.dataset.how === "back" ? "back" : "start"));
        one.className = "clock-start";
        section.querySelector(".times")?.after(one);
      }
      one.textContent = here ? "Back to the clock" : "Run the clock";
      if (one instanceof HTMLElement) one.dataset.how = here ? "back" : "start";
    }
    return running;
  }

  document.addEventListener("rungbook-person", (event) => {
    person = /** @type {CustomEvent<Person>} */ (event).detail;
    if (own) showOwn();
  });
  document.addEventListener("rungbook-book", () => {
    if (own) showOwn();
  });
  document.addEventListener("rungbook-clock", clockButtons);

  document.dispatchEvent(new CustomEvent("rungbook-who"));
  const toggle = fillStrip();
  const running = clockButtons();
  const ready = knowsMember() ? Promise.resolve(toggle.click()) : Promise.resolve();
  if (running && running.session === id) ready.then(() => openClock(running.block, "back"));
})();
