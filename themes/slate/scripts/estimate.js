// What a count on one rung says about another, always with a band; and the noise of counting. Pure;
// mirrors the room `placing` to the digit: numbers and sentences come from its `tables()`.
"use strict";

/**
 * @typedef {"reps" | "seconds" | "metres" | "contacts"} Counts
 * @typedef {{counts: Counts, from: number, to: number, sets: number[] | null, each_side: boolean}} Target
 * @typedef {{up: {words: string, count: {over: number, sessions: number} | null} | null,
 *   rungs: (Target | null)[]}} Sheet
 * @typedef {{share: number, band: number}} Share of body weight at one instant
 * @typedef {Share & {end?: Share, weight_kg: number, kind: number, pose: number, in_mass: boolean,
 *   across: {factor: number, band: number, own: boolean}}} Demand
 *   share of body mass, also where a repetition ends, and kg; compared only within one kind; how far a
 *   difference shows in repetitions
 * @typedef {{rung: number, counts: "reps" | "seconds", amount: number, body_mass_kg: number | null,
 *   added_kg: number, own?: Demand | null}} TestResult the rung from 1; what was carried at an own height
 * @typedef {{low: number, point: number, high: number, open: boolean, over: boolean}} Band
 * @typedef {(Band & {kind: "measured" | "computed"}) | {kind: "unknown", why: string}} Prediction
 * @typedef {{weight: number, doubt: number}} Carried in kg or as a share of body mass; a share of itself
 * @typedef {{ratio: number, doubt: number, ordered: boolean, across: Demand["across"]}} Compared
 * @typedef {{kind: "line", per: number} | {kind: "fraction", top: number, base: number, slope: number}
 *   | {kind: "power", exponent: number}
 *   | {kind: "decay", base: number, range: number, rate: number}} Form
 * @typedef {{relations: {form: Form, votes: boolean}[], most_reps: number, most_seconds: number,
 *   close_reps: number, close_scatter: number, far_scatter: number, nine_in_ten: number, endless: number,
 *   reserve: number[],
 *   verdict_repeated: number[], hold_noise: number, least_noise: number,
 *   possible: Record<string, {what: string, unit: string, least: number, most: number}>,
 *   words: Record<string, string>}} PlacingTables
 */

/** @param {PlacingTables} tables what the room `placing` exports */
const rungbookEstimate = (tables) => {
  const { words } = tables;

  /**
   * Fills the holes of a sentence.
   * @param {string} key
   * @param {Record<string, string | number>} [holes]
   */
  const fill = (key, holes = {}) =>
    Object.entries(holes).reduce(
      (text, [name, value]) => text.split(`{${name}}`).join(String(value)),
      words[key],
    );

  /** Before rounding to whole numbers, so that last bits never decide. @param {number} number */
  const settle = (number) => Math.round(number * 1e9) / 1e9;

  /** @param {{counts: string, amount: number}} counted */
  const amountWords = ({ counts, amount }) =>
    counts === "reps" && amount === 1 ? words["one-rep"] : fill(counts, { n: amount });

  /** The maximum as a multiple of the weight of the set. @param {Form} form @param {number} reps */
  function maximum(form, reps) {
    switch (form.kind) {
      case "line": return 1 + reps / form.per;
      case "fraction": return form.top / (form.base - form.slope * reps);
      case "power": return Math.pow(reps, form.exponent);
      case "decay": return 100 / (form.base + form.range * Math.exp(-form.rate * reps));
    }
  }

  /** Repetitions at a multiple. @param {Form} form @param {number} multiple */
  function repsAt(form, multiple) {
    switch (form.kind) {
      case "line": return Math.max(0, (multiple - 1) * form.per);
      case "fraction": return Math.max(0, (form.base - form.top / multiple) / form.slope);
      case "power": return Math.max(0, Math.pow(multiple, 1 / form.exponent));
      case "decay": {
        const left = (100 / multiple - form.base) / form.range;
        return left > 0 ? Math.max(0, -Math.log(left) / form.rate) : Infinity;
      }
    }
  }

  /** @param {number} reps */
  function scatter(reps) {
    const { close_reps: close, most_reps: most } = tables;
    const beyond = (Math.min(Math.max(reps, close), most) - close) / (most - close);
    return tables.close_scatter + (tables.far_scatter - tables.close_scatter) * beyond;
  }

  /** @param {number[]} three @param {number} most @returns {Band} */
  function band(three, most) {
    const [low, point, high] = three.map(settle);
    const cut = (/** @type {number} */ number) => Math.min(number, most);
    return {
      low: cut(Math.floor(low)), point: cut(Math.round(point)), high: cut(Math.ceil(high)),
      open: high > most, over: Math.round(point) > most,
    };
  }

  /** Independent doubts together. @param {number[]} doubts */
  const root = ([a, b, c]) => Math.sqrt(a * a + b * b + c * c);

  /** The middle of an odd number of numbers. @param {number[]} numbers */
  const middle = (numbers) => numbers.sort((a, b) => a - b)[Math.floor(numbers.length / 2)];

  /**
   * At a lighter rung nobody does less than was counted, at a heavier one nobody does more, beyond noise.
   * @param {number[]} three
   * @param {number} counted
   * @param {number} one the noise of one count
   * @param {number} ratio
   * @param {boolean} ordered
   */
  function inOrder([low, point, high], counted, one, ratio, ordered) {
    const noise = root([one, one, 0]);
    if (ordered && ratio > 1) return [Math.max(low, counted - noise), point, high];
    if (ordered && ratio < 1) return [low, point, Math.min(high, counted + noise)];
    return [low, point, high];
  }

  /** What the middle relation makes of a count. @param {number} reps @param {number} ratio */
  const middleReps = (reps, ratio) =>
    middle(tables.relations.filter(({ votes }) => votes).map(({ form }) => {
      const multiple = maximum(form, reps);
      if (!(multiple > 0 && multiple < Infinity)) return tables.endless;
      return Math.min(repsAt(form, multiple * ratio), tables.endless);
    }));

  /** @param {number} reps @param {Compared} compared */
  function repsBand(reps, compared) {
    const { across, ordered } = compared;
    const ratio = Math.pow(compared.ratio, across.factor);
    const [shares, factor] = [compared.doubt * across.factor, Math.abs(Math.log(compared.ratio)) * across.band];
    const { endless } = tables;
    let least = Infinity;
    let most = 0;
    const lows = [];
    const points = [];
    const highs = [];
    for (const { form, votes } of tables.relations) {
      const multiple = maximum(form, reps);
      if (!(multiple > 0 && multiple < Infinity)) continue;
      const plain = Math.min(repsAt(form, multiple * ratio), endless);
      least = Math.min(least, plain);
      most = Math.max(most, plain);
      if (votes) {
        const way = Math.min(1, Math.abs(1 / ratio - 1) / Math.max(1e-9, multiple - 1));
        const people = tables.nine_in_ten * scatter(Math.max(reps, plain)) * way;
        const doubt = Math.min(0.99, root([shares, factor, people]));
        lows.push(repsAt(form, multiple * ratio * (1 - doubt)));
        points.push(plain);
        highs.push(Math.min(repsAt(form, multiple * ratio * (1 + doubt)), endless));
      }
    }
    const point = middle(points);
    const [low, high] = [Math.min(least, middle(lows)), Math.max(most, middle(highs))];
    const [one, there] = [wander(reps), wander(point)];
    const fewer = middleReps(Math.max(reps - one, 1), ratio);
    const more = middleReps(reps + one, ratio);
    const three = [
      Math.max(0, point - root([point - low, point - fewer, there])),
      point,
      point + root([high - point, more - point, there]),
    ];
    return band(inOrder(three, reps, one, ratio, ordered), tables.most_reps);
  }

  /** @param {number} seconds @param {Compared} compared */
  function holdBand(seconds, compared) {
    const powers = (/** @type {number} */ ratio) => [
      ratio * Math.sqrt(ratio),
      ratio * ratio * Math.sqrt(ratio),
    ];
    const { ratio, ordered } = compared;
    const doubt = Math.min(0.99, compared.doubt);
    const point = seconds * (ratio * ratio);
    const low = seconds * Math.min(...powers(ratio * (1 - doubt)));
    const high = seconds * Math.max(...powers(ratio * (1 + doubt)));
    const noise = holdWander(point);
    const three = [
      Math.max(0, point - root([point - low, noise, noise])),
      point,
      point + root([high - point, noise, noise]),
    ];
    return band(inOrder(three, seconds, holdWander(seconds), ratio, ordered), tables.most_seconds);
  }

  /**
   * The doubt of a ratio: two poses err each for itself, one pose at two settings partly alike.
   * @param {Carried} from @param {Carried} to @param {boolean} alike
   */
  function doubtOfRatio(from, to, alike) {
    const share = (from.doubt * from.weight + to.doubt * to.weight) / 2;
    const shared = alike && share > 0 ? share / (share + Math.abs(from.weight - to.weight)) : 0;
    const [a, b] = [from.doubt, to.doubt];
    return Math.sqrt(Math.max(0, a * a + b * b - 2 * shared * a * b));
  }

  /** @param {Demand} demand @param {number} body @param {number} added @returns {Carried | null} */
  function carried(demand, body, added) {
    const weight = demand.share * body + (demand.weight_kg + added);
    const doubt = (demand.band * body) / weight;
    const adds = demand.in_mass || demand.weight_kg + added === 0;
    const usable = adds && weight > 0 && weight < Infinity && doubt >= 0 && doubt < 1;
    return usable ? { weight, doubt } : null;
  }

  /**
   * The band at rung `at` (from 0), or why there is none.
   * @param {Sheet} sheet
   * @param {(Demand | null)[]} demands
   * @param {TestResult} result
   * @param {number} at
   * @returns {Band | string}
   */
  function computed(sheet, demands, result, at) {
    const target = sheet.rungs[at];
    if (!target) return fill("no-count", { rung: at + 1 });
    if (target.counts !== result.counts) {
      const counts = words[`counts-${target.counts}`];
      return fill("other-count", { rung: at + 1, counts, tested: words[`counts-${result.counts}`] });
    }
    const unknown = (/** @type {number} */ rung) => fill("needs-demand", { rung });
    const wanted = demands[at];
    const tested = result.own || demands[result.rung - 1];
    if (!wanted) return unknown(at + 1);
    if (!tested) return unknown(result.rung);
    if (wanted.kind !== tested.kind) return fill("other-work", { rung: at + 1, tested: result.rung });
    const weighted = tested.weight_kg + wanted.weight_kg + result.added_kg !== 0;
    if (result.body_mass_kg === null && weighted) return fill("needs-body-mass");
    const body = result.body_mass_kg === null ? 1 : result.body_mass_kg;
    const ends = tested.end && wanted.end;
    const from = carried({ ...tested, ...(ends && tested.end) }, body, result.added_kg);
    if (!from) return unknown(result.rung);
    const to = carried({ ...wanted, ...(ends && wanted.end) }, body, 0);
    if (!to) return unknown(at + 1);
    const alike = wanted.pose === tested.pose;
    const doubt = doubtOfRatio(from, to, alike);
    const ratio = from.weight / to.weight;
    const compared = { ratio, doubt, ordered: alike || Math.abs(ratio - 1) > doubt, across: wanted.across };
    if (result.amount === 0) return fill("none-counted");
    const over = result.counts === "reps" && result.amount > tables.most_reps;
    if (over) return fill("over-relations", { most: tables.most_reps });
    if (result.counts === "seconds") return holdBand(result.amount, compared);
    return repsBand(result.amount, compared);
  }

  /** @param {number} reps */
  function repsWander(reps) {
    const otherwise = 1 - (tables.verdict_repeated[0] + tables.verdict_repeated[1]) / 2;
    return 2 * Math.sqrt(reps * otherwise);
  }

  /** How far one count wanders. @param {number} reps */
  const wander = (reps) => Math.max(1, repsWander(reps));

  /** How far one hold wanders. @param {number} seconds */
  const holdWander = (seconds) => (seconds * tables.hold_noise) / Math.sqrt(2);

  /**
   * What counting alone can change between two results of the same test.
   * @param {string} counts
   * @param {number} first
   * @param {number} second
   */
  function noise(counts, first, second) {
    if (counts === "seconds") return Math.ceil(settle(Math.max(first, second) * tables.hold_noise));
    return Math.max(Math.floor(settle(repsWander(first + second))), tables.least_noise);
  }

  /** @param {TestResult} result @returns {Band} */
  function counted({ counts, amount }) {
    const one = counts === "seconds" ? Math.ceil(settle(holdWander(amount))) : Math.floor(settle(wander(amount)));
    return { low: Math.max(0, amount - one), point: amount, high: amount + one, open: false, over: false };
  }

  return { computed, counted, noise, fill, amountWords };
};

if (typeof module !== "undefined") module.exports = rungbookEstimate;
