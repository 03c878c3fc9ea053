// Find my rung: from one set to the rung and dose for today, on a ladder's page, as `rungbook place`
// says it. Keeps nothing by itself; noting a result in the book is a touch of its own.
"use strict";

(() => {
  const section = document.querySelector("[data-find-rung]");
  if (!(section instanceof HTMLDetailsElement)) return;
  const id = section.dataset.findRung || "";
  const form = section.querySelector("form");
  const answer = section.querySelector("[data-answer]");
  if (!(form && answer instanceof HTMLElement)) return;

  /** @typedef {Awaited<ReturnType<typeof rungbookBring.placing>>} Placing */
  /** @type {{ladder: LadderData, placing: Placing} | null} */
  let ready = null;

  /** @param {string} name */
  function field(name) {
    const found = form?.elements.namedItem(name);
    if (found instanceof HTMLInputElement || found instanceof HTMLSelectElement) return found;
    throw new Error(`the form has no ${name}`);
  }

  /** A number that was typed; null for none. @param {string} name */
  function typed(name) {
    const text = field(name).value.trim();
    return text === "" ? null : Number(text);
  }

  /** @param {number} at from 0 */
  const counts = (at) => (ready?.ladder.sheet.rungs[at]?.counts === "seconds" ? "seconds" : "reps");

  /** The words and fields that belong to the chosen rung. */
  function showRung() {
    if (!ready) return;
    const { ladder } = ready;
    const at = Number(field("rung").value) - 1;
    const table = ladder.rungs[at].demand ? ladder.tables[ladder.rungs[at].movement] : undefined;
    const own = field("own");
    const words = own.parentElement?.querySelector("[data-words]");
    if (own.parentElement) own.parentElement.hidden = !table;
    if (!table) own.value = "";
    if (table && words && own instanceof HTMLInputElement) {
      words.textContent = `${table.setting}, if yours was another (${table.unit})`;
      own.min = String(table.values[0]);
      own.max = String(table.values[table.values.length - 1]);
      own.placeholder = String(ladder.rungs[at].settings[table.setting] ?? "");
    }
    const amount = field("amount").parentElement?.querySelector("[data-words]");
    if (amount) amount.textContent = counts(at) === "seconds" ? "Seconds held" : "Repetitions to the standard";
  }

  /** @returns {TestResult | null} */
  function result() {
    const amount = typed("amount");
    if (!ready || amount === null || !Number.isInteger(amount) || amount < 0) return null;
    const rung = Number(field("rung").value);
    const at = typed("own");
    const own = at === null ? null : ready.placing.demands.own(ready.ladder, rung - 1, at, typed("stature"));
    if (at !== null && !own) return null;
    return {
      rung, counts: counts(rung - 1), amount, own,
      body_mass_kg: typed("mass"), added_kg: typed("added") ?? 0,
    };
  }

  /** Why a number is asked again; null where there is none, or it can be. @param {string} kind @param {number | null} value */
  const cannotBe = (kind, value) => (value === null ? null : ready?.placing.cannotBe(kind, value) ?? null);

  const { make } = rungbookMake;

  /** @param {LadderRung} rung */
  const called = (rung) => (rung.setting ? `${rung.name}, ${rung.setting}` : rung.name);

  /** The same with what is at hand. @param {LadderRung} rung */
  const setUp = (rung) => (rung.at_hand ? `${called(rung)} (${rung.at_hand})` : called(rung));

  /** @param {NonNullable<ReturnType<Placing["place"]>>} found @param {LadderData} ladder */
  function list(found, ladder) {
    const rungs = found.predicted.map((known, at) => {
      const item = make("li", "", `${setUp(ladder.rungs[at])}: `);
      if (at + 1 === found.today.rung) item.setAttribute("aria-current", "true");
      item.append(make("span", known.kind === "computed" ? "computed" : "", ready ? ready.placing.knownWords(known) : ""));
      item.setAttribute("value", String(at + 1));
      const misfit = rungbookFits.why(rungbookPerson.who(), ladder.rungs[at].needs, "member");
      if (misfit) item.append(make("span", "misfit-why", misfit));
      return item;
    });
    return make("ol", "", ...rungs);
  }

  /**
   * Today's rung for whom the page is for, and how it is changed.
   * @param {LadderData} ladder @param {NonNullable<ReturnType<Placing["place"]>>} found @param {Who} who
   * @returns {(Node | string)[]}
   */
  function forPerson(ladder, found, who) {
    const at = found.today.rung - 1;
    const { say, how } = /** @type {NonNullable<typeof ready>} */ (ready).placing.sayFor(ladder, found, who);
    return how ? [say, " ", make("strong", "change-how", how)] : [say];
  }

  function tell() {
    if (!ready || !(answer instanceof HTMLElement)) return;
    showRung();
    const asked = result();
    const { ladder, placing } = ready;
    const again = asked && (cannotBe("stature", typed("stature")) || placing.askAgain(asked));
    const found = asked && !again && placing.place(ladder.sheet, placing.demands.of(ladder, typed("stature")), asked);
    if (!found) {
      answer.replaceChildren(make("p", "quiet", again || "Say the rung and what you counted in one set."));
      return;
    }
    const who = rungbookPerson.who();
    const said = make("p", "today", ...forPerson(ladder, found, who));
    // Of a rung that is left out no dose is said, and nothing moves up from it.
    const { asPlaced } = placing.sayFor(ladder, found, who);
    const lines = [..."own" in found ? [found.own] : [], found.move_up.say].filter(() => asPlaced).map((line) => make("p", "", line));
    const notes = found.notes.map((note) => make("p", "quiet", note));
    answer.replaceChildren(said, ...lines, list(found, ladder), ...notes);
  }

  /** What the book knows of the person stands in the fields already. */
  function fillFromBook() {
    const book = rungbookBook.read();
    for (const [name, value] of /** @type {const} */ ([["stature", book.stature_cm], ["mass", book.body_mass_kg]])) {
      if (value !== null && field(name).value === "") field(name).value = String(value);
    }
    const rung = book.rungs[id];
    if (rung) field("rung").value = String(rung);
  }

  function note() {
    const asked = result();
    if (!ready || !asked) return;
    const { ladder } = ready;
    const table = ladder.tables[ladder.rungs[asked.rung - 1].movement];
    const own = typed("own");
    const kept = rungbookBook.change((book) => {
      book.results.push({
        id: rungbookBook.newId(),
        day: rungbookBook.today(),
        ladder: id,
        rung: asked.rung,
        setting: own === null || !table ? null : { [table.setting]: own },
        counts: asked.counts,
        amount: asked.amount,
        added_kg: asked.added_kg,
        note: "",
      });
    });
    const said = section?.querySelector("[data-noted]");
    if (said) said.textContent = kept ? "Noted in My book, on this device." : rungbookBook.whyNot();
  }

  async function open() {
    if (ready) return;
    try {
      const [ladder, placing] = await Promise.all([rungbookBring.ladder(id), rungbookBring.placing()]);
      await rungbookBring.files(["scripts/book.js"]);
      ready = { ladder, placing };
      fillFromBook();
      tell();
    } catch {
      answer?.replaceChildren(make("p", "", "The numbers of this ladder did not come. Close this, and open it again with a signal."));
    }
  }

  section.hidden = false;
  const way = document.querySelector("[data-to-find-rung]");
  if (way instanceof HTMLElement) {
    way.hidden = false;
    way.addEventListener("click", () => (section.open = true));
  }
  section.addEventListener("toggle", () => {
    if (section.open) open();
  });
  document.addEventListener("rungbook-person", () => { if (ready) tell(); });
  form.addEventListener("input", tell);
  form.addEventListener("submit", (event) => {
    event.preventDefault();
    note();
  });
})();
