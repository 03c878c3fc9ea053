// The page of today: picks the day among those that the build wrote, shows its session as a timetable from
// one Start, and starts its clock. Reads kit, limits and book from the device and sends nothing; what a line
// is for this person comes through the same filter as on a session's page.
"use strict";

(() => {
  const page = /** @type {HTMLElement} */ (document.querySelector("[data-today]"));
  if (!page) return;
  const { make, button } = rungbookMake;
  const { today } = rungbookBring;
  const days = rungbookDays;
  const CHOSEN = "rungbook-chosen";
  const START_AT = "rungbook-start-at";

  /** @param {string} selector @param {ParentNode} [within] @returns {HTMLElement[]} */
  const all = (selector, within = page) => Array.from(within.querySelectorAll(selector));
  /** @param {string} selector */
  const place = (selector) => /** @type {HTMLElement} */ (page.querySelector(selector));

  /** The cycles as the page has them. @returns {CycleDays[]} */
  function cycles() {
    return all("[data-cycle]").map((cycle) => {
      const dated = all("[data-day]", cycle).map((one) => {
        const week = /** @type {HTMLElement} */ (one.closest("[data-week]"));
        return {
          day: one.dataset.day || "", words: (one.textContent || "").split(":")[0], week: Number(week.dataset.week),
          place: Array.from(one.parentElement?.children || []).indexOf(one), kind: week.dataset.kind || "", session: one.dataset.on || "",
        };
      });
      return { id: cycle.dataset.cycle || "", name: cycle.dataset.name || "", days: dated.sort((a, b) => (a.day < b.day ? -1 : 1)) };
    });
  }

  const CYCLES = cycles();
  /** @param {"localStorage" | "sessionStorage"} store @param {string} key @returns {string | null} */
  function taken(store, key) {
    try {
      return window[store].getItem(key);
    } catch {
      return null;
    }
  }

  /** The same as it was before it was text; of what is no text of ours nothing. @param {"localStorage" | "sessionStorage"} store @param {string} key */
  function read(store, key) {
    try {
      return JSON.parse(taken(store, key) || "null");
    } catch {
      return null;
    }
  }

  /** @param {() => Storage} store @param {string} key @param {string} value */
  function put(store, key, value) {
    try {
      store().setItem(key, value);
    } catch {
      // It counts on this page alone.
    }
  }

  /** @typedef {{session: string, week: RunWeek | null}} Chosen */

  /** What was chosen on this day, in this tab. @returns {Chosen | null} */
  function chosen() {
    const found = read("sessionStorage", CHOSEN);
    return found?.day === today() && section(found.session) ? found : null;
  }

  /** @param {string} session @returns {HTMLElement | null} */
  const section = (session) => all("[data-session]").find((one) => one.dataset.session === session) || null;

  /** @param {Chosen} what */
  function choose(what) {
    put(() => sessionStorage, CHOSEN, JSON.stringify({ ...what, day: today() }));
    show(what);
    place("[data-what]").scrollIntoView({ block: "nearest" });
  }

  /** What stands there now. @type {Chosen | null} */
  let shown = null;
  /** Its blocks as the week asks for them, once they came. @type {RunBlock[] | null} */
  let blocks = null;
  let rig_s = 60;
  /** The newest showing wins. */
  let showing = 0;

  /** @param {DayFound} found @returns {Chosen} */
  const ofDay = ({ cycle, on }) => ({ session: on.session, week: { cycle: cycle.id, week: on.week } });

  /** What the member's book says was done; a device without one says nothing. @returns {{day: string, session: string}[]} */
  function done() {
    const book = read("localStorage", "rungbook-book");
    return Array.isArray(book?.done) ? book.done : [];
  }

  /** What the days say of today. @type {DayAnswer} */
  let answer = days.on(CYCLES, today());

  /** A session that was picked; that of today with the week it is in. @param {string} session @returns {Chosen} */
  function picked(session) {
    const its = answer.found.find(({ on }) => on.session === session);
    return its ? ofDay(its) : { session, week: null };
  }

  /** The heading is of what stands there: another session or week than today's is said to be one. @param {Chosen} what */
  function sayWhen({ session, week }) {
    if (answer.kind !== "session") return;
    const cycle = CYCLES.find(({ id }) => id === week?.cycle);
    const on = cycle?.days.find((one) => one.week === week?.week && one.session === session);
    const day = days.words(today());
    place("[data-when]").textContent = cycle && on ? `${day}, ${days.weekWords({ cycle, on })}` : `${day}: another session, as it is written`;
  }

  /** The day: what is on, and what else could be. */
  function pick() {
    const day = today();
    answer = days.on(CYCLES, day);
    const { when, note } = days.said(answer, day);
    place("[data-when]").textContent = when;
    place("[data-note]").replaceChildren(note, ...choices(answer));
    const first = answer.found[0] || answer.next;
    const hash = location.hash.slice(1);
    const asked = section(hash) ? picked(hash) : chosen();
    // Before a cycle nobody is sent into its test: what a usual week of it asks stands there, as written.
    const usual = answer.kind === "before" && answer.next?.cycle.days.find(({ kind }) => !kind.includes("test"));
    if (!asked && usual) show({ session: usual.session, week: null });
    else show(asked || (first ? ofDay(first) : { session: all("[data-session]")[0]?.dataset.session || "", week: null }));
    page.querySelector(".others")?.toggleAttribute("open", !["session", "rest"].includes(answer.kind));
    page.classList.add("ready");
  }

  /** Two cycles on one day, or weeks without a note: what may be taken instead. @param {DayAnswer} answer */
  function choices({ found }) {
    const more = found.length > 1
      ? found.map((one) => choice(`${nameOf(one.on.session)} (${one.cycle.name}, ${days.weekWords(one)})`, ofDay(one)))
      : [];
    const gaps = found.flatMap((one) => {
      const gap = days.missed(one, done());
      if (!gap) return [];
      const instead = { session: gap.again.session, week: { cycle: one.cycle.id, week: gap.again.week } };
      return [
        make("span", "missed", ` ${days.missedWords(gap, one.on)} `),
        choice(`Week ${gap.again.week}: ${nameOf(gap.again.session)}`, instead), choice(`Week ${one.on.week} as planned`, ofDay(one)),
      ];
    });
    return [...more, ...gaps];
  }

  /** @param {string} words @param {Chosen} what */
  const choice = (words, what) => button(words, () => choose(what));
  /** @param {string} session */
  const nameOf = (session) => section(session)?.dataset.name || session;

  /** @param {Chosen} what */
  async function show(what) {
    showing += 1;
    const mine = showing;
    shown = what;
    blocks = null;
    place("[data-what]").textContent = nameOf(what.session);
    for (const one of all("[data-session]")) one.classList.toggle("picked", one.dataset.session === what.session);
    const link = section(what.session)?.querySelector("[data-whole]");
    if (link instanceof HTMLAnchorElement) link.hash = what.week ? `week/${what.week.cycle}/${what.week.week}` : "";
    sayWhen(what);
    weekNote(what);
    starts();
    try {
      const steps = await rungbookBring.inWeek(what.session, what.week);
      if (mine !== showing) return;
      blocks = /** @type {RunBlock[]} */ (/** @type {unknown} */ (steps.blocks));
      rig_s = steps.rig_s;
      sayBlocks();
      starts();
      await lines();
    } catch {
      // The timetable stands as it is written; Start says what could not be read.
    }
  }

  /** What the cycle says of the week, under the hour. @param {Chosen} what */
  function weekNote(what) {
    all(".week-note").forEach((one) => one.remove());
    const week = what.week && page.querySelector(`[data-cycle="${what.week.cycle}"] [data-week="${what.week.week}"] [data-week-note]`);
    if (week) section(what.session)?.append(make("p", "week-note", make("strong", "", `Week ${what.week?.week}: `), week.textContent || ""));
  }

  /** The rows of the hour that stands there. @returns {HTMLElement[]} */
  const rows = () => (shown ? all("[data-block]", section(shown.session) || page) : []);

  /** A lighter week's blocks are shorter than they are written. */
  function sayBlocks() {
    for (const [at, row] of rows().entries()) {
      const block = blocks?.[at];
      const format = row.querySelector(".format");
      if (!block || !format || !block.format) continue;
      format.textContent = block.format;
      row.querySelector(".strut")?.setAttribute("height", String(Math.round((block.clock.total_s * 5) / 60)));
    }
  }

  /** Seconds from the start to each block, and to the end. */
  function offsets() {
    let at = 0;
    const found = rows().map((_, nth) => {
      const start = at;
      at += lasts(nth) + rig_s;
      return start;
    });
    return { found, all: Math.max(0, at - rig_s) };
  }

  /** How long a block lasts; as it is written until the week's blocks came. @param {number} at */
  function lasts(at) {
    if (blocks) return blocks[at]?.clock.total_s || 0;
    const height = Number(rows()[at]?.querySelector(".strut")?.getAttribute("height") || 0);
    return Math.round((height * 60) / 5);
  }

  /** @param {number} ms @returns {string} */
  const wall = (ms) => `${new Date(ms).getHours()}:${String(new Date(ms).getMinutes()).padStart(2, "0")}`;

  /** When it starts: as it was set for today, else now. */
  function startsAt() {
    const [, hours, minutes] = /^(\d\d):(\d\d)$/.exec(taken("localStorage", START_AT) || "") || [];
    return hours === undefined ? Date.now() : new Date().setHours(Number(hours), Number(minutes), 0, 0);
  }

  /** The times of the blocks; while the clock runs, its own. */
  function times() {
    if (running && running.session === shown?.session) return;
    const begin = startsAt();
    const { found, all: whole } = offsets();
    rows().forEach((row, at) => {
      const text = row.querySelector(".at");
      if (text) text.textContent = wall(begin + found[at] * 1000);
      row.classList.remove("now", "gone");
    });
    const span = page.querySelector("[data-span]");
    if (span) span.textContent = `ends ${wall(Date.now() + whole * 1000)}`;
  }

  /** The session that runs, as its clock says. @type {{session: string} | null} */
  let running = null;

  /** While the clock runs: when each block really began or will, and which is on. @param {RunView} seen @param {RunKnown} known */
  function runs(seen, known) {
    // A clock of another day is not gone back to: its strip offers to note or drop it.
    if (rungbookRunKeep.from(seen.run)) return;
    const wasRunning = running !== null;
    running = { session: seen.run.session };
    if (!wasRunning) starts();
    if (running.session !== shown?.session || seen.run.from > 0) return;
    const own = rungbookRunKeep.now();
    let ahead = Math.max(0, seen.over_in);
    known.parts.forEach((part, at) => {
      const began = at === seen.part ? seen.run.now.started : seen.run.trail[at]?.started;
      const when = began === undefined ? ahead * 1000 : began - own;
      if (at > seen.part) ahead += part.plan.total_s;
      const row = rows()[part.block];
      if (!row || part.rig) return;
      const text = row.querySelector(".at");
      const words = wall(Date.now() + when);
      if (text && text.textContent !== words) text.textContent = words;
      row.classList.toggle("now", !seen.whole && seen.block === part.block);
      row.classList.toggle("gone", seen.whole || seen.block > part.block);
    });
  }

  function stopped() {
    if (taken("localStorage", "rungbook-clock") !== null) return;
    running = null;
    starts();
  }

  /** Whether this device knows anything of a member, or cannot: what was said elsewhere did not come along. */
  const knowsMember = () => rungbookPerson.isBlocked() || rungbookOwnBring.isSomebody(rungbookPerson.who()) || taken("localStorage", "rungbook-book") !== null;

  /** What starts a clock comes when somebody wants one. @param {() => void} act */
  const clock = (act) => rungbookBring.files(["scripts/run-start.js"]).then(act, () => {
    place("[data-starts]").append(make("p", "own-question flag", "The clock could not be read on this device. Try again."));
  });

  /** One Start, and the other one beside it. */
  function starts() {
    const box = place("[data-starts]");
    const person = rungbookPerson.who();
    const begin = (/** @type {"own" | "class"} */ mode) => () => clock(() => {
      if (shown) rungbookRunStart.start({ ...shown, mode, from: 0, to: rows().length - 1 }, box);
    });
    const go = button("", running ? () => clock(() => rungbookRunStart.back(box)) : begin(knowsMember() ? "own" : "class"));
    go.className = "go";
    const time = make("small", "");
    time.dataset.span = "";
    const whom = person.front ? "Start now for this person" : knowsMember() ? "Start now" : "Start now for the class";
    go.append(running ? "Back to the clock" : whom, running ? "" : time);
    const at = document.createElement("input");
    Object.assign(at, { type: "time", value: taken("localStorage", START_AT) || "", ariaLabel: "Times from" });
    at.addEventListener("change", () => {
      put(() => localStorage, START_AT, at.value);
      times();
    });
    const other = knowsMember() ? button("For the class", begin("class")) : button("My version", begin("own"));
    other.hidden = running !== null || person.front;
    box.replaceChildren(go, make("div", "start-more", other, make("label", "", "From ", at)));
    times();
  }

  /** The newest reading of lines wins. */
  let reading = 0;

  /** A line for the class: as it is written, with as much as the week asks once that came. @param {HTMLElement} line */
  function ofClass(line) {
    if (line.dataset.words === undefined) {
      const much = line.querySelector(".dose");
      line.dataset.much = much?.textContent || "";
      much?.remove();
      line.dataset.words = line.textContent?.trim() || "";
    }
    const row = line.closest("[data-block]");
    const item = row instanceof HTMLElement ? blocks?.[Number(row.dataset.block)]?.items[Number(line.dataset.line)] : null;
    return `${line.dataset.words} ${item ? item.dose || "" : line.dataset.much}`.trim();
  }

  /** Each line in the words of whom the page is for; nobody's own before limits are answered. */
  async function lines() {
    reading += 1;
    const mine = reading;
    const person = rungbookPerson.who();
    const somebody = person.front || knowsMember();
    const said = all("[data-line]", section(shown?.session || "") || page);
    for (const line of said) {
      const written = ofClass(line);
      // Somebody's limits may forbid what is written: it goes at once, and their own comes.
      line.textContent = somebody ? (person.asked ? "…" : "Say your limits first: Start asks for them") : written;
    }
    for (const image of all(".pics img", section(shown?.session || "") || page)) {
      image.dataset.written ??= image.getAttribute("src") || "";
      image.classList.toggle("away", somebody);
      image.setAttribute("src", image.dataset.written);
    }
    if (!somebody || !person.asked || !blocks) return;
    const found = await rungbookOwnBring.versions(blocks, person);
    if (mine !== reading) return;
    for (const line of said) {
      const block = line.closest("[data-block]");
      const key = block instanceof HTMLElement ? `${block.dataset.block}/${line.dataset.line}` : "";
      line.replaceChildren(...ownLine(found?.get(key), found !== null));
    }
    if (found) figures(found);
  }

  /** The pictures are of what this person does, as it is drawn, or of nothing. @param {Map<string, OwnVersion>} found */
  function figures(found) {
    rows().forEach((row, at) => {
      const own = [...found].flatMap(([key, version]) => (key.startsWith(`${at}/`) && version.kind !== "ask" && !version.brief && version.movement ? [version.movement] : []));
      const movements = [...new Set(own)];
      for (const [nth, image] of row.querySelectorAll(".pics img").entries()) {
        if (!(image instanceof HTMLImageElement)) continue;
        image.classList.toggle("away", nth >= movements.length);
        if (nth < movements.length) image.src = `figures/movements/${movements[nth]}.svg`;
      }
    });
  }

  /** @param {OwnVersion | undefined} version @param {boolean} isRead @returns {(Node | string)[]} */
  function ownLine(version, isRead) {
    if (!isRead) return ["Not read on this device: ask your coach"];
    if (!version || version.kind === "ask") return [make("strong", "", rungbookPerson.front() ? "Nothing fits: you decide" : "Ask your coach")];
    const named = [version.name, version.setting, version.brief].filter(Boolean).join(", ");
    const link = make("a", "", named);
    link.href = rungbookOwnBring.page(version);
    return [link, " ", make("span", "dose", version.dose)];
  }

  page.addEventListener("click", (event) => {
    const link = event.target instanceof HTMLElement ? event.target.closest("[data-choose]") : null;
    if (!(link instanceof HTMLElement)) return;
    event.preventDefault();
    choose(picked(link.dataset.choose || ""));
  });
  document.addEventListener("rungbook-person", () => {
    starts();
    lines().catch(() => {});
  });
  document.addEventListener("rungbook-book", () => lines().catch(() => {}));
  document.addEventListener("rungbook-run", stopped);
  document.addEventListener("rungbook-running", () => rungbookRunning.watch(runs));
  // A page that stood open overnight, or a timetable that is a minute old.
  let day = today();
  const look = () => {
    if (today() !== day) {
      day = today();
      pick();
    } else times();
  };
  document.addEventListener("visibilitychange", look);
  setInterval(look, 20000);
  pick();
})();
