// What the scripts of My book share: finding fields, saying what was done, fetching what is needed.
// Never reads a result and draws nothing by itself.
"use strict";

const rungbookBookParts = (() => {
  const { make } = rungbookMake;
  const { KIT, LIMITS, limits } = rungbookPerson;
  /** What was asked once and kept because the member chose so: nickname, age, sex. */
  const ASKED = "rungbook-book-asked";
  const page = document.querySelector("[data-book]");

  /** @template {HTMLElement} T @param {string} selector @param {new () => T} kind @returns {T} */
  function find(selector, kind) {
    const found = page?.querySelector(selector);
    if (!(found instanceof kind)) throw new Error(`the page has no ${selector}`);
    return found;
  }
  /** @param {string} name */
  const form = (name) => find(`[data-form="${name}"]`, HTMLFormElement);
  /** @param {HTMLFormElement} of @param {string} name */
  function field(of, name) {
    const found = of.elements.namedItem(name);
    if (found instanceof HTMLInputElement || found instanceof HTMLSelectElement || found instanceof HTMLTextAreaElement) return found;
    throw new Error(`the form has no ${name}`);
  }
  /** @param {HTMLFormElement} of @param {string} name @returns {number | null} */
  function number(of, name) {
    const { value } = field(of, name);
    return value.trim() === "" || !Number.isFinite(Number(value)) ? null : Number(value);
  }
  /** @param {HTMLFormElement} of @param {string} name */
  function ticked(of, name) {
    const box = field(of, name);
    return box instanceof HTMLInputElement && box.checked;
  }

  /** @param {string} words */
  const say = (words) => {
    find("[data-said]", HTMLElement).textContent = words;
  };
  /** @param {(book: Book) => void} edit @param {string} words said when it is kept */
  function change(edit, words) {
    const kept = rungbookBook.change(edit);
    say(kept ? words : rungbookBook.whyNot());
    return kept;
  }

  /** @param {string} key @returns {unknown} */
  function kept(key) {
    try {
      return JSON.parse(localStorage.getItem(key) || "null");
    } catch {
      return null;
    }
  }
  /** @returns {Record<string, unknown>} */
  const asked = () => ({ .../** @type {object} */ (kept(ASKED) || {}) });
  /** @param {Record<string, unknown>} values @param {boolean} keep */
  function ask(values, keep) {
    const known = asked();
    Object.entries(values).forEach(([key, value]) => (keep ? (known[key] = value) : delete known[key]));
    try {
      if (Object.keys(known).length) localStorage.setItem(ASKED, JSON.stringify(known));
      else localStorage.removeItem(ASKED);
    } catch {
      say("This browser keeps nothing.");
    }
  }

  /** False when a file did not come. @param {string[]} names */
  const bring = (...names) => rungbookBring.files(names).then(() => true, () => false);

  /** @param {string} day */
  const dayWords = (day) =>
    new Date(`${day}T00:00:00Z`).toLocaleDateString(document.documentElement.lang, { day: "numeric", month: "short", year: "numeric", timeZone: "UTC" });

  /** @param {string} text @param {string} name @param {string} type */
  function save(text, name, type) {
    const link = document.createElement("a");
    link.href = URL.createObjectURL(new Blob([text], { type }));
    link.download = name;
    link.click();
    setTimeout(() => URL.revokeObjectURL(link.href), 1000);
  }

  return { KIT, LIMITS, ASKED, find, form, field, number, ticked, say, change, kept, limits, asked, ask, bring, make, dayWords, save };
})();
