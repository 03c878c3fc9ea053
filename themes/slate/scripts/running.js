// The session that runs on this device: in the words of whom the page is for, or as the class's clock for
// nobody in particular. Ticks, and hands what is to be seen to the face and the strip. Never orders what
// somebody is not to do, and never goes on in the words of whoever was here before.
"use strict";

/**
 * @typedef {Omit<StepBlock, "items"> & {clock: RunPart["plan"], items: RunItem[]}} RunBlock
 * @typedef {{steps: Steps, blocks: RunBlock[], parts: RunPart[], lines: (ClockLine | null)[][], whose: string,
 *   versions: Map<string, OwnVersion> | null, asks: boolean}} RunKnown `asks`: limits are to be said first
 * @typedef {{session: string, week: RunWeek | null, mode: "own" | "class", from: number, to: number}} RunWanted
 */

const rungbookRunning = (() => {
  const run = rungbookRun;
  const keep = rungbookRunKeep;
  const own = rungbookOwnClock;
  const signals = rungbookRunSignals;

  const CLASS_FOR = "rungbook-class-for";

  /** @type {RunKnown | null} */
  let known = null;
  /** What `known` was made of. */
  let knownAs = "";
  /** The newest reading wins. */
  let reading = 0;
  /** @type {{part: number, ms: number, at: number} | null} */
  let last = null;
  let said = "";
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let waiting;
  /** @type {((seen: RunView, known: RunKnown) => void)[]} */
  const watchers = [];

  /** @param {Steps} steps @returns {RunBlock[]} */
  const blocksOf = (steps) => /** @type {RunBlock[]} */ (/** @type {unknown} */ (steps.blocks));

  /**
   * The plans and lines of a session for whom they are.
   * @param {Steps} steps @param {WholeRun} of @param {"class" | Map<string, OwnVersion> | null} words null: times alone
   * @returns {RunKnown}
   */
  function told(steps, of, words) {
    const blocks = blocksOf(steps);
    const person = rungbookPerson.who();
    const versions = words instanceof Map ? words : null;
    const lineOf = (/** @type {number} */ at) => blocks[at].items.map((_, line) => versions?.get(`${at}/${line}`));
    const planned = blocks.map(({ name, clock }, at) => {
      if (words === "class") return { name, plan: own.forClass(clock, of.groups?.[at]) };
      const plan = versions ? own.forPerson(clock, lineOf(at), person.front) : own.unread(clock, person);
      // A set takes as long as the class's longest, or as this person's hold, where that is longer.
      const own_s = lineOf(at).map(own.lasts);
      const sets_s = clock.sets_s?.map((seconds, turn) => Math.max(seconds, own_s[clock.turns[turn][2] ?? -1] || 0));
      return { name, plan: { ...plan, sets_s } };
    });
    const lines = blocks.map(({ items }, at) =>
      words === "class" ? items.map(own.classLine) : versions ? lineOf(at).map(own.line) : items.map(() => null));
    const whose = words === "class" ? own.CLASS : !versions ? "Times alone" : person.front ? "For this person" : "In your own version";
    const parts = run.parts(planned, steps.rig_s, of.from, of.to);
    return { steps, blocks, parts, lines, whose, versions, asks: words !== "class" && !person.asked && !keep.from(of) };
  }

  /**
   * Whether the class's words are said: asked for by that name, on this tab, by whoever is still here. To
   * somebody else with limits or kit of their own they are not shown.
   * @param {WholeRun} of @param {Who} person
   */
  function isForClass(of, person) {
    if (of.mode !== "class") return false;
    if (!rungbookOwnBring.isSomebody(person)) return true;
    return classFor === JSON.stringify(person);
  }

  /** Who asked for the class's clock on this tab, as person.js had them. @type {string | null} */
  let classFor = (() => {
    try {
      return sessionStorage.getItem(CLASS_FOR);
    } catch {
      return null;
    }
  })();

  /** @param {{mode: "own" | "class"}} wanted */
  function rememberClass(wanted) {
    classFor = wanted.mode === "class" ? JSON.stringify(rungbookPerson.who()) : null;
    try {
      if (classFor === null) sessionStorage.removeItem(CLASS_FOR);
      else sessionStorage.setItem(CLASS_FOR, classFor);
    } catch {
      // It counts on this page alone.
    }
  }

  /** Reads the words of what runs: times alone first, then for whom the page is for. @param {WholeRun} of */
  async function readWords(of) {
    reading += 1;
    const mine = reading;
    const key = JSON.stringify([of.session, of.week, of.mode, of.from, of.to]);
    const person = rungbookPerson.who();
    // Whatever comes after: somebody in front did some of it, and the book is not theirs.
    if (person.front && !of.front) keep.set({ ...of, front: true });
    const isClass = isForClass(of, person);
    const steps = await rungbookBring.inWeek(of.session, of.week);
    if (mine !== reading) return;
    knownAs = key;
    show(told(steps, of, isClass ? "class" : null));
    if (isClass || !person.asked) return;
    // What is left out or changed today says nothing of what was done on another day.
    if (keep.from(of)) return;
    const versions = await rungbookOwnBring.versions(blocksOf(steps), person);
    if (mine !== reading || !versions) return;
    show(told(steps, of, versions));
    rememberDone(versions, person);
  }

  /**
   * What is done, in words, for a note on a later day; only what may be kept on this device: nothing of
   * somebody in front, nor of limits that count in this tab alone.
   * @param {Map<string, OwnVersion>} versions @param {Who} person
   */
  function rememberDone(versions, person) {
    const now = keep.run();
    const may = !person.front && !now?.front && (rungbookPerson.areKept() || Object.keys(person.limits).length === 0);
    const as = may && known && now ? own.doneIn(versions, known.blocks, now) : "";
    if (now && (now.as || "") !== as) keep.set({ ...now, as });
  }

  /** @param {RunKnown} now */
  function show(now) {
    known = now;
    draw();
  }

  /** Whether the line of a block is done a side at a time. @param {number} block @param {number} line */
  const hasSides = (block, line) => known?.lines[block]?.[line]?.sides === true;

  /** What is said aloud and spoken: at each change, once. @param {RunView} seen */
  function words(seen) {
    if (seen.whole) return "Time. Session done.";
    if (seen.paused) return "Paused.";
    const next = seen.next ? ` Next: ${seen.next}.` : "";
    if (seen.phase === "ready") return `Get ready.${next}`;
    const line = seen.work && seen.line !== null ? known?.lines[seen.block]?.[seen.line] : null;
    const much = line ? own.amount(line.dose, seen.now) : "";
    const count = seen.count ? ` ${seen.count.word} ${seen.count.n}${seen.count.of ? ` of ${seen.count.of}` : ""}.` : "";
    const what = line ? [line.name, line.more, much].filter(Boolean).join(", ") : seen.now;
    return `${seen.rest_s > 0 ? "Rest, then " : ""}${what}.${count}${seen.side === "Other side" ? " Other side." : ""}${seen.work ? "" : next}${rungbookClock.near(seen.plan, seen)}`;
  }

  function draw() {
    clearTimeout(waiting);
    const kept = keep.run();
    if (!kept || !known) return;
    const at = keep.now();
    // A clock of another day never goes on: it is seen as ended where it was left.
    const now = keep.from(kept) && kept.ended === null ? { ...kept, ended: kept.begun } : kept;
    const seen = run.view(known.parts, now, at, hasSides);
    if (seen.run.at !== now.at) {
      // The part went by: kept, so that another tab and a reload start from here.
      keep.set(seen.run);
      return;
    }
    const signal = seen.paused ? null : run.signal(last, seen, at);
    last = { part: seen.part, ms: seen.ms, at };
    if (signal) signals.give(signal);
    const telling = words(seen);
    if (telling !== said && said !== "") signals.say(telling);
    said = telling;
    watchers.forEach((watch) => watch(seen, /** @type {RunKnown} */ (known)));
    if (seen.whole) return;
    const toNext = 1000 - (((seen.ms % 1000) + 1000) % 1000);
    waiting = setTimeout(draw, seen.paused ? 1000 : Math.min(250, Math.max(8, toNext + 1)));
  }

  /** Something was done to the run. @param {(all: RunPart[], run: WholeRun, own: number) => WholeRun} how */
  function change(how) {
    const now = keep.run();
    if (now && known) keep.set(how(known.parts, now, keep.now()));
  }

  /** The groups that too little kit was shared into, on the session's page in this tab. @param {string} session @returns {Record<string, ClockSlot[]>} */
  function groupsOf(session) {
    try {
      const kept = JSON.parse(sessionStorage.getItem("rungbook-groups") || "null");
      const blocks = kept?.session === session ? Object.entries(kept.blocks) : [];
      return Object.fromEntries(blocks.map(([at, { slots }]) => [at, slots]));
    } catch {
      return {};
    }
  }

  /** Starts the clock, with its count-in. @param {RunWanted} wanted */
  async function start(wanted) {
    const steps = await rungbookBring.inWeek(wanted.session, wanted.week);
    rememberClass(wanted);
    last = null;
    said = "";
    known = null;
    const groups = wanted.mode === "class" ? groupsOf(wanted.session) : {};
    keep.set({ groups, ...run.begin({ ...wanted, to: Math.min(wanted.to, steps.blocks.length - 1) }, keep.now()), day: rungbookBook.today() });
  }

  /** What was started anew, or in another tab: its words first. */
  function moved() {
    const now = keep.run();
    if (now && (!known || knownAs !== JSON.stringify([now.session, now.week, now.mode, now.from, now.to]))) readWords(now).catch(() => {});
    else draw();
  }

  /** Somebody else is here, or their limits or book changed. */
  function redraw() {
    const now = keep.run();
    if (now) readWords(now).catch(() => {});
  }

  /** The class's clock goes on while a coach looks something up for one person: whose words it says, by name. @param {"own" | "class"} mode */
  function sayFor(mode) {
    rememberClass({ mode });
    redraw();
  }

  let person = JSON.stringify(rungbookPerson.who());
  document.addEventListener("rungbook-person", (event) => {
    const now = JSON.stringify(/** @type {CustomEvent<Who>} */ (event).detail);
    if (now !== person) redraw();
    person = now;
  });
  document.addEventListener("rungbook-book", redraw);
  document.addEventListener("rungbook-run", moved);
  document.addEventListener("visibilitychange", draw);

  /** Back to what runs, after a reload. */
  const resume = () => (keep.run() ? readWords(/** @type {WholeRun} */ (keep.run())) : Promise.resolve());

  return { start, resume, change, sayFor, draw, words, known: () => known, watch: (/** @type {(seen: RunView, known: RunKnown) => void} */ one) => watchers.push(one) };
})();
document.dispatchEvent(new CustomEvent("rungbook-running"));
