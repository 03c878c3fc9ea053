// A member's own rung of a ladder, and why; and that rung at a height of their own. Pure.
// Never moves anybody to something harder because a ladder was rewritten, and never to a height that
// asks for what they leave out; the rule of the command (`own/standing.rs`, `own/height.rs`).
"use strict";

/**
 * @typedef {{kind: "same" | "no-more", at: number} | {kind: "lost" | "number", at: 0}} OwnNow
 * @typedef {{rung: number, byHand: boolean, why: (below: string) => string}} OwnStanding rung from 1
 * @typedef {{setting: string, demand: Demand | null, say: string, fit: Fit, traits: string}} OwnStood
 * @typedef {{id: string, cm: number, fit: Fit, traits: string}} OwnHere
 */

const rungbookOwnRung = (() => {
  const { fit, kitWords, kitNeeds, has, taken, settingWords, startsLow } = rungbookFits;

  /** A height is the written one within this much, cm: a shoe's worth. Common practice, no source. */
  const SAME_CM = 2.5;
  /** Nobody is sent to a height that asks more than their rung by more than this. */
  const NO_HARDER = 0.005;

  /** The latest result on a ladder. @param {Book} book @param {LadderData} ladder @returns {Result | null} */
  function latest(book, ladder) {
    const here = book.results.filter((one) => one.ladder === ladder.id);
    return here.reduce((/** @type {Result | null} */ last, one) => (!last || one.day >= last.day ? one : last), null);
  }

  /** @param {Record<string, number>} a @param {Record<string, number>} b */
  const alike = (a, b) =>
    Object.keys(a).length === Object.keys(b).length && Object.entries(a).every(([name, value]) => b[name] === value);

  /** As the ladder's data has it. @param {number} value */
  const tenths = (value) => Math.floor(10 * value + 0.5);

  /**
   * Where a recorded rung stands today: the highest rung that is the very same; else the highest up to which
   * nothing asks more by the ladder's numbers. Of which only the number is known, nowhere.
   * @param {LadderData} ladder @param {{movement?: string, settings?: Record<string, number>}} recorded
   * @returns {OwnNow}
   */
  function now(ladder, { movement, settings = {} }) {
    if (movement === undefined) return { kind: "number", at: 0 };
    const same = ladder.rungs.map((rung) => rung.movement === movement && alike(rung.settings, settings)).lastIndexOf(true);
    if (same >= 0) return { kind: "same", at: same };
    const table = ladder.tables[movement];
    const value = table && Object.keys(settings).length === 1 ? settings[table.setting] : undefined;
    const asked = value === undefined ? null : rungbookHeight.at(table, value, table.statures[1]);
    const at = asked === null ? -1 : noMore(ladder, tenths(asked));
    return at >= 0 ? { kind: "no-more", at } : { kind: "lost", at: 0 };
  }

  /** @param {LadderData} ladder @param {number} asked */
  function noMore(ladder, asked) {
    let found = -1;
    for (const [at, { axis }] of ladder.rungs.entries()) {
      if (!axis) continue;
      if (tenths(axis.value) > asked) break;
      found = at;
    }
    return found;
  }

  /** A result as placing takes it. @param {LadderData} ladder @param {number} at @param {Result} result @param {Book} book @returns {TestResult} */
  function tested(ladder, at, result, book) {
    const rung = ladder.rungs[at];
    const table = ladder.tables[rung.movement];
    const value = table && result.setting ? result.setting[table.setting] : undefined;
    const off = value !== undefined && value !== rung.settings[table.setting];
    const own = off ? rungbookDemands.own(ladder, at, value, book.stature_cm) : null;
    const { counts, amount, added_kg } = result;
    return { rung: at + 1, counts, amount, added_kg, body_mass_kg: book.body_mass_kg, own };
  }

  /** `12 at hands 90 cm`. @param {LadderData} ladder @param {number} at @param {Result} result */
  function resultWords(ladder, at, result) {
    const rung = ladder.rungs[at];
    const unit = ladder.tables[rung.movement]?.unit || "";
    const own = Object.entries(result.setting || {});
    const where = own.length
      ? own.map(([name, value]) => `${name} ${value} ${unit}`.trim()).join(", ")
      : rung.setting || rung.name;
    return `${result.amount}${result.counts === "seconds" ? " s" : ""} at ${where}`;
  }

  /** The own rung on a ladder that has changed since then, or may have. @param {OwnNow} there @param {string} since @param {string} otherwise */
  function moved(there, since, otherwise) {
    const rung = there.at + 1;
    if (there.kind === "number") return { rung: 1, why: () => `Only a number is written down, and ladders change: start at the lowest rung, ${otherwise}.` };
    if (there.kind === "lost") return { rung: 1, why: () => `The ladder has changed ${since}: start at its lowest rung, or test again.` };
    return { rung, why: (/** @type {string} */ below) => `The ladder has changed ${since}; rung ${rung} asks no more than that did${below}.` };
  }

  /** The own rung as written by hand. @param {LadderData} ladder @param {Book} book @returns {OwnStanding | null} */
  function byHand(ladder, book) {
    const { rungs, rungs_then = {} } = book;
    if (!(rungs[ladder.id] >= 1)) return null;
    const there = now(ladder, rungs_then[ladder.id] || {});
    // What was counted says more than a number of which nobody knows what it stood for.
    if (there.kind === "number" && latest(book, ladder)) return null;
    if (there.kind !== "same") return { ...moved(there, "since you picked your rung", "or pick yours again"), byHand: true };
    const rung = there.at + 1;
    return { rung, byHand: true, why: (below) => `Your rung is ${rung}, from My book${below}.` };
  }

  /**
   * The own rung of a ladder: as written by hand, else by the latest result; null where neither is known.
   * @param {LadderData} ladder @param {OwnTools} tools @returns {OwnStanding | null}
   */
  function standing(ladder, { book, placing }) {
    const written = byHand(ladder, book);
    if (written) return written;
    const result = latest(book, ladder);
    if (!result) return null;
    const there = now(ladder, result);
    if (there.kind !== "same") return { ...moved(there, "since your result", "or test again"), byHand: false };
    const demands = rungbookDemands.of(ladder, book.stature_cm);
    const placed = placing?.place(ladder.sheet, demands, tested(ladder, there.at, result, book));
    if (!placed) return null;
    const rung = placed.today.rung;
    const said = resultWords(ladder, there.at, result);
    return { rung, byHand: false, why: (below) => `Your rung is ${rung}, from ${said}${below}.` };
  }

  /** @param {number} rung @param {number} below */
  const lowered = (rung, below) => Math.max(1, rung - below);

  /**
   * The rung that a line asks of this member, from 1, and why.
   * @param {LadderData} ladder @param {OwnItem} item @param {OwnTools} tools
   */
  function asked(ladder, item, tools) {
    const known = standing(ladder, tools);
    const low = startsLow(tools.person);
    if (item.tests && !known?.byHand) {
      const result = latest(tools.book, ladder);
      const there = result ? now(ladder, result) : null;
      if (there?.kind === "same") return { rung: there.at + 1, why: "The rung of your last test." };
      if (there && known) return { rung: known.rung, why: known.why("") };
      if (low) return { rung: 1, why: `No result on the ${ladder.name} ladder yet, and ${low}: the test on its lowest rung.` };
      return { rung: ladder.test?.rung || 1, why: "The ladder's own test." };
    }
    if (low && !known) return { rung: 1, why: `No result on the ${ladder.name} ladder yet, and ${low}: its lowest rung.` };
    const middle = { rung: Math.ceil(ladder.rungs.length / 2), why: (/** @type {string} */ below) => `No result on the ${ladder.name} ladder yet: its middle rung${below}.` };
    const own = known || middle;
    const said = item.below === 0 ? ""
      : own.rung > item.below ? `, ${item.below} below it here` : ", and here as low as the ladder goes";
    return { rung: lowered(own.rung, item.below), why: own.why(said) };
  }

  /**
   * Own rungs of the ladders that are at hand, as far below as a line asks.
   * @param {OwnTools} tools @param {number} below @returns {Record<string, number>}
   */
  function standings(tools, below) {
    const known = Object.values(tools.ladders).map((ladder) => /** @type {const} */ ([ladder.id, standing(ladder, tools)]));
    return Object.fromEntries(known.flatMap(([id, one]) => (one ? [[id, lowered(one.rung, below)]] : [])));
  }

  /** Traits of a rung at an own height. @param {LadderRung} rung @param {ShareTable} table @param {number} cm */
  function traitsAt(rung, table, cm) {
    if (!table.levels) return rung.needs.traits;
    const { ends, traits } = table.levels;
    const past = ends.findIndex((end) => cm <= end);
    if (past === -1) return traits[2 * ends.length];
    return traits[2 * past + (cm === ends[past] ? 1 : 0)];
  }

  /** What somebody measured serves at its own height. @template {Asks} T @param {T} needs */
  const measured = (needs) => ({ ...needs, kit: needs.measured_kit ?? needs.kit });

  /**
   * The household heights that can stand for a rung's; none where the rung has no height in cm, where no
   * kit was picked, or where no height of it is in the book.
   * @param {LadderData} ladder @param {number} at from 0 @param {OwnTools} tools @returns {OwnHere[]}
   */
  function heightsFor(ladder, at, { person, book }) {
    const rung = ladder.rungs[at];
    const table = ladder.tables[rung.movement];
    if (!table || table.unit !== "cm" || rung.settings[table.setting] === undefined || person.kit === null) return [];
    if (Object.keys(rung.settings).length > 1) return [];
    const needs = measured(rung.needs);
    const ids = kitNeeds(needs.kit).flat().filter((id) => has(person, id) && book.heights[id] !== undefined);
    return ids.map((id) => {
      const traits = traitsAt(rung, table, book.heights[id]);
      return { id, cm: book.heights[id], traits, fit: fit(person, { ...needs, traits }) };
    });
  }

  /**
   * The nearest in demand of some heights; null where they ask too much or have no number.
   * @param {LadderData} ladder @param {number} at @param {OwnTools} tools
   * @param {OwnHere[]} heights @returns {OwnStood | null}
   */
  function nearest(ladder, at, { book }, heights) {
    const rung = ladder.rungs[at];
    const { setting } = ladder.tables[rung.movement];
    const written = rung.settings[setting];
    const said = (/** @type {OwnHere} */ { id, cm, fit }) => (taken(fit, setting) ? "" : `${kitWords(id)} ${cm} cm`);
    const same = heights.find(({ cm }) => Math.abs(cm - written) <= SAME_CM);
    if (same) return { setting: said(same), demand: null, say: "", fit: same.fit, traits: same.traits };
    const wanted = rungbookDemands.of(ladder, book.stature_cm)[at];
    if (!wanted) return null;
    const off = (/** @type {Demand} */ demand) => Math.abs(demand.share - wanted.share);
    const possible = heights.flatMap((here) => {
      const demand = rungbookDemands.own(ladder, at, here.cm, book.stature_cm);
      return demand && demand.share <= wanted.share + NO_HARDER ? [{ ...here, demand }] : [];
    });
    possible.sort((a, b) => off(a.demand) - off(b.demand));
    const near = possible[0];
    if (!near) return null;
    const asks = near.demand.share > wanted.share ? "more" : "less";
    const say = `Your ${kitWords(near.id)} is ${near.cm} cm, where the rung says ${written} cm, and asks ${asks}.`;
    return { setting: said(near), demand: near.demand, say: said(near) && say, fit: near.fit, traits: near.traits };
  }

  /**
   * A rung for this member: as written where no height of their own is known, else at the one nearest in
   * demand, those that need no change first. Otherwise why not: what it asks there, or no height.
   * @param {LadderData} ladder @param {number} at @param {OwnTools} tools
   * @returns {OwnStood | {out: Asks} | {out: null}}
   */
  function stand(ladder, at, tools) {
    const rung = ladder.rungs[at];
    const heights = heightsFor(ladder, at, tools);
    if (heights.length === 0) {
      const found = fit(tools.person, rung.needs);
      if (found.kind === "out") return { out: rung.needs };
      return { setting: settingWords(rung.setting, found), demand: null, say: "", fit: found, traits: rung.needs.traits };
    }
    const [fine, changed] = ["fine", "changed"].map((kind) => heights.filter((one) => one.fit.kind === kind));
    if (fine.length + changed.length === 0) return { out: { ...measured(rung.needs), traits: heights[0].traits } };
    return nearest(ladder, at, tools, fine) || nearest(ladder, at, tools, changed) || { out: null };
  }

  return { latest, now, tested, standing, standings, asked, stand };
})();

if (typeof module !== "undefined") module.exports = rungbookOwnRung;
