// The rungs of a cycle for whom the page is for: under each planned rung how they do it, what they take in
// its place, or that they ask their coach. Nothing before limits are answered; sends and keeps nothing.
"use strict";

(() => {
  const plans = /** @type {HTMLElement[]} */ (Array.from(document.querySelectorAll("[data-plan]")));
  if (plans.length === 0) return;
  const { make } = rungbookMake;
  const root = document.body.dataset.root || "";
  /** The newest person wins. */
  let asked = 0;

  function clear() {
    document.querySelectorAll(".cycle .own, .cycle .own-question").forEach((one) => one.remove());
  }

  /** @param {OwnVersion} version */
  function row(version) {
    if (version.kind === "ask") {
      return make("div", "own ask", make("p", "own-what", rungbookPerson.front() ? "Nothing fits: you decide" : "Ask your coach"), make("p", "quiet", version.why.slice(1).join(" ")));
    }
    const named = version.setting ? `${version.name}, ${version.setting}` : version.name;
    const link = make("a", "own-name", named);
    link.href = root + rungbookOwnBring.page(version);
    const way = version.kind === "swap" ? "Swap" : version.kind === "changed" ? "Changed" : "Yours";
    const made = make("div", `own ${version.kind}`, make("p", "own-what", make("span", "way", way), " ", link));
    if (version.change) made.append(make("p", "change-how", version.change));
    made.append(make("p", "quiet", version.why.slice(1).join(" ")));
    return made;
  }

  /** Whether a version is the rung itself, as it stands. @param {OwnVersion} version @param {string} ladder @param {number} rung */
  const isTheRung = (version, ladder, rung) =>
    version.kind === "fine" && version.ladder === ladder && version.rung === rung;

  /** @param {HTMLElement} plan @param {OwnTools} tools @returns {Promise<[Element, OwnVersion][]>} */
  async function answers(plan, tools) {
    const ladder = tools.ladders[plan.dataset.plan || ""];
    /** @type {Map<number, OwnVersion>} */
    const known = new Map();
    /** @type {[Element, OwnVersion][]} */
    const found = [];
    for (const place of plan.querySelectorAll(".on-rung")) {
      const rung = Number(place.querySelector(".rung-number")?.textContent);
      const version = known.get(rung) || (await rungbookOwnBring.whole(tools, () => rungbookOwn.ofRung(ladder, rung, tools)));
      known.set(rung, version);
      if (!isTheRung(version, ladder.id, rung)) found.push([place, version]);
    }
    return found;
  }

  /** @param {Who} person */
  async function show(person) {
    asked += 1;
    const mine = asked;
    clear();
    const somebody = rungbookOwnBring.isSomebody(person);
    if (somebody && !person.asked) plans[0].before(rungbookOwnBring.question());
    const book = rungbookBook.read();
    if (!somebody && book.results.length + Object.keys(book.rungs).length === 0) return;
    try {
      const tools = await rungbookOwnBring.tools(person, plans.map((plan) => plan.dataset.plan || ""));
      if (mine !== asked) return;
      const standings = person.front ? null : rungbookOwnRung.standings(tools, 0);
      document.dispatchEvent(new CustomEvent("rungbook-standings", { detail: standings }));
      if (!somebody || !person.asked) return;
      const found = [];
      for (const plan of plans) found.push(...(await answers(plan, tools)));
      if (mine !== asked) return;
      for (const [place, version] of found) place.append(row(version));
    } catch {
      if (mine !== asked) return;
      const words = "What of these rungs is for you could not be read on this device: they are for nobody in particular. Ask your coach.";
      plans[0].before(make("p", "own-question flag", words));
    }
  }

  document.addEventListener("rungbook-person", (event) => show(/** @type {CustomEvent<Who>} */ (event).detail));
  document.addEventListener("rungbook-book", () => show(rungbookPerson.who()));
  show(rungbookPerson.who());
})();
