// Does a movement fit a person, and in words, why not? Pure functions; the page and the device are
// picker.js's business.
// The rule is the one of the command: kit, traits and noise leave movements out, nothing ranks.
"use strict";

/**
 * @typedef {{kit: string[] | null, lacks?: string[], limits: Record<string, number>, noise: string}} Person
 * Kit at hand (null: any) less what is lacking today, traits to leave out from a level on, and the
 * loudest noise allowed.
 * @typedef {{kit: string[][], traits: Record<string, number>, noise: string}} Needs
 * Kit needed (each need a list of things any of which serves), traits and their levels, noise.
 */

const rungbookFits = (() => {
  const LOUDNESS = ["quiet", "some", "loud"];

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
      found[name] = Number(level) || 1;
    }
    return found;
  }

  /**
   * What an element's `data-` attributes ask for.
   * @param {{kit?: string, traits?: string, noise?: string}} data
   * @returns {Needs}
   */
  function needs(data) {
    return {
      kit: words(data.kit).map((need) => need.split("|")),
      traits: levels(data.traits),
      noise: data.noise || "quiet",
    };
  }

  /**
   * Why a movement does not fit; an empty list when it does.
   * @param {Person} person
   * @param {Needs} asks
   * @returns {{kit: string[][], traits: string[], noise: boolean}}
   */
  function misfits(person, asks) {
    const { kit, lacks = [] } = person;
    const has = (/** @type {string} */ one) =>
      !lacks.includes(one) && (kit === null || kit.includes(one));
    return {
      kit: asks.kit.filter((need) => !need.some(has)),
      traits: Object.keys(asks.traits).filter((name) => {
        const from = person.limits[name];
        return from !== undefined && asks.traits[name] >= from;
      }),
      noise: LOUDNESS.indexOf(asks.noise) > LOUDNESS.indexOf(person.noise),
    };
  }

  /**
   * @param {Person} person
   * @param {Needs} asks
   */
  function fits(person, asks) {
    const why = misfits(person, asks);
    return why.kit.length === 0 && why.traits.length === 0 && !why.noise;
  }

  /** A trait or a piece of kit as words. @param {string} id */
  const spoken = (id) => id.replaceAll("-", " ");

  /**
   * The same reasons to two people. A member is told in whole clauses, and that the limit is their own;
   * a coach in class, who asks on behalf of others, in words that follow the movement's name.
   */
  const SAID = {
    member: { traits: "you leave out", kit: "it needs", noise: "it is too loud" },
    coach: { traits: "asks for", kit: "needs", noise: "too loud" },
  };

  /**
   * Why a movement does not fit, in plain words; empty when it does.
   * @param {Person} person
   * @param {{kit?: string, traits?: string, noise?: string}} data what it asks for
   * @param {"member" | "coach"} to
   */
  function why(person, data, to) {
    const said = SAID[to];
    const found = misfits(person, needs(data));
    const parts = [];
    if (found.traits.length) parts.push(`${said.traits} ${found.traits.map(spoken).join(", ")}`);
    if (found.kit.length) {
      parts.push(`${said.kit} ${found.kit.map((need) => need.map(spoken).join(" or ")).join(", ")}`);
    }
    if (found.noise) parts.push(said.noise);
    return parts.join("; ");
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

  return { needs, misfits, fits, why, spoken, together };
})();

if (typeof module !== "undefined") module.exports = rungbookFits;
