// Draws a fault for the coach in class: on top of a movement's card, or by itself with every movement
// that shows it. Text only, no markup from data; keeps nothing.
"use strict";

/**
 * @typedef {{words: string, to: string | null, plain: string | null, needs: AskedFor | null}} FaultThen
 * @typedef {{file: string, words: string}} FloorFigure
 * @typedef {{see: string, cause: string | null, say: string | null, then: FaultThen | null, known: PageLink | null, drawn: FloorFigure | null}} CardFault
 * @typedef {{name: string, to: string, see: string | null, say: string | null, needs: AskedFor}} FaultMovement
 *   `say`: what is said there, where that is not the fault's own cue
 * @typedef {{id: string, name: string, page: string, see: string, cause: string | null, say: string | null, then: FaultThen | null, movements: FaultMovement[], drawn: FloorFigure | null}} FaultCard
 */

const rungbookFloorFault = (() => {
  const { make } = rungbookMake;

  /** The fault of a card that is asked for as `fault/2`. @param {Card} card @param {string} asked @returns {CardFault | null} */
  function asked(card, asked) {
    const number = /^fault\/(\d+)$/.exec(asked)?.[1];
    return (number && card.faults[Number(number) - 1]) || null;
  }

  /** @param {string} to @param {string} className @param {(Node | string)[]} words */
  function link(to, className, ...words) {
    const made = make("a", className, ...words);
    made.href = to;
    return made;
  }

  /** Why something does not fit now, or how it is changed. @param {AskedFor | null} needs @param {Telling} telling */
  function answer(needs, telling) {
    const misfit = needs ? telling.whyInBrief(needs) : "";
    const change = needs ? telling.change(needs) : "";
    if (misfit) return make("span", "misfit-why", `Not now: ${misfit}`);
    return change ? make("span", "change-how", change) : "";
  }

  /** What does not fit now is named with the reason and leads nowhere. @param {FaultThen} then @param {Telling} telling */
  function thenWords({ words, to, plain, needs }, telling) {
    const leads = to && !(needs && telling.whyInBrief(needs));
    const named = leads ? link(to, "", words) : words;
    return make("dd", "", named, plain ? `, ${plain}` : "", answer(needs, telling));
  }

  /** @param {string} see @param {string | null} cause @param {FaultThen | null} then @param {Telling} telling */
  function facts(see, cause, then, telling) {
    const list = make("dl", "fault-facts", make("dt", "", "See"), make("dd", "", see));
    if (cause) list.append(make("dt", "", "Cause"), make("dd", "", cause));
    if (then) list.append(make("dt", "", "Then"), thenWords(then, telling));
    return list;
  }

  /** A drawing, of a movement or of a fault beside the good pose. @param {FloorFigure | null} drawn */
  function picture(drawn) {
    if (!drawn) return "";
    const image = make("img", "card-figure");
    image.src = drawn.file;
    image.alt = drawn.words;
    return image;
  }

  /** @param {string | null} say */
  const cue = (say) => (say ? make("p", "big-cue", make("q", "", say)) : "");

  /** The fault on top of its movement's card, its cue first. @param {CardFault} fault @param {Telling} telling */
  function onTop({ see, cause, say, then, known }, telling) {
    const more = known ? make("p", "quiet", "Elsewhere: ", link(known.to, "", known.text)) : "";
    return make("section", "card-fault", cue(say), facts(see, cause, then, telling), more);
  }

  /** @param {FaultMovement} movement @param {Telling} telling @param {string | null | false} said */
  function movementRow({ name, to, see, needs }, telling, said) {
    const target = link(to, "swap-to", make("span", "name", name), said ? make("q", "", said) : see ? make("span", "reason", see) : "");
    target.append(answer(needs, telling));
    return make("li", "", target);
  }

  /**
   * Fills `place` with a fault and its movements.
   * @param {HTMLElement} place @param {FaultCard} fault
   * @param {boolean} inSession whether the way back leads to a session's block
   * @param {Telling} telling what is fine, changed or left out for whom the page is for
   */
  function draw(place, fault, inSession, telling) {
    const close = make("button", "close", inSession ? "Back to the session" : "Back to the ladders");
    close.dataset.close = "";
    const title = make("h1", "", fault.name);
    title.id = "card-name";
    // Where movements are told otherwise no cue leads: which movement it is decides.
    const asks = fault.movements.some(({ say }) => say);
    const rows = fault.movements.map((one) => movementRow(one, telling, asks && (one.say || fault.say)));
    const seen = make("div", "card-swaps", make("h2", "", "Which movement?"), make("ul", "", ...rows));
    place.replaceChildren(
      close, title, picture(fault.drawn), asks ? seen : cue(fault.say), facts(fault.see, fault.cause, fault.then, telling), asks ? "" : seen,
      make("p", "", link(fault.page, "whole-page", "Its whole page")),
    );
  }

  return { asked, picture, onTop, draw };
})();
