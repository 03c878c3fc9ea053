// The right height: what a member's own measure asks, from the table that the build computed.
// The page's table is complete without it; nothing leaves the page, nothing is kept.
"use strict";

const rungbookHeight = (() => {
  /**
   * @typedef {{values: number[], statures: number[], demands: number[][], bands: number[][],
   *   rungs: number[]}} Table
   */

  /** @param {string | undefined} text @returns {number[]} */
  const numbers = (text) => (text || "").split(" ").filter((word) => word !== "").map(Number);

  /**
   * Reads a table from the attributes of its section.
   * @param {Record<string, string | undefined>} data
   * @returns {Table}
   */
  function read(data) {
    const [demands, bands] = [data.demands, data.bands].map((rows) => (rows || "").split(";").map(numbers));
    const [values, statures, rungs] = [data.values, data.statures, data.rungs].map(numbers);
    return { values, statures, demands, bands, rungs };
  }

  /**
   * In which gap of a rising list a value lies, and how far along it.
   * @param {number[]} list @param {number} value @returns {[number, number] | null}
   */
  function place(list, value) {
    for (let gap = 0; gap + 1 < list.length; gap += 1) {
      if (list[gap] <= value && value <= list[gap + 1]) {
        return [gap, (value - list[gap]) / (list[gap + 1] - list[gap])];
      }
    }
    return null;
  }

  /**
   * The demand at a setting for a stature, by straight lines; null outside the table.
   * @param {Pick<Table, "values" | "statures" | "demands">} table @param {number} value
   * @param {number} stature @returns {number | null}
   */
  function at(table, value, stature) {
    const column = place(table.values, value);
    const row = place(table.statures, stature);
    if (!column || !row) return null;
    const line = (/** @type {number} */ which) => {
      const a = table.demands[which][column[0]];
      const b = table.demands[which][column[0] + 1];
      return a + (b - a) * column[1];
    };
    const low = line(row[0]);
    const high = line(row[0] + 1);
    return low + (high - low) * row[1];
  }

  /** Give or take there, by the same lines. @param {Table} table @param {number} value @param {number} stature */
  const bandAt = (table, value, stature) => at({ ...table, demands: table.bands }, value, stature);

  /** To the nearest whole number of tenths, a half upward, as the command does. @param {number} value */
  const whole = (value) => Math.floor(Math.round(10 * value) / 10 + 0.5);

  /** @param {number} demand @returns {string} */
  const shown = (demand) => `${whole(demand)} %`;

  /** The rung whose height is nearest. @param {Table} table @param {number} value */
  function nearest(table, value) {
    let found = /** @type {number | null} */ (null);
    for (const rung of table.rungs) {
      if (found === null || Math.abs(rung - value) < Math.abs(found - value)) found = rung;
    }
    return found;
  }

  return { read, at, bandAt, whole, shown, nearest };
})();

if (typeof module === "object") module.exports = rungbookHeight;

if (typeof document === "object") {
  for (const section of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-height]"))) {
    const table = rungbookHeight.read(section.dataset);
    const { setting = "", unit = "", of = "" } = section.dataset;
    const form = document.createElement("form");
    const answer = document.createElement("output");

    /** @param {string} words @param {number} from @param {number} to @param {number} usual */
    const field = (words, from, to, usual) => {
      const label = document.createElement("label");
      const input = document.createElement("input");
      input.type = "number";
      input.min = String(from);
      input.max = String(to);
      input.value = String(usual);
      label.append(`${words} `, input);
      form.append(label, " ");
      return input;
    };
    const { values, statures } = table;
    const height = field(`Your ${setting} (${unit})`, values[0], values[values.length - 1], Number(section.dataset.usual));
    const stature = field("How tall you are (cm)", statures[0], statures[statures.length - 1], 172);

    const tell = () => {
      const demand = rungbookHeight.at(table, Number(height.value), Number(stature.value));
      const band = rungbookHeight.bandAt(table, Number(height.value), Number(stature.value));
      const rung = rungbookHeight.nearest(table, Number(height.value));
      answer.textContent = demand === null || band === null
        ? "Outside what was computed: ask your coach."
        : `About ${rungbookHeight.shown(demand)} ${of}, give or take ${rungbookHeight.whole(band)} points.${rung === null ? "" : ` Nearest rung: ${setting} ${rung} ${unit}.`}`;
    };
    form.addEventListener("input", tell);
    form.addEventListener("submit", (event) => event.preventDefault());
    form.append(answer);
    section.append(form);
    tell();
  }
}
