// The search box of every page: reads the index on first use, answers each keystroke. Typing never
// waits: what was typed is answered when the index is there. Keeps nothing, asks no other host.
"use strict";

/**
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} name @param {Record<string, string>} attributes @param {(Node | string)[]} children
 */
function rungbookSearchMake(name, attributes, ...children) {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...children);
  return element;
}

(() => {
  const make = rungbookSearchMake;
  const missing = ["index-file", "question", "postings", "ranking", "stop", "answers"].map((name) => `scripts/${name}.js`);
  missing.push("data/faults.js", "data/stop.js", "data/search-index.js");
  const place = document.querySelector("[data-search]");
  if (!(place instanceof HTMLElement)) return;
  const root = document.body.dataset.root || "";

  const label = make(
    "label", { for: "search-words", class: "unseen" }, "Search",
  );
  const input = make("input", {
    id: "search-words", type: "search", role: "combobox", autocomplete: "off", autocapitalize: "none",
    spellcheck: "false", maxlength: "200", enterkeyhint: "go", placeholder: "Movement, fault or complaint",
    "aria-expanded": "false", "aria-controls": "search-answers", "aria-autocomplete": "list",
  });
  const list = make("ul", {
    id: "search-answers", class: "answers", role: "listbox", "aria-label": "Answers", hidden: "",
  });
  const news = make("p", { class: "unseen", role: "status" });
  place.replaceChildren(label, input, list, news);
  place.hidden = false;

  /** @type {ReturnType<typeof rungbookRanking.open> | null} */
  let ranking = null;
  let asked = false;
  let chosen = -1;
  let announcing = 0;

  /** Reads the index once, and again after a failure. */
  function start() {
    if (asked) return;
    asked = true;
    bring();
  }

  /** What has not arrived yet, one after the other. Scripts arrive from disk too, where fetching fails. */
  function bring() {
    const next = missing[0];
    if (!next) return read(rungbookRanking.opening(window.rungbookSearchIndex || ""));
    const script = make("script", { src: root + next });
    script.addEventListener("load", () => {
      missing.shift();
      bring();
    });
    script.addEventListener("error", failed);
    document.head.append(script);
  }

  /** Reads a part of the index, lets the page take what was typed meanwhile, and goes on. @param {ReturnType<typeof rungbookRanking.opening>} steps */
  function read(steps) {
    try {
      const { done, value } = steps.next();
      if (!done) return setTimeout(read, 0, steps);
      ranking = value;
      return answer();
    } catch {
      return failed();
    }
  }

  function failed() {
    asked = false;
    announce("Search did not arrive. Use A to Z.");
  }

  /** Says it when typing pauses, so that a screen reader is not cut short at each letter. @param {string} words */
  function announce(words) {
    clearTimeout(announcing);
    announcing = setTimeout(() => {
      news.textContent = words;
    }, 400);
  }

  function answer() {
    const typed = input.value;
    if (!typed.trim()) return close();
    if (!ranking) return announce("Still reading.");
    const stop = rungbookStop.option(ranking.index, typed);
    // Twelve: what a phone can show.
    const hits = stop[0] ? rungbookStop.below(ranking, typed) : rungbookRanking.find(ranking, typed, 12);
    const said = stop[0] ? stop : rungbookAnswers.unheard(ranking, typed, !!hits[0]);
    list.replaceChildren(...said, ...hits.map(rungbookAnswers.option));
    chosen = -1;
    show(true);
    place?.classList.toggle("none-found", !hits[0]);
    const first = hits[0] ? `${hits.length} found. First: ${hits[0].name}.` : "";
    announce(`${said[0]?.textContent || ""} ${first}`.trim());
  }

  /** @param {boolean} open */
  function show(open) {
    list.hidden = !open;
    input.setAttribute("aria-expanded", `${open}`);
    if (!open) input.removeAttribute("aria-activedescendant");
  }

  function close() {
    list.replaceChildren();
    chosen = -1;
    show(false);
    place?.classList.remove("none-found");
    clearTimeout(announcing);
    news.textContent = "";
  }

  /** Marks an answer; the focus stays in the box. @param {number} step */
  function move(step) {
    const items = [...list.querySelectorAll("a")];
    if (!items[0]) return;
    items[chosen]?.setAttribute("aria-selected", "false");
    // One place more than there are answers: from the last, back to what was typed.
    chosen = ((chosen + 1 + step + items.length + 1) % (items.length + 1)) - 1;
    const item = items[chosen];
    if (!item) return input.removeAttribute("aria-activedescendant");
    item.setAttribute("aria-selected", "true");
    item.scrollIntoView({ block: "nearest" });
    return input.setAttribute("aria-activedescendant", item.id);
  }

  const go = () => list.querySelectorAll("a")[Math.max(chosen, 0)]?.click();

  /** @type {Record<string, () => void>} */
  const keys = {
    ArrowDown: () => move(1),
    ArrowUp: () => move(-1),
    Enter: go,
    Escape: () => {
      if (list.hidden) input.value = "";
      close();
    },
  };

  input.addEventListener("focus", start);
  for (const act of [start, answer]) input.addEventListener("input", act);
  input.addEventListener("keydown", (event) => {
    const act = keys[event.key];
    if (!act || event.isComposing) return;
    event.preventDefault();
    act();
  });
  place.addEventListener("focusout", (event) => {
    const next = event.relatedTarget;
    if (!(next instanceof Node && place.contains(next))) show(false);
  });
  input.addEventListener("click", () => {
    if (list.firstChild) show(true);
  });
  // A press on an answer must not take the focus away before the click arrives.
  list.addEventListener("pointerdown", (event) => event.preventDefault());
  list.addEventListener("click", () => {
    input.value = "";
    // The link's own way is taken first; the list goes once the page has moved.
    setTimeout(close);
  });
  document.addEventListener("keydown", (event) => {
    const at = event.target;
    const typing = at instanceof HTMLElement && (at.isContentEditable || at.matches("input, select, textarea"));
    if (event.key !== "/" || typing || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    input.focus();
    input.select();
  });
})();
