// From a test result to a rung, a dose and a verdict on moving up. Pure functions over those of
// estimate.js; the page and the device are others' business. Mirrors the room `placing` to the digit:
// numbers and sentences come from its `tables()`, and a test compares the two on random people.
"use strict";

/** @param {PlacingTables} tables what the room `placing` exports */
const rungbookPlacing = (tables) => {
  const { words } = tables;
  const { computed, counted, noise, fill, amountWords } = rungbookEstimate(tables);

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

  /**
   * @param {Sheet} sheet @param {(string | Target)[]} fits @param {number} at
   * @param {boolean} isCounted @param {boolean} isReady
   */
  function climb(sheet, fits, at, isCounted, isReady) {
    const by = isCounted ? "" : "-estimated";
    const dose = sheet.rungs[at];
    const next = sheet.rungs[at + 1];
    const top = dose && { ...dose, from: dose.to };
    if (at + 1 === fits.length && top) return say(`top${by}`, at, top);
    if (fits[at + 1] === "unknown" && next) return say("try-up", at + 1, next);
    return top ? say(isReady ? "by-rule" : `gap${by}`, at, top) : say("no-dose", at, null);
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

  /**
   * What was counted stands above what is estimated: no rung below one that was easy, none above one
   * that was too much.
   * @param {ReturnType<typeof fit>[]} fits @param {number} tested
   */
  function bowToTheCount(fits, tested) {
    const here = fits[tested];
    return fits.map((one, at) =>
      ((here === "above" && at < tested) || (here === "below" && at > tested) ? "unknown" : one));
  }

  /**
   * @param {Sheet} sheet @param {Prediction[]} predicted @param {TestResult} result
   * @param {{verdict: string}} byRule
   */
  function today(sheet, predicted, result, byRule) {
    const tested = result.rung - 1;
    const all = sheet.rungs.map((target, at) => fit(target, predicted[at]));
    const fits = predicted[tested].kind === "measured" ? bowToTheCount(all, tested) : all;
    let at = -1;
    fits.forEach((one, rung) => {
      const nearer = at === -1 || Math.abs(rung - tested) < Math.abs(at - tested);
      if (typeof one !== "string" && nearer) at = rung;
    });
    const dose = fits[at];
    if (dose !== undefined && typeof dose !== "string") {
      return say(predicted[at].kind === "measured" ? "within" : "estimated", at, dose);
    }
    const high = fits.lastIndexOf("above");
    const isReady = byRule.verdict === "ready" && high === tested;
    if (high >= 0) return climb(sheet, fits, high, predicted[high].kind === "measured", isReady);
    if (fits.includes("below")) return stepDown(sheet, predicted, fits.indexOf("below"));
    return say("no-dose", tested, null);
  }

  /**
   * One count a session: of several results of one day the last.
   * @param {{day: string, amount: number}[]} results in the order in which they were made
   */
  const sessions = (results) =>
    results.filter(({ day }, at) => day !== results[at + 1]?.day).map(({ amount }) => amount);

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

  /**
   * What is said where today's rung is not the tested one.
   * @param {Sheet} sheet @param {ReturnType<typeof moveUp>} byRule @param {number} tested @param {number} rung
   */
  function fromToday(sheet, byRule, tested, rung) {
    const speaks = byRule.verdict === "ready" && rung > tested;
    if (!sheet.up || rung === tested || speaks) return byRule;
    return { verdict: "placed", say: fill("up-placed", { rung, rule: sheet.up.words }) };
  }

  /** By what repetitions were carried over. @param {(Demand | null)[]} demands */
  function estimateNote(demands) {
    const own = demands.find((demand) => demand && demand.across.own);
    return own ? fill("note-club", { factor: own.across.factor, band: own.across.band }) : fill("note-estimate");
  }

  /**
   * @param {Prediction[]} predicted @param {(Demand | null)[]} demands @param {{rung: number}} now
   * @param {TestResult} result
   */
  function notes(predicted, demands, now, result) {
    const computes = predicted.some((known) => known.kind === "computed");
    const estimate = () => (result.counts === "reps" ? estimateNote(demands) : fill("note-hold"));
    const found = [computes ? estimate() : fill("note-counted")];
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
   * Why an amount is asked again; null where it can be.
   * @param {string} kind @param {number} value
   */
  function cannotBe(kind, value) {
    const { what, unit, least, most } = tables.possible[kind];
    return value >= least && value <= most ? null : fill("ask-again", { what, value, unit, least, most });
  }

  /** Why a result is asked again. @param {TestResult} result */
  const askAgain = ({ counts, amount, body_mass_kg: mass, added_kg: added }) =>
    cannotBe(counts, amount) || (mass === null ? null : cannotBe("body_mass", mass)) || cannotBe("added", added);

  /**
   * Places a result on a ladder; `null` when the result does not belong to it.
   * @param {Sheet} sheet
   * @param {(Demand | null)[]} demands
   * @param {TestResult} result
   * @param {number[]} [lastSets] of the sessions running at the tested rung, this one last
   */
  function place(sheet, demands, result, lastSets = [result.amount]) {
    const tested = sheet.rungs[result.rung - 1];
    if (tested === undefined || (tested && tested.counts !== result.counts)) return null;
    if (askAgain(result)) return null;
    const predicted = everyRung(sheet, demands, result);
    const byRule = result.own ? elsewhere(sheet, result.rung) : moveUp(sheet, result.rung, lastSets);
    const now = today(sheet, predicted, result, byRule);
    const move_up = fromToday(sheet, byRule, result.rung, now.rung);
    const own = atOwn(sheet, result);
    const found = { predicted, today: now, move_up, notes: notes(predicted, demands, now, result) };
    return own === null ? found : { ...found, own };
  }

  /** A number with its band and how it was come by, or why there is none. @param {Prediction} known */
  function knownWords(known) {
    if (known.kind === "unknown") return known.why;
    const { point, low, high, open, over } = known;
    return fill(over ? "known-over" : `known-${known.kind}`, { point, low, high, more: open ? words["or-more"] : "" });
  }

  /**
   * Today's rung for somebody: as placed, changed, or the nearest below that is fine or can be changed; else
   * the coach decides. Nobody is told to do a rung that their limits leave out.
   * @param {LadderData} ladder @param {{today: {rung: number, say: string}}} found @param {Who} who
   * @returns {{say: string, how: string, asPlaced: boolean}}
   */
  function sayFor(ladder, { today: { rung, say } }, who) {
    const answers = ladder.rungs.slice(0, rung).map(({ needs }) => rungbookFits.fit(who, needs));
    const done = answers.map((answer) => answer.kind !== "out").lastIndexOf(true);
    const how = done >= 0 ? rungbookFits.howWords(answers[done]) : "";
    if (done === rung - 1) return { say, how, asPlaced: true };
    const [whom, ask] = who.front ? ["this person", "take a swap"] : ["you", "ask your coach"];
    const out = fill("left-out", { rung, whom, why: rungbookFits.why(who, ladder.rungs[rung - 1].needs, "member") });
    if (done < 0) return { say: `${out} ${fill("left-out-none", { ask })}`, how, asPlaced: false };
    const { name, setting } = ladder.rungs[done];
    return { say: `${out} ${fill("left-out-below", { below: done + 1, name: setting ? `${name}, ${setting}` : name })}`, how, asPlaced: false };
  }

  return { place, sayFor, askAgain, cannotBe, knownWords, moveUp, sessions, computed, noise, fill, amountWords, kept };
};

if (typeof module !== "undefined") module.exports = rungbookPlacing;
