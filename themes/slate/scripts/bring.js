// Brings scripts and data files when they are wanted, each once: as scripts, which arrive from disk
// too, where fetching fails. Asks no other host; addresses are below the site's folder.
"use strict";

/**
 * @typedef {{id: string, weeks: Record<string, Record<string, [number, number | null, object][]>>}} CycleWeeks
 *   by week and session: a block, a line of it or the block itself, and what takes the place of its fields
 */

const rungbookBring = (() => {
  const root = document.body.dataset.root || "";
  /** @type {Map<string, Promise<void>>} */
  const asked = new Map();
  /** @type {Map<string, LadderData>} */
  const ladders = new Map();
  /** @type {Map<string, Card>} */
  const cards = new Map();
  /** @type {Map<string, FaultCard>} */
  const faults = new Map();
  /** @type {Map<string, Steps>} */
  const sessions = new Map();
  /** @type {Map<string, CycleWeeks>} */
  const cycles = new Map();
  // What the files of these call: here alone, so that no two scripts of a page take them from each other.
  window.rungbookLadder = (data) => ladders.set(data.id, data);
  window.rungbookCard = (data) => cards.set(data.id, data);
  window.rungbookFault = (data) => faults.set(data.id, data);
  window.rungbookSession = (data) => sessions.set(data.id, data);
  window.rungbookWeeks = (data) => cycles.set(data.id, data);

  /** @param {string} file */
  function one(file) {
    const before = asked.get(file);
    if (before) return before;
    // What the page itself names has run, or runs before this is awaited: a second time would fail.
    if (document.querySelector(`head > script[src="${root + file}"]`)) return Promise.resolve();
    const coming = new Promise((/** @type {(value: void) => void} */ come, fail) => {
      const script = document.createElement("script");
      script.src = root + file;
      script.addEventListener("load", () => come());
      script.addEventListener("error", () => {
        // Asked again, it may come.
        asked.delete(file);
        script.remove();
        fail(new Error(`${file} did not come`));
      });
      document.head.append(script);
    });
    asked.set(file, coming);
    return coming;
  }

  /** Files in their order. @param {string[]} names */
  async function files(names) {
    for (const name of names) await one(name);
  }

  /**
   * @template T
   * @param {Map<string, T>} known @param {string} id @param {string} file
   */
  async function called(known, id, file) {
    await one(file);
    const found = known.get(id);
    if (!found) throw new Error(`${file} holds something else`);
    return found;
  }

  /** @param {string} id */
  const ladder = (id) => called(ladders, id, `cards/ladders/${id}.js`);
  /** @param {string} id */
  const card = (id) => called(cards, id, `cards/${id}.js`);
  /** @param {string} id */
  const fault = (id) => called(faults, id, `cards/faults/${id}.js`);
  /** @param {string} id */
  const session = (id) => called(sessions, id, `cards/sessions/${id}.js`);

  /**
   * A session as a week of a cycle asks for it; as it is written without one.
   * @param {string} id @param {{cycle: string, week: number} | null} week @returns {Promise<Steps>}
   */
  async function inWeek(id, week) {
    const written = await session(id);
    if (!week) return written;
    const { weeks } = await called(cycles, week.cycle, `data/weeks-${week.cycle}.js`);
    const blocks = written.blocks.map((block) => ({ ...block, items: [...block.items] }));
    for (const [at, line, instead] of weeks[week.week]?.[id] || []) {
      if (line === null) Object.assign(blocks[at], instead);
      else blocks[at].items[line] = { ...blocks[at].items[line], ...instead };
    }
    return { ...written, blocks };
  }

  /** The arithmetic of placing with its numbers and sentences. */
  async function placing() {
    await files(["height", "demands", "dose", "estimate", "placing", "retest", "norms"].map((name) => `scripts/${name}.js`));
    await one("data/placing.js");
    const tables = window.rungbookPlacingTables;
    if (!tables) throw new Error("the numbers of placing did not come");
    const known = rungbookPlacing(tables);
    return { ...known, ...rungbookRetest(known), ...rungbookNorms(tables.norms), demands: rungbookDemands };
  }

  /** The day on this device's calendar. */
  const today = () => {
    const now = new Date();
    return new Date(now.getTime() - now.getTimezoneOffset() * 60000).toISOString().slice(0, 10);
  };

  return { files, ladder, card, fault, session, inWeek, placing, today };
})();
