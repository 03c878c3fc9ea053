// A whole session on one clock: its blocks one after the other, with the change between them. Pure: all
// is reckoned from when each part began, as clock.js does; the face and the device are others' business.
// Never chooses words: the plans that it gets were told for whom it runs.
"use strict";

/**
 * @typedef {ClockRun & {added: Record<string, number>}} PartRun seconds added, by the slot's number; of a
 *   window or a cap by `all`
 * @typedef {{cycle: string, week: number}} RunWeek
 * @typedef {{session: string, week: RunWeek | null, mode: "own" | "class", from: number, to: number,
 *   at: number, now: PartRun, trail: PartRun[], begun: number, ended: number | null, front?: boolean,
 *   day?: string, as?: string, groups?: Record<string, ClockSlot[]>}} WholeRun
 *   blocks `from` to `to`; `at`: which part is on; `trail`: the parts before it, as they were left;
 *   `ended`: when somebody ended it; `front`: some of it was for a person in front of a coach; `day`: when it
 *   was begun; `as`: what was done, in words, where it may be kept on the device; `groups`: who is where, by block,
 *   for a class that shares little kit
 * @typedef {{block: number, rig: boolean, name: string, plan: ClockPlan & {sets_s?: number[],
 *   sets?: boolean}}} RunPart `sets`: what is counted are sets of a line, else rounds
 * @typedef {{n: number, of: number | null, word: "Set" | "Round"}} RunCount
 * @typedef {ClockView & {run: WholeRun, part: number, slot: number, block: number, rig: boolean, name: string,
 *   next_block: number, count: RunCount | null, side: "" | "First side" | "Other side", left_s: number, plan: ClockPlan, whole: boolean}} RunView
 *   `whole`: the whole session is over; `left_s`: of all that is still to come
 */

const rungbookRun = (() => {
  const clock = rungbookClock;
  const MINUTE_S = 60;
  /** Within this from its start a step back means the one before. */
  const JUST_MS = 3000;

  /**
   * Sets in a window, moved on by the clock: each at its longest, then its rest; what the window has left
   * over stands at its end. Rounds that are counted, and races, stay with whoever does them.
   * @param {RunPart["plan"]} plan @returns {RunPart["plan"]}
   */
  function paced(plan) {
    const { turns, sets_s = [], total_s } = plan;
    if (plan.by !== "window" || plan.round > 0 || turns.length === 0 || sets_s.length !== turns.length) return plan;
    /** @type {ClockSlot[]} */
    const slots = [];
    turns.forEach(([what, rest_s, line, ordered], at) => {
      slots.push([sets_s[at], ordered === 0 ? 0 : 1, what, line]);
      if (rest_s > 0 && at + 1 < turns.length) slots.push([rest_s, 0, "Rest", line]);
    });
    const asked = slots.reduce((sum, [seconds]) => sum + seconds, 0);
    // What does not fit its window is a finding of the library; here nobody is hurried: it takes its time.
    if (asked < total_s) slots.push([total_s - asked, 0, "Spare: finish what is open", null]);
    return { by: "slots", total_s: Math.max(asked, total_s), slots, turns: [], round: 0, sets: true };
  }

  /**
   * The parts of a run: blocks, and between two of them the time to clear away and rig.
   * @param {{name: string, plan: RunPart["plan"]}[]} blocks @param {number} rig_s @param {number} from @param {number} to
   * @returns {RunPart[]}
   */
  function parts(blocks, rig_s, from, to) {
    /** @type {RunPart[]} */
    const found = [];
    for (let block = from; block <= Math.min(to, blocks.length - 1); block += 1) {
      const { name, plan } = blocks[block];
      /** @type {ClockSlot[]} */
      const slots = [[rig_s, 0, "Change over", null]];
      if (found.length) found.push({ block, rig: true, name, plan: { by: "slots", total_s: rig_s, slots, turns: [], round: 0 } });
      found.push({ block, rig: false, name, plan: paced(plan) });
    }
    return found;
  }

  /** @param {RunPart["plan"]} plan @param {Record<string, number>} added @returns {RunPart["plan"]} */
  function lengthened(plan, added) {
    const sum = Object.values(added).reduce((all, one) => all + one, 0);
    if (sum === 0) return plan;
    const slots = plan.slots.map((slot, at) => /** @type {ClockSlot} */ ([slot[0] + (added[at] || 0), ...slot.slice(1)]));
    return { ...plan, slots, total_s: plan.total_s + sum };
  }

  /** @param {string} session @param {number} own milliseconds @returns {PartRun} */
  const fresh = (session, own) => ({ ...clock.begin(session, 0, own), added: {} });

  /**
   * @param {{session: string, week: RunWeek | null, mode: "own" | "class", from: number, to: number}} what
   * @param {number} own @returns {WholeRun}
   */
  const begin = (what, own) => ({ ...what, at: 0, now: fresh(what.session, own), trail: [], begun: own + clock.COUNT_IN_MS, ended: null });

  /** The plan of what is on. @param {RunPart[]} all @param {WholeRun} run */
  const planOf = (all, run) => lengthened(all[Math.min(run.at, all.length - 1)].plan, run.now.added);

  /** @param {ClockPlan} plan @param {PartRun} run @param {number} own */
  const isOver = (plan, run, own) => run.ended_ms !== null || clock.elapsed(run, own) >= plan.total_s * 1000;

  /** Moves over the parts that have gone by. @param {RunPart[]} all @param {WholeRun} run @param {number} own @returns {WholeRun} */
  function settle(all, run, own) {
    let settled = run;
    while (settled.ended === null && settled.at + 1 < all.length) {
      const { now } = settled;
      const plan = planOf(all, settled);
      if (!isOver(plan, now, own)) break;
      const ms = now.ended_ms ?? plan.total_s * 1000;
      // The next part began when this one ended, though nobody looked; when it was left in a pause, now.
      const paused = now.paused_at !== null;
      const end = paused ? own : ms + now.started + now.paused_ms - now.skipped_ms;
      const next = { ...fresh(run.session, end - clock.COUNT_IN_MS), paused_at: paused ? own : null };
      settled = { ...settled, at: settled.at + 1, now: next, trail: [...settled.trail, { ...now, paused_at: null }] };
    }
    return settled;
  }

  /** The run with its part at another moment. @param {PartRun} run @param {number} own @param {number} ms @returns {PartRun} */
  const movedTo = (run, own, ms) => ({ ...run, ended_ms: null, skipped_ms: run.skipped_ms + ms - clock.elapsed({ ...run, ended_ms: null }, own) });

  /** @param {WholeRun} run @param {(part: PartRun) => PartRun} how @returns {WholeRun} */
  const change = (run, how) => ({ ...run, now: { ...run.now, ...how(run.now) } });

  /** @param {RunPart[]} all @param {WholeRun} before @param {number} own */
  const pause = (all, before, own) => change(settle(all, before, own), (part) => ({ ...part, ...clock.pause(part, own) }));
  /** @param {RunPart[]} all @param {WholeRun} before @param {number} own */
  const goOn = (all, before, own) => change(settle(all, before, own), (part) => ({ ...part, ...clock.goOn(part, own) }));

  /** On to what comes next. @param {RunPart[]} all @param {WholeRun} before @param {number} own @returns {WholeRun} */
  function next(all, before, own) {
    const run = settle(all, before, own);
    const plan = planOf(all, run);
    const moved = { ...run.now, ...clock.next(plan, run.now, own) };
    const stays = plan.by !== "slots" && moved.turned === run.now.turned && moved.skipped_ms === run.now.skipped_ms;
    return stays ? skip(all, run, own) : settle(all, { ...run, now: moved }, own);
  }

  /** Leaves the rest of what is on: the block, or the change before it. @param {RunPart[]} all @param {WholeRun} before @param {number} own */
  function skip(all, before, own) {
    const run = settle(all, before, own);
    return settle(all, change(run, (part) => ({ ...part, ended_ms: Math.max(0, clock.elapsed(part, own)) })), own);
  }

  /** Where the slot at a moment begins, and the one before it. @param {ClockPlan} plan @param {number} ms */
  function slotStarts(plan, ms) {
    const starts = plan.slots.map((_, at) => plan.slots.slice(0, at).reduce((sum, [seconds]) => sum + seconds * 1000, 0));
    const at = starts.filter((start) => start <= ms).length - 1;
    return { here: starts[at] ?? 0, before: starts[at - 1] ?? null };
  }

  /** A step back: to the start of what is on, else to what was before it. @param {RunPart[]} all @param {WholeRun} was @param {number} own */
  function back(all, was, own) {
    const run = settle(all, was, own);
    const plan = planOf(all, run);
    const ms = clock.elapsed(run.now, own);
    if (plan.by !== "slots" && run.now.turned > 0) return change(run, (part) => ({ ...part, turned: part.turned - 1, turned_ms: ms - 3600000 }));
    if (plan.by !== "slots" && ms > JUST_MS) return change(run, (part) => movedTo(part, own, Math.max(0, ms - MINUTE_S * 1000)));
    const { here, before } = slotStarts(plan, ms);
    if (ms - here > JUST_MS) return change(run, (part) => movedTo(part, own, here));
    if (before !== null) return change(run, (part) => movedTo(part, own, before));
    return backToPart(all, run, own);
  }

  /** To the part before: where it was left, else to the start of its last stretch. @param {RunPart[]} all @param {WholeRun} run @param {number} own */
  function backToPart(all, run, own) {
    const left = run.trail[run.trail.length - 1];
    if (!left) return change(run, (part) => movedTo(part, own, Math.min(clock.elapsed(part, own), 0)));
    const plan = lengthened(all[run.at - 1].plan, left.added);
    const total = plan.total_s * 1000;
    const last = plan.by === "slots" ? slotStarts(plan, total - 1).here : Math.max(0, total - MINUTE_S * 1000);
    const ms = left.ended_ms !== null && left.ended_ms < total ? left.ended_ms : last;
    const there = movedTo({ ...left, paused_at: run.now.paused_at === null ? null : own }, own, ms);
    return { ...run, at: run.at - 1, now: there, trail: run.trail.slice(0, -1) };
  }

  /** One minute more for what is on. @param {RunPart[]} all @param {WholeRun} was @param {number} own */
  function addMinute(all, was, own) {
    const run = settle(all, was, own);
    const plan = planOf(all, run);
    const seen = clock.view(plan, run.now, own);
    const key = plan.by === "slots" ? String(Math.max(0, seen.part)) : "all";
    return change(run, (part) => ({ ...part, added: { ...part.added, [key]: (part.added[key] || 0) + MINUTE_S } }));
  }

  /** @param {RunPart[]} all @param {WholeRun} was @param {number} own @returns {WholeRun} */
  const end = (all, was, own) => ({ ...pause(all, was, own), ended: own });

  /** The end taken back: everything as it was, and on. @param {RunPart[]} all @param {WholeRun} was @param {number} own @returns {WholeRun} */
  const takeBack = (all, was, own) => goOn(all, { ...was, ended: null }, own);

  /** Which time of how many a line is on; nothing where it comes once. @param {RunPart["plan"]} plan @param {ClockView} seen @returns {RunCount | null} */
  function count(plan, seen) {
    if (seen.line === null || seen.part < 0) return null;
    if (plan.by === "window" && plan.round > 0) return { n: seen.rounds + 1, of: null, word: "Round" };
    const lines = plan.by === "slots" ? plan.slots.map(([, work, , line]) => (work ? line : null)) : plan.turns.map(([, , line]) => line);
    const of = lines.filter((line) => line === seen.line).length;
    const n = lines.slice(0, seen.part + 1).filter((line) => line === seen.line).length;
    return of > 1 ? { n, of, word: plan.sets ? "Set" : "Round" } : null;
  }

  /**
   * What comes after what is on: in the block, else at the start of the next one.
   * @param {RunPart[]} all @param {number} at @param {ClockView} seen
   * @returns {{next: string, next_line: number | null, next_block: number}}
   */
  function coming(all, at, seen) {
    if (seen.next) return { next: seen.next, next_line: seen.next_line, next_block: all[at].block };
    const part = all.slice(at + 1).find((one) => !one.rig);
    if (!part) return { next: "", next_line: null, next_block: all[at].block };
    const slot = part.plan.slots.find(([, work]) => work === 1);
    const [what, line] = slot ? [slot[2], slot[3]] : [part.plan.turns[0]?.[0] || "", part.plan.turns[0]?.[2] ?? null];
    // Before the change over it is the block that is named; in it, what to stand ready for.
    return { next: all[at].rig && what ? what : part.name, next_line: all[at].rig ? line : null, next_block: part.block };
  }

  /** When the side is changed: half-way through the work, ms into the part; null where there is no such moment. @param {ClockPlan} plan @param {number} slot */
  function halfway(plan, slot) {
    if (plan.by !== "slots" || slot < 0 || plan.slots[slot][1] === 0) return null;
    const start = plan.slots.slice(0, slot).reduce((sum, [seconds]) => sum + seconds, 0);
    return (start + plan.slots[slot][0] / 2) * 1000;
  }

  /**
   * What the clock shows.
   * @param {RunPart[]} all @param {WholeRun} was @param {number} own
   * @param {(block: number, line: number) => boolean} hasSides whether a line is done a side at a time
   * @returns {RunView}
   */
  function view(all, was, own, hasSides) {
    const run = settle(all, was, own);
    const part = all[Math.min(run.at, all.length - 1)];
    const plan = planOf(all, run);
    const seen = clock.view(plan, run.now, own);
    const whole = run.ended !== null || seen.phase === "over";
    const later = all.slice(run.at + 1);
    const after = whole ? { next: "", next_line: null, next_block: part.block } : coming(all, run.at, seen);
    const half = seen.line !== null && hasSides(part.block, seen.line) ? halfway(plan, seen.part) : null;
    const side = half === null || !seen.work ? "" : seen.ms < half ? "First side" : "Other side";
    const left_s = whole ? 0 : Math.max(0, seen.over_in) + later.reduce((sum, one) => sum + one.plan.total_s, 0);
    return {
      ...seen, ...after, phase: whole ? "over" : seen.phase, run, slot: seen.part, part: run.at, block: part.block, rig: part.rig,
      name: part.name, count: whole ? null : count(plan, seen), side: whole ? "" : side, left_s, plan, whole,
      ...(whole ? { now: run.ended === null ? "Done" : "Ended", work: false, line: null, rest_s: 0 } : {}),
    };
  }

  /**
   * What to sound between two looks.
   * @param {{part: number, ms: number, at: number} | null} last @param {RunView} seen @param {number} own
   * @returns {"change" | "soon" | null}
   */
  function signal(last, seen, own) {
    if (!last || own - last.at > 1500 || seen.run.ended !== null) return null;
    if (seen.part !== last.part) return "change";
    if (seen.side !== "") {
      const half = halfway(seen.plan, seen.slot);
      if (half !== null && last.ms < half && half <= seen.ms) return "change";
    }
    return clock.signal(seen.plan, seen.run.now, last.ms, seen.ms);
  }

  /** Rounds that were counted, by block. @param {RunPart[]} all @param {WholeRun} run @returns {{block: number, name: string, rounds: number}[]} */
  function rounds(all, run) {
    return [...run.trail, run.now].flatMap((part, at) => {
      const { plan, block, rig, name } = all[at];
      return rig || plan.round === 0 ? [] : [{ block, name, rounds: Math.floor(part.turned / plan.round) }];
    });
  }

  return { parts, begin, settle, pause, goOn, next, skip, back, addMinute, end, takeBack, view, signal, rounds };
})();

if (typeof module !== "undefined") module.exports = rungbookRun;
