// What leaves the device by the member's own hand: the book as a file, results as a text for the
// coach. Pure: the page reads and writes. Limits are in the file only when they are handed in.
"use strict";

/**
 * @typedef {{mode: string, kit: string[], noise: string}} KeptKit
 * @typedef {{cautions: string[], traits: string[], names?: string[], asks: Record<string, string> | string[]}} KeptLimits
 * @typedef {{export: string, book: Book, kit: KeptKit | null, limits?: KeptLimits}} BookFile
 */

const rungbookBookFile = (() => {
  const EXPORT = "rungbook-export-1";

  /** @param {unknown} value @returns {value is Record<string, unknown>} */
  const isRecord = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
  /** @param {unknown} value @returns {value is string[]} */
  const areTexts = (value) => Array.isArray(value) && value.every((one) => typeof one === "string");
  /** @param {Record<string, unknown>} value @param {string[]} keys */
  const only = (value, keys) => Object.keys(value).every((key) => keys.includes(key));

  /** @param {unknown} value @returns {value is KeptKit} */
  const isKit = (value) =>
    isRecord(value) && only(value, ["mode", "kit", "noise"]) && areTexts(value.kit)
    && ["any", "picked"].includes(String(value.mode)) && ["quiet", "some", "loud"].includes(String(value.noise));
  /** @param {unknown} value @returns {value is KeptLimits} */
  const isLimits = (value) =>
    isRecord(value) && only(value, ["cautions", "traits", "names", "asks"])
    && [value.cautions, value.traits].every(areTexts)
    // Files of before kept names, and asks as a list; ids are all that counts of them.
    && (areTexts(value.asks) || (isRecord(value.asks) && areTexts(Object.values(value.asks))))
    && (value.names === undefined || areTexts(value.names));

  /** @param {Book} book @param {unknown} kit @param {unknown} limits what the device keeps; null: left out */
  function make(book, kit, limits) {
    /** @type {BookFile} */
    const file = { export: EXPORT, book, kit: isKit(kit) ? kit : null };
    if (isLimits(limits)) file.limits = limits;
    return `${JSON.stringify(file, null, 2)}\n`;
  }

  /**
   * Reads a file; with anything wrong there is no file, only what is wrong, place by place.
   * @param {string} text
   * @returns {{file: BookFile | null, wrong: string[]}}
   */
  function read(text) {
    let value;
    try {
      value = JSON.parse(text);
    } catch {
      return { file: null, wrong: ["This is no JSON text. Choose a file that Export wrote."] };
    }
    if (!isRecord(value) || value.export !== EXPORT) {
      return { file: null, wrong: ["This file was not written by My book. Choose a file that Export wrote."] };
    }
    const { book, wrong } = rungbookBook.check(value.book);
    const said = wrong.map((one) => `book: ${one}`);
    if (value.kit !== null && !isKit(value.kit)) said.push("kit is neither a kit nor null");
    if ("limits" in value && !isLimits(value.limits)) said.push("limits are not as Export writes them");
    if (!only(value, ["export", "book", "kit", "limits"])) said.push("the file has keys that are not known here");
    return said.length ? { file: null, wrong: said } : { file: { .../** @type {BookFile} */ (value), book }, wrong: [] };
  }

  /**
   * Adds what is missing; what is here stays. Returns how many entries came in and how many were here.
   * @param {Book} mine changed @param {Book} theirs
   */
  function merge(mine, theirs) {
    let came = 0;
    let here = 0;
    /** @template {{id: string}} T @param {T[]} into @param {T[]} from */
    const lists = (into, from) => {
      const known = new Set(into.map((one) => one.id));
      const fresh = from.filter((one) => !known.has(one.id));
      into.push(...fresh);
      came += fresh.length;
      here += from.length - fresh.length;
    };
    mine.stature_cm ??= theirs.stature_cm;
    mine.body_mass_kg ??= theirs.body_mass_kg;
    mine.heights = { ...theirs.heights, ...mine.heights };
    const then = { ...theirs.rungs_then };
    // A rung picked elsewhere never stands above what was counted here.
    const counted = new Set(mine.results.map(({ ladder }) => ladder));
    const rungs = Object.fromEntries(Object.entries(theirs.rungs).filter(([ladder]) => !counted.has(ladder)));
    for (const ladder of counted) delete then[ladder];
    // What a rung was when it was picked goes with that rung, whosever it is.
    for (const ladder of Object.keys(mine.rungs)) delete then[ladder];
    Object.assign(then, mine.rungs_then);
    mine.rungs = { ...rungs, ...mine.rungs };
    if (Object.keys(then).length) mine.rungs_then = then;
    lists(mine.results, theirs.results);
    lists(mine.done, theirs.done);
    lists(mine.notes, theirs.notes);
    return { came, here };
  }

  /** A nickname as one word. @param {string} text */
  const nickname = (text) => text.toLowerCase().split(/[^\p{L}\p{N}]+/u).filter(Boolean).join("-").slice(0, 40);

  /** By day; on one day in the order written. @param {Result[]} results */
  const byDay = (results) =>
    results.map((one, at) => ({ one, at }))
      .sort((a, b) => (a.one.day < b.one.day ? -1 : a.one.day > b.one.day ? 1 : a.at - b.at))
      .map(({ one }) => one);

  /**
   * One result as a line: `wren push-up rung 2 12 reps 2026-11-25, hands 92 cm, of incline-push-up hands 90 cm`.
   * @param {string} nick @param {Result} result @param {Record<string, string>} units of settings
   * @param {boolean} withNote
   */
  function line(nick, result, units, withNote) {
    const unit = result.counts === "reps" ? "reps" : "s";
    const parts = [`${nick} ${result.ladder} rung ${result.rung} ${result.amount} ${unit} ${result.day}`];
    const sized = (/** @type {Record<string, number> | null | undefined} */ settings) =>
      Object.entries(settings || {}).flatMap(([name, at]) => (units[name] ? `${name} ${at} ${units[name]}` : []));
    parts.push(...sized(result.setting));
    if (result.added_kg > 0) parts.push(`added ${result.added_kg} kg`);
    // The ladder may be another one by the time that the coach reads it.
    if (result.movement) parts.push([`of ${result.movement}`, ...sized(result.settings)].join(" "));
    const note = result.note.replace(/\s+/g, " ").trim();
    if (withNote && note) parts.push(`note ${note}`);
    return parts.join(", ");
  }

  /**
   * The text for the coach.
   * @param {Result[]} results @param {{nick: string, all: boolean, notes: boolean, units: Record<string, string>}} how
   */
  function handOver(results, { nick, all, notes, units }) {
    const sorted = byDay(results);
    const last = new Map(sorted.map((one) => [one.ladder, one]));
    const chosen = all ? sorted : sorted.filter((one) => last.get(one.ladder) === one);
    return chosen.map((one) => `${line(nick, one, units, notes)}\n`).join("");
  }

  return { make, read, merge, nickname, byDay, handOver };
})();

if (typeof module !== "undefined") module.exports = rungbookBookFile;
