// Search on the floor, brought when it is first used: a complaint is set for the person in front by one
// touch, a ladder opens where the coach is. Keeps nothing beyond what the pressed limits keep.
"use strict";

(() => {
  const { make } = rungbookMake;
  const list = document.querySelector("[data-search] .answers");
  if (!list) return;

  /** The situation or the trait that an answer is about. @param {Element} link */
  function limitOf(link) {
    const [, caution, trait] = /cautions\/(?:([a-z0-9-]+)\.html|index\.html#trait-([a-z0-9-]+))$/.exec(link.getAttribute("href") || "") || [];
    // Where a stop sign was typed nobody is set up to train on: a caution leads to its page.
    if (list?.querySelector(".stop-now")) return null;
    const known = globalThis.rungbookWords;
    if (caution && known?.situations[caution]) return /** @type {const} */ (["situations", caution]);
    return trait && known?.traits[trait] ? /** @type {const} */ (["traits", trait]) : null;
  }

  /** @returns {Omit<Front, "at">} */
  const front = () => rungbookPerson.front() || { situations: [], traits: [], lacks: [] };

  function offer() {
    for (const link of list?.querySelectorAll("a") || []) {
      const limit = limitOf(link);
      if (!limit || link.querySelector(".sets")) continue;
      const isSet = front()[limit[0]].includes(limit[1]);
      link.append(make("span", "sets", isSet ? "Set for this person" : "Touch: set it for this person"));
    }
  }

  /** @param {readonly ["situations" | "traits", string]} limit */
  function set([kind, id]) {
    const person = front();
    rungbookPerson.setFront({ ...person, [kind]: [...new Set([...person[kind], id])] });
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  }

  /** Its list on this page, unfolded. @param {string} ladder */
  function unfold(ladder) {
    const place = document.querySelector(`.rail [data-rung^="${ladder}/"]`)?.closest("details");
    if (!place) return false;
    const show = () => {
      place.open = true;
      place.scrollIntoView();
      place.querySelector("summary")?.focus();
    };
    if (location.hash.length > 1) {
      window.addEventListener("hashchange", show, { once: true });
      location.hash = "";
    } else show();
    return true;
  }

  list.addEventListener("click", (event) => {
    const link = event.target instanceof Element ? event.target.closest("a") : null;
    if (!link) return;
    const limit = limitOf(link);
    const ladder = /ladders\/([a-z0-9-]+)\.html/.exec(link.getAttribute("href") || "")?.[1];
    if (limit) set(limit);
    else if (!ladder || !unfold(ladder)) return;
    event.preventDefault();
  });
  new MutationObserver(offer).observe(list, { childList: true });
  offer();
})();
