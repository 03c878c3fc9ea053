// How much of a line a member does, in their own numbers, and how much of a swap stands for it. Pure.
// Never more than the line asks; the rule of the command (`own/dose.rs`, `swap/dose.rs`).
"use strict";

/**
 * @typedef {{per: number, unit: "s" | "m"}} EachCount what stands for each count of a round
 * @typedef {{from: number, to: number}} OwnSpan
 */

const rungbookOwnDose = (() => {
  /** Seconds a repetition, or a contact, takes where an entry gives no pace: 1 to 2 s each way (ACSM 2009). */
  const PACE_S = 3;
  /** Seconds a metre takes; common practice, no source. */
  const METRE_S = 1;

  /** Rounded down to five seconds, so that it can be called and is never longer; common practice, no source. @param {number} seconds */
  const called = (seconds) => (seconds < 5 ? Math.max(1, Math.floor(seconds)) : Math.floor(seconds / 5) * 5);

  /** @param {Counts} counts */
  const repeated = (counts) => counts === "reps" || counts === "contacts";

  /** Seconds that so many take, both sides where they take turns. @param {CardWork} from @param {Target} asked */
  function lasts(from, asked) {
    if (asked.counts === "seconds") return 1;
    if (asked.counts === "metres") return METRE_S;
    return (from.pace_s || PACE_S) * (from.sides === "alternating" && asked.each_side ? 2 : 1);
  }

  /**
   * What a dose counts as another movement's: the same repetitions for each side; else the same time at work,
   * of which each side has half where it was for both. @param {CardWork} from @param {CardWork} to
   * @param {Target} asked @returns {Target}
   */
  function counted(from, to, asked) {
    const said = asked.each_side;
    const shared = to.sides === "each" && from.sides !== "each";
    const both = (/** @type {Counts} */ counts, /** @type {(n: number) => number} */ change) => {
      const turnAbout = from.sides === "alternating" ? said : repeated(counts);
      const each_side = to.sides === "each" || (to.sides === "alternating" && turnAbout);
      const part = (/** @type {number} */ n) => (shared && counts === "seconds" ? called(Math.floor(change(n) / 2)) : change(n));
      return { counts, from: part(asked.from), to: part(asked.to), sets: asked.sets, each_side };
    };
    const same = (/** @type {number} */ n) => n;
    // Seconds of a movement that is counted are an interval, and stay one.
    if (asked.counts === "seconds" && from.counts !== "seconds") return both("seconds", same);
    if (repeated(asked.counts) && repeated(to.counts)) {
      const half = from.sides === "alternating" && !said && to.sides !== "alternating";
      return both(to.counts, (n) => (half ? Math.ceil(n / 2) : n));
    }
    if (asked.counts === to.counts) return both(asked.counts, same);
    const one = lasts(from, asked);
    if (!repeated(to.counts)) return both("seconds", (n) => called(Math.max(1, Math.ceil(n * one - 1e-9))));
    const pace = (to.pace_s || PACE_S) * (to.sides === "alternating" ? 2 : 1);
    return both(to.counts, (n) => Math.max(1, Math.floor((n * one) / pace + 1e-9)));
  }

  /** What stands for each count of a round, of a movement that is held or covers ground. @param {CardWork} work @returns {EachCount | null} */
  function eachOf({ counts, pace_s }) {
    const per = Math.max(1, Math.ceil(pace_s ?? PACE_S));
    if (counts === "seconds") return { per, unit: "s" };
    return counts === "metres" ? { per, unit: "m" } : null;
  }

  /** @param {string} dose @param {EachCount | null} each */
  const withEach = (dose, each) => (each ? `${dose}, each count ${each.per} ${each.unit}` : dose);

  /**
   * As much of a swap as the line asks of the first: in numbers, or by the words of the line.
   * @param {CardWork} from @param {CardWork} to @param {Target | null} asked @param {string} words
   */
  function swapDose(from, to, asked, words) {
    if (asked) return rungbookDose.words(counted(from, to, asked));
    return to.sides === "each" && words && !words.includes("each side") ? `${words}, each side` : words;
  }

  /**
   * What the member is predicted to manage, less what stays in reserve; null where nothing is known.
   * @param {LadderData} ladder @param {OwnItem} item @param {number} at @param {Demand | null} demand at an
   *   own height @param {OwnTools} tools @returns {number[] | null}
   */
  function manages(ladder, item, at, demand, { book, placing }) {
    const result = rungbookOwnRung.latest(book, ladder);
    const asked = item.asked[at];
    if (!result || !placing || !asked) return null;
    const now = rungbookOwnRung.now(ladder, result);
    if (now.kind !== "same") return null;
    const demands = rungbookDemands.of(ladder, book.stature_cm);
    const known = rungbookOwnRung.tested(ladder, now.at, result, book);
    const there = known.own || demands[now.at];
    if (demand) demands[at] = demand;
    // The rung of the test keeps what was carried in it, whatever height the member has now.
    const test = demand && at === now.at ? { ...known, own: there } : known;
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
    const counts = asked.counts === "seconds" ? "Seconds" : "Repetitions";
    return { dose, why: asked.from === asked.to ? "" : `${counts} by your result; an estimate.` };
  }

  return { counted, eachOf, withEach, swapDose, manages, ownDose };
})();

if (typeof module !== "undefined") module.exports = rungbookOwnDose;
