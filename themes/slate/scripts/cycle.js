// The rung a member starts on: one plan of a ladder instead of all of them, from the member's own
// book where there is one. The page holds every plan without it; sends and keeps nothing.
"use strict";

const rungbookCycle = (() => {
  /**
   * The rung to show: what the book says when the ladder has it, else the usual one.
   * @param {Record<string, number>} rungs own rung a ladder, as the book keeps them
   * @param {string} ladder @param {number[]} known @param {number} usual
   */
  function start(rungs, ladder, known, usual) {
    return Object.hasOwn(rungs, ladder) && known.includes(rungs[ladder]) ? rungs[ladder] : usual;
  }

  return { start };
})();

if (typeof module === "object") module.exports = rungbookCycle;

if (typeof document === "object") {
  /** Own rungs as the ladders are today, once they are worked out. @type {Record<string, number> | null} */
  let standings = null;
  document.addEventListener("rungbook-standings", (event) => {
    standings = /** @type {CustomEvent<Record<string, number> | null>} */ (event).detail;
    document.dispatchEvent(new CustomEvent("rungbook-standing"));
  });

  /**
   * The book's own rungs, once they are worked out: the number alone of a rung decides nothing, since a
   * ladder may be rewritten. The person in front has none.
   * @returns {Record<string, number>}
   */
  const ownRungs = () => (rungbookPerson.front() ? {} : standings || {});

  for (const section of /** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-plan]"))) {
    const { plan: ladder = "", usual = "1" } = section.dataset;
    const starts = /** @type {HTMLDetailsElement[]} */ (Array.from(section.querySelectorAll("details[data-start]")));
    const known = starts.map((one) => Number(one.dataset.start));
    if (known.length < 2) continue;
    const label = document.createElement("label");
    const select = document.createElement("select");
    const from = document.createElement("p");
    const source = document.createElement("span");
    for (const one of starts) {
      const option = document.createElement("option");
      option.value = one.dataset.start || "";
      option.textContent = one.dataset.says || "";
      select.append(option);
    }
    from.className = "start";
    source.className = "quiet";
    source.setAttribute("role", "status");
    label.append("You start on rung ", select);
    from.append(label, source);
    starts[0].before(from);

    const show = () => {
      for (const one of starts) {
        const chosen = one.dataset.start === select.value;
        one.hidden = !chosen;
        if (chosen) one.open = true;
      }
    };
    let picked = false;
    const follow = () => {
      if (picked) return;
      const rungs = ownRungs();
      // Whom nobody starts in the middle starts on the lowest one.
      const first = rungbookFits.startsLow(rungbookPerson.who()) ? Math.min(...known) : Number(usual);
      const rung = rungbookCycle.start(rungs, ladder, known, first);
      select.value = String(rung);
      const own = rungbookCycle.start(rungs, ladder, known, 0) !== 0;
      source.textContent = own ? "from your book on this device" : "";
      show();
    };
    select.addEventListener("change", () => {
      picked = true;
      source.textContent = "";
      show();
    });
    for (const change of ["rungbook-book", "rungbook-person", "rungbook-standing"]) document.addEventListener(change, follow);
    follow();
  }
}
