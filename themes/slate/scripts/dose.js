// How much, in words, as every page and the command say it (`library/dose.rs`). Pure.
// Never converts or chooses a dose.
"use strict";

const rungbookDose = (() => {
  /** `8`, `6-10`. @param {number} from @param {number} to */
  const span = (from, to) => (from === to ? `${from}` : `${from}-${to}`);

  /**
   * `3 x 6-10`, `20-30 s, each side`; repetitions are called so only where no sets stand before them.
   * @param {Target} dose
   */
  function words({ counts, from, to, sets, each_side }) {
    const alone = sets ? "" : to === 1 ? " repetition" : " repetitions";
    const unit = { reps: alone, seconds: " s", metres: " m", contacts: to === 1 ? " contact" : " contacts" }[counts];
    const times = sets ? `${span(sets[0], sets[1])} x ` : "";
    return `${times}${span(from, to)}${unit}${each_side ? ", each side" : ""}`;
  }

  return { words };
})();

if (typeof module !== "undefined") module.exports = rungbookDose;
