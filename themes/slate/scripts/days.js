// Which session is on: the days that the build wrote, against the day on this device. Pure: never asks
// what day it is, and never says that somebody missed anything whose book has nothing of the cycle.
"use strict";

/**
 * @typedef {{day: string, words: string, week: number, place: number, kind: string, session: string}} CycleDay
 * @typedef {{id: string, name: string, days: CycleDay[]}} CycleDays in the order of their days
 * @typedef {{cycle: CycleDays, on: CycleDay}} DayFound
 * @typedef {{kind: "session" | "rest" | "before" | "after" | "none", found: DayFound[], next: DayFound | null,
 *   last: DayFound | null}} DayAnswer `found`: what is on today; `next`: the next day; `last`: the last of a
 *   cycle that is over
 * @typedef {{since: number, missed: number, again: CycleDay}} DayMissed
 */

const rungbookDays = (() => {
  const WEEKDAYS = ["Sunday", "Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday"];
  const MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"];
  const DAY_MS = 24 * 60 * 60 * 1000;

  /** A day of the calendar as a number of days. @param {string} day `2027-01-05` */
  const number = (day) => Math.round(Date.parse(`${day}T00:00:00Z`) / DAY_MS);

  /** `Tuesday 5 January`. @param {string} day */
  function words(day) {
    const date = new Date(`${day}T00:00:00Z`);
    return `${WEEKDAYS[date.getUTCDay()]} ${date.getUTCDate()} ${MONTHS[date.getUTCMonth()]}`;
  }

  /** @param {CycleDays} cycle */
  const first = (cycle) => cycle.days[0].day;
  /** @param {CycleDays} cycle */
  const last = (cycle) => cycle.days[cycle.days.length - 1];

  /** @param {CycleDays[]} cycles @param {string} day @returns {DayAnswer} */
  function on(cycles, day) {
    const dated = cycles.filter((cycle) => cycle.days.length > 0);
    /** @type {DayFound[]} */
    const all = dated.flatMap((cycle) => cycle.days.map((one) => ({ cycle, on: one })));
    const found = all.filter((one) => one.on.day === day);
    const later = all.filter((one) => one.on.day > day).sort((a, b) => (a.on.day < b.on.day ? -1 : 1));
    const over = dated.filter((cycle) => last(cycle).day < day).sort((a, b) => (last(a).day < last(b).day ? 1 : -1));
    const answer = { found, next: later[0] || null, last: over[0] ? { cycle: over[0], on: last(over[0]) } : null };
    if (found.length > 0) return { kind: "session", ...answer };
    if (dated.some((cycle) => first(cycle) < day && last(cycle).day > day)) return { kind: "rest", ...answer };
    if (later.length > 0) return { kind: "before", ...answer };
    return { kind: over.length > 0 ? "after" : "none", ...answer };
  }

  /** The number of weeks of a cycle. @param {CycleDays} cycle */
  const weeks = (cycle) => new Set(cycle.days.map((one) => one.week)).size;

  /** `week 3 of 6, build`. @param {DayFound} one */
  const weekWords = ({ cycle, on: day }) => `week ${day.week} of ${weeks(cycle)}${day.kind ? `, ${day.kind}` : ""}`;

  /** How long until a day. @param {string} day @param {string} to */
  function until(day, to) {
    const days = number(to) - number(day);
    return days === 1 ? "tomorrow" : `in ${days} days`;
  }

  /**
   * What is said of the day: when, what, and one line.
   * @param {DayAnswer} answer @param {string} day
   */
  function said(answer, day) {
    const { kind, found, next, last: before } = answer;
    const when = words(day);
    const coming = next ? `${next.on.words}, ${until(day, next.on.day)}` : "";
    if (kind === "session") {
      const note = found.length > 1 ? `${found.length} cycles have a session today: take one.` : found[0].cycle.name;
      return { when: `${when}, ${weekWords(found[0])}`, note };
    }
    if (kind === "rest" && next) return { when: `${when}: rest day`, note: `Next on ${coming}: ${weekWords(next)}. Shown below to look at.` };
    if (kind === "before" && next) {
      const ended = before ? `${before.cycle.name} ended on ${before.on.words}. ` : "";
      return { when: `${when}: no cycle runs`, note: `${ended}${next.cycle.name} starts on ${coming}. Until then pick any session.` };
    }
    if (kind === "after" && before) {
      return { when: `${when}: the cycle is over`, note: `${before.cycle.name} ended on ${before.on.words}, and no other has a date yet. Pick any session.` };
    }
    return { when, note: "No cycle has a first day yet. Pick any session." };
  }

  /**
   * Whole weeks of a cycle in which nothing was noted, since the last one in which something was; null where
   * there are none, or where the book has nothing of this cycle: a class is not a member who stayed away.
   * @param {DayFound} found @param {{day: string, session: string}[]} done
   * @returns {DayMissed | null}
   */
  function missed({ cycle, on: today }, done) {
    const starts = cycle.days.filter((one, at) => at === 0 || cycle.days[at - 1].week !== one.week);
    const weekOf = (/** @type {string} */ day) => starts.filter((one) => one.day <= day).at(-1)?.week;
    const sessions = new Set(cycle.days.map((one) => one.session));
    const noted = done.filter((one) => sessions.has(one.session) && one.day >= first(cycle) && one.day <= today.day);
    const inWeeks = noted.map((one) => weekOf(one.day) || 0);
    const since = inWeeks.length ? Math.max(...inWeeks) : null;
    if (since === null || today.week - since < 2) return null;
    const again = cycle.days.find((one) => one.week === since + 1 && one.place === today.place)
      || cycle.days.find((one) => one.week === since + 1);
    return again ? { since, missed: today.week - since - 1, again } : null;
  }

  /** @param {DayMissed} gap @param {CycleDay} today */
  function missedWords({ since, missed: weeksMissed, again }, today) {
    const gone = weeksMissed === 1 ? "One week went by" : `${weeksMissed} weeks went by`;
    const long = weeksMissed > 2 ? " After so long, take the test again first." : "";
    return `${gone} without a note since week ${since}. Go on with week ${again.week}, not week ${today.week}: each week builds on the one before (common practice, no source).${long}`;
  }

  return { on, said, words, missed, missedWords, weekWords };
})();

if (typeof module !== "undefined") module.exports = rungbookDays;
