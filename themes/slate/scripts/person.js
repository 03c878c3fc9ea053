// Who a page is for: the person in front of the coach, else the member whose device this is, else
// nobody in particular. Keeps kit and limits by their ids; what they leave out follows from this
// build's words. Never in an address; the person in front is gone with the tab and after an hour.
"use strict";

/**
 * @typedef {{mode: string, kit: string[], noise: string}} KitChoice
 * @typedef {{cautions: string[], traits: string[], asks: Record<string, string>}} LimitChoice
 * Situations and traits by id, and what each asked for when it was picked: an id that is gone from
 * the library goes on leaving that out until it is picked again.
 * @typedef {{situations: string[], traits: string[], lacks: string[], at: number}} Front
 * @typedef {Person & {front: boolean, asked: boolean, gone: string[]}} Who
 * `asked`: limits were answered in this tab, or are kept; `gone`: ids that the library has no more.
 */

const rungbookPerson = (() => {
  const KIT = "rungbook-kit";
  const LIMITS = "rungbook-limits";
  const FRONT = "rungbook-front";
  /** A person in front is forgotten after this long untouched: a class and its changing-room talk. */
  const FORGOTTEN_MS = 60 * 60 * 1000;

  /** What a browser keeps that keeps nothing: for this page only. @type {Record<string, string>} */
  const here = {};
  let blocked = false;

  /** @param {"localStorage" | "sessionStorage"} store @param {string} key @returns {string | null} */
  function taken(store, key) {
    const name = `${store} ${key}`;
    if (name in here) return here[name];
    try {
      return window[store].getItem(key);
    } catch {
      return null;
    }
  }

  /** @param {"localStorage" | "sessionStorage"} store @param {string} key @returns {unknown} */
  function read(store, key) {
    try {
      return JSON.parse(taken(store, key) || "null");
    } catch {
      return null;
    }
  }

  /**
   * Keeps a value; where the browser keeps nothing it counts on this page alone.
   * @param {"localStorage" | "sessionStorage"} store @param {string} key @param {unknown} value null forgets
   */
  function write(store, key, value) {
    const name = `${store} ${key}`;
    delete here[name];
    try {
      if (value === null) window[store].removeItem(key);
      else window[store].setItem(key, JSON.stringify(value));
      return true;
    } catch {
      blocked = true;
      if (value !== null) here[name] = JSON.stringify(value);
      return false;
    }
  }

  // What another tab could keep counts before what this one could not.
  window.addEventListener("storage", ({ key }) => delete here[`localStorage ${key}`]);

  // That a browser keeps nothing is known before somebody relies on it.
  try {
    window.sessionStorage.setItem(`${FRONT}-try`, "");
    window.sessionStorage.removeItem(`${FRONT}-try`);
    blocked = window.localStorage === null;
  } catch {
    blocked = true;
  }

  /** @param {unknown} value @returns {value is Record<string, unknown>} */
  const isRecord = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
  /** @param {unknown} value @returns {string[]} */
  const strings = (value) =>
    Array.isArray(value) ? value.filter((item) => typeof item === "string") : [];

  /** @returns {KitChoice} */
  function kit() {
    const kept = read("localStorage", KIT);
    if (!isRecord(kept)) return { mode: "any", kit: [], noise: "loud" };
    const noise = ["quiet", "some"].includes(String(kept.noise)) ? String(kept.noise) : "loud";
    return { mode: kept.mode === "picked" ? "picked" : "any", kit: strings(kept.kit), noise };
  }

  /**
   * The member's limits; null where none were said. What is kept on the device counts in every tab, and with
   * it what was said in this one alone: neither hides the other.
   * @returns {LimitChoice | null}
   */
  function limits() {
    const said = [read("localStorage", LIMITS), read("sessionStorage", LIMITS)].filter(isRecord);
    if (said.length === 0) return null;
    const all = (/** @type {"cautions" | "traits"} */ which) => [...new Set(said.flatMap((one) => strings(one[which])))];
    const asks = said.flatMap((one) => (isRecord(one.asks) ? Object.entries(one.asks) : []));
    const texts = Object.fromEntries(asks.map(([id, text]) => [id, typeof text === "string" ? text : ""]));
    return { cautions: all("cautions"), traits: all("traits"), asks: texts };
  }

  const areKept = () => read("localStorage", LIMITS) !== null;

  /** @returns {Front | null} */
  function front() {
    const kept = read("sessionStorage", FRONT);
    if (!isRecord(kept) || typeof kept.at !== "number") return null;
    const old = Date.now() - kept.at;
    if (old < 0 || old > FORGOTTEN_MS) {
      write("sessionStorage", FRONT, null);
      return null;
    }
    const found = { situations: strings(kept.situations), traits: strings(kept.traits), lacks: strings(kept.lacks), at: kept.at };
    return found.situations.length + found.traits.length + found.lacks.length > 0 ? found : null;
  }

  const words = () => globalThis.rungbookWords || { traits: {}, situations: {}, changes: {}, kit: {} };

  /**
   * What ids leave out in this build.
   * @param {string[]} situations @param {string[]} traits @param {Record<string, string>} before what an
   *   id that is gone had left out
   */
  function asksOf(situations, traits, before) {
    const known = words();
    const of = (/** @type {string} */ id, /** @type {string | undefined} */ now) => ({ id, asks: now ?? before[id] ?? "", gone: now === undefined });
    return [
      ...situations.map((id) => of(id, known.situations[id]?.asks)),
      ...traits.map((id) => of(id, known.traits[id] ? `${id}:1` : undefined)),
    ];
  }

  /** @param {string[]} situations @param {string[]} traits @param {Record<string, string>} before */
  function left(situations, traits, before) {
    const all = asksOf(situations, traits, before);
    return {
      limits: rungbookFits.together(all.map(({ asks }) => asks)),
      situations: situations.filter((id) => words().situations[id]),
      gone: all.filter(({ gone }) => gone).map(({ id }) => id),
    };
  }

  /** Who the page is for now. @returns {Who} */
  function who() {
    const before = front();
    if (before) {
      return { kit: null, lacks: before.lacks, noise: "loud", ...left(before.situations, before.traits, {}), front: true, asked: true };
    }
    const choice = kit();
    const own = limits();
    return {
      kit: choice.mode === "picked" ? choice.kit : null, lacks: [], noise: choice.noise,
      ...left(own?.cautions || [], own?.traits || [], own?.asks || {}),
      front: false, asked: own !== null,
    };
  }

  /** Whether anything is known of the member of this device. */
  const hasMine = () => {
    const choice = kit();
    const own = limits();
    return choice.mode === "picked" || choice.noise !== "loud" || (own !== null && own.cautions.length + own.traits.length > 0);
  };

  /** @param {KitChoice} choice */
  const keepKit = (choice) => write("localStorage", KIT, choice);

  /**
   * Keeps limits in one place: on the device, and then not in this tab, which would hold on to them when
   * another tab changes what is kept; else in this tab alone.
   * @param {string[]} cautions @param {string[]} traits @param {boolean} kept beyond this tab
   */
  function keepLimits(cautions, traits, kept) {
    const before = limits()?.asks || {};
    const asks = Object.fromEntries(asksOf(cautions, traits, before).map((one) => [one.id, one.asks]));
    const choice = { cautions, traits, asks };
    const stays = write("localStorage", LIMITS, kept ? choice : null) && kept;
    return write("sessionStorage", LIMITS, stays ? null : choice) && stays === kept;
  }

  /** Forgets the member's kit and limits; what was there, to bring it back. */
  function forgetMine() {
    const was = [["localStorage", KIT], ["localStorage", LIMITS], ["sessionStorage", LIMITS]].map(([store, key]) =>
      ({ store: /** @type {"localStorage"} */ (store), key, value: read(/** @type {"localStorage"} */ (store), key) }));
    for (const { store, key } of was) write(store, key, null);
    return () => was.forEach(({ store, key, value }) => write(store, key, value));
  }

  /** @param {Omit<Front, "at"> | null} person null: nobody is in front */
  const setFront = (person) => write("sessionStorage", FRONT, person && { ...person, at: Date.now() });

  /** Somebody touched the page: the hour begins again. */
  function touched() {
    const person = front();
    if (person && Date.now() - person.at > 60000) setFront(person);
  }

  /** A trait's or a situation's few words, in the middle of a sentence. @param {string} id */
  function limitWords(id) {
    const said = words().situations[id]?.name || words().traits[id]?.avoid || id.replaceAll("-", " ");
    return rungbookFits.inside(said);
  }

  /** What the person lacks and leaves out, in few words: `sore wrist, no pull-up bar`. @param {Front} person */
  const frontWords = ({ situations, traits, lacks }) =>
    [...situations, ...traits].map(limitWords).concat([...new Set(lacks.map((id) => `no ${rungbookFits.kitWords(id)}`))]).join(", ");

  return {
    KIT, LIMITS, who, kit, limits, front, hasMine, areKept, keepKit, keepLimits, forgetMine, setFront, touched,
    limitWords, frontWords, isBlocked: () => blocked,
  };
})();
