// How answers of the search box are shown, and what is said where words were not understood: never
// silence. Ranks nothing, keeps nothing; the texts go in as texts.
"use strict";

const rungbookAnswers = (() => {
  // Nothing in node, where nothing is shown.
  const make = globalThis.rungbookSearchMake;

  /** @param {string} id @param {string} to @param {(Node | string)[]} words */
  const link = (id, to, ...words) => make("a", {
    id: `search-answer-${id}`, role: "option", "aria-selected": "false", tabindex: "-1",
    href: (document.body.dataset.root || "") + to,
  }, ...words);

  /** @param {ReturnType<typeof rungbookRanking.find>[number]} hit @param {number} at */
  function option(hit, at) {
    const why = hit.matched === hit.kind ? hit.kind : `${hit.kind}, ${hit.matched}`;
    const words = [make("span", { class: "name" }, hit.name), " ", make("span", { class: "why" }, why)];
    return make("li", { role: "none" }, link(String(at), hit.address, ...words, ...told(hit)));
  }

  /** What a coach does about a fault stands in the answer itself. @param {ReturnType<typeof rungbookRanking.find>[number]} hit */
  function told(hit) {
    const words = hit.kind === "fault" && hit.part === "page" && window.rungbookFaultWords?.[hit.id];
    if (!words) return [];
    const { see, say, then } = words;
    const lines = [["See", see], ["Say", say && `\u201c${say}\u201d`], ["Then", then]];
    return lines.flatMap(([word = "", text]) => (text ? [make("span", { class: "told" }, make("span", { class: "word" }, word), " ", text)] : []));
  }

  /**
   * Of what was asked last: words that nothing says, and the nearest to the first of them, as the command
   * has them (`search/heard.rs`).
   * @param {{index: SearchIndex, heard: Map<string, Said[]>}} ranking
   */
  function heard({ index, heard }) {
    const unknown = [...heard.values()].flat().filter(({ choices }) => !choices.length).map(({ text }) => text);
    const [word = ""] = unknown;
    const most = Math.floor(word.length / 3);
    const near = index.texts.map((text, at) => ({ text, far: word && index.stemOf[at] >= 0 ? rungbookQuestion.distance(word, text, most, false)[0] : 99 })).filter(({ far }) => far <= most);
    near.sort((one, other) => one.far - other.far);
    return { unknown, near: near.slice(0, 3).map(({ text }) => text) };
  }

  /** What was not understood, with the nearest words; with no answer, what there is. @param {{index: SearchIndex, heard: Map<string, Said[]>}} ranking @param {string} typed @param {boolean} found */
  function unheard(ranking, typed, found) {
    const { unknown, near } = heard(ranking);
    if (found && !unknown.length) return [];
    const words = (unknown.length ? unknown : [typed]).map((word) => `\u201c${word}\u201d`).join(", ");
    const nearest = near.length ? `the nearest words are ${near.join(", ")}` : "nor anything near it";
    const rest = found ? "This answers the rest."
      : link("all", "a-to-z.html", "There are movements, ladders, faults, cautions, kit and sessions: A to Z");
    return [make("li", { role: "none", class: "unheard" }, `Nothing here says ${words}, ${nearest}. `, rest)];
  }

  return { option, heard, unheard };
})();
