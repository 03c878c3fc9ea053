// The swaps of a movement's page for whom the page is for: at their rung, fine ones first, then changed
// ones, never harder; from the movement's card, by the rule of the command. Without a person the page's
// own list stands, which is for nobody in particular.
"use strict";

(() => {
  const list = document.querySelector("[data-swaps]");
  const none = document.querySelector("[data-none-left]");
  const entry = document.querySelector("[data-this]");
  if (!(list instanceof HTMLElement && entry instanceof HTMLElement)) return;
  const id = entry.dataset.movement || "";
  const written = Array.from(list.children);
  const { make } = rungbookMake;
  const IN_SIGHT = 2;

  /** @param {Who} who */
  const isSomebody = (who) =>
    who.front || who.kit !== null || who.noise !== "loud" || Object.keys(who.limits).length > 0;

  /** @param {ReturnType<typeof rungbookFits.swapsFor<SwapLine>>[number]} found */
  function row({ swap, rung, startHere, fit, reason }) {
    const setting = rungbookFits.settingWords(rung.setting, fit);
    const link = make("a", "", setting ? `${swap.name}, ${setting}` : swap.name);
    link.href = `${swap.id}.html`;
    const item = make("li", "", link, " ", make("span", "kit-words", swap.needs.kit_words));
    Object.assign(item.dataset, { kit: swap.needs.kit, traits: rung.traits, changes: swap.needs.changes, noise: swap.needs.noise });
    const change = rungbookFits.inBrief(fit);
    if (change) item.append(make("span", "change-how", change));
    item.append(make("span", "reason", startHere ? `Start here, the easiest way of it. ${reason}` : reason));
    return item;
  }

  /** Two in sight, the rest one touch away. @param {HTMLElement[]} rows */
  function listed(rows) {
    const first = make("ol", "", ...rows.slice(0, IN_SIGHT));
    if (rows.length <= IN_SIGHT) return [first];
    const rest = make("ol", "", ...rows.slice(IN_SIGHT));
    rest.setAttribute("start", String(IN_SIGHT + 1));
    const more = make("details", "fold more-swaps", make("summary", "", `${rows.length - IN_SIGHT} more`), rest);
    return [first, more];
  }

  /** The newest person wins. */
  let asked = 0;

  /** @param {Who} who */
  async function show(who) {
    asked += 1;
    const mine = asked;
    if (!isSomebody(who)) return list?.replaceChildren(...written);
    // Until the card is here nothing is shown that may not fit.
    list?.replaceChildren();
    try {
      const card = await rungbookBring.card(id);
      if (mine !== asked) return;
      const of = rungbookThisRung.named();
      const at = Math.max(0, card.rungs.findIndex((one) => one.ladder === of?.ladder && one.number === of?.number));
      const own = card.rungs[at];
      const rung = own ? { ladder: own.ladder, number: own.number, at } : { ladder: null, number: /** @type {0} */ (0), at: /** @type {0} */ (0) };
      const found = rungbookFits.swapsFor(card, /** @type {AskedRung} */ (rung), who);
      list?.replaceChildren(...listed(found.map(row)));
      if (none instanceof HTMLElement) none.hidden = found.length > 0;
    } catch {
      list?.replaceChildren(make("p", "", "The swaps could not be read on this device. Ask your coach."));
    }
  }

  document.addEventListener("rungbook-person", (event) => show(/** @type {CustomEvent<Who>} */ (event).detail));
  window.addEventListener("hashchange", () => show(rungbookPerson.who()));
  show(rungbookPerson.who());
})();
