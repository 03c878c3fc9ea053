// Draws a movement's card for the coach in class. Text only, no markup from data; keeps nothing.
"use strict";

/**
 * @typedef {{kit: string, traits: string, noise: string, kit_words: string}} AskedFor
 * @typedef {{id: string, name: string, number: number, setting: string, step: string, needs: AskedFor}} Neighbour
 * @typedef {{ladder: string, name: string, number: number, setting: string, below: Neighbour | null, above: Neighbour | null}} OwnRung
 * @typedef {{counts: "reps" | "seconds" | "metres" | "contacts", sides: "together" | "each" | "alternating", pace_s: number | null}} CardWork
 * @typedef {{id: string, name: string, reason: string, work: CardWork, needs: AskedFor}} SwapLine
 * @typedef {{id: string, name: string, page: string, cues: string[], standard: string, caution: string, work: CardWork, needs: AskedFor, figure: {file: string, words: string} | null, faults: CardFault[], rungs: OwnRung[], swaps: SwapLine[]}} Card
 * @typedef {(needs: AskedFor, inBrief?: boolean) => string} WhyNot
 * Why a movement does not fit now, empty when it does; in brief, which limit rules it out.
 */

const rungbookFloorCard = (() => {
  const SHOWN_SWAPS = 3;

  const { make } = rungbookMake;

  /** A number stays with its unit. @param {string} name @param {string} setting */
  const named = (name, setting) => (setting ? `${name}, ${setting.replace(/(\d) /g, "$1\u00a0")}` : name);

  /** @param {string} to @param {string} className @param {string} text */
  function target(to, className, text) {
    const link = make("a", className);
    link.href = to;
    link.append(text);
    return link;
  }

  /**
   * The rung of the movement that the coach came by, or else its first.
   * @param {Card} card @param {string} rung `ladder/number`, or nothing
   */
  const ownRung = (card, rung) =>
    card.rungs.find((own) => `${own.ladder}/${own.number}` === rung) || card.rungs[0] || null;

  /**
   * @param {Neighbour | null} to @param {string} way @param {string} none @param {string} ladder
   * @param {WhyNot} why
   */
  function neighbour(to, way, none, ladder, why) {
    if (!to) return make("p", "way-to none", make("span", "way", way), none);
    const link = target(`movements/${to.id}.html`, "way-to", "");
    link.dataset.rung = `${ladder}/${to.number}`;
    link.append(make("span", "way", way), make("span", "name", named(to.name, to.setting)));
    const misfit = why(to.needs, true);
    if (misfit) link.append(make("span", "misfit-why", misfit));
    return link;
  }

  /** @param {Card} card @param {OwnRung | null} own @param {WhyNot} why */
  function ways(card, own, why) {
    if (!own) return make("p", "quiet", "On no ladder: take a swap.");
    return make("div", "ways",
      neighbour(own.below, "Rung below", "Lowest rung. Take a swap, or less of it.", own.ladder, why),
      neighbour(own.above, "Rung above", "Top of the ladder.", own.ladder, why));
  }

  /** Other rungs of the same movement. @param {Card} card @param {OwnRung | null} own */
  function settings(card, own) {
    if (card.rungs.length < 2) return "";
    const links = card.rungs.map((rung) => {
      const words = rung.setting || rung.name;
      const link = target(`movements/${card.id}.html`, "setting-choice", words);
      link.dataset.rung = `${rung.ladder}/${rung.number}`;
      if (rung === own) link.setAttribute("aria-current", "true");
      return link;
    });
    return make("p", "settings", ...links);
  }

  /** @param {Card} card @param {WhyNot} why */
  function swaps(card, why) {
    const fitting = card.swaps.filter((swap) => why(swap.needs) === "");
    const section = make("div", "card-swaps", make("h2", "", "Swap"));
    if (fitting.length === 0) {
      const none = "Nothing here does the same work with these limits. Ask your coach.";
      section.append(make("p", "ask", none));
      return section;
    }
    const list = make("ul", "");
    for (const [at, swap] of fitting.entries()) {
      const link = target(`movements/${swap.id}.html`, "swap-to", "");
      link.append(make("span", "name", swap.name), make("span", "reason", swap.reason));
      const item = make("li", "", link);
      if (at >= SHOWN_SWAPS) item.hidden = true;
      list.append(item);
    }
    section.append(list);
    if (fitting.length > SHOWN_SWAPS) {
      const more = make("button", "more", `All ${fitting.length} swaps`);
      more.addEventListener("click", () => {
        for (const item of list.children) if (item instanceof HTMLElement) item.hidden = false;
        more.remove();
      });
      section.append(more);
    }
    return section;
  }

  /** @param {Card} card */
  function faults(card) {
    const list = make("dl", "see-say");
    for (const fault of card.faults) {
      list.append(make("dt", "", fault.see), make("dd", "", fault.say || ""));
    }
    return make("div", "card-faults", make("h2", "", "See, say"), list);
  }

  /**
   * Fills `place` with the card.
   * @param {HTMLElement} place @param {Card} card @param {string} rung or a fault of it, as `fault/2`
   * @param {boolean} inSession whether the way back leads to a session's block
   * @param {WhyNot} why why a movement does not fit now; empty when it does
   */
  function draw(place, card, rung, inSession, why) {
    const own = ownRung(card, rung);
    const misfit = why(card.needs);
    const fault = rungbookFloorFault.asked(card, rung);
    const close = make("button", "close", inSession ? "Back to the session" : "Back to the ladders");
    close.setAttribute("type", "button");
    close.dataset.close = "";
    const title = make("h1", "", card.name);
    title.id = "card-name";
    place.replaceChildren(
      close,
      title,
      own && own.setting && card.rungs.length < 2 ? make("p", "quiet", own.setting) : "",
      settings(card, own),
      misfit ? make("p", "flag", `Take a swap: ${misfit}.`) : "",
      fault ? rungbookFloorFault.onTop(fault, why) : make("p", "big-cue", make("q", "", card.cues[0] || "")),
      make("p", "card-standard", card.standard),
      ways(card, own, why),
      swaps(card, why),
      faults(card),
      make("p", "caution-line", card.caution),
      make("p", "", target(card.page, "whole-page", "Its whole page")),
    );
  }

  return { draw };
})();
