// Draws one block of a session for the coach in class: three rungs by object, the next block one
// touch away. Text only, no markup from data; keeps nothing.
"use strict";

/**
 * @typedef {{text: string, to: string}} PageLink
 * @typedef {{number: number, movement: PageLink, on_ladder: string, setting: string, object: string, dose?: string | null, needs: AskedFor}} StepRung
 * @typedef {{ladder: PageLink | null, rungs: StepRung[], movement: PageLink | null, setting: string, needs: AskedFor, options: StepItem[], dose: string | null, note: string | null, cue: string | null}} StepItem
 * @typedef {{name: string, purpose: string | null, format: string | null, items: StepItem[], clock?: {total_s: number}, share?: {window_s: number, stations: ShareStation[]} | null}} StepBlock
 * @typedef {{id: string, name: string, page: string, length_s: number | null, rig_s: number, people: number, hall: Record<string, number>, blocks: StepBlock[]}} Steps
 */

const rungbookFloorSteps = (() => {
  const { make } = rungbookMake;

  /**
   * A large target to a movement's card, with why it does not fit now or how it is changed.
   * @param {PageLink} to @param {string} rung @param {(Node | string)[]} words @param {AskedFor} needs
   * @param {Telling} telling
   */
  function target(to, rung, words, needs, telling) {
    const link = make("a", "step-to", ...words);
    link.href = to.to;
    if (rung) link.dataset.rung = rung;
    const misfit = telling.whyInBrief(needs);
    const change = telling.change(needs);
    if (misfit) link.append(make("span", "misfit-why", misfit));
    if (change) link.append(make("span", "change-how", change));
    return link;
  }

  /** `ladders/row.html#rung-2` as `row/2`. @param {string} address */
  const rungOf = (address) => address.replace(/^.*ladders\/(.+)\.html#rung-(\d+)$/, "$1/$2");

  /** @param {StepRung} rung @param {Telling} telling */
  function rungTarget(rung, telling) {
    const words = [make("span", "object", rung.object), make("span", "name", rung.movement.text)];
    return make("li", "", target(rung.movement, rungOf(rung.on_ladder), words, rung.needs, telling));
  }

  /** @param {StepItem} item @param {Telling} telling */
  function movementTarget(item, telling) {
    const to = item.movement;
    if (!to) return "";
    const words = [make("span", "name", [to.text, telling.settings(item.setting, item.needs)].filter(Boolean).join(", "))];
    // A cue of the whole movement may ask for what a change leaves out.
    if (item.cue && !telling.change(item.needs) && !telling.whyInBrief(item.needs)) words.push(make("span", "say", item.cue));
    return target(to, "", words, item.needs, telling);
  }

  /** @param {StepItem} item @param {Telling} telling @returns {HTMLElement} */
  function itemRow(item, telling) {
    const row = make("li", "step-item");
    if (item.dose) row.append(make("p", "dose", item.dose));
    if (item.ladder) {
      const rungs = item.rungs.map((rung) => rungTarget(rung, telling));
      row.append(make("p", "what", `Own rung on ${item.ladder.text}`));
      row.append(make("ul", "three", ...rungs));
    } else if (item.movement) {
      row.append(movementTarget(item, telling));
    } else {
      const options = item.options.map((option) => itemRow(option, telling));
      row.append(make("p", "what", "One of these"), make("ul", "three", ...options));
    }
    if (item.note) row.append(make("p", "quiet", item.note));
    return row;
  }

  /** @param {Steps} session @param {number} to from 0 @param {string} words */
  function way(session, to, words) {
    const link = make("a", "button", words);
    link.href = `#session/${session.id}/${to + 1}`;
    return link;
  }

  /**
   * Fills `place` with one block.
   * @param {HTMLElement} place @param {Steps} session @param {number} at from 0
   * @param {Telling} telling what is fine, changed or left out for whom the page is for
   */
  function draw(place, session, at, telling) {
    const block = session.blocks[Math.min(at, session.blocks.length - 1)];
    const close = make("button", "close", "Back to the ladders");
    close.setAttribute("type", "button");
    close.dataset.close = "";
    const title = make("h1", "", block ? block.name : session.name);
    title.id = "card-name";
    const items = block ? block.items.map((item) => itemRow(item, telling)) : [];
    const ways = make("p", "steps");
    if (at > 0) ways.append(way(session, at - 1, "Block before"));
    if (at + 1 < session.blocks.length) ways.append(way(session, at + 1, "Next block"));
    place.replaceChildren(
      close,
      make("p", "over", `${session.name}: block ${at + 1} of ${session.blocks.length}`),
      title,
      block?.format ? make("p", "format", block.format) : "",
      block?.purpose ? make("p", "quiet", block.purpose) : "",
      make("ul", "step-items", ...items),
      ways,
    );
  }

  return { draw };
})();
