// What a member carries on each rung, for their stature and at heights of their own, from the tables
// that the build solved. Pure; mirrors the room `placing`, and a test holds the two equal.
"use strict";

/**
 * @typedef {{setting: string, unit: string, values: number[], statures: number[],
 *   demands: number[][], bands: number[][], ends?: {demands: number[][], bands: number[][]}, rungs: number[],
 *   levels?: {ends: number[], traits: string[]}}} ShareTable per cent of body weight; traits below, at and
 *   above each end of a height in cm
 * @typedef {{value: number, band: number, shown: string}} AxisValue
 * @typedef {{movement: string, name: string, setting: string, settings: Record<string, number>,
 *   at_hand: string | null, object: string, page: string, needs: AskedFor,
 *   work: CardWork, cue: string | null, standard: string | null, sides: string, demand: Demand | null,
 *   off_table?: boolean, axis: AxisValue | null}} LadderRung its table may be of other settings
 * @typedef {{id: string, name: string, page: string, goal: string | null, sheet: Sheet,
 *   test: {rung: number, count: string | null, stop: string | null} | null,
 *   tables: Record<string, ShareTable>, rungs: LadderRung[]}} LadderData
 */

const rungbookDemands = (() => {
  /** The stature that the tables were drawn for, where none is given, cm. @param {ShareTable} table */
  const usual = (table) => table.statures[1];

  /**
   * @param {ShareTable} table @param {number} value @param {number | null} stature
   * @returns {(Share & {end?: Share}) | null} with the arms straight, and where a repetition ends
   */
  function fromTable(table, value, stature) {
    const { statures, demands, bands, ends } = table;
    const tall = Math.min(Math.max(stature ?? usual(table), statures[0]), statures[2]);
    /** @param {number[][]} shares @param {number[][]} around @returns {Share | null} */
    const read = (shares, around) => {
      const share = rungbookHeight.at({ ...table, demands: shares }, value, tall);
      const band = rungbookHeight.at({ ...table, demands: around }, value, tall);
      return share === null || band === null ? null : { share: share / 100, band: band / 100 };
    };
    const start = read(demands, bands);
    const end = ends && read(ends.demands, ends.bands);
    return start && { ...start, end: end || undefined };
  }

  /**
   * The demand at an own height or lean of the movement on rung `at` (from 0); null outside the
   * table and where the rung itself has no number.
   * @param {LadderData} ladder @param {number} at @param {number} value @param {number | null} stature
   * @returns {Demand | null}
   */
  function own(ladder, at, value, stature) {
    const rung = ladder.rungs[at];
    const table = rung && !rung.off_table && ladder.tables[rung.movement];
    const found = table ? fromTable(table, value, stature) : null;
    if (!found || !rung.demand) return null;
    return { ...rung.demand, ...found };
  }

  /**
   * The demand of every rung for a stature in cm; null: as drawn.
   * @param {LadderData} ladder @param {number | null} stature
   * @returns {(Demand | null)[]}
   */
  const of = (ladder, stature) =>
    ladder.rungs.map((rung, at) => {
      const table = ladder.tables[rung.movement];
      const value = table && rung.settings[table.setting];
      if (value === undefined) return rung.demand;
      return own(ladder, at, value, stature) || rung.demand;
    });

  /**
   * The rung (from 0) whose written height or lean is nearest to an own one of that setting; -1
   * where no rung has it. @param {LadderData} ladder @param {string} setting @param {number} value
   */
  function nearest(ladder, setting, value) {
    let found = -1;
    let least = Infinity;
    ladder.rungs.forEach((rung, at) => {
      const written = rung.settings[setting];
      const has = ladder.tables[rung.movement]?.setting === setting;
      if (!has || written === undefined || !rung.demand || rung.off_table) return;
      const off = Math.abs(written - value);
      if (off < least) [found, least] = [at, off];
    });
    return found;
  }

  return { of, own, nearest };
})();

if (typeof module !== "undefined") module.exports = rungbookDemands;
