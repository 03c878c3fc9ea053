// A member's own version of a session's lines, or of a rung: own rung, own heights, own kit and limits,
// own dose, each with its reason. Pure functions; the page and the device are session.js's business.
// Limits, kit and noise leave out before anything is chosen; nothing left means that a coach decides.
// The rule is the command's (`own/answer.rs`), and a test holds the two equal.
"use strict";

/**
 * @typedef {{number: number}} OwnThree one of the three rungs that the page shows
 * @typedef {{ladder_id: string | null, below: number, asked: (Target | null)[], tests: boolean,
 *   counts_down: boolean, rungs: OwnThree[], movement_id: string | null, movement: {text: string} | null,
 *   stands?: {ladder: string, number: number} | null,
 *   work: CardWork | null, at: number, setting: string, needs: AskedFor, options: OwnItem[],
 *   dose: string | null, words?: string | null, cue: string | null}} OwnItem a line of a block
 * @typedef {{person: Person, book: Book, ladders: Record<string, LadderData>,
 *   cards: Record<string, Card>, placing: ReturnType<typeof rungbookPlacing> | null}} OwnTools
 * @typedef {{kind: "fine" | "changed" | "swap" | "ask" | "missing", movement: string, name: string,
 *   ladder: string | null, rung: number | null, setting: string, change: string, brief: string,
 *   dose: string, each: EachCount | null, cue: string, why: string[]}} OwnVersion
 *   `missing`: the card of `movement` is wanted first; `ask`: nothing is ordered
 * @typedef {{movement: string, name: string, needs: Asks, target: Target | null, why: string[], item: OwnItem,
 *   rung: {ladder: string, number: number} | null, at: number}} OwnAsked what a swap is sought for
 */

const rungbookOwn = (() => {
  const { fit, isIn, asksAt, why, howWords, inBrief, general, levels, swapsFor, settingWords, startsLow, traitWords } = rungbookFits;
  const { counted, eachOf, withEach, swapDose, manages, ownDose } = rungbookOwnDose;
  const rungOf = rungbookOwnRung;
  const NOT_HERE = "The library does not have what this line names. Ask your coach.";

  /** @param {OwnVersion["kind"]} kind @param {string} movement @param {string[]} reasons @returns {OwnVersion} */
  const bare = (kind, movement, reasons) => ({
    kind, movement, name: "", ladder: null, rung: null, setting: "", change: "", brief: "", dose: "", each: null, cue: "",
    why: reasons,
  });

  /** Why a rung is changed. @param {Person} person @param {string} traits */
  function whyChanged(person, traits) {
    const met = Object.entries(levels(traits)).filter(([name, level]) => level >= (person.limits[name] ?? Infinity));
    return `As it stands it has ${met.map(([name]) => traitWords(name)).join(", ")}, which ${person.front ? "they" : "you"} leave out.`;
  }

  /** How it is done, where it may be; changed, its cue is not said: it may ask for what the change leaves out. @param {Person} person @param {Fit} found @param {string} traits */
  const changed = (person, found, traits) => ({
    kind: /** @type {"fine" | "changed"} */ (found.kind), change: howWords(found), brief: inBrief(found),
    why: found.kind === "changed" ? [whyChanged(person, traits)] : [],
  });

  /**
   * One rung for this member; a sentence where it does not fit.
   * @param {LadderData} ladder @param {OwnItem} item @param {number} at @param {OwnTools} tools
   * @returns {OwnVersion | string}
   */
  function onRung(ladder, item, at, tools) {
    const rung = ladder.rungs[at];
    const named = rung.setting ? `${rung.name}, ${rung.setting}` : rung.name;
    const known = manages(ladder, item, at, null, tools);
    const stood = rungOf.stand(ladder, at, tools);
    if ("out" in stood) {
      if (stood.out === null) return `Not ${named}: no height in My book is near enough.`;
      return `Not ${named}: ${why(tools.person, stood.out, "member")}.`;
    }
    const there = stood.demand ? manages(ladder, item, at, stood.demand, tools) : known;
    const dose = ownDose(item.asked[at] || null, there, item);
    if (!dose) return `Not ${named}: by your result not one repetition to the standard yet.`;
    const how = changed(tools.person, stood.fit, stood.traits);
    const each = item.counts_down ? eachOf(rung.work) : null;
    return {
      ...how, movement: rung.movement, name: rung.name, ladder: ladder.id, rung: at + 1, setting: stood.setting,
      dose: withEach(dose.dose || item.dose || "", each), each, cue: how.kind === "fine" ? rung.cue || "" : "",
      why: [stood.say, dose.why, ...how.why].filter(Boolean),
    };
  }

  /** The asked rung as the card has it. @param {Card} card @param {OwnAsked} asked @returns {AskedRung} */
  function onCard(card, { rung, at }) {
    const own = rung ? null : card.rungs[at];
    if (own) return { ladder: own.ladder, number: own.number, at };
    if (!rung) return { ladder: null, number: 0, at: 0 };
    return { ...rung, at: card.rungs.findIndex((one) => one.ladder === rung.ladder && one.number === rung.number) };
  }

  /**
   * The swap for what does not fit; nothing left means that a coach decides.
   * @param {OwnAsked} asked @param {OwnTools} tools @returns {OwnVersion}
   */
  function swapFor(asked, tools) {
    const { movement, item } = asked;
    const card = tools.cards[movement];
    if (!card) return bare("missing", movement, asked.why);
    const person = { ...tools.person, rungs: rungOf.standings(tools, item.below) };
    const [found] = swapsFor(card, onCard(card, asked), person);
    if (!found) return nothing(card, asked, tools);
    const { swap, rung, startHere, reason } = found;
    const to = tools.cards[swap.id];
    if (!to) return bare("missing", swap.id, asked.why);
    const fewer = fewerOf(asked, found, tools);
    if (fewer === null) return nothing(card, asked, tools);
    const how = changed(person, found.fit, rung.traits);
    const own = person.front ? "their own" : "your own";
    const start = startHere ? [`Start here, with the easiest way of it: ${own} rung is not known.`] : [];
    const each = item.counts_down ? eachOf(swap.work) : null;
    return {
      ...how, kind: "swap", movement: swap.id, name: swap.name, ladder: rung.ladder ?? null, rung: rung.number ?? null,
      setting: settingWords(rung.setting, found.fit), dose: withEach(fewer?.dose ?? swapDose(card.work, swap.work, asked.target, item.dose || ""), each), each,
      cue: how.change ? "" : to.cues[0] || "", why: [...asked.why, reason, ...start, ...(fewer ? [fewer.why] : []), ...how.why],
    };
  }

  /**
   * The dose of a swap where a result on its ladder allows fewer than the line asks; null where it allows
   * not one, nothing where no result says. @param {OwnAsked} asked
   * @param {ReturnType<typeof swapsFor<Card["swaps"][number]>>[number]} found @param {OwnTools} tools
   */
  function fewerOf({ movement, target, item }, { swap, rung }, tools) {
    const ladder = rung.ladder && tools.ladders[rung.ladder];
    if (!ladder || !target || !rung.number) return undefined;
    const at = rung.number - 1;
    const ask = counted(tools.cards[movement].work, swap.work, target);
    const line = { ...item, tests: false, asked: ladder.rungs.map((_, other) => (other === at ? ask : null)) };
    const can = manages(ladder, line, at, null, tools);
    return can && can[1] < ask.from ? ownDose(ask, can, line) : undefined;
  }

  /** @param {Card} card @param {OwnAsked} asked @param {OwnTools} tools */
  function nothing(card, asked, { person }) {
    const harder = card.swaps.some((swap) => swap.rungs.some((rung) => isIn(person, asksAt(swap.needs, rung))));
    const left = harder
      ? "What is left asks more than this, so it is not suggested."
      : "Nothing here does the same work and fits.";
    const situations = [...(person.situations || [])].sort();
    const said = general({ ...person, situations }, asked.needs).map((one) => `In general, and ${person.front ? "you decide" : "your coach decides"}: ${one.replace(/\.+$/, "")}.`);
    return bare("ask", asked.movement, [...asked.why, `${left} ${person.front ? "You decide." : "Ask your coach."}`, ...said]);
  }

  /**
   * A ladder from a rung downward.
   * @param {LadderData} ladder @param {{rung: number, why: string}} own @param {OwnItem} item @param {OwnTools} tools
   * @returns {OwnVersion}
   */
  function downFrom(ladder, own, item, tools) {
    const top = Math.min(own.rung, ladder.rungs.length);
    /** @type {string[]} */
    const out = [];
    for (let at = top - 1; at >= 0; at -= 1) {
      const tried = onRung(ladder, item, at, tools);
      if (typeof tried !== "string") {
        const lower = at + 1 < top ? [...out.slice(0, 1), `The nearest rung below that fits: ${at + 1}.`] : [];
        return { ...tried, why: [own.why, ...lower, ...tried.why] };
      }
      out.push(tried);
    }
    const rung = ladder.rungs[top - 1];
    if (!rung) return bare("ask", "", [own.why, NOT_HERE]);
    return swapFor({
      movement: rung.movement, name: rung.name, needs: rung.needs, target: item.asked[top - 1] || null, item,
      why: [own.why, ...out.slice(0, 1), "No rung below it fits either."], rung: { ladder: ladder.id, number: top }, at: 0,
    }, tools);
  }

  /**
   * A line that names one movement, for somebody of whom nobody starts in the middle of a ladder: on
   * their own rung where it is known, else on the lowest. Null where the line asks no higher one.
   * @param {OwnItem} item @param {OwnTools} tools @returns {OwnVersion | null}
   */
  function held(item, tools) {
    const { stands, work } = item;
    const low = startsLow(tools.person);
    const ladder = low && stands && tools.ladders[stands.ladder];
    if (!ladder || !work) return null;
    const known = rungOf.standing(ladder, tools);
    const own = known ? { rung: known.rung, why: known.why("") }
      : { rung: 1, why: `No result on the ${ladder.name} ladder yet, and ${low}: its lowest rung.` };
    if (own.rung >= stands.number) return null;
    const [asked] = item.asked;
    const each = ladder.rungs.map((rung) => (asked ? counted(work, rung.work, asked) : null));
    return downFrom(ladder, own, { ...item, below: 0, tests: false, asked: each }, tools);
  }

  /** @param {OwnItem} item @param {OwnTools} tools @returns {OwnVersion} */
  function onMovement(item, tools) {
    const low = held(item, tools);
    if (low) return low;
    const movement = item.movement_id || "";
    const name = item.movement ? item.movement.text : movement;
    const found = fit(tools.person, item.needs);
    if (!item.work) return bare("ask", "", [NOT_HERE]);
    if (found.kind === "out") {
      const reasons = [`Not ${name}: ${why(tools.person, item.needs, "member")}.`];
      return swapFor({ movement, name, needs: item.needs, target: item.asked[0] || null, why: reasons, item, rung: null, at: item.at }, tools);
    }
    const each = item.counts_down ? eachOf(item.work) : null;
    return {
      ...changed(tools.person, found, item.needs.traits), movement, name, ladder: null, rung: null, setting: settingWords(item.setting, found),
      dose: withEach(item.dose || "", each), each, cue: found.kind === "fine" ? item.cue || "" : "",
    };
  }

  /** @param {OwnVersion} version */
  const isOwn = ({ kind }) => kind === "fine" || kind === "changed";

  /**
   * Of several options the middle one, or the lowest where a situation says so; else the next below it that
   * fits, else what stands for it.
   * @param {OwnItem} item @param {OwnTools} tools @returns {OwnVersion}
   */
  function ofOptions(item, tools) {
    const low = startsLow(tools.person);
    const start = low ? 0 : Math.floor(item.options.length / 2);
    if (!item.options[start]) return bare("ask", "", [NOT_HERE]);
    const dosed = (/** @type {number} */ at) => ({ ...item.options[at], dose: item.options[at].words ?? null });
    const first = version(dosed(start), tools);
    if (first.kind === "missing") return first;
    if (isOwn(first)) return { ...first, why: [low ? `The lowest one, for ${low}.` : "The middle one.", ...first.why] };
    for (let at = start - 1; at >= 0; at -= 1) {
      const lower = version(dosed(at), tools);
      if (lower.kind === "missing") return lower;
      if (isOwn(lower)) return { ...lower, why: [...first.why.slice(0, 1), "The next one down that fits.", ...lower.why] };
    }
    return first;
  }

  /**
   * This member's version of a line. `missing` asks for the card of its movement.
   * @param {OwnItem} item @param {OwnTools} tools @returns {OwnVersion}
   */
  function version(item, tools) {
    if (item.ladder_id) {
      const ladder = tools.ladders[item.ladder_id];
      return downFrom(ladder, rungOf.asked(ladder, item, tools), item, tools);
    }
    return item.movement_id ? onMovement(item, tools) : ofOptions(item, tools);
  }

  /**
   * This member's version of a rung, from 1, as its ladder asks for it; never above their own.
   * @param {LadderData} ladder @param {number} rung @param {OwnTools} tools
   */
  function ofRung(ladder, rung, tools) {
    /** @type {OwnItem} */
    const item = {
      ladder_id: ladder.id, below: 0, asked: ladder.sheet.rungs, tests: false, counts_down: false, rungs: [],
      movement_id: null, movement: null, work: null, at: 0, setting: "", needs: ladder.rungs[0].needs, options: [], dose: null,
      cue: null,
    };
    const own = rungOf.standing(ladder, tools);
    if (!own || own.rung >= rung) return downFrom(ladder, { rung, why: `Rung ${rung}.` }, item, tools);
    const whose = tools.person.front ? "their" : "your";
    return downFrom(ladder, { rung: own.rung, why: `Rung ${rung} is above ${whose} own. ${own.why("")}` }, item, tools);
  }

  /** Ladders that lines name, options too, and for whom starts low those on which a line's movement stands. @param {OwnItem[]} items @param {Person} person @returns {string[]} */
  function laddersOf(items, person) {
    const of = (/** @type {OwnItem} */ { ladder_id, stands, options }) =>
      ladder_id ? [ladder_id] : stands && startsLow(person) ? [stands.ladder] : laddersOf(options, person);
    return [...new Set(items.flatMap(of))].sort();
  }

  return { version, ofRung, laddersOf };
})();

if (typeof module !== "undefined") module.exports = rungbookOwn;
