// A session's page on this device: each line in the person's own version. Reads kit, limits and book
// from the device and sends nothing; the page is complete without it, and is then for nobody in
// particular. The clock of each block is session-clock.js's business.
"use strict";

/**
 * @typedef {Omit<StepBlock, "items"> & {clock: ClockPlan, time?: string, items: OwnItem[]}} SessionBlock
 */

const rungbookSessionPage = (() => {
  const article = document.querySelector("[data-session]");
  const strip = document.querySelector("[data-your-version]");
  const root = document.body.dataset.root || "";
  const id = article instanceof HTMLElement ? article.dataset.session || "" : "";
  /**
   * The week of a cycle that the page was opened for, by today's page: `#week/six-weeks/3`; else the week
   * that is on today, unless the sets as written were asked for. @type {RunWeek | null}
   */
  const week = weekOf(location.hash);
  const { make, button } = rungbookMake;

  /** @type {SessionBlock[]} */
  let blocks = [];
  /** @type {Who} */
  let person = { kit: null, limits: {}, noise: "loud", front: false, asked: false, gone: [] };
  /**
   * Every line's version by `block/line`, as it is worked out for this person; null where it was not asked
   * for since they changed. @type {Promise<Map<string, OwnVersion> | null> | null}
   */
  let finding = null;
  /** Whether the lines show a person's own version. */
  let own = false;
  /** The newest showing wins: an answer for somebody before is not shown. */
  let showing = 0;

  /** @param {string} to @param {string} text @param {string} [className] */
  function link(to, text, className = "") {
    const made = make("a", className, text);
    made.href = root + to;
    return made;
  }

  /** @param {string} hash @returns {RunWeek | null} */
  function weekOf(hash) {
    const asked = /^#week\/([a-z0-9-]+)\/(\d+)$/.exec(hash);
    if (asked) return { cycle: asked[1], week: Number(asked[2]) };
    const day = rungbookBring.today();
    const links = Array.from(document.querySelectorAll("[data-this-week] a")).filter((one) => one instanceof HTMLAnchorElement);
    const on = links.filter(({ dataset: { from = "", to = "" } }) => from <= day && day <= to);
    for (const link of on) link.hidden = false;
    if (on[0]?.parentElement) on[0].parentElement.hidden = false;
    // Of two cycles at once nobody chose one.
    if (hash === "#as-written" || on.length !== 1) return null;
    const found = weekOf(on[0].hash);
    on[0].textContent = `The sets of week ${found?.week}, which is on; see them as written`;
    on[0].hash = "#as-written";
    return found;
  }

  /** The page's own lines ask what the week asks too. @param {number} number @param {number} rig_s between two blocks */
  function sayWeek(number, rig_s) {
    let isShorter = false;
    for (const [at, block] of blocks.entries()) {
      const section = article?.querySelector(`[data-block="${at}"]`);
      const format = section?.querySelector(".format");
      if (format && block.format) format.textContent = block.format;
      const time = section?.querySelector(".times > .computed");
      isShorter ||= Boolean(time && block.time && time.textContent !== block.time);
      if (time && block.time) time.textContent = block.time;
      for (const [line, item] of block.items.entries()) {
        const dose = section?.querySelector(`[data-item="${line}"] > .what > .dose`);
        if (dose && item.dose) dose.textContent = item.dose;
        // A rung that has a dose of its own.
        for (const much of section?.querySelectorAll(`[data-item="${line}"] .three .dose`) || []) {
          const to = much.parentElement?.querySelector("a")?.hash || "";
          const asked = item.asked[Number(/-(\d+)$/.exec(to)?.[1]) - 1];
          if (asked) much.textContent = rungbookDose.words(asked);
        }
      }
    }
    // What was reckoned of the whole as it is written holds no more.
    const whole = article?.querySelector("[data-whole]");
    if (isShorter && whole) {
      const lasts = blocks.reduce((sum, { clock }) => sum + clock.total_s, rig_s * (blocks.length - 1));
      whole.textContent = `about ${Math.round(lasts / 60)} min by the clock, with the changes between blocks`;
      article?.querySelector(".arithmetic")?.remove();
    }
    const over = article?.querySelector(".over");
    if (over && !over.textContent?.includes("week")) over.append(`, as week ${number} asks for it`);
  }

  async function bringBlocks() {
    if (blocks.length) return blocks;
    const session = await rungbookBring.inWeek(id, week);
    blocks = /** @type {SessionBlock[]} */ (/** @type {unknown} */ (session.blocks));
    if (week) {
      await rungbookBring.files(["scripts/dose.js"]);
      sayWeek(week.week, session.rig_s);
    }
    return blocks;
  }

  /** Works out every line; null when something did not come. @param {Who} of */
  async function find(of) {
    try {
      return rungbookOwnBring.versions(await bringBlocks(), of);
    } catch {
      return null;
    }
  }

  /** The versions of this person, worked out once. Nothing before limits are answered. */
  async function known() {
    if (!person.asked) return null;
    const now = (finding ??= find(person));
    const found = await now;
    // What did not come may come when it is asked for again.
    if (found === null && finding === now) finding = null;
    return found;
  }

  /** Half an answer could show something that does not fit: all lines are shown or none. */
  async function show() {
    showing += 1;
    const mine = showing;
    clear();
    question();
    if (!own || !person.asked) return;
    tell("");
    const found = await known();
    if (mine !== showing || !own) return;
    if (!found) return tell(`${person.front ? "This person's" : "Your"} version could not be read on this device. The whole session stands below, for nobody in particular${person.front ? "" : "; ask your coach"}.`);
    for (const [place, version] of found) draw(place, version);
    tell(`Each line shows ${person.front ? "this person's" : "your"} version first; times and kit stand as written for everybody.`);
  }

  function clear() {
    document.querySelectorAll(".own, .this-one").forEach((one) => one.remove());
    document.querySelectorAll(".not-as-written").forEach((one) => one.classList.remove("not-as-written"));
  }

  function question() {
    document.querySelector("[data-limits-asked]")?.remove();
    if (!own || person.asked) return;
    tell("");
    const box = rungbookOwnBring.question();
    box.dataset.limitsAsked = "";
    strip?.after(box);
  }

  /** @param {string} place `block/line` @param {OwnVersion} version */
  function draw(place, version) {
    const [block, line] = place.split("/");
    const row = article?.querySelector(`[data-block="${block}"] [data-item="${line}"]`);
    row?.querySelector(":scope > .own")?.remove();
    row?.prepend(ownRow(version));
    // What the class is told of the line may say otherwise than a changed version, or speak of another movement;
    // "fine" is the line's own movement as it stands, and nothing else is.
    row?.classList.toggle("not-as-written", version.kind !== "fine");
    if (row) markTile(row, version);
  }

  /** Which of the line's ways is theirs. @param {Element} row @param {OwnVersion} version */
  function markTile(row, version) {
    if (version.kind === "ask" || version.kind === "swap") return;
    const page = rungbookOwnBring.page(version);
    for (const tile of row.querySelectorAll(".three > li")) {
      const to = tile.querySelector("a")?.getAttribute("href") || "";
      // Where no rung of theirs is known, the movement is.
      const isIt = (page.includes("#") ? to : to.split("#")[0]).endsWith(page);
      if (isIt) tile.append(make("span", "this-one", `${person.front ? "They do" : "You do"} this one`));
    }
  }

  /** @param {OwnVersion} version */
  function ownRow(version) {
    const reasons = version.why.map((words) => make("span", "why", `${words} `));
    if (version.kind === "ask") return make("div", "own ask", make("p", "own-what", person.front ? "Nothing fits: you decide" : "Ask your coach"), make("p", "quiet", ...reasons));
    const named = version.setting ? `${version.name}, ${version.setting}` : version.name;
    const whom = person.front ? "They" : "You";
    const way = version.kind === "swap" ? "Swap" : version.kind === "changed" ? `${whom}, changed` : whom;
    const what = make("p", "own-what", make("span", "way", way), link(rungbookOwnBring.page(version), named, "own-name"));
    if (version.dose) what.append(" ", make("span", "dose", version.dose));
    const row = make("div", `own ${version.kind}`, what);
    if (version.change) row.append(make("p", "change-how", version.change));
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
        for (const { see, say } of card.faults) faults.append(make("dt", "", see), make("dd", "", say || ""));
        const list = make("ul", "", ...card.cues.map((cue) => make("li", "", make("q", "", cue))));
        if (card.figure) place.append(picture(card.figure));
        if (version.change) place.append(make("p", "caution-line", `${version.change} It holds over every cue here.`));
        place.append(list, make("p", "", card.standard), faults);
        if (card.caution) place.append(make("p", "caution-line", card.caution));
        place.append(make("p", "", link(rungbookOwnBring.page(version), "Its whole page", "button")));
      } catch {
        place.append(link(rungbookOwnBring.page(version), "Its whole page", "button"));
      }
    }, { passive: true });
    return details;
  }

  const said = make("span", "quiet");
  said.setAttribute("aria-live", "polite");
  /** @param {string} words */
  function tell(words) {
    said.textContent = words;
  }

  const toggle = button("My version", () => turn(!own));

  /** @param {boolean} on */
  function turn(on) {
    own = on;
    toggle.setAttribute("aria-pressed", String(own));
    if (!own) tell("");
    return show();
  }

  function fillStrip() {
    toggle.setAttribute("aria-pressed", "false");
    strip?.replaceChildren(toggle, " ", link("kit-and-limits.html", "Kit and limits", "button"), " ", link("book.html", "My book", "button"), " ", said);
    if (strip instanceof HTMLElement) strip.hidden = false;
  }

  /** Whether this device knows anything of whom the page is for. */
  function knowsPerson() {
    if (rungbookOwnBring.isSomebody(person)) return true;
    try {
      return localStorage.getItem("rungbook-book") !== null;
    } catch {
      return false;
    }
  }

  /** Somebody else, or something else about them: nothing that was worked out before holds. @param {Who | null} now */
  function changed(now) {
    if (now && JSON.stringify(now) === JSON.stringify(person)) return;
    if (now) person = now;
    toggle.textContent = person.front ? "This person's version" : "My version";
    finding = null;
    show();
    document.dispatchEvent(new CustomEvent("rungbook-own"));
  }

  window.addEventListener("hashchange", () => {
    if (/^#(week\/|as-written$)/.test(location.hash)) location.reload();
  });
  document.addEventListener("rungbook-person", (event) => changed(/** @type {CustomEvent<Who>} */ (event).detail));
  document.addEventListener("rungbook-book", () => changed(null));
  // Who shares little kit asks for it: only then its scripts come.
  for (const place of document.querySelectorAll("[data-share]")) {
    place.addEventListener("toggle", async () => {
      const here = place.querySelector("[data-share-here]");
      await rungbookBring.files(["scripts/share.js", "scripts/share-page.js"]);
      if (here instanceof HTMLElement && place instanceof HTMLElement) rungbookSharePage(here, Number(place.dataset.share));
    }, { once: true });
  }
  fillStrip();
  document.dispatchEvent(new CustomEvent("rungbook-who"));
  if (knowsPerson()) turn(true);
  if (week) bringBlocks().catch(() => {});

  return { id, week, article, bringBlocks, known, knowsPerson, tell, person: () => person, isOwn: () => own };
})();
