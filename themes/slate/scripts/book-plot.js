// Draws a member's results on one ladder over time, to the demand axis. Makes a picture, keeps
// nothing; the table beside it says the same in words.
"use strict";

/**
 * @typedef {{day: string, value: number, words: string}} PlotPoint a result at its place on the axis
 * @typedef {{value: number, words: string}} PlotRung
 */

const rungbookBookPlot = (() => {
  const SVG = "http://www.w3.org/2000/svg";
  const WIDTH = 360;
  const HEIGHT = 250;
  const EDGE = { left: 64, right: 14, top: 22, bottom: 30 };
  /** Words of two rungs need this much between them. */
  const LINE = 13;

  /** @param {string} tag @param {Record<string, string | number>} attributes @param {string} [text] */
  function make(tag, attributes, text) {
    const element = document.createElementNS(SVG, tag);
    Object.entries(attributes).forEach(([name, value]) => element.setAttribute(name, String(value)));
    if (text !== undefined) element.textContent = text;
    return element;
  }

  /** Days since 1970. @param {string} day */
  const number = (day) => Date.parse(`${day}T00:00:00Z`) / 86_400_000;
  /** @param {string} day */
  const short = (day) =>
    new Date(`${day}T00:00:00Z`).toLocaleDateString(document.documentElement.lang, { day: "numeric", month: "short", year: "2-digit", timeZone: "UTC" });

  /** @param {number} number two decimals are finer than any screen */
  const round = (number) => Math.round(number * 100) / 100;

  /** The rungs that hold the results, and one below and above. @param {PlotRung[]} rungs @param {PlotPoint[]} points */
  function near(rungs, points) {
    const values = points.map((point) => point.value);
    const [low, high] = [Math.min(...values), Math.max(...values)];
    const below = rungs.filter((rung) => rung.value < low).sort((a, b) => b.value - a.value)[0];
    const above = rungs.filter((rung) => rung.value > high).sort((a, b) => a.value - b.value)[0];
    return rungs.filter((rung) => (rung.value >= low && rung.value <= high) || rung === below || rung === above);
  }

  /** @param {number[]} values */
  function span(values) {
    const [low, high] = [Math.min(...values), Math.max(...values)];
    const room = Math.max((high - low) * 0.08, 1);
    return [low - room, high + room];
  }

  /**
   * The picture. Rungs are lines at their demand, results dots in the accent, what was counted
   * stands at each dot.
   * @param {{name: string, axis: string, rungs: PlotRung[], points: PlotPoint[]}} what points by day
   */
  function draw({ name, axis, rungs, points }) {
    const shown = near(rungs, points);
    const [low, high] = span([...shown, ...points].map((one) => one.value));
    const days = points.map((point) => number(point.day));
    const [first, last] = [Math.min(...days), Math.max(...days)];
    const wide = WIDTH - EDGE.left - EDGE.right - 24;
    /** @param {string} day */
    const x = (day) => round(EDGE.left + 12 + (last === first ? wide / 2 : ((number(day) - first) / (last - first)) * wide));
    /** @param {number} value */
    const y = (value) => round(HEIGHT - EDGE.bottom - ((value - low) / (high - low)) * (HEIGHT - EDGE.top - EDGE.bottom));

    const label = `${name}: ${points.length === 1 ? "1 result" : `${points.length} results`} over time, higher is more demand. The table below says the same.`;
    const picture = make("svg", { viewBox: `0 0 ${WIDTH} ${HEIGHT}`, class: "plot", role: "img", "aria-label": label });
    picture.append(make("text", { x: 4, y: 12, class: "axis" }, axis));
    let free = Infinity;
    for (const rung of [...shown].sort((a, b) => a.value - b.value)) {
      const at = y(rung.value);
      picture.append(make("path", { d: `M${EDGE.left} ${at}H${WIDTH - EDGE.right}`, class: "rung" }));
      if (free - at < LINE) continue;
      picture.append(make("text", { x: EDGE.left - 5, y: at + 4, class: "words" }, rung.words));
      free = at;
    }
    picture.append(make("path", { d: points.map((one, at) => `${at ? "L" : "M"}${x(one.day)} ${y(one.value)}`).join(""), class: "way" }));
    for (const point of points) {
      picture.append(make("circle", { cx: x(point.day), cy: y(point.value), r: 5, class: "dot" }));
    }
    counts(points, x, y).forEach((words) => picture.append(words));
    const end = points[points.length - 1].day;
    const apart = x(end) - x(points[0].day) > 150;
    picture.append(make("text", { x: x(points[0].day), y: HEIGHT - 8, class: apart ? "day first" : "day" }, short(points[0].day)));
    if (apart) picture.append(make("text", { x: x(end) + 12, y: HEIGHT - 8, class: "day last" }, short(end)));
    return picture;
  }

  /**
   * What was counted, over its dot; where two would cover each other, only the later one.
   * @param {PlotPoint[]} points @param {(day: string) => number} x @param {(value: number) => number} y
   */
  function counts(points, x, y) {
    /** @type {[number, number][]} */
    const taken = [];
    return [...points].reverse().flatMap((point) => {
      const [across, down] = [x(point.day), y(point.value) - 9];
      if (taken.some(([a, d]) => Math.abs(a - across) < 28 && Math.abs(d - down) < LINE)) return [];
      taken.push([across, down]);
      return [make("text", { x: across, y: down, class: "count" }, point.words)];
    });
  }

  return { draw };
})();
