// The member's results as they stand: one part a ladder, with picture, table and what follows from
// each. Asks placing, retest and norms, which are fetched only once there is a result.
"use strict";

const rungbookBookResults = (() => {
  const { bring, make, dayWords } = rungbookBookParts;
  /** @typedef {Awaited<ReturnType<typeof rungbookBring.placing>>} Known */
  /** Null until it has come. @type {Known | null} */
  let known = null;
  /** @type {Map<string, LadderData>} */
  const ladders = new Map();

  /** What is needed to say something about some ladders. @param {string[]} ids */
  async function ready(ids) {
    const able = await bring("scripts/book-plot.js", "scripts/book-norms.js", "scripts/height.js", "scripts/demands.js", "scripts/own-rung.js");
    known = await rungbookBring.placing().catch(() => null);
    const came = await Promise.allSettled(ids.map((id) => rungbookBring.ladder(id)));
    for (const one of came) if (one.status === "fulfilled") ladders.set(one.value.id, one.value);
    return able && known !== null;
  }

  /** @param {Result} result */
  const counted = ({ counts, amount, added_kg }) =>
    `${amount} ${counts === "seconds" ? "s" : amount === 1 ? "repetition" : "repetitions"}${added_kg > 0 ? `, ${added_kg} kg added` : ""}`;

  /** @param {LadderData | undefined} ladder @param {Result} result */
  function rungWords(ladder, result) {
    const rung = ladder?.rungs[result.rung - 1];
    const unit = rung && ladder?.tables[rung.movement]?.unit;
    const own = Object.entries(result.setting || {}).map(([name, at]) => `${name} ${at}${unit ? ` ${unit}` : ""}`);
    const setting = own.length ? own.join(", ") : rung?.setting;
    if (result.rung < 1) return [`a rung that the ladder has no more${result.movement ? `: ${result.movement.replaceAll("-", " ")}` : ""}`, ...own].join(", ");
    return `rung ${result.rung}${rung ? `: ${rung.name}` : ""}${setting ? `, ${setting}` : ""}`;
  }

  /** A result as placing and retest take it. @param {LadderData} ladder @param {Result} result @param {Book} book */
  function asTest(ladder, result, book) {
    const at = result.rung - 1;
    const setting = ladder.tables[ladder.rungs[at]?.movement]?.setting;
    const value = setting === undefined ? undefined : result.setting?.[setting];
    const own = value === undefined ? null : rungbookDemands.own(ladder, at, value, book.stature_cm);
    const { rung, counts, amount, added_kg } = result;
    return { test: { rung, counts, amount, added_kg, body_mass_kg: book.body_mass_kg, own }, lost: result.setting !== null && own === null };
  }

  /** Where a result stands on the axis; null where its rung has no number. @param {LadderData} ladder @param {Result} result @param {Book} book */
  function onAxis(ladder, result, book) {
    const rung = ladder.rungs[result.rung - 1];
    const table = rung && ladder.tables[rung.movement];
    const value = table && result.setting?.[table.setting];
    if (!rung?.axis) return null;
    const own = value === undefined ? null : rungbookHeight.at(table, value, book.stature_cm ?? table.statures[1]);
    return own ?? rung.axis.value;
  }

  /** What stands on the axis without its unit, but for the short one. @param {string} shown */
  const number = (shown) => (shown.endsWith("%") ? shown : shown.split(" ")[0]);

  /** @param {LadderData} ladder @param {Result[]} results by day @param {Book} book */
  function plot(ladder, results, book) {
    const points = results.map((result) => ({ day: result.day, value: onAxis(ladder, result, book), words: String(result.amount) + (result.counts === "seconds" ? " s" : "") }));
    const scaled = points.every((point) => point.value !== null);
    const rungs = ladder.rungs.map((rung, at) => ({ value: scaled ? rung.axis?.value ?? null : at + 1, words: scaled && rung.axis ? `${at + 1} · ${number(rung.axis.shown)}` : `rung ${at + 1}` }));
    const unit = ladder.rungs.find((rung) => rung.axis)?.axis?.shown.split(" ").slice(1).join(" ") || "";
    const figure = make("figure", "");
    figure.append(rungbookBookPlot.draw({
      name: ladder.name,
      axis: scaled ? `rung · demand${unit === "%" ? "" : `, ${unit}`}` : "rungs",
      rungs: rungs.flatMap(({ value, words }) => (value === null ? [] : [{ value, words }])),
      points: points.map(({ day, value, words }, at) => ({ day, value: value ?? results[at].rung, words })),
    }));
    const words = scaled
      ? "Each line is a rung at its computed demand, each dot a result with what was counted."
      : "What these rungs ask has no number, so they stand evenly; each dot is a result with what was counted.";
    figure.append(make("figcaption", "quiet", words));
    return figure;
  }

  /** Last sets of sessions, one a day, running at the rung of the last one, as written. @param {Result[]} results by day */
  function running(results) {
    const last = results[results.length - 1];
    const same = (/** @type {Result} */ one) =>
      one.rung === last.rung && one.counts === last.counts && one.setting === null && one.added_kg === 0;
    let from = results.length;
    while (from > 0 && same(results[from - 1])) from -= 1;
    return /** @type {Known} */ (known).sessions(results.slice(from));
  }

  /** What placing says to one result. @param {LadderData} ladder @param {Result[]} upTo by day, this one last @param {Book} book */
  function answer(ladder, upTo, book) {
    const placing = /** @type {Known} */ (known);
    const result = upTo[upTo.length - 1];
    const { test, lost } = asTest(ladder, result, book);
    const wrong = placing.askAgain(test);
    const sets = running(upTo);
    const demands = rungbookDemands.of(ladder, book.stature_cm);
    const placed = placing.place(ladder.sheet, demands, test, sets.length ? sets : undefined);
    const box = make("div", "answer");
    if (lost) box.append(make("p", "quiet", "Your own height is outside what was computed; the numbers are those of the rung as written."));
    if (!placed) {
      box.append(make("p", "", wrong || "This does not fit the ladder as it is now: its rungs or what they count have changed. Ask your coach."));
      return box;
    }
    const who = rungbookPerson.who();
    const { say, how, asPlaced } = placing.sayFor(ladder, placed, who);
    box.append(make("p", "today", say, how ? " " : "", how ? make("strong", "change-how", how) : ""));
    // Nothing of a cycle is known here: where the dose comes from is said, and where another may stand.
    const link = make("a", "", "today's page");
    link.href = "today.html";
    if (asPlaced) box.append(make("p", "quiet", "This dose is the ladder's. A session, or this week of a cycle, may ask for another: see ", link, "."));
    // Of a rung that is left out no dose is said, and nothing moves up from it.
    if (asPlaced && "own" in placed && placed.own) box.append(make("p", "", placed.own));
    if (asPlaced) box.append(make("p", "", `Move up? ${placed.move_up.say}`));
    const rungs = placed.predicted.map((one, at) => {
      const { name, setting, needs } = ladder.rungs[at];
      const misfit = rungbookFits.why(who, needs, "member");
      return make("li", "", `${setting ? `${name}, ${setting}` : name}: ${placing.knownWords(one)}`, misfit ? make("span", "misfit-why", misfit) : "");
    });
    const list = make("ol", "", ...rungs);
    const more = make("details", "", make("summary", "", "Every rung, with its band"), list);
    more.append(...placed.notes.map((note) => make("p", "quiet", note)));
    box.append(more);
    return box;
  }

  /** Two results of one day are one session, and no retest. @param {LadderData} ladder @param {Result} first @param {Result} second @param {Book} book */
  function change(ladder, first, second, book) {
    const { compare, sameSession } = /** @type {Known} */ (known);
    if (first.day === second.day) return sameSession();
    const demands = rungbookDemands.of(ladder, book.stature_cm);
    return compare(ladder.sheet, demands, asTest(ladder, first, book).test, asTest(ladder, second, book).test);
  }

  /** @param {string} act @param {Result} result @param {string} words what the button is about */
  function button(act, result, words) {
    const one = make("button", "", act === "edit" ? "Edit" : "Erase");
    one.type = "button";
    one.dataset.act = act;
    one.dataset.id = result.id;
    one.setAttribute("aria-label", `${one.textContent} ${words}`);
    return one;
  }

  /** @param {LadderData | undefined} ladder @param {Result[]} results by day @param {Book} book */
  function table(ladder, results, book) {
    const head = make("tr", "", ...["Day", "Counted", "Against the one before"].map((words) => {
      const cell = make("th", "", words);
      cell.scope = "col";
      return cell;
    }));
    const rows = results.map((result, at) => {
      const both = ladder && at > 0 && Math.min(results[at - 1].rung, result.rung) >= 1 && Math.max(results[at - 1].rung, result.rung) <= ladder.rungs.length;
      const compared = both ? change(ladder, results[at - 1], result, book).say : "";
      const day = make("th", "", dayWords(result.day));
      day.scope = "row";
      const what = make("td", "", make("strong", "", counted(result)), rungWords(ladder, result));
      if (result.note) what.append(make("span", "note", result.note));
      const words = `${counted(result)} of ${dayWords(result.day)}`;
      return make("tr", "", day, what,
        make("td", "", compared, make("span", "actions", button("edit", result, words), button("erase-result", result, words))));
    });
    return make("table", "", make("thead", "", head), make("tbody", "", ...rows.reverse()));
  }

  /**
   * A result by the number that its rung has today; 0 where the ladder has changed and no rung is the same.
   * @param {LadderData | undefined} ladder @param {Result} result @returns {Result}
   */
  function today(ladder, result) {
    if (!ladder) return result;
    const now = rungbookOwnRung.now(ladder, result);
    return { ...result, rung: now.kind === "same" ? now.at + 1 : 0 };
  }

  /** @param {string} name @param {string} id @param {Result[]} written by day @param {Book} book @param {boolean} able */
  function part(name, id, written, book, able) {
    const ladder = able ? ladders.get(id) : undefined;
    const results = written.map((one) => today(ladder, one));
    const place = make("section", "ladder-results", make("h3", "", name));
    const whole = ladder !== undefined && results.every((one) => one.rung >= 1 && one.rung <= ladder.rungs.length);
    if (whole) place.append(plot(ladder, results, book));
    if (ladder) place.append(answer(ladder, results, book));
    const scroll = make("div", "wide", table(ladder, results, book));
    scroll.tabIndex = 0;
    scroll.setAttribute("role", "region");
    scroll.setAttribute("aria-label", `Results on ${name}`);
    place.append(scroll);
    const earlier = results.slice(0, -1);
    if (ladder && earlier.length) {
      const answers = earlier.map((result, at) => make("div", "", make("h4", "", `${dayWords(result.day)}: ${rungWords(ladder, result)}, ${counted(result)}`), answer(ladder, results.slice(0, at + 1), book)));
      place.append(make("details", "", make("summary", "", "What the earlier results said"), ...answers.reverse()));
    }
    if (whole && results.length > 1) {
      const { rule } = change(ladder, results[results.length - 2], results[results.length - 1], book);
      if (rule) place.append(make("p", "quiet", rule));
    }
    return place;
  }

  /**
   * Shows every ladder that has a result, the latest first. False when placing could not be fetched.
   * @param {HTMLElement} place @param {Book} book @param {(ladder: string) => string} nameOf
   */
  async function show(place, book, nameOf) {
    const sorted = rungbookBookFile.byDay(book.results);
    const ids = [...new Set(sorted.map((one) => one.ladder).reverse())];
    const able = await ready(ids.filter((id) => nameOf(id) !== id));
    place.replaceChildren(...ids.map((id) => part(nameOf(id), id, sorted.filter((one) => one.ladder === id), book, able)));
    return able;
  }

  return { show };
})();
