// Too few bars: on a session's block, from people and kit to groups and stations, as the coach types.
// What stands in for the kit is the own room's answer for whoever the page is for, with that kit lacking:
// the same limits leave the same out. Keeps the groups for the class's clock, in this tab, where that is asked.
"use strict";

const rungbookSharePage = (() => {
  const { make } = rungbookMake;
  /** Once more without what was found, if there is too little of that as well. */
  const TRIES = 4;

  /** @param {string} words @param {number} value @param {string} name */
  function field(words, value, name) {
    const input = document.createElement("input");
    Object.assign(input, { type: "number", min: "0", max: "99", value: String(value), name, inputMode: "numeric" });
    return make("label", "", `${words} `, input);
  }

  const GROUPS = "rungbook-groups";
  /** @typedef {Record<string, {slots: ClockSlot[], counts: Record<string, number>}>} Groups by the block's number */

  /** @param {string} session @returns {Groups} */
  function groupsOf(session) {
    try {
      const kept = JSON.parse(sessionStorage.getItem(GROUPS) || "null");
      return kept?.session === session ? kept.blocks : {};
    } catch {
      return {};
    }
  }

  /** @param {string} session @param {number} at @param {Groups[string] | null} groups null: as it is written */
  function keepGroups(session, at, groups) {
    const blocks = { ...groupsOf(session) };
    if (groups) blocks[at] = groups;
    else delete blocks[at];
    try {
      sessionStorage.setItem(GROUPS, JSON.stringify({ session, blocks }));
    } catch {
      // Then the clock runs as it is written.
    }
  }

  /** Whom the third station is for: the person in front, or whoever answered for limits; else the class. @param {Who} who @param {string[]} hall */
  function whom(who, hall) {
    if (who.front || who.asked) return { ...who, kit: who.kit ?? hall };
    return { kit: hall, limits: {}, noise: "loud", front: true, asked: true, gone: [] };
  }

  /**
   * The line without the kit that is short, for a group of so many.
   * @param {OwnItem} item @param {ShareStation} station @param {Record<string, number>} counts @param {number} group @param {Who} who
   */
  async function instead(item, station, counts, group, who) {
    const lacks = [...(who.lacks || []), ...new Set(station.ways.flat(2))];
    for (let at = 0; at < TRIES; at += 1) {
      const found = await rungbookOwnBring.versions([{ items: [item] }], { ...who, lacks });
      const version = found?.get("0/0");
      if (!version || version.kind === "ask") return version || null;
      const card = await rungbookBring.card(version.movement);
      const short = rungbookFits.kitNeeds(card.needs.kit).find((need) => need.reduce((sum, id) => sum + (counts[id] ?? group), 0) < group);
      if (!short) return version;
      lacks.push(...short);
    }
    return null;
  }

  /** @param {OwnVersion | null} version @param {Who | null} who null: nobody in particular */
  function insteadRow(version, who) {
    if (!version) return make("p", "", "What stands in for it could not be read on this device.");
    if (version.kind === "ask") return make("p", "", make("strong", "", "Nothing stands in for it: you decide. "), version.why.join(" "));
    const named = version.setting ? `${version.name}, ${version.setting}` : version.name;
    const link = make("a", "", named);
    link.href = `${document.body.dataset.root || ""}movements/${version.movement}.html`;
    const row = make("p", "", "Without it: ", make("strong", "", link), version.dose ? ` ${version.dose}.` : ".");
    if (version.change) row.append(make("span", "change-how", version.change));
    row.append(make("span", "reason", who && rungbookOwnBring.isSomebody(who) ? version.why.join(" ") : "From the middle rung, for nobody in particular; whoever is in front changes it."));
    return row;
  }

  /** @param {HTMLElement} place @param {number} at which block */
  return async function open(place, at) {
    const session = await rungbookBring.inWeek(rungbookSessionPage.id, rungbookSessionPage.week);
    const block = session.blocks[at];
    const { stations, window_s: window } = block.share || { stations: [], window_s: 0 };
    const hall = session.hall;
    const kit = [...new Set(stations.flatMap((one) => one.ways.flat(2)))];
    const names = globalThis.rungbookWords?.kit || {};
    const answer = make("div", "share-answer");
    answer.setAttribute("aria-live", "polite");
    const kept = groupsOf(session.id)[at]?.counts || {};
    const form = make("div", "share-form", field("People", kept.people ?? session.people, "people"), ...kit.map((id) => field(names[id] || id, kept[id] ?? hall[id] ?? 0, id)));
    const calls = Object.assign(document.createElement("input"), { type: "checkbox", checked: at in groupsOf(session.id), name: "calls" });
    const callsRow = make("label", "share-calls", calls, " The class's clock calls these groups");
    let newest = 0;

    async function reckon() {
      newest += 1;
      const mine = newest;
      const number = (/** @type {string} */ name) => Math.max(0, Math.min(99, Math.floor(Number(/** @type {HTMLInputElement | null} */ (form.querySelector(`[name="${name}"]`))?.value) || 0)));
      const counts = { ...hall, ...Object.fromEntries(kit.map((id) => [id, number(id)])) };
      const found = rungbookShare.share(number("people"), window, stations, counts);
      const rows = rungbookShare.said(found, stations).map((words) => make("li", "", words));
      answer.replaceChildren(make("ul", "", ...rows));
      const slots = rungbookShare.slots(found, stations, window);
      callsRow.hidden = slots.length === 0;
      const asked = Object.fromEntries(["people", ...kit].map((id) => [id, number(id)]));
      keepGroups(session.id, at, calls.checked && slots.length ? { slots, counts: asked } : null);
      const said = rungbookSessionPage.person();
      const who = whom(said, Object.keys(hall).filter((id) => counts[id] > 0));
      for (const [nth, { line, instead: without }] of found.stops.entries()) {
        if (!without) continue;
        const item = /** @type {OwnItem} */ (/** @type {unknown} */ (block.items[line]));
        const version = await instead(item, stations[line], counts, found.groups[0], who).catch(() => null);
        if (mine !== newest) return;
        // At its station, below the head of the list. Before limits are answered it is the class's answer, and says so.
        rows[nth + 1].append(insteadRow(version, who.front === said.front && who.asked === said.asked ? said : null));
      }
    }

    form.addEventListener("input", reckon);
    calls.addEventListener("change", reckon);
    document.addEventListener("rungbook-person", reckon);
    place.replaceChildren(form, answer, callsRow);
    await reckon();
  };
})();
