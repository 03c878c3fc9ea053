// The clock of a block: what it shows at a moment. Pure functions; the face and the device are
// clock-face.js's business. Nothing here counts ticks: all is reckoned from when the block began.
"use strict";

/**
 * @typedef {[number, 0 | 1, string, number | null]} ClockSlot seconds, work or rest, what, line
 * @typedef {[string, number, number | null, (0 | 1)?]} ClockTurn what, seconds of rest after it, line; 0:
 *   nothing is done in it
 * @typedef {{by: "slots" | "window" | "up", total_s: number, slots: ClockSlot[], turns: ClockTurn[],
 *   round: number}} ClockPlan as the build writes it
 * @typedef {{own: number, wall: number, mono: number}} ClockReading milliseconds
 * @typedef {{session: string, block: number, started: number, paused_at: number | null,
 *   paused_ms: number, skipped_ms: number, turned: number, turned_ms: number,
 *   ended_ms: number | null}} ClockRun one run; `started` is when the count-in is over
 * @typedef {{phase: "ready" | "going" | "over", paused: boolean, ms: number, digits: string,
 *   work: boolean, part: number, now: string, line: number | null, next: string,
 *   next_line: number | null, rest_s: number, rounds: number, over_in: number}} ClockView
 */

const rungbookClock = (() => {
  const COUNT_IN_MS = 5000;
  /** Shorter than this the two clocks of a device merely disagree; longer, it slept or was set. */
  const JUMP_MS = 100;

  /*
   * Own time. A device has two clocks. The wall clock can be set, by hand or by the network, and
   * then jumps; the page's own (`performance.now`) cannot be set, but on many devices it stands
   * still while they sleep, and it starts anew with each page. So:
   * - in a page, own time goes on with the page's clock;
   * - if the wall clock ran ahead of it while the page was hidden, the device slept: the difference
   *   is added. If the wall clock ran ahead while the page was seen, or ran back, it was set: the
   *   difference is left out;
   * - over a reload only the wall clock goes on. Own time and wall time are kept together, so that a
   *   clock that was set before the reload does no harm, and own time never runs back.
   * Not covered: a wall clock that is set forward while the page is hidden or gone counts as sleep.
   */

  /**
   * @param {ClockReading} last @param {number} wall @param {number} mono
   * @param {boolean} hidden whether the page was hidden at any time since
   * @returns {ClockReading}
   */
  function read(last, wall, mono, hidden) {
    const passed = Math.max(0, mono - last.mono);
    const ahead = wall - last.wall - passed;
    const slept = hidden && ahead > JUMP_MS ? ahead : 0;
    return { own: last.own + passed + slept, wall, mono };
  }

  /**
   * Own time in a new page, from what the last one kept.
   * @param {{own: number, wall: number} | null} kept @param {number} wall @param {number} mono
   * @returns {ClockReading}
   */
  function readAgain(kept, wall, mono) {
    if (!kept) return { own: wall, wall, mono };
    return { own: Math.max(kept.own, kept.own + (wall - kept.wall)), wall, mono };
  }

  /** @param {string} session @param {number} block @param {number} own @returns {ClockRun} */
  const begin = (session, block, own) => ({
    session, block, started: own + COUNT_IN_MS, paused_at: null, paused_ms: 0, skipped_ms: 0, turned: 0,
    turned_ms: 0, ended_ms: null,
  });

  /** Milliseconds into the block; less than nothing in the count-in. @param {ClockRun} run @param {number} own */
  function elapsed(run, own) {
    if (run.ended_ms !== null) return run.ended_ms;
    return (run.paused_at ?? own) - run.started - run.paused_ms + run.skipped_ms;
  }

  /** @param {ClockRun} run @param {number} own @returns {ClockRun} */
  const pause = (run, own) => (run.paused_at === null ? { ...run, paused_at: own } : run);

  /** @param {ClockRun} run @param {number} own @returns {ClockRun} */
  function goOn(run, own) {
    if (run.paused_at === null) return run;
    return { ...run, paused_ms: run.paused_ms + own - run.paused_at, paused_at: null };
  }

  /** @param {ClockRun} run @param {number} own @returns {ClockRun} */
  const end = (run, own) => ({ ...run, ended_ms: Math.max(0, elapsed(run, own)) });

  /** Where each slot ends, in milliseconds. @param {ClockPlan} plan */
  function ends(plan) {
    let at = 0;
    return plan.slots.map((slot) => (at += slot[0] * 1000));
  }

  /** The number of the slot at a moment. @param {number[]} slotEnds @param {number} ms */
  function slotAt(slotEnds, ms) {
    const at = slotEnds.findIndex((slotEnd) => ms < slotEnd);
    return at === -1 ? slotEnds.length - 1 : at;
  }

  /**
   * On to what comes next: the next slot, or the next turn.
   * @param {ClockPlan} plan @param {ClockRun} run @param {number} own @returns {ClockRun}
   */
  function next(plan, run, own) {
    const ms = elapsed(run, own);
    if (ms < 0) return { ...run, skipped_ms: run.skipped_ms - ms };
    if (plan.by === "slots") {
      const slotEnds = ends(plan);
      return { ...run, skipped_ms: run.skipped_ms + Math.max(0, slotEnds[slotAt(slotEnds, ms)] - ms) };
    }
    const again = plan.round > 0 && plan.by === "window";
    if (!again && run.turned >= plan.turns.length) return run;
    const moved = { ...run, turned: run.turned + 1, turned_ms: ms };
    const finished = plan.by === "up" && moved.turned === plan.turns.length;
    return finished ? end(moved, own) : moved;
  }

  /** Seconds as a wall clock shows them. @param {number} seconds */
  function shown(seconds) {
    const whole = Math.max(0, seconds);
    return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
  }

  /** @param {ClockPlan} plan @param {number} at @returns {ClockTurn | null} */
  function turnAt(plan, at) {
    if (plan.round > 0 && plan.by === "window") return plan.turns[at % plan.turns.length] || null;
    return plan.turns[at] || null;
  }

  /**
   * What the clock shows.
   * @param {ClockPlan} plan @param {ClockRun} run @param {number} own @returns {ClockView}
   */
  function view(plan, run, own) {
    const ms = elapsed(run, own);
    const total = plan.total_s * 1000;
    const over = run.ended_ms !== null || ms >= total;
    const rounds = plan.round > 0 ? Math.floor(run.turned / plan.round) : 0;
    const common = { paused: run.paused_at !== null, ms, rounds, rest_s: 0, over_in: Math.ceil((total - ms) / 1000) };
    if (over) {
      const digits = plan.by === "up" ? shown(Math.floor(Math.min(ms, total) / 1000)) : "0:00";
      return { ...common, phase: "over", digits, work: false, part: -1, now: "Done", line: null, next: "", next_line: null };
    }
    if (plan.by === "slots") {
      const slotEnds = ends(plan);
      const part = slotAt(slotEnds, Math.max(0, ms));
      const [, work, now, line] = plan.slots[part];
      const coming = plan.slots.slice(part + 1).find((slot) => slot[1] === 1);
      const later = { next: coming ? coming[2] : "", next_line: coming ? coming[3] : null };
      if (ms < 0) return { ...common, ...countIn(ms, now, line) };
      const digits = shown(Math.ceil((slotEnds[part] - ms) / 1000));
      return { ...common, ...later, phase: "going", digits, work: work === 1, part, now, line: work ? line : null };
    }
    const turn = turnAt(plan, run.turned);
    const now = turn ? turn[0] : "All sets done";
    const line = turn ? turn[2] : null;
    if (ms < 0) return { ...common, ...countIn(ms, now, line) };
    const coming = turnAt(plan, run.turned + 1);
    const done = run.turned > 0 ? turnAt(plan, run.turned - 1) : null;
    const rest_s = done && turn ? Math.max(0, Math.ceil((done[1] * 1000 - (ms - run.turned_ms)) / 1000)) : 0;
    return {
      ...common, phase: "going", rest_s, work: rest_s === 0 && turn !== null && turn[3] !== 0, part: run.turned, now, line,
      digits: plan.by === "up" ? shown(Math.floor(ms / 1000)) : shown(common.over_in),
      next: coming ? coming[0] : "", next_line: coming ? coming[2] : null,
    };
  }

  /** @param {number} ms @param {string} now @param {number | null} line */
  const countIn = (ms, now, line) => ({
    phase: /** @type {"ready"} */ ("ready"), digits: String(Math.ceil(-ms / 1000)), work: false, part: -1,
    now: "Ready", line: null, next: now, next_line: line,
  });

  /**
   * What to sound between two moments: the change itself, or one of the three seconds before it.
   * Nothing after a gap: nobody wants the signals that they slept through.
   * @param {ClockPlan} plan @param {ClockRun} run @param {number} from @param {number} to milliseconds
   * @returns {"change" | "soon" | null}
   */
  function signal(plan, run, from, to) {
    if (to <= from || to - from > 1500) return null;
    const changes = [0, plan.total_s * 1000, ...ends(plan)];
    const done = run.turned > 0 ? turnAt(plan, run.turned - 1) : null;
    if (done && done[1] > 0) changes.push(run.turned_ms + done[1] * 1000);
    const meets = (/** @type {number} */ at) => from < at && at <= to;
    if (changes.some(meets)) return "change";
    const soon = changes.flatMap((at) => [at - 1000, at - 2000, at - 3000]);
    return soon.some(meets) ? "soon" : null;
  }

  /**
   * What a screen reader is told: once a change, and near the end of a long window. Never each
   * second.
   * @param {ClockPlan} plan @param {ClockView} seen
   */
  function said(plan, seen) {
    if (seen.phase === "over") return "Time. Block done.";
    if (seen.paused) return "Paused.";
    if (seen.phase === "ready") return `Get ready: ${seen.next}.`;
    if (plan.by === "slots") return seen.next && !seen.work ? `${seen.now}. Next: ${seen.next}.` : `${seen.now}.`;
    const rounds = plan.round > 0 && seen.rounds > 0 ? ` Rounds done: ${seen.rounds}.` : "";
    return `${seen.rest_s > 0 ? "Rest, then " : ""}${seen.now}.${rounds}${near(plan, seen)}`;
  }

  /** How near a long window is to its end. @param {ClockPlan} plan @param {ClockView} seen */
  function near(plan, seen) {
    const left = plan.by === "window" ? [10, 60, 300].find((mark) => seen.over_in <= mark) : undefined;
    return left === undefined ? "" : ` ${left === 10 ? "Ten seconds" : left === 60 ? "One minute" : "Five minutes"} left.`;
  }

  return { COUNT_IN_MS, read, readAgain, begin, elapsed, pause, goOn, end, next, view, signal, said, near, shown };
})();

if (typeof module !== "undefined") module.exports = rungbookClock;
