// Draws one block of a session for the coach in class: three rungs by object, the next block one
// touch away. Text only, no markup from data; keeps nothing.
"use strict";

/**
 * @typedef {{text: string, to: string}} PageLink
 * @typedef {{number: number, movement: PageLink, on_ladder: string, setting: string, object: string, object_says?: string, dose?: string | null, needs: AskedFor}} StepRung
 * @typedef {{ladder: PageLink | null, rungs: StepRung[], movement: PageLink | null, setting: string, stands?: {ladder: string, number: number} | null, needs: AskedFor, options: StepItem[], dose: string | null, words?: string | null, note: string | null, cue: string | null}} StepItem
 * @typedef {{name: string, purpose: string | null, format: string | null, items: StepItem[], clock?: {total_s: number}, share?: {window_s: number, stations: ShareStation[]} | null}} StepBlock
 * @typedef {{id: string, name: string, page: string, length_s: number | null, rig_s: number, people: number, hall: Record<string, number>, blocks: StepBlock[], weeks: {cycle: string, number: number, from: string, to: string}[], week?: number}} Steps
 */

const rungbookFloorSteps = (() => {
  const { make } = rungbookMake;

  /**
   * A large target to a movement's card, with why it does not fit now or how it is changed; where
   * somebody starts of whom nobody starts in the middle, if that fits.
   * @param {PageLink} to @param {(Node | string)[]} words @param {AskedFor} needs @param {string} start
   * @param {Telling} telling
   */
  function target(to, words, needs, start, telling) {
    const link = make("a", "step-to", ...words);
    link.href = to.to;
    const misfit = telling.whyInBrief(needs);
    const change = telling.change(needs);
    if (misfit) link.append(make("span", "misfit-why", misfit));
    else if (start) link.append(make("span", "start", `No result yet: ${start}`));
    if (change) link.append(make("span", "change-how", change));
    return link;
  }

  /** @param {StepRung} rung @param {Telling} telling */
  function rungTarget(rung, telling) {
    const words = [make("span", "name", rung.movement.text)];
    const object = telling.object(rung.object, rung.object_says, rung.needs);
    if (object) words.unshift(make("span", "object", object));
    const start = rung.number === 1 && rungbookFits.startsLow(telling.person()) ? "start here" : "";
    return make("li", "", target(rung.movement, words, rung.needs, start, telling));
  }

  /**
   * Where a line's movement, or the first of several, is begun: on the lowest rung of its ladder.
   * @param {StepItem} item @param {boolean | null} first of several options; null by itself @param {Telling} telling
   */
  function startOf({ stands }, first, telling) {
    if (first === false || !rungbookFits.startsLow(telling.person())) return "";
    if (!stands || stands.number === 1) return first ? "start here" : "";
    const low = rungbookFloorCard.listed(`${stands.ladder}/1`);
    return low && !telling.whyInBrief(low.asks) ? `start at ${low.words}` : "";
  }

  /** @param {StepItem} item @param {boolean | null} first @param {Telling} telling */
  function movementTarget(item, first, telling) {
    const to = item.movement;
    if (!to) return "";
    const words = [make("span", "name", [to.text, telling.settings(item.setting, item.needs)].filter(Boolean).join(", "))];
    // A cue of the whole movement may ask for what a change leaves out.
    if (item.cue && !telling.change(item.needs) && !telling.whyInBrief(item.needs)) words.push(make("span", "say", item.cue));
    return target(to, words, item.needs, startOf(item, first, telling), telling);
  }

  /** @param {StepItem} item @param {Telling} telling @param {boolean | null} [first] of several options; null by itself @returns {HTMLElement} */
  function itemRow(item, telling, first = null) {
    const row = make("li", "step-item");
    if (item.dose) row.append(make("p", "dose", item.dose));
    if (item.ladder) {
      const rungs = item.rungs.map((rung) => rungTarget(rung, telling));
      row.append(make("p", "what", `Own rung on ${item.ladder.text}`));
      row.append(make("ul", "three", ...rungs));
    } else if (item.movement) {
      row.append(movementTarget(item, first, telling));
    } else {
      const options = item.options.map((option, at) => itemRow(option, telling, at === 0));
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
      make("p", "over", `${session.name}${session.week ? `, week ${session.week}` : ""}: block ${at + 1} of ${session.blocks.length}`),
      title,
      block?.format ? make("p", "format", block.format) : "",
      block?.purpose ? make("p", "quiet", block.purpose) : "",
      make("ul", "step-items", ...items),
      ways,
    );
  }

  /**
   * How much a block asks of a movement or of one of its rungs that it names; empty where it names neither.
   * @param {StepBlock | undefined} block @param {string} id @param {string} rung
   */
  function doseOf(block, id, rung) {
    const address = `movements/${id}.html`;
    const all = (block?.items || []).flatMap((item) => [item, ...item.options, ...item.rungs.map((one) => ({ ...one, dose: one.dose || item.dose }))]);
    const here = all.find(({ movement }) => movement && (movement.to === address || movement.to === `${address}#rung-${rung.replace("/", "-")}`));
    return here ? ("words" in here && here.words) || here.dose || "" : "";
  }

  return { draw, doseOf };
})();
