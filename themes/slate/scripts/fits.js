// The three answers for a person and a rung: fine, changed like this, or left out; and why, in words.
// Pure functions; the page and the device are picker.js's business. The rule is the command's
// (`swap/fits.rs`, `swap/changes.rs`, `swap/choose.rs`): nothing ranks, and no answer has a trait at or
// above what the person may have. What an id means stands in `data/words.js`.
"use strict";

/**
 * @typedef {{kit: string[] | null, lacks?: string[], limits: Record<string, number>, noise: string,
 *   situations?: string[], rungs?: Record<string, number>, front?: boolean}} Person
 * Kit at hand (null: any) less what is lacking today, traits to leave out from a level on, the loudest
 * noise allowed; the situations that the limits come from, own rungs (from 1) where they are known; `front`:
 * a coach reads it, of the person in front: it says they, not you.
 * @typedef {{kit?: string, measured_kit?: string, traits?: string, changes?: string, noise?: string,
 *   how?: Record<string, string> | string}} Asks
 * What a rung asks for, as `data-` attributes and files have it; `how` its changes are made in the
 * entry's own words, by their ids.
 * @typedef {{id: string, name: string, how: string, part: string, leaves: string, eases: string,
 *   brings: string, takes?: string, kit: string, with: string}} ChangeWords
 * @typedef {{kind: "fine"} | {kind: "changed", changes: ChangeWords[]} | {kind: "out"}} Fit
 * @typedef {{ladder?: string, number?: number, setting?: string, traits: string, kit?: string, high?: boolean, harder?: number[]}} SwapRung
 * @typedef {{ladder: string, number: number, at: number} | {ladder: null, number: 0, at: 0}} AskedRung
 * The rung that is asked: its ladder and number, and its place in its card's list.
 */

const rungbookFits = (() => {
  const LOUDNESS = ["quiet", "some", "loud"];
  /** At most this many changes at once, as `swap/changes.rs` says. */
  const MOST_AT_ONCE = 3;
  /** What an entry has that does not say its traits: nobody with a limit passes it. */
  const UNSAID = "unsaid";

  const known = () =>
    globalThis.rungbookWords || { traits: {}, situations: {}, changes: {}, kit: {} };

  /** @param {string | undefined} text words separated by spaces @returns {string[]} */
  const words = (text) => (text || "").split(" ").filter((word) => word !== "");

  /**
   * Reads `name:level` words.
   * @param {string | undefined} text
   * @returns {Record<string, number>}
   */
  function levels(text) {
    /** @type {Record<string, number>} */
    const found = {};
    for (const word of words(text)) {
      const [name, level] = word.split(":");
      const read = Number(level);
      found[name] = Number.isFinite(read) && level !== undefined && level !== "" ? read : 1;
    }
    return found;
  }

  /** What stands for a need that nothing serves: nobody has it. */
  const NOTHING_SERVES = "something-so-high";

  /** Needs for kit: each a list of things any of which serves. @param {string | undefined} text */
  const kitNeeds = (text) => words(text).map((need) => need.split("|"));

  /** @param {Person} person @param {string} one */
  const has = ({ kit, lacks = [] }, one) =>
    one !== NOTHING_SERVES && !lacks.includes(one) && (kit === null || kit.includes(one));

  /** Needs that nothing at hand meets. @param {Person} person @param {string | undefined} text */
  const lacking = (person, text) => kitNeeds(text).filter((need) => !need.some((one) => has(person, one)));

  /** @param {Person} person @param {Asks} asks */
  const tooLoud = (person, asks) => LOUDNESS.indexOf(asks.noise || "quiet") > LOUDNESS.indexOf(person.noise);

  /** Traits at or above the person's limits. @param {Person} person @param {Record<string, number>} traits */
  function over({ limits }, traits) {
    if (UNSAID in traits) return Object.keys(limits).length > 0 ? [UNSAID] : [];
    return Object.keys(traits).filter((name) => limits[name] !== undefined && traits[name] >= limits[name]);
  }

  /**
   * What remains when all of `made` are made: at the most what they leave, one less where they ease,
   * and what they bring in counted whole.
   * @param {Record<string, number>} traits @param {ChangeWords[]} made
   */
  function remaining(traits, made) {
    const left = { ...traits };
    for (const [name, level] of made.flatMap(({ leaves }) => Object.entries(levels(leaves)))) {
      if (left[name] !== undefined) left[name] = Math.min(left[name], level);
    }
    for (const name of made.flatMap(({ eases }) => words(eases))) {
      if (left[name] !== undefined) left[name] = Math.max(left[name] - 1, 0);
    }
    for (const [name, level] of made.flatMap(({ brings }) => Object.entries(levels(brings)))) {
      left[name] = Math.max(left[name] ?? 0, level);
    }
    return Object.fromEntries(Object.entries(left).filter(([, level]) => level > 0));
  }

  /** Two changes of one part go together only where that is written. @param {ChangeWords} a @param {ChangeWords} b */
  const goesWith = (a, b) => a.part !== b.part || words(a.with).includes(b.id) || words(b.with).includes(a.id);

  /**
   * Every choice of `size`, in the order written.
   * @param {ChangeWords[]} possible @param {number} size @returns {ChangeWords[][]}
   */
  function chosen(possible, size) {
    if (size === 0) return [[]];
    return possible.flatMap((first, at) =>
      chosen(possible.slice(at + 1), size - 1).map((rest) => [first, ...rest]));
  }

  /**
   * The fewest changes after which nothing is at or above a limit; null where no three do.
   * @param {Person} person @param {Record<string, number>} traits @param {ChangeWords[]} possible
   */
  function enough(person, traits, possible) {
    for (let size = 1; size <= Math.min(MOST_AT_ONCE, possible.length); size += 1) {
      const found = chosen(possible, size).find((made) =>
        made.every((one, at) => made.slice(0, at).every((other) => goesWith(one, other)))
        && over(person, remaining(traits, made)).length === 0);
      if (found) return found;
    }
    return null;
  }

  /**
   * The changes that a rung's entry allows: the general ones, with what the entry says in their place
   * (`fists;brings=strong-grip:1;kit=handles`) and its own words.
   * @param {Asks} asks @returns {ChangeWords[]}
   */
  function changesOf({ changes, how }) {
    /** @type {Record<string, string>} */
    const said = typeof how === "string" ? JSON.parse(how || "{}") : how || {};
    return words(changes).flatMap((written) => {
      const [id, ...own] = written.split(";");
      const general = known().changes[id];
      if (!general) return [];
      const parts = own.map((part) => part.split("=")).map(([key, value]) => [key, value.replaceAll(",", " ")]);
      return [{ ...general, ...Object.fromEntries(parts), how: said[id] || general.how }];
    });
  }

  /** The changes that answer a person's limits, with kit at hand; null where none do. @param {Person} person @param {Asks} asks */
  const answering = (person, asks) =>
    enough(person, levels(asks.traits), changesOf(asks).filter((one) => lacking(person, one.kit).length === 0));

  /**
   * The answer for a person and a rung.
   * @param {Person} person @param {Asks} asks @returns {Fit}
   */
  function fit(person, asks) {
    const traits = levels(asks.traits);
    const there = lacking(person, asks.kit).length === 0 && !tooLoud(person, asks);
    if (!there || over(person, traits).includes(UNSAID)) return { kind: "out" };
    if (over(person, traits).length === 0) return { kind: "fine" };
    const made = answering(person, asks);
    return made ? { kind: "changed", changes: made } : { kind: "out" };
  }

  /** Whether it may be done, as it stands or changed. @param {Person} person @param {Asks} asks */
  const isIn = (person, asks) => fit(person, asks).kind !== "out";

  /** Words inside a sentence: a small first letter, unless letters stand for words. @param {string} text */
  const inside = (text) => text.replace(/^[A-Z](?!\p{Lu})/u, (first) => first.toLowerCase());

  /** The first of a person's situations of which nobody starts in the middle, inside a sentence; or empty. @param {Person} person */
  function startsLow({ situations = [] }) {
    const found = [...situations].sort().map((id) => known().situations[id]).find((one) => one?.start);
    return found ? inside(found.name) : "";
  }

  /** A trait inside a sentence. @param {string} id */
  const traitWords = (id) => known().traits[id]?.name || id.replaceAll("-", " ");

  /** A piece of kit inside a sentence. @param {string} id */
  const kitWords = (id) => known().kit[id] || id.replaceAll("-", " ");

  /**
   * The same reasons in two ways: in whole clauses, and that the limit is theirs (of the person in front: they);
   * and to a coach in class in words that follow the movement's name.
   */
  const SAID = {
    member: { traits: "you leave out", front: "they leave out", kit: "it needs", noise: "it is too loud", unsaid: "it does not say what can hurt" },
    coach: { traits: "has", front: "has", kit: "needs", noise: "too loud", unsaid: "does not say what can hurt" },
  };

  /**
   * Why a rung is left out, in plain words; empty when it is fine or can be changed.
   * @param {Person} person @param {Asks} asks @param {"member" | "coach"} to
   */
  function why(person, asks, to) {
    if (isIn(person, asks)) return "";
    const said = SAID[to];
    const traits = over(person, levels(asks.traits));
    const parts = [];
    if (traits.includes(UNSAID)) parts.push(said.unsaid);
    // What a change would answer is no reason: what lacks around the person is.
    else if (traits.length && !answering(person, asks)) parts.push(`${person.front ? said.front : said.traits} ${traits.map(traitWords).join(", ")}`);
    const kit = lacking(person, asks.kit);
    if (kit.length) parts.push(`${said.kit} ${kit.map((need) => need.map(kitWords).join(" or ")).join(", ")}`);
    if (tooLoud(person, asks)) parts.push(said.noise);
    return parts.join("; ");
  }

  /** How a rung is changed for a person, in words; empty where it is not. @param {Fit} found */
  const howWords = (found) =>
    found.kind === "changed" ? found.changes.map(({ how }) => how.replace(/\.?$/, ".")).join(" ") : "";

  /** Whether a change takes a setting away or replaces it, so that it is not said. @param {Fit} found @param {string} name */
  const taken = (found, name) => found.kind === "changed" && found.changes.some(({ takes }) => words(takes).includes(name));

  /** Settings in words, less those that a change takes away. @param {string | undefined} setting @param {Fit} found */
  const settingWords = (setting, found) =>
    (setting || "").split(", ").filter((part) => !taken(found, part.split(" ")[0])).join(", ");

  /**
   * A rung by its object, less what a change takes away: the thing goes with the only setting that it says.
   * @param {string} object @param {string | undefined} says its settings @param {Fit} found
   */
  function objectWords(object, says, found) {
    const names = words(says);
    const kept = (/** @type {string} */ part) => names.some((name) => part.startsWith(`${name} `) && !taken(found, name));
    if (!names.some((name) => taken(found, name))) return object;
    return object.split(", ").filter((part) => names.length > 1 && kept(part)).join(", ");
  }

  /** The same in a few words: `on fists or handles`. @param {Fit} found */
  const inBrief = (found) => (found.kind === "changed" ? found.changes.map(({ name }) => name).join(", ") : "");

  /**
   * What the cautions of a person's situations say in general of the traits that left a rung out. The
   * last resort: a coach decides, and no clock orders it.
   * @param {Person} person @param {Asks} asks @returns {string[]}
   */
  function general(person, asks) {
    const traits = over(person, levels(asks.traits));
    const all = (person.situations || []).flatMap((id) => {
      const situation = known().situations[id];
      return situation ? traits.flatMap((name) => situation.how[name] || []) : [];
    });
    return [...new Set(all)];
  }

  /**
   * Limits of several situations and traits together: the lowest level of each trait counts.
   * @param {string[]} asks texts of `name:level` words
   * @returns {Record<string, number>}
   */
  function together(asks) {
    /** @type {Record<string, number>} */
    const limits = {};
    for (const text of asks) {
      for (const [name, level] of Object.entries(levels(text))) {
        limits[name] = Math.min(limits[name] ?? level, level);
      }
    }
    return limits;
  }

  /**
   * The rungs of a swap that a person may be given in place of the asked one, the highest first: none
   * asks more, none is above their own on any of its ladders; where none is known only the lowest, to start with
   * (none above the middle; of a whole ladder, for whom nobody starts there).
   * @param {SwapRung[]} rungs the lowest first @param {AskedRung} asked @param {Person} person
   * @returns {{rung: SwapRung, startHere: boolean}[]}
   */
  function withinReach(rungs, asked, person) {
    const most = (/** @type {SwapRung} */ { ladder }) =>
      person.rungs?.[ladder || ""] ?? (asked.ladder === ladder ? asked.number : undefined);
    const isKnown = rungs.some((rung) => rung.ladder && most(rung) !== undefined);
    const low = startsLow(person);
    /** @type {{rung: SwapRung, startHere: boolean}[]} */
    const reached = [];
    /** @type {{rung: SwapRung, startHere: boolean}[]} */
    let start = [];
    for (const rung of rungs) {
      if ((rung.harder || []).includes(asked.at)) continue;
      if (!rung.ladder) reached.push({ rung, startHere: false });
      else {
        const own = most(rung);
        if (own !== undefined) { if ((rung.number || 0) <= own) reached.push({ rung, startHere: false }); }
        else if (!isKnown && !rung.high && !(low && rung.number !== 1) && !start.length) start = [{ rung, startHere: true }];
      }
    }
    return [...reached.reverse(), ...start];
  }

  /**
   * What a rung asks where its movement's needs are known: its own traits, and its own kit where its height
   * takes other things. @template {Asks} T @param {T} needs @param {{traits: string, kit?: string}} rung
   */
  const asksAt = (needs, { traits, kit = needs.kit }) => ({ ...needs, traits, kit });

  /**
   * The rung of a swap for a person: the highest within reach that is fine, else the highest that is
   * fine when changed; null where none is.
   * @template {{needs: Asks, rungs: SwapRung[]}} T
   * @param {T} swap @param {AskedRung} asked @param {Person} person
   * @returns {{rung: SwapRung, startHere: boolean, fit: Fit} | null}
   */
  function choose({ needs, rungs }, asked, person) {
    const reached = withinReach(rungs, asked, person);
    const fits = reached.map((one) => ({ ...one, fit: fit(person, asksAt(needs, one.rung)) }));
    const of = (/** @type {string} */ kind) => fits.find((one) => one.fit.kind === kind) || null;
    return of("fine") || of("changed");
  }

  /**
   * What a swap has, as it is done, that the asked rung had not, or had less of: `Brings in: kneeling.`; what
   * its changes bring last. Empty where it brings nothing in, or its entry does not say its traits.
   * @param {string} before traits of the asked rung @param {string} traits @param {Fit} found
   */
  function bringsIn(before, traits, found) {
    const [had, own] = [levels(before), levels(traits)];
    if (UNSAID in own) return "";
    const left = found.kind === "changed" ? remaining(own, found.changes) : own;
    const more = Object.keys({ ...own, ...left }).filter((name) => (left[name] ?? 0) > (had[name] ?? 0));
    const names = more.map((name) => (had[name] === undefined ? traitWords(name) : `${traitWords(name)} (more)`));
    return names.length ? `Brings in: ${names.join(", ")}.` : "";
  }

  /**
   * The swaps of a card for a person, in the card's order, those that are fine before those that are
   * changed; each with why, and what it brings in as this person does it.
   * @template {{needs: Asks, rungs: SwapRung[], reason: string}} T
   * @param {{swaps: T[], rungs: {traits: string}[], needs: Asks}} card @param {AskedRung} asked @param {Person} person
   */
  function swapsFor({ swaps, rungs, needs }, asked, person) {
    const before = rungs[asked.at]?.traits ?? needs.traits ?? "";
    const all = swaps.flatMap((swap) => {
      const found = choose(swap, asked, person);
      if (!found) return [];
      const brings = bringsIn(before, found.rung.traits, found.fit);
      return [{ swap, ...found, reason: brings ? `${swap.reason} ${brings}` : swap.reason }];
    });
    return [...all.filter((one) => one.fit.kind === "fine"), ...all.filter((one) => one.fit.kind === "changed")];
  }

  return {
    levels, fit, isIn, why, howWords, inBrief, taken, settingWords, objectWords, asksAt, inside, startsLow, general, together, traitWords, kitWords, swapsFor, kitNeeds, has,
  };
})();

if (typeof module !== "undefined") module.exports = rungbookFits;
