// Many people and little kit in one block: groups, stations, whose turn it is, how long they stay.
// Pure arithmetic, the same as the build's (`plan/share.rs`); a test holds the two to each other. Never
// chooses what stands in for the kit: own.js does.
"use strict";

/**
 * @typedef {{name: string, ways: string[][][], set_s: number, rest_s: number, sets: number}} ShareStation
 *   kit of each way: needs, each a choice; no ways: nobody waits for kit
 * @typedef {{line: number, instead: boolean, at_once: number | null, turns: number, every_s: number, fit: number, asked: number}} ShareStop
 * @typedef {{groups: number[], stay_s: number, stops: ShareStop[]}} Shared
 */

const rungbookShare = (() => {
  /** Seconds from one person to the next, and from station to station, at the most. */
  const CHANGE_S = 15;
  /** @param {number} seconds */
  const clock = (seconds) => `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, "0")}`;
  /** @param {string} words */
  const capital = (words) => words.charAt(0).toUpperCase() + words.slice(1);

  /** How many can work at once; null where kit is no limit. @param {ShareStation} station @param {Record<string, number>} counts */
  function atOnce(station, counts) {
    if (!station.ways.length) return null;
    const count = (/** @type {string} */ id) => counts[id] || 0;
    const of = (/** @type {string[]} */ need) => need.reduce((sum, id) => sum + count(id), 0);
    const least = station.ways.map((way) => way.reduce((least, need) => (of(need) < of(least) ? need : least)));
    return [...new Set(least.flat())].reduce((sum, id) => sum + count(id), 0);
  }

  /**
   * @param {number} people @param {number} window @param {ShareStation[]} stations
   * @param {[number, boolean][]} lines @param {Record<string, number>} counts @returns {Shared}
   */
  function shared(people, window, stations, lines, counts) {
    const stops = Math.max(lines.length, 1);
    const groups = Array.from({ length: stops }, (_, at) => Math.floor(people / stops) + (at < people % stops ? 1 : 0)).filter((group) => group > 0);
    const stay = Math.floor(Math.floor(window / stops) / 5) * 5;
    const here = Math.max(stay - (stops > 1 ? CHANGE_S : 0), 0);
    const largest = groups[0] || 0;
    return {
      groups, stay_s: stay,
      stops: lines.map(([line, instead]) => {
        const station = stations[line];
        const at_once = instead ? null : atOnce(station, counts);
        const turns = at_once === null ? 1 : Math.max(Math.ceil(largest / Math.max(at_once, 1)), 1);
        const turn = station.set_s + (turns > 1 ? CHANGE_S : 0);
        const every_s = Math.max(turns * turn, station.set_s + station.rest_s, 1);
        const fit = here < turns * turn ? 0 : Math.floor((here - turns * turn) / every_s) + 1;
        return { line, instead, at_once, turns, every_s, fit: Math.min(fit, station.sets), asked: station.sets };
      }),
    };
  }

  /** Sets of a line that one person does. @param {Shared} found @param {number} line */
  const done = (found, line) => found.stops.reduce((sum, stop) => sum + (stop.line === line ? stop.fit : 0), 0);

  /**
   * One group a station, everybody moves one on; a further station does the work of the shortest without
   * its kit, where more sets of it fit then.
   * @param {number} people @param {number} window @param {ShareStation[]} stations @param {Record<string, number>} counts
   */
  function share(people, window, stations, counts) {
    const waits = (/** @type {ShareStation} */ station) => (atOnce(station, counts) ?? people) < people;
    if (!stations.some(waits)) return { groups: [people], stay_s: window, stops: [] };
    /** @type {[number, boolean][]} */
    // Where none of its kit is here nobody is sent to it: what stands in for it is the station.
    const lines = stations.map((station, line) => [line, atOnce(station, counts) === 0]);
    const plain = shared(people, window, stations, lines, counts);
    /** @type {ShareStop | null} */
    let worst = null;
    for (const stop of plain.stops) {
      const short = stop.at_once !== null && stop.turns > 1 && stop.fit < stop.asked;
      if (short && (!worst || stop.fit < worst.fit)) worst = stop;
    }
    if (!worst) return plain;
    const line = worst.line;
    lines.splice(line + 1, 0, [line, true]);
    const more = shared(people, window, stations, lines, counts);
    return done(more, line) > done(plain, line) ? more : plain;
  }

  /** @param {number[]} groups */
  function groupsSaid(groups) {
    if (!groups.length) return "nobody";
    if (groups.length === 1) return `one group of ${groups[0]}`;
    if (groups[0] === groups[groups.length - 1]) return `${groups.length} groups of ${groups[0]}`;
    return `groups of ${groups.join(", ")}`;
  }

  /** @param {ShareStop} stop @param {string} named @param {ShareStation} station */
  function stopSaid({ at_once, turns, every_s, fit, asked }, named, station) {
    const every = clock(every_s);
    const places = at_once !== null && turns > 1
      ? `: ${at_once} at once, ${turns} turns of ${clock(station.set_s + CHANGE_S)}; your next set every ${every}`
      : `: all at once, a set every ${every}`;
    const one = fit ? "1 set" : "its one set does not fit";
    const sets = asked === 1 ? one : fit === asked ? `${fit} sets` : `${fit} of the ${asked} sets fit`;
    return `${named}${places}; ${sets}.`;
  }

  /** What a coach reads out. @param {Shared} found @param {ShareStation[]} stations */
  function said({ groups, stay_s, stops }, stations) {
    if (!stops.length) return [`Enough for ${groups.reduce((sum, group) => sum + group, 0)} at once: nobody waits, run it as it is written.`];
    const letter = (/** @type {number} */ at) => (at < 26 ? String.fromCharCode(65 + at) : String(at + 1));
    const head = `${capital(groupsSaid(groups))}`;
    const words = [stops.length === 1
      ? `${head} at one station for ${clock(stay_s)}.`
      : `${head}, ${stops.length} stations: everybody moves one on every ${clock(stay_s)}, ${CHANGE_S} s of it to change.`];
    const withKit = (/** @type {ShareStop} */ stop) => stops.some((one) => one.line === stop.line && !one.instead);
    words.push(...stops.map((stop, at) => {
      const without = !stop.instead ? "" : withKit(stop) ? ", without the kit that is short" : ", without its kit, of which none is here";
      return stopSaid(stop, `${letter(at)}. ${stations[stop.line].name}${without}`, stations[stop.line]);
    }));
    if (stops.length > 1 && groups.length > 1) words.push(`Start: ${groups.map((_, at) => `group ${at + 1} at ${letter(at)}`).join(", ")}.`);
    return words;
  }

  /** Who is where, or whose turn it is, as the class's clock calls it. @param {Shared} found @param {ShareStation[]} stations @param {number} window @returns {ClockSlot[]} */
  function slots(found, stations, window) {
    const made = found.stops.length > 1 ? rounds(found, stations) : found.stops.length ? turns(found, stations) : [];
    const left = window - made.reduce((sum, [seconds]) => sum + seconds, 0);
    return made.length && left > 0 ? [...made, [left, 0, "Spare: finish what is open", null]] : made;
  }

  /** Every group at a station, and everybody one on. @param {Shared} found @param {ShareStation[]} stations @returns {ClockSlot[]} */
  function rounds({ groups, stay_s, stops }, stations) {
    const where = (/** @type {number} */ at) => `${stations[stops[at].line].name}${stops[at].instead ? " without kit" : ""}`;
    return stops.flatMap((_, round) => {
      const words = groups.map((_, group) => `${group + 1}: ${where((group + round) % stops.length)}`).join("; ");
      return /** @type {ClockSlot[]} */ ([[Math.max(stay_s - CHANGE_S, 0), 1, `Group ${words}`, null], [Math.min(CHANGE_S, stay_s), 0, "Change: one on", null]]);
    });
  }

  /** One station: so many at once, until everybody has had every set. @param {Shared} found @param {ShareStation[]} stations @returns {ClockSlot[]} */
  function turns({ groups, stops: [stop] }, stations) {
    const { name, set_s } = stations[stop.line];
    const change = stop.turns > 1 ? CHANGE_S : 0;
    const rest = stop.every_s - stop.turns * (set_s + change);
    const who = (/** @type {number} */ turn) => {
      const [from, to] = [turn * (stop.at_once || 0) + 1, Math.min((turn + 1) * (stop.at_once || 0), groups[0])];
      return stop.turns === 1 ? name : `${name}: ${from === to ? from : `${from} to ${to}`} of ${groups[0]}`;
    };
    return Array.from({ length: stop.fit }, (_, set) => {
      const one = Array.from({ length: stop.turns }, (_, turn) => [[set_s, 1, who(turn), null], [change, 0, "Change", null]]).flat();
      return /** @type {ClockSlot[]} */ ([...one, [set + 1 < stop.fit ? rest : 0, 0, "Rest", null]].filter(([seconds]) => Number(seconds) > 0));
    }).flat();
  }

  return { atOnce, share, said, slots };
})();

if (typeof module !== "undefined") module.exports = rungbookShare;
