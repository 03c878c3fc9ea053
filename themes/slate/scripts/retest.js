// Is a retest's change real? Pure functions over those of placing.js; mirrors the room `placing`.
"use strict";

/** @param {ReturnType<typeof rungbookPlacing>} placing */
const rungbookRetest = ({ computed, noise, fill, amountWords }) => {
  /** @param {TestResult} first @param {TestResult} second */
  function differences(first, second) {
    const differs = [];
    if (first.rung !== second.rung) {
      differs.push(fill("differs-rung", { first: first.rung, second: second.rung }));
    }
    if (JSON.stringify(first.own || null) !== JSON.stringify(second.own || null)) {
      differs.push(fill("differs-own"));
    }
    if (first.counts !== second.counts) {
      const both = { first: amountWords(first), second: amountWords(second) };
      differs.push(fill("differs-count", both));
    }
    if (first.added_kg !== second.added_kg) {
      differs.push(fill("differs-added", { first: first.added_kg, second: second.added_kg }));
    }
    return differs.join("; ");
  }

  /**
   * Is a retest's change real?
   * @param {Sheet} sheet
   * @param {(Demand | null)[]} demands
   * @param {TestResult} first
   * @param {TestResult} second
   */
  function compare(sheet, demands, first, second) {
    const differs = differences(first, second);
    if (differs === "") {
      const wander = noise(first.counts, first.amount, second.amount);
      const real = Math.abs(first.amount - second.amount) > wander;
      const holes = { first: amountWords(first), second: amountWords(second), noise: wander };
      const [verdict, key] = real ? ["likely-real", "real"] : ["within-noise", "noise"];
      return { verdict, say: fill(key, holes), rule: fill(`rule-${first.counts}`) };
    }
    const convertible = second.added_kg === 0 && first.counts === second.counts;
    // Each as it was done: the first with what it carried, the second's rung with what that carried.
    const theirs = demands.slice();
    if (second.own && second.rung <= theirs.length) theirs[second.rung - 1] = second.own;
    const carried = { ...first, own: first.own || demands[first.rung - 1] };
    const expected = convertible ? computed(sheet, theirs, carried, second.rung - 1) : "";
    if (typeof expected === "string") {
      return { verdict: "not-the-same-test", say: fill("not-same", { differs }), rule: null };
    }
    const { low, high, open } = expected;
    const beyond = second.amount < low || (second.amount > high && !open);
    const [verdict, key] = beyond ? ["beyond-estimate", "beyond-estimate"] : ["within-noise", "noise-converted"];
    const holes = { differs, low, high, more: open ? fill("or-more") : "", second: amountWords(second) };
    return { verdict, say: fill(key, holes), rule: fill("rule-converted") };
  }

  /** Two results of one day. */
  const sameSession = () => ({ verdict: "same-session", say: fill("same-session"), rule: null });

  return { compare, sameSession };
};

if (typeof module !== "undefined") module.exports = rungbookRetest;
