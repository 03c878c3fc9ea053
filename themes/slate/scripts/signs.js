// The signs at which the person here gets help or ends the session, beside those of everybody: where a
// page tells somebody to move. What cannot wait stands first, and each sign once, however many situations
// name it. Brings what cautions say of them only for who has a situation.
"use strict";

const rungbookSigns = (() => {
  const FILE = "data/signs.js";
  const { make } = rungbookMake;
  /** The newest person wins. */
  let asked = 0;

  /** @param {string} id */
  const named = (id) => globalThis.rungbookWords?.situations[id]?.name || id;

  /** Each sign that a line names, as `library/caution.rs` splits it. @param {string} sign */
  const parts = (sign) => sign.toLowerCase().split(/[,;:]| or /).map((part) => part.trim().replace(/^or /, "")).filter(Boolean);

  /** What to do at once, with its signs, and what ends the session besides. @param {string[]} situations */
  function list(situations) {
    /** @type {Map<string, Set<string>>} */
    const acts = new Map();
    const found = situations.flatMap((id) => globalThis.rungbookSignWords?.[id] || []);
    for (const [act, signs] of found.flatMap(({ now }) => now)) acts.set(act, new Set([...acts.get(act) || [], ...signs]));
    const urgent = new Set([...acts.values()].flatMap((signs) => [...signs]).flatMap(parts));
    const stop = found.flatMap((one) => one.stop).filter((sign) => !parts(sign).every((part) => urgent.has(part)));
    if (stop.length) acts.set("End the session at", new Set(stop));
    return [...acts].map(([act, signs]) => make("li", "", make("strong", "", `${act}: `), `${[...signs].join("; ")}.`));
  }

  /** @param {string[]} situations @returns {Promise<(Node | string)[]>} */
  async function said(situations) {
    try {
      await rungbookBring.files([FILE]);
      return [`${situations.map(named).join(", ")}:`, make("ul", "", ...list(situations))];
    } catch {
      return [`The signs to stop at could not be read: see the caution of ${situations.map(named).join(" and of ")}.`];
    }
  }

  /** Writes them wherever the page has a place for them. */
  async function fill() {
    asked += 1;
    const mine = asked;
    const of = rungbookPerson.who().situations || [];
    const words = of.length ? await said(of) : [];
    if (mine !== asked) return;
    for (const place of document.querySelectorAll("[data-signs]")) {
      place.replaceChildren(...words.map((one) => (typeof one === "string" ? one : one.cloneNode(true))));
      place.toggleAttribute("hidden", !words.length);
    }
  }

  document.addEventListener("rungbook-person", fill);
  fill();
  return { fill };
})();
