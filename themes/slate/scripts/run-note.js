// The last screen of a session's clock: what was done is noted once, and a test's count becomes a result.
// Writes into My book only what was ordered and only on the member's own touch; never for the person in front.
"use strict";

/** @typedef {{place: string, version: OwnVersion, counts: "reps" | "seconds"}} RunTest */

const rungbookRunNote = (() => {
  const { make, button } = rungbookMake;
  /** Letters of a note, as the book takes them. */
  const NOTE = 2000;
  /** The run whose form stands there. */
  let shown = 0;

  /** The tests among what was done: the ladder's own rung as it was ordered. @param {RunView} seen @param {RunKnown} known @returns {RunTest[]} */
  function tests({ run }, { blocks, versions }) {
    return blocks.flatMap(({ items }, block) => items.flatMap((item, line) => {
      const version = versions?.get(`${block}/${line}`);
      const its = version && (version.kind === "fine" || version.kind === "changed") && version.ladder === item.ladder_id;
      if (!item.tests || !its || block < run.from || block > run.to) return [];
      const asked = item.asked[(version.rung || 1) - 1];
      return [{ place: `${block}-${line}`, version, counts: asked?.counts === "seconds" ? /** @type {const} */ ("seconds") : "reps" }];
    }));
  }

  /** As much as a note takes, cut between two movements. @param {string} words */
  const fitted = (words) => (words.length <= NOTE ? words : words.slice(0, words.lastIndexOf(";", NOTE)));

  /** What was done in own words: of another day as it was then. @param {RunView} seen @param {RunKnown} known */
  function doneWords({ run }, { blocks, versions }) {
    if (rungbookRunKeep.from(run)) return fitted(run.as || "");
    return versions ? fitted(rungbookOwnClock.doneIn(versions, blocks, run)) : "";
  }

  /** @param {string} text @param {string} name @param {string} value @param {string} type */
  function field(text, name, value, type) {
    const input = document.createElement("input");
    Object.assign(input, { name, value, type, min: "0", maxLength: NOTE });
    if (name.startsWith("rounds")) input.step = "any";
    return make("label", "", `${text} `, input);
  }

  /** @param {HTMLFormElement} form @param {RunView} seen @param {RunKnown} known @param {() => void} finish */
  function fill(form, seen, known, finish) {
    const single = seen.run.from === seen.run.to;
    const found = tests(seen, known);
    const counted = rungbookRun.rounds(known.parts, seen.run).filter((one) => single || one.rounds > 0);
    /** @type {HTMLElement[]} */
    const rows = [
      ...found.map(({ place, version, counts }) => field(`${[version.name, version.setting].filter(Boolean).join(", ")}: ${counts === "reps" ? "repetitions" : "seconds"}`, `test-${place}`, "", "number")),
      ...counted.map(({ block, name, rounds }) => field(single ? "Rounds" : `Rounds of ${name}`, single ? "rounds" : `rounds-${block}`, rounds > 0 ? String(rounds) : "", "number")),
    ];
    if (single && !counted.length && !found.length) rows.push(field("Rounds", "rounds", "", "number"));
    if (single && !found.length) rows.push(field("Repetitions", "reps", "", "number"));
    // What was done stands by itself: a finger in the middle of it would spoil it.
    const words = doneWords(seen, known);
    const done = document.createElement("input");
    Object.assign(done, { name: "note", value: words, type: "hidden" });
    rows.push(field("Note", "own-note", "", "text"), done);
    if (words) rows.push(make("details", "", make("summary", "", "What was done"), make("p", "quiet", words)));
    const save = button("Keep it", () => {});
    save.type = "submit";
    const day = rungbookRunKeep.from(seen.run);
    const ask = day ? `This clock is from ${day}. Note it in My book, on that day, or drop it?` : "Note it in My book?";
    form.replaceChildren(make("p", "", ask), ...rows, save, button(day ? "Drop it" : "Keep nothing", finish));
    form.onsubmit = (event) => {
      event.preventDefault();
      write(form, seen, known, finish);
    };
    save.focus();
  }

  /** @param {FormData} given @param {string} name */
  function number(given, name) {
    const text = String(given.get(name) || "");
    return text === "" ? null : Number(text);
  }

  /** The height of the member's own thing, in the numbers of the rung's setting; null where it is as written. @param {LadderData | undefined} ladder @param {OwnVersion} version */
  function ownSetting(ladder, version) {
    const rung = ladder?.rungs[(version.rung || 1) - 1];
    const table = rung && ladder?.tables[rung.movement];
    const cm = rung && version.setting !== rung.setting ? /(\d+(?:\.\d+)?) cm$/.exec(version.setting) : null;
    return table && cm ? { [table.setting]: Number(cm[1]) } : null;
  }

  /** @param {RunTest} test @param {number} amount @param {string} day @returns {Promise<Result>} */
  async function resultOf({ version, counts }, amount, day) {
    const ladder = await rungbookBring.ladder(version.ladder || "").catch(() => undefined);
    const rung = ladder?.rungs[(version.rung || 1) - 1];
    return {
      id: rungbookBook.newId(), day, ladder: version.ladder || "", rung: version.rung || 1,
      setting: ownSetting(ladder, version), counts, amount: Math.round(amount), added_kg: 0, note: version.brief,
      ...(rung ? { movement: rung.movement, settings: { ...rung.settings } } : {}),
    };
  }

  /** @param {HTMLFormElement} form @param {RunView} seen @param {RunKnown} known @param {() => void} finish */
  async function write(form, seen, known, finish) {
    const trouble = (/** @type {string} */ words) => form.append(make("p", "flag", words));
    // What the person in front did is not the member's whose device this is.
    if (seen.run.front || rungbookPerson.who().front) return trouble("Not kept: this was for the person in front, and My book is the member's own.");
    const given = new FormData(form);
    const { session, from, to } = seen.run;
    const single = from === to;
    const counted = tests(seen, known).map((test) => ({ test, amount: number(given, `test-${test.place}`) }));
    const results = await Promise.all(counted.flatMap(({ test, amount }) => (amount === null ? [] : [resultOf(test, amount, rungbookRunKeep.dayRun(seen.run))])));
    const entry = (/** @type {string} */ block, /** @type {number | null} */ rounds, /** @type {number | null} */ reps, /** @type {string} */ note) =>
      ({ id: rungbookBook.newId(), day: rungbookRunKeep.dayRun(seen.run), session, block: block.slice(0, 120), rounds, reps, note });
    const note = fitted([given.get("own-note"), given.get("note")].filter(Boolean).map(String).join("; "));
    const reps = number(given, "reps");
    const one = number(given, "rounds");
    const done = single
      ? [entry(known.blocks[from].name, one !== null && one > 0 ? one : null, reps === null ? null : Math.round(reps), note)]
      : [entry("Whole session", null, null, note), ...known.blocks.flatMap(({ name }, at) => {
        const rounds = number(given, `rounds-${at}`);
        return rounds ? [entry(name, rounds, null, "")] : [];
      })];
    const isKept = rungbookBook.change((book) => {
      book.results.push(...results);
      book.done.push(...done);
    });
    if (!isKept) return trouble(rungbookBook.whyNot());
    return kept(form, [...results, ...done].map((entered) => entered.id), finish);
  }

  /** It is kept, and can be taken out again. @param {HTMLFormElement} form @param {string[]} ids @param {() => void} finish */
  function kept(form, ids, finish) {
    form.dataset.kept = "";
    rungbookRunKeep.set(null);
    const undo = button("Undo", () => {
      rungbookBook.change((book) => {
        book.results = book.results.filter((one) => !ids.includes(one.id));
        book.done = book.done.filter((one) => !ids.includes(one.id));
      });
      form.replaceChildren(make("p", "", "Taken out again. "), button("Close", finish));
    });
    const link = make("a", "button", "My book");
    link.href = `${document.body.dataset.root || ""}book.html`;
    const close = button("Close", finish);
    form.replaceChildren(make("p", "", "Kept in My book on this device."), undo, link, close);
    close.focus();
  }

  /** The form, once the session is over. @param {HTMLFormElement} form @param {RunView} seen @param {RunKnown} known @param {() => void} finish */
  function show(form, seen, known, finish) {
    form.hidden = !seen.whole;
    const which = seen.whole ? seen.run.begun + (seen.run.ended || 1) + (known.versions ? 1 : 0) : 0;
    if (which === shown) return;
    shown = which;
    if (seen.whole) fill(form, seen, known, finish);
    else form.replaceChildren();
  }

  return { show };
})();
