// A member's own version of a session's lines: own rung, own heights, own kit and limits, own dose,
// each with its reason. Pure functions; the page and the device are session.js's business.
// Kit, limits and noise leave out before anything is chosen; nothing left means "ask your coach".
"use strict";

/**
 * @typedef {{number: number}} OwnThree one of the three rungs that the page shows
 * @typedef {{ladder_id: string | null, below: number, asked: (Target | null)[], tests: boolean,
 *   rungs: OwnThree[], movement_id: string | null, movement: {text: string} | null, setting: string,
 *   needs: AskedFor, options: OwnItem[], dose: string | null, cue: string | null}} OwnItem a line of a block
 * @typedef {{person: Person, book: Book, ladders: Record<string, LadderData>,
 *   cards: Record<string, Card>, placing: ReturnType<typeof rungbookPlacing> | null}} OwnTools
 * @typedef {{kind: "do" | "ask" | "missing", movement: string, name: string, setting: string,
 *   dose: string, cue: string, why: string[], swapped: boolean, rung: number | null}} OwnVersion
 *   `missing`: the card of `movement` is wanted first
 * @typedef {{setting: string, kit: string, demand: Demand | null, say: string}} OwnHeight
 */

const rungbookOwn = (() => {
  const { needs, fits, why, spoken } = rungbookFits;

  /** A height is the written one within this much, cm: a shoe's worth. Common practice, no source. */
  const SAME_CM = 2.5;
  /** Nobody without a result is sent to a height that asks more than their rung by more than this. */
  const NO_HARDER = 0.005;

  /** The latest result on a ladder. @param {Book} book @param {LadderData} ladder @returns {Result | null} */
  function latest(book, ladder) {
    const here = book.results.filter((one) => one.ladder === ladder.id && one.rung <= ladder.rungs.length);
    return here.reduce((/** @type {Result | null} */ last, one) => (!last || one.day >= last.day ? one : last), null);
  }

  /** A result as placing takes it. @param {LadderData} ladder @param {Result} result @param {Book} book @returns {TestResult} */
  function tested(ladder, result, book) {
    const rung = ladder.rungs[result.rung - 1];
    const table = ladder.tables[rung.movement];
    const value = table && result.setting ? result.setting[table.setting] : undefined;
    const off = value !== undefined && value !== rung.settings[table.setting];
    const own = off ? rungbookDemands.own(ladder, result.rung - 1, value, book.stature_cm) : null;
    const { counts, amount, added_kg } = result;
    return { rung: result.rung, counts, amount, added_kg, body_mass_kg: book.body_mass_kg, own };
  }

  /** `12 at hands 90 cm`. @param {LadderData} ladder @param {Result} result */
  function resultWords(ladder, result) {
    const rung = ladder.rungs[result.rung - 1];
    const unit = ladder.tables[rung.movement]?.unit || "";
    const at = result.setting
      ? Object.entries(result.setting).map(([name, value]) => `${name} ${value} ${unit}`.trim()).join(", ")
      : rung.setting || rung.name;
    return `${result.amount}${result.counts === "seconds" ? " s" : ""} at ${at}`;
  }

  /**
   * The rung that is asked of this member, from 1, and why.
   * @param {LadderData} ladder @param {OwnItem} item @param {OwnTools} tools
   */
  function ownRung(ladder, item, { book, placing }) {
    const written = book.rungs[ladder.id];
    const result = latest(book, ladder);
    const down = (/** @type {number} */ rung) => Math.max(1, rung - item.below);
    const below = (/** @type {number} */ rung) => {
      if (item.below === 0) return "";
      return rung > item.below ? `, ${item.below} below it here` : ", and here as low as the ladder goes";
    };
    if (written >= 1 && written <= ladder.rungs.length) {
      return { rung: down(written), why: `Your rung is ${written}, from My book${below(written)}.` };
    }
    if (item.tests) {
      const rung = result ? result.rung : ladder.test?.rung || 1;
      return { rung, why: result ? "The rung of your last test, so that the two compare." : "The ladder's own test." };
    }
    const placed = result && placing
      ? placing.place(ladder.sheet, rungbookDemands.of(ladder, book.stature_cm), tested(ladder, result, book))
      : null;
    if (result && placed) {
      const rung = placed.today.rung;
      return { rung: down(rung), why: `Your rung is ${rung}, from ${resultWords(ladder, result)}${below(rung)}.` };
    }
    const middle = item.rungs[Math.floor(item.rungs.length / 2)];
    return { rung: middle ? middle.number : 1, why: "No result yet: the middle one." };
  }

  /**
   * The household heights that can stand for a rung's; nothing where the rung has no height in cm,
   * where no kit was picked, or where no height of it is in the book.
   * @param {LadderData} ladder @param {number} at from 0 @param {OwnTools} tools
   */
  function heightsFor(ladder, at, { person, book }) {
    const rung = ladder.rungs[at];
    const table = ladder.tables[rung.movement];
    const kit = person.kit;
    if (!table || table.unit !== "cm" || rung.settings[table.setting] === undefined || kit === null) return [];
    if (Object.keys(rung.settings).length > 1) return [];
    const lacks = person.lacks || [];
    const serves = needs(rung.needs).kit.flat();
    const ids = serves.filter((id) => kit.includes(id) && !lacks.includes(id) && book.heights[id] !== undefined);
    return ids.map((id) => ({ id, cm: book.heights[id] }));
  }

  /**
   * A rung at a height of the member's own: the one nearest in demand. The rung as written where no
   * own height is known; null where the known ones ask too much.
   * @param {LadderData} ladder @param {number} at @param {OwnTools} tools @param {boolean} has a result
   * @returns {OwnHeight | null}
   */
  function atHeight(ladder, at, tools, has) {
    const rung = ladder.rungs[at];
    const heights = heightsFor(ladder, at, tools);
    if (heights.length === 0) return { setting: rung.setting, kit: "", demand: null, say: "" };
    const table = ladder.tables[rung.movement];
    const written = rung.settings[table.setting];
    const wanted = rungbookDemands.of(ladder, tools.book.stature_cm)[at];
    const same = heights.find(({ cm }) => Math.abs(cm - written) <= SAME_CM);
    if (same) return { setting: `${spoken(same.id)} ${same.cm} cm`, kit: same.id, demand: null, say: "" };
    if (!wanted) return null;
    const possible = heights.flatMap(({ id, cm }) => {
      const demand = rungbookDemands.own(ladder, at, cm, tools.book.stature_cm);
      return demand && (has || demand.share <= wanted.share + NO_HARDER) ? [{ id, cm, demand }] : [];
    });
    possible.sort((a, b) => Math.abs(a.demand.share - wanted.share) - Math.abs(b.demand.share - wanted.share));
    const near = possible[0];
    if (!near) return null;
    const asks = near.demand.share > wanted.share ? "more" : "less";
    const say = `Your ${spoken(near.id)} is ${near.cm} cm, where the rung says ${written} cm, and asks ${asks}.`;
    return { setting: `${spoken(near.id)} ${near.cm} cm`, kit: near.id, demand: near.demand, say };
  }

  /**
   * What the member is predicted to manage, less what stays in reserve; null where nothing is known.
   * @param {LadderData} ladder @param {OwnItem} item @param {number} at @param {Demand | null} demand at an
   *   own height @param {OwnTools} tools @returns {number[] | null}
   */
  function manages(ladder, item, at, demand, { book, placing }) {
    const result = latest(book, ladder);
    const asked = item.asked[at];
    if (!result || !placing || !asked) return null;
    const demands = rungbookDemands.of(ladder, book.stature_cm);
    const known = tested(ladder, result, book);
    const there = known.own || demands[known.rung - 1];
    if (demand) demands[at] = demand;
    // The rung of the test keeps what was carried in it, whatever height the member has now.
    const test = demand && at === known.rung - 1 ? { ...known, own: there } : known;
    const rungs = ladder.sheet.rungs.map((target, rung) => (rung === at ? asked : target));
    const placed = placing.place({ up: null, rungs }, demands, test);
    const predicted = placed?.predicted[at];
    return predicted && predicted.kind !== "unknown" ? placing.kept(asked.counts, predicted.point) : null;
  }

  /**
   * The dose in the member's own numbers; null where they could not do one.
   * @param {Target | null} asked @param {number[] | null} manages @param {OwnItem} item
   * @returns {{dose: string, why: string} | null}
   */
  function ownDose(asked, manages, item) {
    if (!asked || item.tests) return { dose: item.dose || "", why: "" };
    if (!manages) return { dose: rungbookDose.words(asked), why: "" };
    if (manages[1] < 1) return null;
    if (manages[1] < asked.from) {
      const dose = rungbookDose.words({ ...asked, from: Math.max(1, manages[0]), to: manages[1] });
      return { dose, why: "Fewer than the session asks, by your result; an estimate." };
    }
    const from = Math.min(Math.max(manages[0], asked.from), asked.to);
    const dose = rungbookDose.words({ ...asked, from, to: Math.min(manages[1], asked.to) });
    const counted = asked.counts === "seconds" ? "Seconds" : "Repetitions";
    return { dose, why: asked.from === asked.to ? "" : `${counted} by your result; an estimate.` };
  }

  /**
   * One rung for this member; a sentence where it does not fit.
   * @param {LadderData} ladder @param {OwnItem} item @param {number} at @param {OwnTools} tools
   * @returns {OwnVersion | string}
   */
  function onRung(ladder, item, at, tools) {
    const rung = ladder.rungs[at];
    const named = rung.setting ? `${rung.name}, ${rung.setting}` : rung.name;
    const misfit = why(tools.person, rung.needs, "member");
    if (misfit) return `Not ${named}: ${misfit}.`;
    const has = manages(ladder, item, at, null, tools) !== null;
    const height = atHeight(ladder, at, tools, has);
    if (!height) return `Not ${named}: no height in My book is near enough.`;
    const dose = ownDose(item.asked[at] || null, manages(ladder, item, at, height.demand, tools), item);
    if (!dose) return `Not ${named}: by your result not one repetition to the standard yet.`;
    return {
      kind: "do", movement: rung.movement, name: rung.name, setting: height.setting,
      dose: dose.dose || item.dose || "", cue: rung.cue || "", swapped: false, rung: at + 1,
      why: [height.say, dose.why].filter(Boolean),
    };
  }

  /**
   * The first swap of a card that fits, in the card's order: the one that the command says first.
   * @param {Card} card @param {Person} person
   */
  const firstSwap = (card, person) => card.swaps.find((swap) => fits(person, needs(swap.needs))) || null;

  /** Seconds a repetition takes where an entry gives no pace: 1 to 2 s each way (ACSM 2009). */
  const PACE_S = 3;

  /** Rounded up to five seconds, so that it can be called; common practice, no source. @param {number} seconds */
  const called = (seconds) => Math.ceil(Math.max(1, Math.ceil(seconds - 1e-9)) / 5) * 5;

  /**
   * What a dose counts as another movement's: the same repetitions for each side; between
   * repetitions and seconds the same time at work. The rule of the command (`swap/dose.rs`).
   * @param {CardWork} from @param {CardWork} to @param {Target} asked @returns {Target | null}
   */
  function counted(from, to, asked) {
    const said = asked.each_side;
    const both = (/** @type {Counts} */ counts, /** @type {(n: number) => number} */ change) => {
      const turnAbout = from.sides === "alternating" ? said : counts === "reps" || counts === "contacts";
      const each_side = to.sides === "each" || (to.sides === "alternating" && turnAbout);
      return { counts, from: change(asked.from), to: change(asked.to), sets: asked.sets, each_side };
    };
    const same = (/** @type {number} */ n) => n;
    const repeated = (/** @type {string} */ counts) => counts === "reps" || counts === "contacts";
    if (asked.counts === "seconds" && from.counts !== "seconds") return both("seconds", same);
    if (repeated(asked.counts) && repeated(to.counts)) {
      const half = from.sides === "alternating" && !said && to.sides !== "alternating";
      return both(to.counts, (n) => (half ? Math.ceil(n / 2) : n));
    }
    if (asked.counts === to.counts) return both(asked.counts, same);
    const turns = from.sides === "alternating" && said ? 2 : 1;
    if (asked.counts === "reps") return both("seconds", (n) => called(n * turns * (from.pace_s || PACE_S)));
    if (asked.counts !== "seconds") return null;
    if (to.counts === "metres") return both("seconds", called);
    if (to.counts !== "reps") return null;
    const pace = (to.pace_s || PACE_S) * (to.sides === "alternating" ? 2 : 1);
    return both("reps", (n) => Math.max(1, Math.floor(n / pace + 1e-9)));
  }

  /**
   * As much of a swap, in words.
   * @param {Card} card @param {SwapLine} swap @param {Target | null} asked @param {string} words
   */
  function swapDose(card, swap, asked, words) {
    if (!asked) return swap.work.sides === "each" && words && !words.includes("each side") ? `${words}, each side` : words;
    const dose = counted(card.work, swap.work, asked);
    return dose ? rungbookDose.words(dose) : "as much as your coach says";
  }

  /**
   * The swap for a movement that does not fit.
   * @param {string} movement @param {string[]} why @param {Target | null} asked @param {string} words
   * @param {OwnTools} tools @returns {OwnVersion}
   */
  function swapFor(movement, why, asked, words, { cards, person }) {
    const card = cards[movement];
    const nothing = { movement, name: "", setting: "", dose: "", cue: "", swapped: true, rung: null };
    if (!card) return { ...nothing, kind: "missing", why };
    const swap = firstSwap(card, person);
    if (!swap) return { ...nothing, kind: "ask", why: [...why, "Nothing here does the same work. Ask your coach."] };
    const dose = swapDose(card, swap, asked, words);
    return { ...nothing, kind: "do", movement: swap.id, name: swap.name, dose, why: [...why, swap.reason] };
  }

  /** @param {OwnItem} item @param {OwnTools} tools @returns {OwnVersion} */
  function onLadder(item, tools) {
    const id = item.ladder_id || "";
    const ladder = tools.ladders[id];
    const own = ownRung(ladder, item, tools);
    /** @type {string[]} */
    const reasons = [];
    for (let at = own.rung - 1; at >= 0; at -= 1) {
      const tried = onRung(ladder, item, at, tools);
      if (typeof tried !== "string") {
        const lower = at < own.rung - 1 ? [...reasons.slice(0, 1), `The nearest rung below that fits: ${at + 1}.`] : [];
        return { ...tried, why: [own.why, ...lower, ...tried.why] };
      }
      reasons.push(tried);
    }
    const at = own.rung - 1;
    const none = [own.why, reasons[0], "No rung below it fits either."];
    return swapFor(ladder.rungs[at].movement, none, item.asked[at] || null, item.dose || "", tools);
  }

  /** @param {OwnItem} item @param {OwnTools} tools @returns {OwnVersion} */
  function onMovement(item, tools) {
    const movement = item.movement_id || "";
    const name = item.movement ? item.movement.text : movement;
    const misfit = why(tools.person, item.needs, "member");
    if (misfit) return swapFor(movement, [`Not ${name}: ${misfit}.`], item.asked[0] || null, item.dose || "", tools);
    return {
      kind: "do", movement, name, setting: item.setting, dose: item.dose || "", cue: item.cue || "", why: [],
      swapped: false, rung: null,
    };
  }

  /**
   * Of three options the middle one, else the next below it that fits, else a swap of the middle.
   * @param {OwnItem} item @param {OwnTools} tools @returns {OwnVersion}
   */
  function ofOptions(item, tools) {
    const dosed = item.options.map((option) => ({ ...option, dose: option.dose || item.dose }));
    const middle = Math.floor(dosed.length / 2);
    const first = version(dosed[middle], tools);
    if (!first.swapped) return { ...first, why: ["The middle one.", ...first.why] };
    for (let at = middle - 1; at >= 0; at -= 1) {
      const lower = version(dosed[at], tools);
      if (!lower.swapped) return { ...lower, why: [first.why[0], "The next one down that fits.", ...lower.why] };
    }
    return first;
  }

  /**
   * This member's version of a line. `missing` asks for the card of its movement.
   * @param {OwnItem} item @param {OwnTools} tools @returns {OwnVersion}
   */
  function version(item, tools) {
    if (item.ladder_id) return onLadder(item, tools);
    return item.movement_id ? onMovement(item, tools) : ofOptions(item, tools);
  }

  /** Ladders that lines name, options too. @param {OwnItem[]} items @returns {string[]} */
  const laddersOf = (items) =>
    [...new Set(items.flatMap((item) => (item.ladder_id ? [item.ladder_id] : laddersOf(item.options))))].sort();

  return { version, laddersOf, firstSwap, counted };
})();

if (typeof module !== "undefined") module.exports = rungbookOwn;
