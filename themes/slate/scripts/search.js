// The search box of every page: loads the index on first use, answers each keystroke, never blocks
// typing while it loads. Text only, no markup from data; keeps nothing and asks no other host.
"use strict";

(() => {
  const LIMIT = 12;
  const PARTS = ["scripts/index-file.js", "scripts/question.js", "scripts/ranking.js", "data/search-index.js"];
  const root = document.body.dataset.root || "";
  const box = document.querySelector("[data-search]");
  if (!(box instanceof HTMLElement)) return;

  const label = document.createElement("label");
  label.className = "unseen";
  label.htmlFor = "search-words";
  label.textContent = "Search movements, faults, kit and complaints";
  const input = document.createElement("input");
  input.type = "search";
  input.id = "search-words";
  input.autocomplete = "off";
  input.spellcheck = false;
  input.setAttribute("enterkeyhint", "go");
  input.placeholder = "Movement, fault or complaint";
  const results = document.createElement("ul");
  results.className = "answers";
  results.hidden = true;
  const status = document.createElement("p");
  status.className = "unseen";
  status.setAttribute("role", "status");
  box.append(label, input, results, status);
  box.hidden = false;

  /** The opened index, once it is here. @type {ReturnType<typeof rungbookRanking.open> | null} */
  let ranking = null;
  let isComing = false;

  /** Scripts load from disk too, where fetching does not. @param {string[]} left */
  function bring(left) {
    const [next, ...rest] = left;
    if (next === undefined) {
      const { fromBase64, open } = rungbookRanking;
      ranking = open(fromBase64(window.rungbookSearchIndex || ""));
      answer();
      return;
    }
    const script = document.createElement("script");
    script.src = root + next;
    script.onload = () => bring(rest);
    script.onerror = () => {
      isComing = false;
      say("Search did not load. Use A to Z.");
    };
    document.head.append(script);
  }

  function start() {
    if (isComing || ranking) return;
    isComing = true;
    bring(PARTS);
  }

  /** @param {string} words */
  function say(words) {
    status.textContent = words;
  }

  function close() {
    results.hidden = true;
    results.replaceChildren();
    say("");
  }

  /** @param {{name: string, kind: string, matched: string, address: string}} hit */
  function row(hit) {
    const link = document.createElement("a");
    link.href = root + hit.address;
    const name = document.createElement("span");
    name.className = "name";
    name.textContent = hit.name;
    const why = document.createElement("span");
    why.className = "why";
    why.textContent = hit.matched === hit.kind ? hit.kind : `${hit.kind}, ${hit.matched}`;
    link.append(name, " ", why);
    const item = document.createElement("li");
    item.append(link);
    return item;
  }

  function answer() {
    const words = input.value;
    if (words.trim() === "") return close();
    if (!ranking) return;
    const hits = rungbookRanking.find(ranking, words, LIMIT);
    results.replaceChildren(...hits.map(row));
    results.hidden = hits.length === 0;
    say(hits.length === 0 ? `Nothing found for ${words}.` : `${hits.length} found. First: ${hits[0].name}.`);
    box?.classList.toggle("none-found", hits.length === 0);
  }

  /** @returns {HTMLAnchorElement[]} */
  const links = () => Array.from(results.querySelectorAll("a"));

  /** @param {KeyboardEvent} event */
  function arrows(event) {
    const all = links();
    const at = all.indexOf(/** @type {HTMLAnchorElement} */ (document.activeElement));
    if (event.key === "ArrowDown" && at + 1 < all.length) all[at + 1]?.focus();
    else if (event.key === "ArrowUp" && at > 0) all[at - 1]?.focus();
    else if (event.key === "ArrowUp" && at === 0) input.focus();
    else return;
    event.preventDefault();
  }

  input.addEventListener("focus", start);
  input.addEventListener("input", () => {
    start();
    answer();
  });
  box.addEventListener("keydown", (event) => {
    if (event.key === "Escape") {
      input.value = "";
      close();
      input.focus();
    } else if (event.key === "Enter" && event.target === input) {
      event.preventDefault();
      links()[0]?.click();
    } else arrows(event);
  });
  results.addEventListener("click", () => {
    input.value = "";
    // The link's own way is taken first; the list goes once the page has moved.
    setTimeout(close, 0);
  });
  document.addEventListener("click", (event) => {
    if (event.target instanceof Node && !box.contains(event.target)) close();
  });
  document.addEventListener("keydown", (event) => {
    const inField = event.target instanceof HTMLElement && event.target.closest("input, textarea, select");
    if (event.key !== "/" || inField || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    input.focus();
  });
})();
