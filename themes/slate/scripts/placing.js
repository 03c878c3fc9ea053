// From a test result to a rung, a dose and a verdict on moving up. Pure functions; the page and the
// device are others' business. Mirrors the room `placing` to the digit: numbers and sentences come
// from its `tables()`, and a test compares the two on random people.
"use strict";

/**
 * @typedef {"reps" | "seconds" | "metres" | "contacts"} Counts
 * @typedef {{counts: Counts, from: number, to: number, sets: number[] | null, each_side: boolean}} Target
 * @typedef {{up: {words: string, count: {over: number, sessions: number} | null} | null,
 *   rungs: (Target | null)[]}} Sheet
 * @typedef {{share: number, band: number, weight_kg: number, kind: number, pose: number, in_mass: boolean}} Demand
 *   share of body mass, and kg; compared only within one kind
 * @typedef {{rung: number, counts: "reps" | "seconds", amount: number, body_mass_kg: number | null,
 *   added_kg: number, own?: Demand | null}} TestResult the rung from 1; what was carried at an own height
 * @typedef {{low: number, point: number, high: number, open: boolean}} Band
 * @typedef {(Band & {kind: "measured" | "computed"}) | {kind: "unknown", why: string}} Prediction
 * @typedef {{weight: number, doubt: number}} Carried in kg or as a share of body mass; a share of itself
 * @typedef {{kind: "line", per: number} | {kind: "fraction", top: number, base: number, slope: number}
 *   | {kind: "power", exponent: number}
 *   | {kind: "decay", base: number, range: number, rate: number}} Form
 * @typedef {{relations: {form: Form, votes: boolean}[], most_reps: number, most_seconds: number,
 *   close_reps: number, close_scatter: number, far_scatter: number, reserve: number[],
 *   verdict_repeated: number[], hold_noise: number, least_noise: number,
 *   words: Record<string, string>}} PlacingTables
 */

/** @param {PlacingTables} tables what the room `placing` exports */
const rungbookPlacing = (tables) => {
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
      low: cut(Math.floor(low)), point: cut(Math.round(point)), high: cut(Math.ceil(high)), open: high > most,
    };
  }

  /** Independent doubts together. @param {number[]} doubts */
  const together = ([a, b, c]) => Math.min(0.99, Math.sqrt(a * a + b * b + c * c));

  /** The middle of an odd number of numbers. @param {number[]} numbers */
  const middle = (numbers) => numbers.sort((a, b) => a - b)[Math.floor(numbers.length / 2)];

  /**
   * At a lighter rung nobody does less than was counted, at a heavier one nobody does more.
   * @param {number[]} three
   * @param {number} counted
   * @param {number} ratio
   */
  function inOrder([low, point, high], counted, ratio) {
    if (ratio > 1) return [Math.max(low, counted), point, high];
    if (ratio < 1) return [low, point, Math.min(high, counted)];
    return [low, point, high];
  }

  /** @param {number} reps @param {Carried} from @param {Carried} to */
  function repsBand(reps, from, to) {
    const ratio = from.weight / to.weight;
    let least = Infinity;
    let most = 0;
    const lows = [];
    const points = [];
    const highs = [];
    for (const { form, votes } of tables.relations) {
      const multiple = maximum(form, reps);
      if (!(multiple > 0 && multiple < Infinity)) continue;
      const plain = repsAt(form, multiple * ratio);
      least = Math.min(least, plain);
      most = Math.max(most, plain);
      if (votes) {
        const way = Math.min(1, Math.abs(1 / ratio - 1) / Math.max(1e-9, multiple - 1));
        const doubt = together([from.doubt, to.doubt, scatter(Math.max(reps, plain)) * way]);
        lows.push(repsAt(form, multiple * ratio * (1 - doubt)));
        points.push(plain);
        highs.push(repsAt(form, multiple * ratio * (1 + doubt)));
      }
    }
    const three = [Math.min(least, middle(lows)), middle(points), Math.max(most, middle(highs))];
    return band(inOrder(three, reps, ratio), tables.most_reps);
  }

  /** @param {number} seconds @param {Carried} from @param {Carried} to */
  function holdBand(seconds, from, to) {
    const powers = (/** @type {number} */ ratio) => [
      ratio * Math.sqrt(ratio),
      ratio * ratio * Math.sqrt(ratio),
    ];
    const ratio = from.weight / to.weight;
    const doubt = together([from.doubt, to.doubt, 0]);
    const low = Math.min(...powers(ratio * (1 - doubt)));
    const high = Math.max(...powers(ratio * (1 + doubt)));
    const three = [low, ratio * ratio, high].map((share) => seconds * share);
    return band(inOrder(three, seconds, ratio), tables.most_seconds);
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
    let from = carried(tested, body, result.added_kg);
    if (!from) return unknown(result.rung);
    let to = carried(wanted, body, 0);
    if (!to) return unknown(at + 1);
    if (wanted.pose === tested.pose) {
      // One pose at two settings errs the same way at both.
      to = { ...to, doubt: Math.abs(from.doubt - to.doubt) };
      from = { ...from, doubt: 0 };
    }
    if (result.amount === 0) return fill("none-counted");
    const over = result.counts === "reps" && result.amount > tables.most_reps;
    if (over) return fill("over-relations", { most: tables.most_reps });
    // The same weight: nothing to compute, only the noise of counting.
    if (settle(from.weight - to.weight) === 0 && to.doubt === 0) return counted(result);
    if (result.counts === "seconds") return holdBand(result.amount, from, to);
    return repsBand(result.amount, from, to);
  }

  /**
   * What counting alone can change between two results of the same test.
   * @param {string} counts
   * @param {number} first
   * @param {number} second
   */
  function noise(counts, first, second) {
    const most = Math.max(first, second);
    if (counts === "seconds") return Math.ceil(settle(most * tables.hold_noise));
    const otherwise = 1 - (tables.verdict_repeated[0] + tables.verdict_repeated[1]) / 2;
    const wander = 2 * Math.sqrt(most * otherwise);
    return Math.max(Math.floor(settle(wander)), tables.least_noise);
  }

  /** @param {TestResult} result @returns {Band} */
  function counted({ counts, amount }) {
    const wander = noise(counts, amount, amount);
    return { low: Math.max(0, amount - wander), point: amount, high: amount + wander, open: false };
  }

  /**
   * @param {Sheet} sheet
   * @param {(Demand | null)[]} demands
   * @param {TestResult} result
   * @returns {Prediction[]}
   */
  const everyRung = (sheet, demands, result) =>
    sheet.rungs.map((_, at) => {
      const here = at + 1 === result.rung;
      const known = computed(sheet, demands, result, at);
      const why = typeof known === "string";
      if (here && !result.own && (result.added_kg === 0 || why)) {
        return { kind: "measured", ...counted(result) };
      }
      return why ? { kind: "unknown", why: known } : { kind: "computed", ...known };
    });

  /** Leaves the right reserve. @param {Counts} counts @param {number} most */
  function kept(counts, most) {
    if (counts === "reps") return tables.reserve.map((left) => Math.max(0, most - left)).reverse();
    if (counts === "seconds") return [Math.floor((most * 2) / 3), Math.floor((most * 4) / 5)];
    return null;
  }

  /**
   * @param {Target | null} target
   * @param {Prediction} known
   * @returns {"below" | "above" | "unknown" | Target}
   */
  function fit(target, known) {
    if (!target || known.kind === "unknown") return "unknown";
    const span = kept(target.counts, known.point);
    if (!span) return "unknown";
    if (span[1] < target.from) return "below";
    if (span[0] > target.to) return "above";
    return { ...target, from: Math.max(span[0], target.from), to: Math.min(span[1], target.to) };
  }

  /** @param {string} key @param {number} at @param {Target | null} dose */
  function say(key, at, dose) {
    if (!dose) return { rung: at + 1, dose, say: fill(key, { rung: at + 1 }) };
    const reserve = words[dose.counts === "seconds" ? "reserve-seconds" : "reserve-reps"];
    const holes = { rung: at + 1, next: at + 2, back: at, dose: rungbookDose.words(dose), from: dose.from };
    return { rung: at + 1, dose, say: fill(key, { ...holes, reserve }) };
  }

  /** What the test says about the same height or lean. @param {Sheet} sheet @param {TestResult} result */
  function atOwn(sheet, result) {
    if (!result.own) return null;
    const dose = fit(sheet.rungs[result.rung - 1], { kind: "measured", ...counted(result) });
    if (dose === "above" || dose === "below") return fill(`own-${dose}`);
    if (typeof dose === "string") return null;
    const reserve = words[dose.counts === "seconds" ? "reserve-seconds" : "reserve-reps"];
    return fill("own-within", { dose: rungbookDose.words(dose), reserve });
  }

  /** @param {Sheet} sheet @param {(string | Target)[]} fits @param {number} at */
  function climb(sheet, fits, at) {
    const dose = sheet.rungs[at];
    const next = sheet.rungs[at + 1];
    const top = dose && { ...dose, from: dose.to };
    if (at + 1 === fits.length && top) return say("top", at, top);
    if (fits[at + 1] === "unknown" && next) return say("try-up", at + 1, next);
    return top ? say("gap", at, top) : say("no-dose", at, null);
  }

  /** @param {Sheet} sheet @param {Prediction[]} predicted @param {number} at */
  function stepDown(sheet, predicted, at) {
    const below = sheet.rungs[at - 1];
    if (below) return say("try-down", at - 1, below);
    if (at > 0) return say("no-dose", at - 1, null);
    const [target, known] = [sheet.rungs[at], predicted[at]];
    const span = target && known.kind !== "unknown" ? kept(target.counts, known.point) : null;
    if (!target || !span || span[1] === 0) return say("too-much", at, null);
    return say("under", at, { ...target, from: Math.max(1, span[0]), to: span[1] });
  }

  /** @param {Sheet} sheet @param {Prediction[]} predicted @param {TestResult} result */
  function today(sheet, predicted, result) {
    const fits = sheet.rungs.map((target, at) => fit(target, predicted[at]));
    const tested = result.rung - 1;
    let at = -1;
    fits.forEach((one, rung) => {
      const nearer = at === -1 || Math.abs(rung - tested) < Math.abs(at - tested);
      if (typeof one !== "string" && nearer) at = rung;
    });
    const dose = fits[at];
    if (dose !== undefined && typeof dose !== "string") {
      return say(predicted[at].kind === "measured" ? "within" : "estimated", at, dose);
    }
    if (fits.includes("above")) return climb(sheet, fits, fits.lastIndexOf("above"));
    if (fits.includes("below")) return stepDown(sheet, predicted, fits.indexOf("below"));
    return say("no-dose", tested, null);
  }

  /**
   * Whether the last sets of sessions at a rung (the latest last) meet the ladder's rule.
   * @param {Sheet} sheet
   * @param {number} rung from 1
   * @param {number[]} lastSets
   */
  function moveUp(sheet, rung, lastSets) {
    if (!sheet.up) return { verdict: "no-rule", say: fill("up-no-rule") };
    const { words: rule, count } = sheet.up;
    if (rung >= sheet.rungs.length) return { verdict: "top-rung", say: fill("up-top", { rung }) };
    const dose = sheet.rungs[rung - 1];
    if (!count || !dose) return { verdict: "ask-coach", say: fill("up-coach", { rule }) };
    const target = dose.to + count.over;
    const short = lastSets.slice().reverse().findIndex((set) => set < target);
    const running = short === -1 ? lastSets.length : short;
    if (running === 0) {
      const last = lastSets.length ? lastSets[lastSets.length - 1] : 0;
      return { verdict: "not-yet", say: fill("up-not-yet", { target, count: last, rule }) };
    }
    if (running < count.sessions) {
      const holes = { so_far: running, sessions: count.sessions, rule };
      return { verdict: "counts", say: fill("up-counts", holes) };
    }
    return { verdict: "ready", say: fill("up-ready", { next: rung + 1, rule }) };
  }

  /** @param {Sheet} sheet @param {number} rung from 1 */
  function elsewhere(sheet, rung) {
    if (!sheet.up) return moveUp(sheet, rung, []);
    return { verdict: "elsewhere", say: fill("up-elsewhere", { rung, rule: sheet.up.words }) };
  }

  /** @param {Prediction[]} predicted @param {{rung: number}} now @param {TestResult} result */
  function notes(predicted, now, result) {
    const computes = predicted.some((known) => known.kind === "computed");
    const kind = result.counts === "reps" ? "note-estimate" : "note-hold";
    const found = [fill(computes ? kind : "note-counted")];
    if (result.added_kg > 0) {
      found.push(fill("note-added", { added: result.added_kg }));
      const same = now.rung === result.rung && predicted[result.rung - 1].kind === "measured";
      if (same) found.push(fill("note-added-dose"));
    }
    if (result.own) found.push(fill("note-own", { rung: result.rung }));
    if (now.rung !== result.rung) found.push(fill("note-placed", { rung: now.rung }));
    return found;
  }

  /**
   * Places a result on a ladder; `null` when the result does not belong to it.
   * @param {Sheet} sheet
   * @param {(Demand | null)[]} demands
   * @param {TestResult} result
   */
  function place(sheet, demands, result) {
    const tested = sheet.rungs[result.rung - 1];
    if (tested === undefined || (tested && tested.counts !== result.counts)) return null;
    if ((result.body_mass_kg !== null && !(result.body_mass_kg > 0)) || result.added_kg < 0) {
      return null;
    }
    const predicted = everyRung(sheet, demands, result);
    const now = today(sheet, predicted, result);
    const move_up = result.own
      ? elsewhere(sheet, result.rung)
      : moveUp(sheet, result.rung, [result.amount]);
    const own = atOwn(sheet, result);
    const found = { predicted, today: now, move_up, notes: notes(predicted, now, result) };
    return own === null ? found : { ...found, own };
  }

  /** A number with its band and how it was come by, or why there is none. @param {Prediction} known */
  function knownWords(known) {
    if (known.kind === "unknown") return known.why;
    const { point, low, high, open } = known;
    return fill(`known-${known.kind}`, { point, low, high, more: open ? words["or-more"] : "" });
  }

  return { place, knownWords, moveUp, computed, noise, fill, amountWords, kept };
};

if (typeof module !== "undefined") module.exports = rungbookPlacing;
