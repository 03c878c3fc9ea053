// Draws a movement's card for the coach in class. Text only, no markup from data; keeps nothing.
"use strict";

/**
 * @typedef {{kit: string, measured_kit?: string, traits: string, changes: string, noise: string, kit_words: string}} AskedFor
 * @typedef {{id: string, name: string, number: number, setting: string, step: string, needs: AskedFor}} Neighbour
 * @typedef {{ladder: string, name: string, number: number, setting: string, at_hand: string | null, lowest?: string, traits: string, kit?: string, below: Neighbour | null, above: Neighbour | null}} OwnRung
 * @typedef {{counts: "reps" | "seconds" | "metres" | "contacts", sides: "together" | "each" | "alternating", pace_s: number | null}} CardWork
 * @typedef {{id: string, name: string, reason: string, work: CardWork, needs: AskedFor, rungs: SwapRung[]}} SwapLine
 * @typedef {{id: string, name: string, page: string, cues: string[], standard: string, caution: string, work: CardWork, needs: AskedFor, figure: {file: string, words: string} | null, faults: CardFault[], rungs: OwnRung[], swaps: SwapLine[]}} Card
 * @typedef {{person: () => Person, why: (asks: Asks) => string, whyInBrief: (asks: Asks) => string,
 *   change: (asks: Asks) => string, settings: (words: string, asks: Asks) => string, how: (asks: Asks) => string,
 *   general: (asks: Asks) => string[]}} Telling
 * The three answers in words: why a rung is left out, whole or in brief (which limit rules it out), how
 * it is changed, whole or in brief, the settings that its change leaves, and what the cautions say in
 * general. Empty where it is fine.
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
   * @param {Telling} telling
   */
  function neighbour(to, way, none, ladder, telling) {
    if (!to) return make("p", "way-to none", make("span", "way", way), none);
    const link = target(`movements/${to.id}.html`, "way-to", "");
    link.dataset.rung = `${ladder}/${to.number}`;
    link.append(make("span", "way", way), make("span", "name", named(to.name, telling.settings(to.setting, to.needs))));
    const misfit = telling.whyInBrief(to.needs);
    const change = telling.change(to.needs);
    if (misfit) link.append(make("span", "misfit-why", misfit));
    if (change) link.append(make("span", "change-how", change));
    return link;
  }

  /** @param {Card} card @param {OwnRung | null} own @param {Telling} telling */
  function ways(card, own, telling) {
    if (!own) return make("p", "quiet", "On no ladder: take a swap.");
    return make("div", "ways",
      neighbour(own.below, "Rung below", "Lowest rung. Take a swap, or less of it.", own.ladder, telling),
      neighbour(own.above, "Rung above", "Top of the ladder.", own.ladder, telling));
  }

  /** Where somebody starts of whom nobody starts in the middle. @param {OwnRung | null} own @param {Telling} telling */
  function startsLow(own, telling) {
    const low = rungbookFits.startsLow(telling.person());
    if (!low || !own?.lowest) return "";
    const link = target(`movements/${own.lowest}.html`, "", "start at rung 1 of this ladder");
    link.dataset.rung = `${own.ladder}/1`;
    return make("p", "flag change", `With no result yet, and ${low}: `, link, ".");
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

  /** The rung of a card as swaps are asked for it. @param {Card} card @param {OwnRung | null} own @returns {AskedRung} */
  const asked = (card, own) =>
    own ? { ladder: own.ladder, number: own.number, at: card.rungs.indexOf(own) } : { ladder: null, number: 0, at: 0 };

  /** A swap with its rung, how it is changed and why. @param {ReturnType<typeof rungbookFits.swapsFor<SwapLine>>[number]} found */
  function swapItem({ swap, rung, startHere, fit, reason }) {
    const link = target(`movements/${swap.id}.html`, "swap-to", "");
    if (rung.ladder) link.dataset.rung = `${rung.ladder}/${rung.number}`;
    link.append(make("span", "name", named(swap.name, rungbookFits.settingWords(rung.setting, fit))));
    const change = rungbookFits.inBrief(fit);
    if (change) link.append(make("span", "change-how", change));
    if (swap.needs.kit_words) link.append(make("span", "kit-words", swap.needs.kit_words));
    // What is new about it is said at once; why it was chosen is one touch away.
    const [why, brings = ""] = reason.split(/ (?=Brings in: )/);
    const now = [startHere ? "Start here, its lowest rung." : "", brings].filter(Boolean).join(" ");
    if (now) link.append(make("span", "brings", now));
    link.append(make("span", "reason", why));
    return make("li", "", link);
  }

  /** @param {Card} card */
  function figure({ figure }) {
    if (!figure) return "";
    const image = make("img", "card-figure");
    image.src = figure.file;
    image.alt = figure.words;
    return image;
  }

  /** Nothing is left: to the coach it says why, and what the cautions say in general. @param {Card} card @param {AskedFor} needs @param {Telling} telling */
  function nothing(card, needs, telling) {
    const general = telling.general(needs);
    const parts = [make("p", "ask", "Nothing here does the same work for this person without asking more.")];
    if (general.length) {
      parts.push(make("p", "quiet", `In general the caution says: ${general.join("; ")}. You decide; no clock orders it.`));
    }
    return parts;
  }

  /** @param {Card} card @param {OwnRung | null} own @param {AskedFor} needs @param {Telling} telling */
  function swaps(card, own, needs, telling) {
    const fitting = rungbookFits.swapsFor(card, asked(card, own), telling.person());
    const section = make("div", "card-swaps", make("h2", "", telling.how(needs) || telling.why(needs) ? "If not, this" : "Swap"));
    if (fitting.length === 0) {
      section.append(...nothing(card, needs, telling));
      return section;
    }
    const list = make("ul", "");
    for (const [at, found] of fitting.entries()) {
      const item = swapItem(found);
      if (at >= SHOWN_SWAPS) item.hidden = true;
      list.append(item);
    }
    // Open, the reasons of all of them stand there: the styles do it.
    section.append(list, make("details", "", make("summary", "", "Why these")));
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

  /** The answer for the rung itself: how it is changed, or why it is left out. @param {AskedFor} needs @param {Telling} telling */
  function answer(needs, telling) {
    const how = telling.how(needs);
    if (how) return make("p", "flag change", make("strong", "", "Change it: "), how);
    const misfit = telling.why(needs);
    return misfit ? make("p", "flag", make("strong", "", "Leave it out: "), `${misfit}.`) : "";
  }

  /** All but the one that stands on top. @param {Card} card @param {CardFault | null} onTop */
  function faults(card, onTop) {
    const list = make("dl", "see-say");
    for (const fault of card.faults) {
      if (fault === onTop) continue;
      list.append(make("dt", "", fault.see), make("dd", "", fault.say || ""));
    }
    return make("div", "card-faults", make("h2", "", "See, say"), list);
  }

  /**
   * What to say and what counts. Where the movement is changed or left out, what is written may say
   * otherwise: no cue, what counts small and as what it is, and the answer above holds.
   * @param {Card} card @param {AskedFor} needs @param {Telling} telling
   */
  function saying(card, needs, telling) {
    const asItStands = telling.change(needs) === "" && telling.why(needs) === "";
    if (asItStands) return [make("p", "big-cue", make("q", "", card.cues[0] || "")), make("p", "card-standard", card.standard)];
    return [make("p", "card-standard", make("span", "quiet", "As written: "), card.standard)];
  }

  /**
   * Fills `place` with the card.
   * @param {HTMLElement} place @param {Card} card @param {string} rung or a fault of it, as `fault/2`
   * @param {boolean} inSession whether the way back leads to a session's block
   * @param {Telling} telling what is fine, changed or left out for whom the page is for
   */
  function draw(place, card, rung, inSession, telling) {
    const own = ownRung(card, rung);
    const fault = rungbookFloorFault.asked(card, rung);
    const needs = own ? rungbookFits.asksAt(card.needs, own) : card.needs;
    const setting = own ? telling.settings(own.setting, needs) : "";
    const close = make("button", "close", inSession ? "Back to the session" : "Back to the ladders");
    close.setAttribute("type", "button");
    close.dataset.close = "";
    const title = make("h1", "", card.name);
    title.id = "card-name";
    place.replaceChildren(
      close,
      title,
      setting && card.rungs.length < 2 ? make("p", "quiet", setting) : "",
      settings(card, own),
      own?.at_hand && setting === own.setting ? make("p", "quiet at-hand", own.at_hand) : "",
      answer(needs, telling),
      startsLow(own, telling),
      figure(card),
      ...(fault ? [rungbookFloorFault.onTop(fault, telling)] : saying(card, needs, telling)),
      fault ? make("p", "card-standard", card.standard) : "",
      ways(card, own, telling),
      swaps(card, own, needs, telling),
      faults(card, fault),
      make("p", "caution-line", card.caution),
      signs(),
      make("p", "", target(card.page, "whole-page", "Its whole page")),
    );
    rungbookSigns.fill();
  }

  /** A place for the own signs of whom the page is for. */
  function signs() {
    const line = make("p", "caution-line", "");
    line.dataset.signs = "";
    line.hidden = true;
    return line;
  }

  return { draw };
})();
