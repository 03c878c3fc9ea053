// Draws a movement's card for the coach in class. Text only, no markup from data; keeps nothing.
"use strict";

/**
 * @typedef {{kit: string, measured_kit?: string, traits: string, changes: string, noise: string, kit_words: string}} AskedFor
 * @typedef {{id: string, name: string, number: number, setting: string, step: string, needs: AskedFor}} Neighbour
 * @typedef {{ladder: string, name: string, number: number, setting: string, at_hand: string | null, traits: string, kit?: string, below: Neighbour | null, above: Neighbour | null}} OwnRung
 * @typedef {{counts: "reps" | "seconds" | "metres" | "contacts", sides: "together" | "each" | "alternating", pace_s: number | null}} CardWork
 * @typedef {{id: string, name: string, reason: string, work: CardWork, needs: AskedFor, rungs: SwapRung[]}} SwapLine
 * @typedef {{id: string, name: string, page: string, cues: string[], standard: string, caution: string, work: CardWork, needs: AskedFor, figure: FloorFigure | null, faults: CardFault[], rungs: OwnRung[], swaps: SwapLine[]}} Card
 * @typedef {{person: () => Person, why: (asks: Asks) => string, whyInBrief: (asks: Asks) => string,
 *   change: (asks: Asks) => string, settings: (words: string, asks: Asks) => string,
 *   object: (words: string, says: string | undefined, asks: Asks) => string, how: (asks: Asks) => string,
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
   * A rung of a ladder, `row/2`, as the page's own list of it has it: named as it is done by the person.
   * @param {string} rung
   */
  function listed(rung) {
    const link = document.querySelector(`.rail > li > a[data-rung="${rung}"]`);
    const item = link?.parentElement;
    return link && item ? { to: link.getAttribute("href") || "", words: link.textContent || "", asks: item.dataset } : null;
  }

  /** @param {string} way @param {(Node | string)[]} words */
  const noWay = (way, ...words) => make("p", "way-to none", make("span", "way", way), ...words);

  /** A way to a rung that fits as it stands or changed. @param {string} to @param {string} rung @param {string} way @param {string} name @param {string} change */
  function wayTo(to, rung, way, name, change) {
    const link = target(to, "way-to", "");
    link.dataset.rung = rung;
    link.append(make("span", "way", way), make("span", "name", name));
    if (change) link.append(make("span", "change-how", change));
    return link;
  }

  /** A neighbour; one that does not fit is named with the reason and leads nowhere. @param {Neighbour} to @param {string} way @param {string} ladder @param {Telling} telling */
  function neighbour(to, way, ladder, telling) {
    const name = named(to.name, telling.settings(to.setting, to.needs));
    const misfit = telling.whyInBrief(to.needs);
    if (misfit) return noWay(way, make("span", "name", name), make("span", "misfit-why", misfit));
    return wayTo(`movements/${to.id}.html`, `${ladder}/${to.number}`, way, name, telling.change(to.needs));
  }

  /** The rung below; where it does not fit, the next one down that does. @param {OwnRung} own @param {AskedFor} needs @param {Telling} telling */
  function below(own, needs, telling) {
    if (!own.below) return noWay("Rung below", telling.whyInBrief(needs) ? "Lowest rung." : "Lowest rung. Take a swap, or less of it.");
    const next = neighbour(own.below, "Rung below", own.ladder, telling);
    if (!telling.whyInBrief(own.below.needs)) return next;
    for (let number = own.number - 2; number >= 1; number -= 1) {
      const rung = `${own.ladder}/${number}`;
      const lower = listed(rung);
      if (lower && !telling.whyInBrief(lower.asks)) return wayTo(lower.to, rung, "Next rung down that fits", lower.words, telling.change(lower.asks));
    }
    return next;
  }

  /** @param {OwnRung | null} own @param {AskedFor} needs @param {Telling} telling */
  function ways(own, needs, telling) {
    if (!own) return "";
    const above = own.above ? neighbour(own.above, "Rung above", own.ladder, telling) : noWay("Rung above", "Top of the ladder.");
    return make("div", "ways", below(own, needs, telling), above);
  }

  /** Where somebody starts of whom nobody starts in the middle; only what fits is led to. @param {OwnRung | null} own @param {Telling} telling */
  function startsLow(own, telling) {
    const low = rungbookFits.startsLow(telling.person());
    const lowest = own && low && own.number > 1 ? listed(`${own.ladder}/1`) : null;
    if (!own || !lowest) return "";
    const start = `With no result yet, and ${low}: `;
    const misfit = telling.whyInBrief(lowest.asks);
    if (misfit) return make("p", "flag", `${start}rung 1 of this ladder, and ${lowest.words} there is left out too (${misfit}).`);
    const link = target(lowest.to, "", "start at rung 1 of this ladder");
    link.dataset.rung = `${own.ladder}/1`;
    return make("p", "flag change", start, link, `, ${lowest.words}.`);
  }

  /** Other rungs of the same movement, as far as they fit and still differ in words. @param {Card} card @param {OwnRung | null} own @param {Telling} telling */
  function settings(card, own, telling) {
    const links = card.rungs.flatMap((rung) => {
      const needs = rungbookFits.asksAt(card.needs, rung);
      const words = rung.setting ? telling.settings(rung.setting, needs) : rung.name;
      if (!words || (rung !== own && telling.whyInBrief(needs))) return [];
      const link = target(`movements/${card.id}.html`, "setting-choice", words);
      link.dataset.rung = `${rung.ladder}/${rung.number}`;
      if (rung === own) link.setAttribute("aria-current", "true");
      return [link];
    });
    return card.rungs.length > 1 ? make("p", "settings", ...links) : "";
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
    const now = [startHere ? "Start here, the easiest way of it." : "", brings].filter(Boolean).join(" ");
    if (now) link.append(make("span", "brings", now));
    link.append(make("span", "reason", why));
    return make("li", "", link);
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
   * @param {HTMLElement} place @param {Card} card
   * @param {{rung: string, dose: string, inSession: boolean}} asked a rung of it, or a fault as `fault/2`; how
   *   much the block asks that it was opened from; whether the way back leads to a session's block
   * @param {Telling} telling what is fine, changed or left out for whom the page is for
   */
  function draw(place, card, { rung, dose, inSession }, telling) {
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
      dose ? make("p", "dose", dose) : "",
      settings(card, own, telling),
      own?.at_hand && setting === own.setting ? make("p", "quiet at-hand", own.at_hand) : "",
      answer(needs, telling),
      startsLow(own, telling),
      rungbookFloorFault.picture(fault?.drawn || card.figure),
      ...(fault ? [rungbookFloorFault.onTop(fault, telling)] : saying(card, needs, telling)),
      fault ? make("p", "card-standard", card.standard) : "",
      ways(own, needs, telling),
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
    const line = make("div", "caution-line");
    line.dataset.signs = "";
    line.hidden = true;
    return line;
  }

  return { draw, listed };
})();
