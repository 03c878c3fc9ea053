// A block's clock for one person: the same times, in their own words. Pure.
// Never orders a line that is not theirs to do: its time is kept, and it says to rest.
"use strict";

const rungbookOwnClock = (() => {
  const ASK = "Ask your coach: rest";
  const UNREAD = "Not read on this device: rest, and ask your coach";
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

  /** For a person. @param {ClockPlan} plan @param {(OwnVersion | undefined)[]} versions line by line */
  const forPerson = (plan, versions) =>
    told(plan, (line, what, slot) => {
      const version = line === null ? undefined : versions[line];
      if (version === undefined || !isOrdered(version)) return { what: ASK, ordered: false };
      return { what: words(version, what, slot), ordered: true };
    });

  /** For a person whose version is not known: times alone. @param {ClockPlan} plan */
  const unread = (plan) => told(plan, () => ({ what: UNREAD, ordered: false }));

  /** What was done of a block, for the book: only what was ordered. @param {(OwnVersion | undefined)[]} versions */
  function done(versions) {
    const names = versions.flatMap((version) => (version && isOrdered(version) ? [named(version)] : []));
    return names.length ? `As: ${[...new Set(names)].join("; ")}` : "";
  }

  return { forPerson, unread, done, words, ASK, UNREAD, CLASS };
})();

if (typeof module !== "undefined") module.exports = rungbookOwnClock;
