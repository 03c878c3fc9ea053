// The board in the hall: who goes or comes, is sore, which thing broke. Two touches. Where its address deals
// the board out anew it is asked; else, and when it is gone, the table answers. Never a reason for others' eyes.
"use strict";
(() => {
  const written = document.getElementById("table").textContent;
  let board = rungbookTable.from(JSON.parse(written));
  const first = board.table;
  /** Under which the touches on this very board are kept while its page is open: another board has another text. */
  const key = `rungbook-board ${[...written].reduce((sum, letter) => (Math.imul(sum, 31) + letter.charCodeAt(0)) | 0, 7)}`;
  let touches = [];
  const begun = board.sets.map((set) => board.text(set)[0]);
  /** Whether a program at this address deals out anew; its number of the board that is shown. */
  let isServed = first.served;
  let number = 1;
  let canUndo = false;
  /** So many that their names are left away on paper. */
  const MANY = 3;
  /** Longer than any board took to deal out; then the table answers. */
  const LONGEST_MS = 20000;

  const make = (tag, text, more = {}) => Object.assign(document.createElement(tag), { textContent: text }, more);
  const button = (words, more = {}) => make("button", words, { type: "button", ...more });
  const strip = document.getElementById("strip");
  const choices = document.getElementById("choices");
  const said = document.getElementById("said");
  const names = strip.querySelector("ul");

  // The page: a name moves to the card of what it does now, under how much of it.
  const placed = (list, [what, cue, dose]) => {
    const is = (one, name, words) => (one.querySelector(name)?.textContent || "") === words;
    let card = [...list.children].find((one) => is(one, ".what", what) && is(one, ".cue", cue));
    if (!card) {
      card = make("li", "", { className: "card" });
      card.append(make("p", what, { className: "what" }));
      if (cue) card.append(make("p", cue, { className: "cue" }));
      list.append(card);
    }
    let much = [...card.querySelectorAll(".much")].find((one) => is(one, ".dose", dose));
    if (!much) {
      much = make("div", "", { className: "much" });
      much.append(make("p", dose, { className: "dose" }), make("ul", "", { className: "who" }));
      card.append(much);
    }
    return much.querySelector(".who");
  };
  const lineOf = (set) => {
    const line = listOf(set).closest(".line").querySelector("h3").textContent;
    return `${board.table.clock.blocks[set.block][0]}, ${line}`;
  };
  const listOf = (set) => document.querySelector(`[data-line="${set.block}-${set.line}"]`);
  const showSet = (set) => {
    const list = listOf(set);
    const old = list.querySelector(`[data-who="${set.who}"]`);
    if (board.away[set.who]) {
      if (old) old.remove();
    } else {
      const to = placed(list, board.text(set));
      if (!old || old.parentElement !== to) {
        const li = old || make("li", board.name(set.who));
        li.dataset.who = String(set.who);
        to.append(li);
      }
    }
    for (const one of list.querySelectorAll(".much")) one.hidden = !one.querySelector("li");
    for (const one of list.children) one.hidden = !one.querySelector(".who li");
  };
  /** Beside each name on a card its group in this block, or the sign of who is at home. */
  const showGroup = (li) => {
    const who = Number(li.dataset.who);
    const group = board.table.groups[li.closest("[data-line]").dataset.line.split("-")[0]]?.[who];
    const mark = board.table.people[who][1] ? "\u2302" : Number.isInteger(group) ? String.fromCharCode(65 + group) : "";
    if (mark) li.dataset.group = mark;
  };
  const showGroups = () => {
    document.querySelectorAll(".who [data-who]").forEach(showGroup);
    const { people, groups } = board.table;
    for (const block of document.querySelectorAll(".groups")) {
      [...block.children].forEach((li, group) => {
        const its = people.flatMap(([words], at) => (!board.away[at] && groups[block.dataset.block][at] === group ? [words] : []));
        li.querySelector("span").textContent = its.join(", ");
      });
    }
  };
  const showHall = () => {
    const all = board.table.kit.map(([words], thing) => [words, board.most(thing)]).filter(([, n]) => n);
    all.sort(([a], [b]) => a.localeCompare(b));
    document.getElementById("hall").textContent = all.map(([words, n]) => `${n} × ${words}`).join(", ") || "nothing";
  };
  /** The coach's reasons as they are by now; from a table alone they stay those of before. */
  const showWhy = () => {
    const section = document.querySelector(".why");
    if (!section || !board.table.why.length) return;
    section.replaceChildren(...[...section.children].slice(0, 2));
    for (const [who, lines] of board.table.why) {
      const ul = make("ul", "");
      for (const [line, why] of lines) {
        const li = make("li", "");
        li.append(make("b", line), ` ${why}`);
        ul.append(li);
      }
      if (lines.length) section.append(make("h3", who), ul);
    }
  };
  /** How much most ways of a line ask: on paper it stands once, beside the line's name. */
  const showUsual = (list, all) => {
    const doseOf = (much) => much.querySelector(".dose").textContent;
    const many = (dose) => all.filter((much) => doseOf(much) === dose).length;
    const usual = all.map(doseOf).reduce((a, b) => (many(b) > many(a) ? b : a), "");
    const said = usual && many(usual) >= MANY;
    list.closest(".line").querySelector("h3").dataset.dose = said ? usual : "";
    // Two ways of one movement say each how much it is, or one would be read with the other's.
    const alone = (much) => all.filter((one) => one.parentElement === much.parentElement).length === 1;
    for (const much of all) much.classList.toggle("usual", Boolean(said) && doseOf(much) === usual && alone(much));
  };
  /** What most do of a line: on paper they are everyone else, so that the letters can be larger. */
  const showMost = () => {
    for (const list of document.querySelectorAll(".doing")) {
      const of = (much) => much.querySelectorAll("li").length;
      const all = [...list.querySelectorAll(".much")].filter(of);
      showUsual(list, all);
      const most = all.reduce((a, b) => (of(b) > of(a) ? b : a), all[0]);
      for (const much of list.querySelectorAll(".much")) much.classList.toggle("most", much === most && of(much) >= MANY);
      list.classList.toggle("same", all.length === 1);
    }
  };
  /** On the coach's copy: what a table alone has changed, beside the reasons of before. */
  const showNew = () => {
    for (const one of document.querySelectorAll(".why .new")) one.remove();
    if (isServed) return;
    const headings = [...document.querySelectorAll(".why h3")];
    for (const [at, set] of board.sets.entries()) {
      const heading = headings.find((one) => one.textContent === board.name(set.who));
      if (!heading || board.away[set.who] || board.text(set)[0] === begun[at]) continue;
      const li = make("li", "", { className: "new" });
      li.append(make("b", lineOf(set)), ` In class: ${board.text(set)[0]}.`);
      heading.nextElementSibling.prepend(li);
    }
  };
  const show = () => {
    board.sets.forEach(showSet);
    showGroups();
    showMost();
    showHall();
    showWhy();
    showNew();
    for (const li of document.querySelectorAll(".moved")) li.classList.remove("moved");
    for (const set of board.moved) listOf(set).querySelector(`[data-who="${set.who}"]`)?.classList.add("moved");
    for (const one of strip.querySelectorAll("[data-who]")) one.classList.toggle("away", board.away[one.dataset.who]);
    undo.hidden = !(isServed ? canUndo : board.past.length);
  };

  /** What a touch says: from the table, in words of its own. */
  const alone = (why, kind, of) => {
    board.does(kind, ...of);
    if (kind === "back") touches.pop();
    else touches.push([kind, ...of]);
    if (!first.served) rungbookBoardClock.keep(key, touches);
    // Of a person's own change the cards tell; of kit others hear, so it is said where and what.
    const one = (set) => (kind === "broke" ? `${board.name(set.who)} in ${lineOf(set)}: ${board.text(set)[0]}` : board.name(set.who));
    const who = [...new Set(board.moved.map(one))];
    const changed = who.length ? `New for ${who.join("; ")}. Nobody else changes.` : "Nobody changes.";
    return kind === "back" ? "Taken back." : `${why} ${changed} The next best from a table made before class, not dealt out anew.`;
  };
  const take = (answer) => {
    const moved = new Set(answer.told.moved.map((place) => place.join("-")));
    board = rungbookTable.from(answer.table);
    board.moved.push(...board.sets.filter((set) => moved.has([set.block, set.line, set.who].join("-"))));
    ({ number, undo: canUndo } = answer);
    return answer.told.said;
  };
  /** Asks the address: an answer, its refusal in words, or nothing where it is gone. */
  const ask = async (path, how) => {
    try {
      const response = await fetch(path, { method: how, signal: AbortSignal.timeout(LONGEST_MS) });
      if (response.ok || response.status === 409) return await response.json();
      return response.status === 400 ? "That cannot be said of the board as it stands." : null;
    } catch {
      return null;
    }
  };
  /** What situations leave takes longer to reckon than a board: fetched after it, for when the address is gone. */
  const rest = async () => {
    const answer = await ask("now", "GET");
    if (isServed && answer?.number === number) board.table.situations = answer.table.situations;
    return answer;
  };
  let waits = false;
  const change = async (why, kind, ...of) => {
    if (waits) return;
    let words = null;
    if (isServed) {
      waits = true;
      strip.setAttribute("aria-busy", "true");
      said.textContent = "Dealing out anew …";
      const answer = await ask(`touch/${number}/${[kind, ...of].join("/")}`, "POST");
      waits = false;
      strip.removeAttribute("aria-busy");
      if (answer === null) gone();
      else words = typeof answer === "string" ? answer : take(answer);
      if (isServed && first.situations.length) rest();
    }
    if (words === null && kind === "back" && !board.past.length) words = "This can no longer be taken back.";
    said.textContent = words ?? alone(why, kind, of);
    show();
    // Only a touch closes what a touch opened: what comes from the address closes nothing under a finger.
    choices.hidden = true;
    closed();
  };
  const gone = () => {
    isServed = false;
    document.getElementById("how").textContent =
      "The program that deals out anew is gone, so do not load this page again: from here on each answer is the next best from its last table.";
    document.documentElement.classList.add("alone");
  };

  const closed = () => {
    strip.classList.remove("open");
    strip.querySelectorAll("[aria-expanded]").forEach((one) => one.setAttribute("aria-expanded", "false"));
  };
  const offer = (words, why, kind, ...of) => {
    const one = button(words);
    one.addEventListener("click", () => change(why, kind, ...of));
    choices.append(one);
  };
  const open = (one, fill) => {
    const was = one.getAttribute("aria-expanded") === "true";
    closed();
    choices.hidden = was;
    one.setAttribute("aria-expanded", String(!was));
    // On a phone the other names make room for the choices.
    strip.classList.toggle("open", !was);
    choices.replaceChildren();
    if (!was) fill();
  };
  const forPerson = (who) => () => {
    const name = board.name(who);
    const [, , , isGuest] = board.table.people[who];
    if (board.away[who]) return offer(`${name} is here`, `${name} is here${isGuest ? ": ask first what hurts" : ""}.`, "here", who);
    board.table.situations.forEach(([words], at) => {
      // Somebody may look over the coach's shoulder: it says who does something else, not what hurts.
      offer(`${words} today`, `${name} told the coach what hurts.`, "sore", who, at);
    });
    // The copy for everybody knows no situation, so that nobody finds out by touching which one changes
    // nothing. Whatever hurts, the coach decides.
    if (!first.situations.length) offer("Something hurts", `${name} asks the coach before going on.`, "hurts", who);
    offer(`${name} has gone`, `${name} has gone.`, "gone", who);
    choices.append(ownStrip(who));
  };
  /** All that one person does, in order. */
  const ownStrip = (who) => {
    const list = make("ol", "", { className: "own" });
    for (const [block, [name]] of board.table.clock.blocks.entries()) {
      const its = board.sets.filter((set) => set.who === who && set.block === block);
      if (!its.length) continue;
      const group = board.table.groups[block]?.[who];
      const li = make("li", "");
      li.append(make("b", Number.isInteger(group) ? `${name}, ${String.fromCharCode(65 + group)}: ` : `${name}: `));
      li.append(its.map((set) => board.text(set)).map(([what, , dose]) => [what, dose].filter(Boolean).join(" ")).join("; "));
      list.append(li);
    }
    return list;
  };
  const forThings = () => {
    board.table.kit.forEach(([words], at) => {
      const left = board.counts[at];
      if (left > 0 && board.table.moments.some(([of]) => of === at)) {
        offer(`${words}: ${left - 1} left of ${left}`, `One less of ${words}, ${left - 1} left.`, "broke", at);
      }
    });
  };
  first.people.forEach(([words, , later], who) => {
    if (!later || names.querySelector(`[data-who="${who}"]`)) return;
    const li = make("li", "");
    const one = button(words, { className: "away" });
    one.dataset.who = String(who);
    one.setAttribute("aria-expanded", "false");
    li.append(one);
    names.append(li);
  });
  for (const one of strip.querySelectorAll("[data-who]")) {
    one.addEventListener("click", () => open(one, forPerson(Number(one.dataset.who))));
  }
  const things = button("Something broke", { id: "things" });
  things.setAttribute("aria-expanded", "false");
  things.addEventListener("click", () => open(things, forThings));
  const note = button("Note what was done", { id: "note" });
  note.setAttribute("aria-expanded", "false");
  note.addEventListener("click", () => open(note, () => rungbookBoardDone.show(board, choices)));
  const undo = button("Take it back", { id: "undo", hidden: true });
  undo.addEventListener("click", () => change("", "back"));
  for (const one of [things, note, undo]) {
    const li = make("li", "");
    li.append(one);
    names.append(li);
  }
  document.documentElement.classList.add("live");
  /** What was touched before the page was read again; of what no longer makes sense nothing. */
  const again = () => {
    const kept = first.served ? null : rungbookBoardClock.kept(key);
    if (!Array.isArray(kept) || !kept.length) return;
    try {
      for (const touch of kept) board.does(...touch);
      touches = kept;
      said.textContent = `The page was read again: ${kept.length === 1 ? "one touch" : `${kept.length} touches`} before it still ${kept.length === 1 ? "counts" : "count"}.`;
    } catch {
      board = rungbookTable.from(JSON.parse(written));
      said.textContent = "The page was read again, and what was touched before could not be kept: say it again.";
    }
    board.moved.length = 0;
    show();
  };
  showGroups();
  showMost();
  again();
  rungbookBoardClock.begin(first.clock, first.groups, document.title);
  if (isServed) {
    // The page may be read again in the middle of a class: what stands is what the address says.
    rest().then((answer) => {
      if (!answer || typeof answer === "string") gone();
      // A touch may have been answered meanwhile: numbers only rise, and what is older says nothing.
      else if (answer.number > number) take(answer);
      if (isServed && answer.number === number) canUndo = answer.undo;
      show();
    });
  }
})();
