// A block's clock for one person: the same times, in their own words. Pure.
// Never orders a line that is not theirs to do: its time is kept, and it says to rest.
"use strict";

/**
 * @typedef {Omit<OwnItem, "options" | "rungs" | "movement"> & {ladder: PageLink | null, movement: PageLink | null,
 *   options: RunItem[], rungs: StepRung[]}} RunItem a line of a block as its file has it
 * @typedef {{name: string, more: string, dose: string, cue: string, figure: string, sides: boolean,
 *   three: string[], change?: string}} ClockLine `more`: setting and change; `three`: easier, usual and harder, for a class
 */

const rungbookOwnClock = (() => {
  const ASK = { member: "Ask your coach: rest", front: "Nothing fits: rest, you decide" };
  const UNREAD = { member: "Not read on this device: rest, and ask your coach", front: "Not read on this device: rest, you decide" };
  const UNSAID = "Limits not said yet: rest";
  const CLASS = "The class's clock, for nobody in particular";

  /** Whether a version may be ordered. @param {OwnVersion | undefined} version */
  const isOrdered = (version) =>
    version !== undefined && (version.kind === "fine" || version.kind === "changed" || version.kind === "swap");

  /** `Push-up, hands 60 cm, on fists or handles`. @param {OwnVersion} version */
  const named = ({ name, setting, brief }) => [name, setting, brief].filter(Boolean).join(", ");

  /** Seconds that a dose is held for at least, both sides; 0 where it is not held. @param {string} dose */
  function held(dose) {
    const seconds = /^(\d+)(?:-\d+)? s\b/.exec(dose);
    return seconds ? Number(seconds[1]) * (/, each side\b/.test(dose) ? 2 : 1) : 0;
  }

  /** @param {string} dose */
  const whole = (dose) => `as long as the slot lasts${/, each side\b/.test(dose) ? ", half for each side" : ""}`;

  /**
   * A version as the clock calls it. What a round counts stays: `Row, 6` is `Strap row, lean 45 deg, 6`; of
   * what is held or covers ground each count stands for some seconds or metres. A hold that is longer than its
   * slot lasts as long as the slot: the clock moves on.
   * @param {OwnVersion} version @param {string} what @param {number} [slot] seconds; none where nothing moves on
   */
  function words(version, what, slot = Infinity) {
    const counted = /, (\d+(?:\+\d+)?)$/.exec(what);
    if (!counted && held(version.dose) > slot) return `${named(version)}: ${whole(version.dose)}`;
    if (!counted) return version.dose ? `${named(version)}: ${version.dose}` : named(version);
    const { each } = version;
    if (!each) return `${named(version)}, ${counted[1]}`;
    return `${named(version)}, ${counted[1].replace(/\d+/g, (n) => String(Number(n) * each.per))} ${each.unit}`;
  }

  /**
   * The plan with each line as `say` has it; a line that it does not order is a rest of the same length.
   * @param {ClockPlan} plan @param {(line: number | null, what: string, slot?: number) => {what: string, ordered: boolean}} say
   * @returns {ClockPlan}
   */
  function told(plan, say) {
    const slots = plan.slots.map((slot) => {
      const [seconds, work, what, line] = slot;
      if (work === 0) return slot;
      const { what: now, ordered } = say(line, what, seconds);
      return /** @type {ClockSlot} */ ([seconds, ordered ? 1 : 0, now, line]);
    });
    const turns = plan.turns.map(([what, rest, line]) => {
      const { what: now, ordered } = say(line, what);
      return /** @type {ClockTurn} */ ([now, rest, line, ordered ? 1 : 0]);
    });
    return { ...plan, slots, turns };
  }

  /**
   * For a person; `front`: told to the coach before whom they stand.
   * @param {ClockPlan} plan @param {(OwnVersion | undefined)[]} versions line by line @param {boolean} [front]
   */
  const forPerson = (plan, versions, front = false) =>
    told(plan, (line, what, slot) => {
      const version = line === null ? undefined : versions[line];
      if (version === undefined || !isOrdered(version)) return { what: front ? ASK.front : ASK.member, ordered: false };
      return { what: words(version, what, slot), ordered: true };
    });

  /**
   * For the class. Who shares little kit goes by groups; counts that go down stand there as one, since each
   * goes down at their own pace and no clock knows whose count it is.
   * @param {ClockPlan} plan @param {ClockSlot[]} [groups] @returns {ClockPlan}
   */
  function forClass(plan, groups) {
    if (groups?.length) return { by: "slots", total_s: groups.reduce((sum, [seconds]) => sum + seconds, 0), slots: groups, turns: [], round: 0 };
    const counted = plan.turns.map(([what]) => /^(.*), (\d+(?:\+\d+)?)$/.exec(what));
    if (plan.by !== "up" || counted.length < 2 || counted.includes(null)) return plan;
    const names = [...new Set(counted.map((one) => one?.[1]))].join(", ");
    const words = `${names}: ${counted[0]?.[2]} to ${counted.at(-1)?.[2]}, each at their own pace`;
    return { ...plan, turns: [[words, 0, null]], round: 0 };
  }

  /** For a person whose version is not known: times alone, and why. @param {ClockPlan} plan @param {{front?: boolean, asked?: boolean}} [person] */
  const unread = (plan, { front = false, asked = true } = {}) =>
    told(plan, () => ({ what: !asked ? UNSAID : front ? UNREAD.front : UNREAD.member, ordered: false }));

  /** Seconds that a set of a version is held, whatever its sets; 0 where it is not held. @param {OwnVersion | undefined} version */
  const lasts = (version) => (version && isOrdered(version) ? held(version.dose.replace(/^\d+(-\d+)? x /, "")) : 0);

  /** How much of a set: a dose without its sets and its rest, or what a round counts. @param {string} dose @param {string} what as the clock calls it */
  function amount(dose, what) {
    const counted = /, (\d+(?:\+\d+)?(?: [sm])?)$/.exec(what);
    // A hold that is longer than its slot lasts as long as the slot; the digits say how long that is.
    if (/: as long as the slot lasts/.test(what)) return `to the end${what.endsWith("each side") ? ", each side" : ""}`;
    const one = counted ? counted[1] : dose.replace(/^\d+(-\d+)? x /, "").replace(/, rest .*$|, each count .*$/, "").replace(/ repetitions?$/, "");
    return /^\d+(?:[-+]\d+)?(?=$|,)/.test(one) ? one.replace(/^[\d+-]+/, (n) => `${n} reps`) : one;
  }

  /** Where the picture of a movement stands. @param {string} movement */
  const figure = (movement) => (movement ? `figures/movements/${movement}.svg` : "");

  /*
   * A drawing shows a movement as it is written. On the face, read from afar, it would be read as the answer:
   * of a changed one there is none. Where it is read near, the styles say that it is drawn unchanged.
   */

  /**
   * A line as the clock's face shows it for a person; nothing of a line that it does not order.
   * @param {OwnVersion | undefined} version @returns {ClockLine | null}
   */
  function line(version) {
    if (version === undefined || !isOrdered(version)) return null;
    const { name, setting, brief, dose, cue, movement } = version;
    const more = [setting, brief].filter(Boolean).join(", ");
    return { name, more, change: brief, dose, cue, figure: brief ? "" : figure(movement), sides: dose.includes("each side"), three: [] };
  }

  /** The movement that a link leads to. @param {{to: string} | null | undefined} link */
  const linked = (link) => /movements\/([a-z0-9-]+)\.html/.exec(link?.to || "")?.[1] || "";

  /** A line for a class, for nobody in particular: its three rungs by their object, or its options. @param {RunItem} item @returns {ClockLine} */
  function classLine(item) {
    const middle = item.options[Math.floor(item.options.length / 2)];
    const rung = item.rungs[Math.floor(item.rungs.length / 2)];
    const dose = item.dose || middle?.words || "";
    const shown = { more: item.setting, dose, cue: item.cue || middle?.cue || "", sides: dose.includes("each side") };
    const named = item.ladder || item.movement || middle?.movement || middle?.ladder || { text: "", to: "" };
    const three = item.ladder
      ? item.rungs.map((one) => one.object)
      : item.options.map((one) => [one.movement?.text || one.ladder?.text || "", one.setting].filter(Boolean).join(", "));
    const link = item.movement || middle?.movement || rung?.movement;
    return { ...shown, name: named.text, figure: figure(linked(link)), three: three.length === 3 ? three : [] };
  }

  /** What was done of a block, for the book: only what was ordered. @param {(OwnVersion | undefined)[]} versions */
  function done(versions) {
    const names = versions.flatMap((version) => (version && isOrdered(version) ? [named(version)] : []));
    return names.length ? `As: ${[...new Set(names)].join("; ")}` : "";
  }

  /** What was done in the blocks of a run. @param {Map<string, OwnVersion>} versions @param {{items: unknown[]}[]} blocks @param {{from: number, to: number}} run */
  function doneIn(versions, blocks, { from, to }) {
    const all = blocks.slice(from, to + 1).flatMap(({ items }, at) => items.map((_, line) => versions.get(`${from + at}/${line}`)));
    return done(all);
  }

  return { forPerson, forClass, unread, done, doneIn, words, line, classLine, amount, lasts, CLASS };
})();

if (typeof module !== "undefined") module.exports = rungbookOwnClock;
