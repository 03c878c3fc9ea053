// Whether somebody types one of the club's stop signs: then stopping stands before every answer. The rule
// of the command (`search/stop.rs`). Never says that something is no stop sign: it knows words alone.
"use strict";

const rungbookStop = (() => {
  /** Words from this many letters on may be typed with one slip. */
  const SLIPS_FROM = 5;
  /** So many letters at the end of a word may still be missing, once this many are typed. */
  const STILL_MISSING = 2;
  const BEGUN_FROM = 4;
  /** So many cautions, as in `search/mod.rs`. */
  const BELOW = 3;

  const words = () => window.rungbookStopWords || { signs: [], said: [], faults: [] };

  /** @param {string} typed @param {string} word */
  function isMeant(typed, word) {
    if (words().faults.includes(typed)) return typed === word;
    const begun = typed.length >= BEGUN_FROM && word.length - typed.length <= STILL_MISSING && word.startsWith(typed);
    const slips = word.length >= SLIPS_FROM ? 1 : 0;
    return begun || rungbookQuestion.distance(typed, word, slips, false)[0] <= slips;
  }

  /** All the words of one of its names, in any order. @param {SearchIndex} index @param {string} typed */
  function says(index, typed) {
    const there = rungbookQuestion.fold(index, typed);
    return words().said.some((name) => name.every((word) => there.some((one) => isMeant(one, word))));
  }

  /** To where the page's foot says the signs, and those of the person here. @param {Event} event */
  function toSigns(event) {
    event.preventDefault();
    const place = document.getElementById("safety");
    place?.setAttribute("tabindex", "-1");
    place?.focus();
    place?.scrollIntoView();
  }

  /** What stands first; nothing where no stop sign was typed. @param {SearchIndex} index @param {string} typed */
  function option(index, typed) {
    const { signs } = words();
    if (!signs.length || !says(index, typed)) return [];
    const link = rungbookSearchMake("a", { id: "search-answer-stop", role: "option", "aria-selected": "false", tabindex: "-1", href: "#safety" },
      rungbookSearchMake("strong", {}, "Stop now, and get help, at any of these: "), `${signs.join("; ")}.`);
    link.append(" No movement, ladder or session is offered for this.");
    link.addEventListener("click", toSigns);
    const item = rungbookSearchMake("li", { role: "none", class: "stop-now" }, link);
    return [item];
  }

  /** What may stand below it: a few cautions, nothing to train on. @param {Parameters<typeof rungbookRanking.find>[0]} ranking @param {string} typed */
  const below = (ranking, typed) => rungbookRanking.find(ranking, typed, Infinity).filter(({ kind }) => kind === "caution").slice(0, BELOW);

  return { says, option, below };
})();

if (typeof module !== "undefined") module.exports = rungbookStop;
