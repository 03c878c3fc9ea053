// The signs at which the person here gets help or ends the session, beside those of everybody: where a
// page tells somebody to move. Brings what cautions say of them only for who has a situation.
"use strict";

const rungbookSigns = (() => {
  const FILE = "data/signs.js";
  /** The newest person wins. */
  let asked = 0;

  /** @param {string} id */
  const named = (id) => globalThis.rungbookWords?.situations[id]?.name || id;

  /** `Pregnancy. Ring maternity now, day or night: any bleeding. End the session at: a near fall.` @param {string[]} situations */
  async function said(situations) {
    if (!situations.length) return "";
    try {
      await rungbookBring.files([FILE]);
      const signs = globalThis.rungbookSignWords || {};
      return situations.flatMap((id) => (signs[id] ? [`${named(id)}. ${signs[id]}`] : [])).join(" ");
    } catch {
      return `The signs to stop at could not be read: see the caution of ${situations.map(named).join(" and of ")}.`;
    }
  }

  /** Writes them wherever the page has a place for them. */
  async function fill() {
    asked += 1;
    const mine = asked;
    const words = await said(rungbookPerson.who().situations || []);
    if (mine !== asked) return;
    for (const place of document.querySelectorAll("[data-signs]")) {
      place.textContent = words;
      place.toggleAttribute("hidden", !words);
    }
  }

  document.addEventListener("rungbook-person", fill);
  fill();
  return { fill };
})();
