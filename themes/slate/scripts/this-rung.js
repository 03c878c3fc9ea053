// What a movement's page says first for whom it is for: fine, changed like this, or not; at the rung that a
// session's line named in the address (`#rung-push-up-5`), as that line answered it, else at its usual
// settings. Keeps nothing; the address says a rung, never a limit.
"use strict";

const rungbookThisRung = (() => {
  const { fit, isIn, why, howWords } = rungbookFits;
  const { make } = rungbookMake;
  const entry = document.querySelector("[data-this]");
  const place = document.querySelector("[data-flag]");

  /** The rung that the address names. @returns {{ladder: string, number: number} | null} */
  function named() {
    const [, ladder, number] = /^#rung-([a-z0-9-]+)-(\d+)$/.exec(location.hash) || [];
    return ladder ? { ladder, number: Number(number) } : null;
  }

  /** @param {Who} who */
  const whom = (who) => (who.front ? "this person" : "you");

  /** @param {string} words @param {boolean} isChange */
  function say(words, isChange) {
    if (!(place instanceof HTMLElement)) return;
    place.textContent = words;
    place.hidden = words === "";
    place.classList.toggle("change", isChange);
  }

  /** @param {Who} who */
  const elsewhere = (who) =>
    [...document.querySelectorAll(".rail > li[aria-current]")].some((rung) => rung instanceof HTMLElement && isIn(who, rung.dataset))
      ? "At another setting it can be done: see its rungs."
      : "See the swaps.";

  /** The answer in words. @param {Who} who @param {Fit} found @param {string} reason why it is left out @param {string} at its rung and setting, or nothing */
  function tell(who, found, reason, at) {
    const how = howWords(found);
    if (how) return say(`For ${whom(who)}, change it: ${how}${at ? ` This is ${at}.` : ""} Where a cue or the standard below says otherwise, the change holds.`, true);
    if (found.kind === "out") return say(`Not for ${whom(who)}${at ? `, ${at}` : " as it stands"}: ${reason}. ${elsewhere(who)}`, false);
    return say(at ? `For ${whom(who)}: ${at}. What stands below is written for its usual setting.` : "", false);
  }

  /**
   * The rung's number and its neighbours stand where those of all rungs of the movement stood.
   * @param {{ladder: string, number: number} | null} of
   */
  function neighbours(of) {
    const here = of && document.getElementById(`rung-${of.ladder}-${of.number}`);
    const box = here?.closest(".standing")?.querySelector(".neighbours");
    const between = box?.querySelector(".between");
    if (!(here && box && between) || box.getAttribute("data-at") === location.hash) return;
    box.setAttribute("data-at", location.hash);
    box.replaceChildren(
      neighbour(here.previousElementSibling, "above", "Top of the ladder."), between,
      neighbour(here.nextElementSibling, "below", "This is the lowest rung. Too much today? Ask your coach."),
    );
    between.replaceChildren(way(`Here, rung ${of.number} of ${here.parentElement?.children.length}`), " ", ...called(here));
    asks(between, here);
    // Who is here says which of them fit.
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  }

  /** @param {string} words */
  const way = (words) => make("span", "way", words);
  /** @param {Element} rung */
  const called = (rung) => [...rung.querySelector("a")?.childNodes || []].map((one) => one.cloneNode(true));
  /** What it asks of somebody is marked as in the list. @param {Element} one @param {Element} rung */
  const asks = (one, rung) => [...rung.attributes].filter(({ name }) => name.startsWith("data-")).forEach(({ name, value }) => one.setAttribute(name, value));

  /** A rung of the list as one above or below. @param {Element | null} rung @param {"above" | "below"} where @param {string} none */
  function neighbour(rung, where, none) {
    if (!rung) return make("p", `${where} none`, way(`Rung ${where}`), " ", none);
    const link = make("a", where, way(`Rung ${where}`), " ", ...called(rung));
    const page = rung.querySelector("a")?.getAttribute("href") || "";
    const ladder = /^#rung-(.+)-\d+$/.exec(location.hash)?.[1];
    link.href = `${page}#rung-${ladder}-${rung.getAttribute("value")}`;
    asks(link, rung);
    return link;
  }

  /** @param {Who} who */
  const usual = (who) => entry instanceof HTMLElement && tell(who, fit(who, entry.dataset), why(who, entry.dataset, who.front ? "coach" : "member"), "");

  /**
   * The answer at the rung of the address, at an own height too; null where that is no rung of this movement.
   * @param {Who} who @param {{ladder: string, number: number}} of @returns {Promise<(() => void) | null>}
   */
  async function atRung(who, { ladder: id, number }) {
    await rungbookBring.files(["scripts/own-bring.js"]);
    const tools = await rungbookOwnBring.tools(who, [id]);
    const ladder = tools.ladders[id];
    const rung = ladder.rungs[number - 1];
    if (!rung || !(entry instanceof HTMLElement) || rung.movement !== entry.dataset.movement) return null;
    const stood = rungbookOwnRung.stand(ladder, number - 1, tools);
    const setting = "out" in stood ? rung.setting : stood.setting;
    const at = `rung ${number} of its ladder${setting ? `, ${setting}` : ""}`;
    if (!("out" in stood)) return () => tell(who, stood.fit, "", at);
    const reason = stood.out === null ? "no height in My book is near enough" : why(who, stood.out, who.front ? "coach" : "member");
    return () => tell(who, { kind: "out" }, reason, at);
  }

  /** The newest showing wins. */
  let showing = 0;

  /** @param {Who} who */
  async function show(who) {
    showing += 1;
    const mine = showing;
    const of = named();
    neighbours(of);
    if (mine !== showing) return;
    if (!of) return usual(who);
    say("", false);
    const answer = await atRung(who, of).catch(() => null);
    if (mine !== showing) return;
    if (answer) answer();
    else usual(who);
  }

  document.addEventListener("rungbook-person", (event) => show(/** @type {CustomEvent<Who>} */ (event).detail));
  window.addEventListener("hashchange", () => show(rungbookPerson.who()));
  show(rungbookPerson.who());

  return { named };
})();
