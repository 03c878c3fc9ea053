// The page My book: its forms write into the book on this device and show what it holds.
// Sends nothing: what leaves is a file or a text that the member takes away.
"use strict";

(() => {
  const { find, form, field, number, say, change, bring, make, dayWords, save } = rungbookBookParts;
  const page = document.querySelector("[data-book]");
  if (!(page instanceof HTMLElement)) return;

  // Results.
  const result = form("result");
  /** The result that is being edited. */
  let editing = "";
  /** The rung that it was entered for, as the ladder is now, and what it was then. @type {{chosen: string, then: Partial<RungThen>} | null} */
  let entered = null;

  /** What a rung is now, so that a rewritten ladder moves nobody. @param {DOMStringMap} rung @returns {Partial<RungThen>} */
  const thenOf = ({ movement, settings }) => {
    if (!movement) return {};
    const words = (settings || "").split(" ").filter(Boolean).map((word) => word.split(":"));
    return { movement, settings: Object.fromEntries(words.map(([name, at]) => [name, Number(at)])) };
  };
  const place = () => `${field(result, "ladder").value}/${field(result, "rung").value}`;

  /** @param {string} ladder @returns {HTMLSelectElement | null} */
  const rungsOf = (ladder) => {
    const found = form("rungs").elements.namedItem(ladder);
    return found instanceof HTMLSelectElement ? found : null;
  };
  /** @param {string} id */
  const nameOf = (id) => Array.from(result.querySelectorAll("option")).find((one) => one.value === id)?.textContent || id;
  const chosen = () => {
    const select = field(result, "rung");
    return select instanceof HTMLSelectElement ? select.selectedOptions[0]?.dataset || {} : {};
  };

  /** The rungs of the chosen ladder; the own one first in hand. */
  function fillRungs() {
    const from = rungsOf(field(result, "ladder").value);
    const options = from ? Array.from(from.options).slice(1).map((one) => one.cloneNode(true)) : [];
    find('[data-form="result"] [name="rung"]', HTMLSelectElement).replaceChildren(...options);
    const own = rungbookBook.read().rungs[field(result, "ladder").value];
    if (own) field(result, "rung").value = String(own);
    fitRung();
  }

  /** What the chosen rung counts and which own height it may have. */
  function fitRung() {
    const { counts, own, unit, at, from, to } = chosen();
    const amount = field(result, "amount");
    amount.disabled = !counts;
    // Beyond these a slip of the finger is likelier: the browser asks again.
    amount.setAttribute("max", (counts === "seconds" ? result.dataset.mostSeconds : result.dataset.mostReps) || "");
    find("span[data-counts]", HTMLElement).textContent = counts === "seconds" ? "Seconds" : "Repetitions";
    const label = find("label[data-own]", HTMLElement);
    label.hidden = !own;
    const input = find('[name="own"]', HTMLInputElement);
    input.value = "";
    if (own) {
      find("label[data-own] span", HTMLElement).textContent = `My ${own} (${unit}), if not ${at}`;
      [input.min, input.max] = [from || "", to || ""];
    }
    const heights = Object.entries(rungbookBook.read().heights).map(([kit, height]) => `${kit} ${height} cm`);
    const hint = !counts ? "This rung counts metres or contacts; such a result is for your coach's eye, not for this page."
      : own && unit === "cm" && heights.length ? `At home: ${heights.join(", ")}.` : "";
    find("[data-hint]", HTMLElement).textContent = hint;
  }

  function leave() {
    editing = "";
    entered = null;
    result.reset();
    const day = field(result, "day");
    // A day that has not come is asked again, by the browser.
    if (day instanceof HTMLInputElement) day.max = rungbookBook.today();
    day.value = rungbookBook.today();
    find('[data-act="leave"]', HTMLElement).hidden = true;
    fillRungs();
  }

  /** @returns {Result} */
  function written() {
    const { counts, own, at } = chosen();
    const value = number(result, "own");
    const differs = own && value !== null && value !== Number(at);
    return {
      id: editing || rungbookBook.newId(),
      day: field(result, "day").value,
      ladder: field(result, "ladder").value,
      rung: Number(field(result, "rung").value),
      setting: differs ? { [own]: value } : null,
      counts: counts === "seconds" ? "seconds" : "reps",
      amount: number(result, "amount") ?? -1,
      added_kg: number(result, "added") ?? 0,
      note: field(result, "note").value.trim(),
      ...(entered?.chosen === place() ? entered.then : thenOf(chosen())),
    };
  }

  /** The number of the rung that a result was done on, as the ladder is now. @param {Result} one */
  function rungNow(one) {
    const options = Array.from(rungsOf(one.ladder)?.options || []);
    const same = JSON.stringify({ movement: one.movement, settings: one.settings });
    const now = options.find((option) => JSON.stringify(thenOf(option.dataset)) === same);
    return now?.value || one.rung;
  }

  /** @param {Result} one */
  function edit(one) {
    editing = one.id;
    find("[data-adding]", HTMLDetailsElement).open = true;
    field(result, "ladder").value = one.ladder;
    fillRungs();
    field(result, "rung").value = String(rungNow(one));
    entered = { chosen: place(), then: one.movement ? { movement: one.movement, settings: one.settings || {} } : {} };
    fitRung();
    const { own } = chosen();
    field(result, "own").value = own && one.setting ? String(one.setting[own] ?? "") : "";
    field(result, "amount").value = String(one.amount);
    field(result, "added").value = one.added_kg ? String(one.added_kg) : "";
    field(result, "day").value = one.day;
    field(result, "note").value = one.note;
    find('[data-act="leave"]', HTMLElement).hidden = false;
    field(result, "ladder").focus();
  }

  result.addEventListener("submit", (event) => {
    event.preventDefault();
    const one = written();
    const isKept = change((book) => {
      const at = book.results.findIndex((known) => known.id === one.id);
      if (at === -1) book.results.push(one);
      else book.results[at] = one;
    }, "Result kept on this device.");
    if (!isKept) return;
    leave();
    // The next one is likelier of the same ladder than of the first in the list.
    field(result, "ladder").value = one.ladder;
    fillRungs();
    field(result, "rung").value = String(one.rung);
    fitRung();
  });
  field(result, "ladder").addEventListener("change", fillRungs);
  field(result, "rung").addEventListener("change", fitRung);

  // Rungs, heights, stature and mass.
  form("rungs").addEventListener("change", (event) => {
    if (!(event.target instanceof HTMLSelectElement)) return;
    const { name, value, selectedOptions } = event.target;
    const then = thenOf(selectedOptions[0]?.dataset || {});
    change((book) => {
      const all = { ...book.rungs_then };
      delete all[name];
      delete book.rungs[name];
      if (value) book.rungs[name] = Number(value);
      if (value && then.movement) all[name] = /** @type {RungThen} */ (then);
      book.rungs_then = all;
    }, "Kept on this device.");
  });
  const mine = form("mine");
  mine.addEventListener("submit", (event) => event.preventDefault());
  mine.addEventListener("change", (event) => {
    if (!(event.target instanceof HTMLInputElement)) return;
    const { name } = event.target;
    const value = number(mine, name);
    const { min, max, validity } = event.target;
    if (!validity.valid) return say(`Not kept: this is from ${min} to ${max}. Measure from the floor to where the weight goes: a seat, not a chair's back.`);
    change((book) => {
      if (name === "stature") book.stature_cm = value;
      else if (name === "mass") book.body_mass_kg = value;
      else if (value === null) delete book.heights[name.slice("height-".length)];
      else book.heights[name.slice("height-".length)] = value;
    }, "Kept on this device.");
  });

  // Notes.
  form("note").addEventListener("submit", (event) => {
    event.preventDefault();
    const text = field(form("note"), "text").value.trim();
    if (!text) return;
    const note = { id: rungbookBook.newId(), day: rungbookBook.today(), text };
    if (change((book) => book.notes.push(note), "Note kept on this device.")) form("note").reset();
  });

  /** @param {string} list @param {string} id @param {string} words */
  function eraser(list, id, words) {
    const button = make("button", "", "Erase");
    button.type = "button";
    Object.assign(button.dataset, { act: `erase-${list}`, id });
    button.setAttribute("aria-label", `Erase ${words}`);
    return button;
  }

  /** Takes an entry out, and offers to put it back. @param {"results" | "done" | "notes"} list @param {string} id @param {string} words */
  function takeOut(list, id, words) {
    const { [list]: all } = rungbookBook.read();
    const at = all.findIndex((one) => one.id === id);
    if (at < 0 || !change((book) => book[list].splice(at, 1), words)) return;
    const back = make("button", "", "Undo");
    back.addEventListener("click", () => change((book) => /** @type {unknown[]} */ (book[list]).splice(at, 0, all[at]), "Put back."));
    find("[data-said]", HTMLElement).append(" ", back);
    back.focus();
  }

  // What leaves the device is fetched when it is asked for.
  async function away() {
    if (await bring("scripts/book-file.js", "scripts/book-away.js")) return rungbookBookAway;
    say("A file of this page could not be fetched: open the page again.");
    return null;
  }
  form("hand").addEventListener("focusin", away);
  form("hand").addEventListener("submit", (event) => event.preventDefault());
  form("file").addEventListener("submit", (event) => event.preventDefault());
  field(form("file"), "file").addEventListener("change", () => away().then((there) => there?.takeFile()));

  /** @type {Record<string, (id: string) => void>} */
  const ACTS = {
    leave,
    edit: (id) => {
      const one = rungbookBook.read().results.find((known) => known.id === id);
      if (one) edit(one);
    },
    "erase-result": (id) => takeOut("results", id, "Result erased."),
    "erase-done": (id) => takeOut("done", id, "Erased."),
    "erase-note": (id) => takeOut("notes", id, "Note erased."),
  };
  page.addEventListener("click", (event) => {
    const button = event.target instanceof HTMLElement ? event.target.closest("[data-act]") : null;
    if (!(button instanceof HTMLElement)) return;
    const { act = "", id = "" } = button.dataset;
    if (Object.hasOwn(ACTS, act)) ACTS[act](id);
    else away().then((there) => there?.does(act));
  });

  /** What was kept aside because it could not be read. */
  function trouble() {
    const wrong = rungbookBook.trouble();
    const asides = rungbookBook.asides();
    const box = find("[data-trouble]", HTMLElement);
    box.hidden = wrong.length === 0 && asides.length === 0;
    if (box.hidden) return;
    const part = make("p", "", "Part of the book on this device could not be read. Nothing is lost: the text as it was is kept aside.");
    const keep = asides.map(({ key, text }, at) => {
      const button = make("button", "", `Save it as a file${asides.length > 1 ? ` (${at + 1})` : ""}`);
      button.type = "button";
      button.addEventListener("click", () => save(text, `${key}.txt`, "text/plain"));
      return button;
    });
    box.replaceChildren(part, make("ul", "", ...wrong.slice(0, 20).map((one) => make("li", "", one))), make("p", "actions", ...keep));
  }

  /** @param {Book} book */
  function lists(book) {
    find('[data-empty="results"]', HTMLElement).hidden = book.results.length > 0;
    find('[data-empty="done"]', HTMLElement).hidden = book.done.length > 0;
    const rounds = (/** @type {Done} */ one) =>
      [one.rounds === null ? "" : `${one.rounds} rounds`, one.reps === null ? "" : `${one.reps} repetitions`, one.note].filter(Boolean).join(", ");
    find("[data-done]", HTMLElement).replaceChildren(...[...book.done].reverse().map((one) =>
      make("li", "", `${dayWords(one.day)}: ${one.session.replaceAll("-", " ")}, ${one.block}. ${rounds(one)} `, eraser("done", one.id, `${one.block} of ${dayWords(one.day)}`))));
    find("[data-notes]", HTMLElement).replaceChildren(...[...book.notes].reverse().map((one) =>
      make("li", "", `${dayWords(one.day)}: ${one.text} `, eraser("note", one.id, `the note of ${dayWords(one.day)}`))));
  }

  /** @param {Book} book */
  function fill(book) {
    for (const select of form("rungs").querySelectorAll("select")) select.value = String(book.rungs[select.name] ?? "");
    for (const input of mine.querySelectorAll("input")) {
      const value = input.name === "stature" ? book.stature_cm : input.name === "mass" ? book.body_mass_kg : book.heights[input.name.slice("height-".length)];
      if (document.activeElement !== input) input.value = value === null || value === undefined ? "" : String(value);
    }
    const { mode, kit } = rungbookPerson.kit();
    const words = mode === "picked" ? kit.map(rungbookFits.kitWords).join(", ") || "none" : "any";
    find("[data-kit]", HTMLElement).textContent = `Kit at hand: ${words}.`;
    const limits = rungbookPerson.limits();
    const names = limits ? [...limits.cautions, ...limits.traits].map(rungbookPerson.limitWords) : [];
    find("[data-limits]", HTMLElement).textContent = names.length ? `Limits: ${names.join(", ")}.` : "";
  }

  async function draw() {
    const book = rungbookBook.read();
    trouble();
    lists(book);
    fill(book);
    const place = find("[data-results]", HTMLElement);
    if (!book.results.length) {
      place.replaceChildren();
      return;
    }
    // Pictures, placing and tables are fetched with the first result.
    if (!(await bring("scripts/book-results.js")) || !(await away())) return;
    rungbookBookAway.handText();
    const able = await rungbookBookResults.show(place, book, nameOf);
    if (able) rungbookBookNorms.fill(book, (one) => rungsOf(one.ladder)?.options[one.rung]?.dataset.movement || "");
  }

  page.hidden = false;
  for (const change of ["rungbook-book", "rungbook-person"]) document.addEventListener(change, draw);
  leave();
  draw();
})();
