// What a page needs to answer for a person: brings the scripts, ladders, cards and book that their
// version asks for, and asks for limits before anything is answered. Sends nothing.
"use strict";

const rungbookOwnBring = (() => {
  const { make, button } = rungbookMake;
  const FILES = ["height", "demands", "dose", "own-rung", "own-dose", "own"].map((name) => `scripts/${name}.js`);

  /** The own room's scripts. */
  const scripts = () => rungbookBring.files(["scripts/book.js", ...FILES]);

  /** Whether anything narrows what this person may do. @param {Who} who */
  const isSomebody = (who) =>
    who.front || who.kit !== null || who.noise !== "loud" || Object.keys(who.limits).length > 0;

  /**
   * The tools for a person: the ladders that are named and those that their book knows, and placing where
   * there is a result. The person in front has no book: the member's own is suspended, never merged.
   * @param {Who} person @param {string[]} names @returns {Promise<OwnTools>}
   */
  async function tools(person, names) {
    await scripts();
    const book = person.front ? rungbookBook.empty() : rungbookBook.read();
    const more = [...Object.keys(book.rungs), ...book.results.map((one) => one.ladder)].filter((id) => !names.includes(id));
    const measured = book.results.length > 0 || (person.kit !== null && Object.keys(book.heights).length > 0);
    const placing = measured ? await rungbookBring.placing() : null;
    // A ladder of the book that is gone decides nothing: a swap on it cannot come up.
    const others = await Promise.allSettled([...new Set(more)].map((name) => rungbookBring.ladder(name)));
    const named = await Promise.all(names.map((name) => rungbookBring.ladder(name)));
    const found = [...named, ...others.flatMap((one) => (one.status === "fulfilled" ? [one.value] : []))];
    return { person, book, ladders: Object.fromEntries(found.map((ladder) => [ladder.id, ladder])), cards: {}, placing };
  }

  /** An answer with every card that it wants. @param {OwnTools} known @param {() => OwnVersion} answer */
  async function whole(known, answer) {
    let version = answer();
    while (version.kind === "missing") {
      const card = await rungbookBring.card(version.movement);
      known.cards[card.id] = card;
      version = answer();
    }
    return version;
  }

  /**
   * Every line's version by `block/line`; null when something did not come.
   * @param {{items: OwnItem[]}[]} blocks @param {Who} of @returns {Promise<Map<string, OwnVersion> | null>}
   */
  async function versions(blocks, of) {
    try {
      await scripts();
      const names = rungbookOwn.laddersOf(blocks.flatMap((block) => block.items), of);
      const known = await tools(of, names);
      /** @type {Map<string, OwnVersion>} */
      const found = new Map();
      for (const [at, block] of blocks.entries()) {
        for (const [line, item] of block.items.entries()) {
          found.set(`${at}/${line}`, await whole(known, () => rungbookOwn.version(item, known)));
        }
      }
      return found;
    } catch {
      return null;
    }
  }

  /**
   * Asks for limits, where nobody said in this tab what they are. Nothing is answered before.
   * @param {(Node | string)[]} more what else may be done
   */
  function question(...more) {
    const none = button("None", () => document.dispatchEvent(new CustomEvent("rungbook-no-limits")));
    const pick = make("a", "button", "Pick limits");
    pick.href = `${document.body.dataset.root || ""}kit-and-limits.html`;
    const asked = make("p", "own-question", make("strong", "", "Any limits today?"), " ", none, " ", pick, ...more);
    if (rungbookPerson.isBlocked()) asked.append(make("span", "quiet", " This browser keeps nothing: what is picked on another page does not come along. Who has limits asks the coach."));
    asked.setAttribute("role", "group");
    asked.setAttribute("aria-label", "Any limits today?");
    return asked;
  }

  /** The page of a version's movement, which answers for its rung. @param {OwnVersion} version */
  const page = ({ movement, ladder, rung }) => `movements/${movement}.html${ladder && rung ? `#rung-${ladder}-${rung}` : ""}`;

  return { isSomebody, page, scripts, tools, whole, versions, question };
})();
