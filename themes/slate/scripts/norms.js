// Where a number stands among the people of a published table: context, never a verdict. Pure;
// mirrors the room `placing`, whose `tables().norms` it is given.
"use strict";

/**
 * @typedef {{kind: "steps", at: [number, string][]} | {kind: "middle-half", at: number[]}} NormEdges
 * @typedef {{rows: {test: string, sex: string, ages: number[], edges: NormEdges}[],
 *   protocols: {test: string, how: string, source: string, from_memory: boolean}[],
 *   lowest: string, halves: string[]}} NormTables
 */

/** @param {NormTables} tables */
const rungbookNorms = (tables) => {
  /** @param {NormEdges} edges @param {number} value */
  function category(edges, value) {
    if (edges.kind === "middle-half") {
      const [low, high] = edges.at;
      return tables.halves[value < low ? 0 : value > high ? 2 : 1];
    }
    const reached = edges.at.filter(([from]) => value >= from).pop();
    return reached ? reached[1] : tables.lowest;
  }

  /**
   * Where a number stands among the people of a published table; `null` where there is none.
   * @param {string} test
   * @param {string} sex
   * @param {number} age
   * @param {number} value
   */
  function norms(test, sex, age, value) {
    const row = tables.rows.find(
      (one) => one.test === test && one.sex === sex && age >= one.ages[0] && age <= one.ages[1],
    );
    const protocol = tables.protocols.find((one) => one.test === test);
    if (!row || !protocol) return null;
    const { how, source, from_memory } = protocol;
    return { category: category(row.edges, value), source, protocol: how, from_memory };
  }

  return { norms };
};

if (typeof module !== "undefined") module.exports = rungbookNorms;
