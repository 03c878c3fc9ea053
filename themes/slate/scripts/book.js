// The member's book on this device: read, changed, erased. Sends nothing, shows nothing.
// A book that is broken, old or foreign is kept aside under a key of its own, never lost.
"use strict";

/**
 * @typedef {{id: string, day: string, ladder: string, rung: number,
 *   setting: Record<string, number> | null, counts: "reps" | "seconds", amount: number,
 *   added_kg: number, note: string, movement?: string, settings?: Record<string, number>}} Result a test
 *   result; the rung from 1, an own setting in its own units, and the movement and written settings that
 *   the rung had then: a ladder may be rewritten. Older results have the number alone.
 * @typedef {{movement: string, settings: Record<string, number>}} RungThen
 * @typedef {{id: string, day: string, session: string, block: string, rounds: number | null,
 *   reps: number | null, note: string}} Done what was noted at the end of a block
 * @typedef {{id: string, day: string, text: string}} Note
 * @typedef {{schema: string, stature_cm: number | null, body_mass_kg: number | null,
 *   heights: Record<string, number>, rungs: Record<string, number>, results: Result[],
 *   rungs_then?: Record<string, RungThen>, done: Done[], notes: Note[]}} Book heights in cm by kit id, own
 *   rungs (from 1) by ladder id, and what those rungs were when they were picked
 * @typedef {(value: unknown) => string | null} Check what a value should be, when it is not
 */

const rungbookBook = (() => {
  const KEY = "rungbook-book";
  const ASIDE = "rungbook-book-aside-";
  const SCHEMA = "rungbook-book-1";
  const NOTHING_KEPT = "Not kept: this browser keeps nothing for this site. Write it on paper.";
  const NO_ROOM = "Not kept: this browser has no room for it. Export My book, erase what is old, and try again.";
  const ID = /^[a-z0-9]+(-[a-z0-9]+)*$/;

  /** @returns {Book} */
  const empty = () => ({
    schema: SCHEMA, stature_cm: null, body_mass_kg: null, heights: {}, rungs: {}, results: [], done: [], notes: [],
  });

  /** @param {unknown} value @returns {value is Record<string, unknown>} */
  const isRecord = (value) => typeof value === "object" && value !== null && !Array.isArray(value);

  /** A day that the calendar has, as `2026-11-25`. @param {unknown} value */
  function isDay(value) {
    if (typeof value !== "string" || !/^\d{4}-\d\d-\d\d$/.test(value)) return false;
    const day = new Date(`${value}T00:00:00Z`);
    return !Number.isNaN(day.getTime()) && day.toISOString().slice(0, 10) === value;
  }

  /** @param {number} from @param {number} to @returns {Check} */
  const number = (from, to) => (value) =>
    typeof value === "number" && value >= from && value <= to ? null : `a number from ${from} to ${to}`;
  /** @param {number} from @param {number} to @returns {Check} */
  const whole = (from, to) => (value) =>
    Number.isInteger(value) && number(from, to)(value) === null ? null : `a whole number from ${from} to ${to}`;
  /** @param {number} most @returns {Check} */
  const text = (most) => (value) =>
    typeof value === "string" && value.length <= most ? null : `text of ${most} letters at most`;
  /** @type {Check} */
  const name = (value) =>
    typeof value === "string" && value.length <= 80 && ID.test(value) ? null : "an id such as push-up";
  /** @type {Check} */
  const ownId = (value) => (typeof value === "string" && /^[\w-]{1,64}$/.test(value) ? null : "an id of its own");
  /** @type {Check} */
  const day = (value) => (isDay(value) ? null : "a day of the calendar such as 2026-11-25");
  /** @type {Check} */
  const counts = (value) => (value === "reps" || value === "seconds" ? null : "reps or seconds");
  /** @param {Check} check @returns {Check} */
  const orNull = (check) => (value) => {
    const should = value === null ? null : check(value);
    return should === null ? null : `${should}, or null`;
  };
  /** @type {Check} */
  const numbers = (value) =>
    isRecord(value) && Object.entries(value).every(([key, at]) => ID.test(key) && number(-1000, 1000)(at) === null)
      ? null
      : "numbers by the name of what is set, such as hands: 90";

  /** @param {Check} check @returns {Check} */
  const ifSaid = (check) => (value) => (value === undefined ? null : check(value));
  /** @type {Check} */
  const rungThen = (value) =>
    isRecord(value) && name(value.movement) === null && numbers(value.settings) === null
      && Object.keys(value).length === 2
      ? null
      : "a movement and its settings";

  /** @type {Record<"results" | "done" | "notes", Record<string, Check>>} */
  const ENTRIES = {
    results: {
      id: ownId, day, ladder: name, rung: whole(1, 99), setting: orNull(numbers), counts,
      amount: whole(0, 10000), added_kg: number(0, 500), note: text(2000),
      movement: ifSaid(name), settings: ifSaid(numbers),
    },
    done: {
      id: ownId, day, session: name, block: text(120), rounds: orNull(number(0, 1000)),
      reps: orNull(whole(0, 10000)), note: text(2000),
    },
    notes: { id: ownId, day, text: text(10000) },
  };
  /** @type {Record<string, Check>} */
  const MEASURES = { stature_cm: orNull(number(50, 250)), body_mass_kg: orNull(number(20, 400)) };
  /** @type {Record<string, Check>} */
  const BY_ID = { heights: number(1, 300), rungs: whole(1, 99), rungs_then: rungThen };

  /** @param {unknown} value */
  const shown = (value) => (value === undefined ? "missing" : `${JSON.stringify(value)}`.slice(0, 60));

  /**
   * An entry when all of it is right; says what is wrong otherwise.
   * @param {Record<string, Check>} shape @param {unknown} value @param {string} place @param {string[]} wrong
   */
  function entry(shape, value, place, wrong) {
    const before = wrong.length;
    if (!isRecord(value)) {
      wrong.push(`${place} is ${shown(value)}; it should be an entry with ${Object.keys(shape).join(", ")}`);
      return null;
    }
    for (const [key, check] of Object.entries(shape)) {
      const should = check(value[key]);
      if (should) wrong.push(`${place}.${key} is ${shown(value[key])}; it should be ${should}`);
    }
    unknownKeys(value, Object.keys(shape), place, wrong);
    return wrong.length === before ? { ...value } : null;
  }

  /** @param {Record<string, unknown>} value @param {string[]} known @param {string} place @param {string[]} wrong */
  function unknownKeys(value, known, place, wrong) {
    for (const key of Object.keys(value)) {
      if (!known.includes(key)) wrong.push(`${place ? `${place}.` : ""}${key} is not known here`);
    }
  }

  /** @param {"results" | "done" | "notes"} list @param {unknown} values @param {string[]} wrong */
  function entries(list, values, wrong) {
    if (!Array.isArray(values)) {
      wrong.push(`${list} is ${shown(values)}; it should be a list`);
      return [];
    }
    const ids = new Set();
    return values.map((value, at) => entry(ENTRIES[list], value, `${list}[${at}]`, wrong)).filter((one, at) => {
      if (one && ids.has(one.id)) wrong.push(`${list}[${at}].id stands twice`);
      return one !== null && ids.size < ids.add(one.id).size;
    });
  }

  /** @param {string} key @param {unknown} values @param {string[]} wrong */
  function byId(key, values, wrong) {
    if (!isRecord(values)) {
      wrong.push(`${key} is ${shown(values)}; it should be numbers by id`);
      return {};
    }
    const right = Object.entries(values).filter(([id, value]) => {
      const should = name(id) || BY_ID[key](value);
      if (should) wrong.push(`${key}.${id} is ${shown(value)}; it should be ${should}`);
      return !should;
    });
    return Object.fromEntries(right);
  }

  /**
   * The valid part of a value as a whole book, and what was wrong, place by place.
   * @param {unknown} value
   * @returns {{book: Book, wrong: string[]}}
   */
  function check(value) {
    const book = empty();
    if (!isRecord(value)) return { book, wrong: ["this is no book: it should start with {"] };
    if (value.schema !== SCHEMA) {
      return { book, wrong: [`schema is ${shown(value.schema)}; this page reads ${SCHEMA}`] };
    }
    /** @type {string[]} */
    const wrong = [];
    for (const [key, should] of Object.entries(MEASURES)) {
      const problem = should(value[key]);
      if (problem) wrong.push(`${key} is ${shown(value[key])}; it should be ${problem}`);
      else Object.assign(book, { [key]: value[key] });
    }
    const written = Object.keys(BY_ID).filter((key) => key !== "rungs_then" || value[key] !== undefined);
    for (const key of written) Object.assign(book, { [key]: byId(key, value[key], wrong) });
    for (const list of /** @type {("results" | "done" | "notes")[]} */ (Object.keys(ENTRIES))) {
      Object.assign(book, { [list]: entries(list, value[list], wrong) });
    }
    unknownKeys(value, Object.keys(book), "", wrong);
    return { book, wrong };
  }

  /** @template T @param {() => T} act @param {T} otherwise storage may be full or forbidden @returns {T} */
  function safely(act, otherwise) {
    try {
      return act();
    } catch {
      return otherwise;
    }
  }

  /** @returns {string[]} */
  const keys = () =>
    Array.from({ length: localStorage.length }, (_, at) => localStorage.key(at) || "").filter((key) => key.startsWith(ASIDE));

  /** What was kept aside, each text under its key. @returns {{key: string, text: string}[]} */
  const asides = () =>
    safely(() => keys().sort().map((key) => ({ key, text: localStorage.getItem(key) || "" })), []);

  /** Keeps a text under a key of its own, once. @param {string} kept */
  function keepAside(kept) {
    if (asides().some((one) => one.text === kept)) return true;
    return safely(() => {
      let count = 1;
      while (localStorage.getItem(ASIDE + count) !== null) count += 1;
      localStorage.setItem(ASIDE + count, kept);
      return localStorage.getItem(ASIDE + count) === kept;
    }, false);
  }

  /** The kept book, what is wrong with it, and whether nothing would be lost by writing. */
  function open() {
    const kept = safely(() => localStorage.getItem(KEY), null);
    if (kept === null) return { book: empty(), wrong: [], safe: true };
    const found = check(safely(() => JSON.parse(kept), null));
    return { ...found, safe: found.wrong.length === 0 || keepAside(kept) };
  }

  function tell() {
    if (typeof document === "object") document.dispatchEvent(new CustomEvent("rungbook-book"));
  }

  /** Always a whole, valid book; what could not be read is kept aside. @returns {Book} */
  const read = () => open().book;

  /** What is wrong with the kept book, place by place; empty when all is well. @returns {string[]} */
  const trouble = () => open().wrong;

  /** Why the last change was not kept, as a sentence. */
  let refused = "";

  /** Writes the book down, or says why not. @param {Book} book */
  function written(book) {
    const { wrong } = check(book);
    if (wrong.length > 0) return `Not kept: ${wrong[0].replace(/^\w+\[\d+\]\./, "")}.`;
    const text = JSON.stringify(book);
    try {
      localStorage.setItem(KEY, text);
      return localStorage.getItem(KEY) === text ? "" : NOTHING_KEPT;
    } catch (error) {
      return error instanceof DOMException && error.name === "QuotaExceededError" ? NO_ROOM : NOTHING_KEPT;
    }
  }

  /**
   * Changes the book. False, and nothing changed, when the browser keeps nothing or when the result
   * is not a valid book: `whyNot` says which.
   * @param {(book: Book) => void} edit
   */
  function change(edit) {
    const { book, safe } = open();
    edit(book);
    refused = safe ? written(book) : NO_ROOM;
    if (refused === "") tell();
    return refused === "";
  }

  /** Forgets the book and what was kept aside. */
  function erase() {
    const gone = safely(() => {
      [KEY, ...keys()].forEach((key) => localStorage.removeItem(key));
      return true;
    }, false);
    tell();
    return gone;
  }

  /** An id that no other entry has; works without a secure context too. */
  const newId = () =>
    Array.from(crypto.getRandomValues(new Uint8Array(8)), (byte) => byte.toString(16).padStart(2, "0")).join("");

  /** The day on this device's calendar. @param {Date} [now] */
  const today = (now = new Date()) =>
    [String(now.getFullYear()).padStart(4, "0"), now.getMonth() + 1, now.getDate()]
      .map((part) => String(part).padStart(2, "0")).join("-");

  if (typeof window === "object") {
    window.addEventListener("storage", (event) => {
      if (event.key === KEY || event.key === null) tell();
    });
  }
  return { read, change, whyNot: () => refused, erase, check, trouble, asides, newId, today, isDay, empty };
})();

if (typeof module !== "undefined") module.exports = rungbookBook;
