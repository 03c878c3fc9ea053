// The board in the hall: who goes or comes, is sore, which thing broke. Two touches, no network.
// Never a reason, never an offer that is not in the table, never more of a thing than there is.
"use strict";
(() => {
  const table = JSON.parse(document.getElementById("table").textContent);
  const sets = table.sets.map((set) => ({ ...set, now: set.taken }));
  const counts = table.kit.map(([, count]) => count);
  const away = table.people.map(([, , later]) => later);
  const past = [];

  const make = (tag, text, more = {}) => Object.assign(document.createElement(tag), { textContent: text }, more);
  const name = (who) => table.people[who][0];
  const offerOf = (set) => (set.now === null ? null : set.offers[set.now]);

  // What of a resource is in use; a thing that is held counts once a person, however many lines need it.
  const used = (resource, without) => {
    const held = new Map();
    let sum = 0;
    for (const set of sets) {
      const offer = set === without || away[set.who] ? null : offerOf(set);
      const use = offer && offer[2].find(([at]) => at === resource);
      if (!use) continue;
      if (table.moments[resource][1]) held.set(set.who, Math.max(held.get(set.who) || 0, use[1]));
      else sum += use[1];
    }
    return [sum, held];
  };
  const room = (set, offer) =>
    offer[2].every(([resource, n]) => {
      const [sum, held] = used(resource, set);
      const mine = held.get(set.who) || 0;
      const others = [...held.values()].reduce((a, b) => a + b, sum) - mine;
      return others + Math.max(mine, n) <= counts[table.moments[resource][0]];
    });
  const inUse = (resource) => {
    const [sum, held] = used(resource, null);
    return [...held.values()].reduce((a, b) => a + b, sum);
  };
  const over = (resource) => inUse(resource) > counts[table.moments[resource][0]];
  // The most of a thing that is in use at once: what is to be fetched.
  const most = (thing) => Math.max(0, ...table.moments.map(([of], resource) => (of === thing ? inUse(resource) : 0)));

  // The next best offer with what is free; nothing where the coach decides.
  const best = (set) => {
    let found = null;
    set.offers.forEach((offer, at) => {
      if (room(set, offer) && (found === null || offer[1] < set.offers[found][1])) found = at;
    });
    return found;
  };
  const moved = [];
  const put = (set, at) => {
    const before = said(set);
    set.now = at;
    if (said(set) !== before) moved.push([set, before]);
  };
  const text = (set) => {
    const offer = offerOf(set);
    return offer && offer[0] !== null ? table.texts[offer[0]] : ["Ask your coach", "", ""];
  };
  const said = (set) => text(set).join("\n");

  // Somebody is sore: what they do is left as it is wherever it stands in both lists, word for word. A
  // situation that says nothing of a line leaves all that was there before any: still its own list, so
  // that of two situations nothing is taken which only one of them was asked about.
  const sore = (who, at) => {
    const others = table.situations[at][1];
    const plain = (one) => JSON.stringify([one[0], one[2]]);
    sets.forEach((set, place) => {
      if (set.who !== who) return;
      const now = set.now === null ? null : plain(offerOf(set));
      const here = new Set(set.offers.map(plain));
      const left = others[place] || table.sets[place].offers;
      set.offers = set.sore ? left.filter((one) => here.has(plain(one))) : left;
      set.sore = true;
      if (away[who] || now === null) return;
      const same = set.offers.findIndex((one) => plain(one) === now);
      set.now = same < 0 ? null : same;
      if (same >= 0) return;
      set.now = best(set);
      moved.push([set, ""]);
    });
  };

  // Something hurts, and nobody here is told what: until the coach has decided, nothing is asked.
  const hurts = (who) => {
    for (const set of sets) if (set.who === who) put(set, null);
  };

  // A thing less: where too many use it, whoever loses least by it does something else.
  const broken = (thing) => {
    counts[thing] = Math.max(0, counts[thing] - 1);
    table.moments.forEach(([of], resource) => {
      while (of === thing && over(resource)) {
        const users = sets.filter((set) => !away[set.who] && offerOf(set) && offerOf(set)[2].some(([at]) => at === resource));
        let choice = null;
        for (const set of users) {
          const was = set.now;
          set.now = null;
          const at = best(set);
          set.now = was;
          if (at === null) continue;
          const loss = set.offers[at][1] - set.offers[was][1];
          if (choice === null || loss < choice.loss) choice = { set, at, loss };
        }
        // Nobody has anything else: the last by nickname asks the coach.
        if (choice) put(choice.set, choice.at);
        else put(users[users.length - 1], null);
      }
    });
  };

  const come = (who) => {
    away[who] = false;
    for (const set of sets) if (set.who === who) {
      set.now = null;
      set.now = best(set);
      moved.push([set, ""]);
    }
  };
  const go = (who) => {
    for (const set of sets) if (set.who === who) set.now = null;
    away[who] = true;
  };

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
  const show = () => {
    for (const set of sets) {
      const list = document.querySelector(`[data-line="${set.block}-${set.line}"]`);
      const old = list.querySelector(`[data-who="${set.who}"]`);
      if (away[set.who]) {
        if (old) old.remove();
      } else {
        const to = placed(list, text(set));
        if (!old || old.parentElement !== to) {
          const li = old || make("li", name(set.who));
          li.dataset.who = String(set.who);
          to.append(li);
        }
      }
      for (const one of list.querySelectorAll(".much")) one.hidden = !one.querySelector("li");
      for (const one of list.children) one.hidden = !one.querySelector(".who li");
    }
    for (const block of document.querySelectorAll(".groups")) {
      [...block.children].forEach((li, group) => {
        const here = table.people.map(([words], at) => [words, at]);
        const its = here.filter(([, at]) => !away[at] && table.groups[block.dataset.block][at] === group);
        li.querySelector("span").textContent = its.map(([words]) => words).join(", ");
      });
    }
    const hall = table.kit.map(([words], thing) => [words, most(thing)]).filter(([, n]) => n).sort(([a], [b]) => a.localeCompare(b));
    document.getElementById("hall").textContent = hall.map(([words, n]) => `${n} × ${words}`).join(", ") || "nothing";
    for (const li of document.querySelectorAll(".moved")) li.classList.remove("moved");
    for (const [set] of moved) {
      const list = document.querySelector(`[data-line="${set.block}-${set.line}"]`);
      list.querySelector(`[data-who="${set.who}"]`)?.classList.add("moved");
    }
    for (const button of document.querySelectorAll("#strip [data-who]")) {
      button.classList.toggle("away", away[button.dataset.who]);
    }
  };

  const keep = () => past.push(JSON.stringify([sets.map((s) => [s.now, s.offers, s.sore]), counts, away]));
  const back = () => {
    const [old, number, gone] = JSON.parse(past.pop());
    sets.forEach((set, at) => ([set.now, set.offers, set.sore] = old[at]));
    number.forEach((n, at) => (counts[at] = n));
    gone.forEach((is, at) => (away[at] = is));
  };
  const change = (why, does) => {
    if (does === back) back();
    else {
      keep();
      moved.length = 0;
      does();
    }
    const names = [...new Set(moved.map(([set]) => name(set.who)))];
    const who = names.length ? `New for ${names.join(", ")}; nobody else changes.` : "Nobody changes.";
    if (does === back) moved.length = 0;
    document.getElementById("said").textContent = does === back ? "Taken back." : `${why} ${who} The next best from a table made before class, not dealt out anew.`;
    show();
    choices.hidden = true;
    closed();
    undo.hidden = !past.length;
  };

  const choices = document.getElementById("choices");
  const strip = document.getElementById("strip");
  const closed = () => {
    strip.classList.remove("open");
    document.querySelectorAll("#strip [aria-expanded]").forEach((one) => one.setAttribute("aria-expanded", "false"));
  };
  const list = document.querySelector("#strip ul");
  const offer = (words, why, does) => {
    const button = make("button", words, { type: "button" });
    button.addEventListener("click", () => change(why, does));
    choices.append(button);
  };
  const open = (button, fill) => {
    const was = button.getAttribute("aria-expanded") === "true";
    closed();
    choices.hidden = was;
    button.setAttribute("aria-expanded", String(!was));
    // On a phone the other names make room for the choices.
    strip.classList.toggle("open", !was);
    choices.replaceChildren();
    if (!was) fill();
  };
  const forPerson = (who) => () => {
    if (away[who]) return offer(`${name(who)} is here`, `${name(who)} is here.`, () => come(who));
    offer(`${name(who)} has gone`, `${name(who)} has gone.`, () => go(who));
    table.situations.forEach(([words], at) => {
      // Somebody may look over the coach's shoulder: it says who does something else, not what hurts.
      offer(`${words} today`, `${name(who)} told the coach.`, () => sore(who, at));
    });
    // The copy for everybody knows no situation, so that nobody finds out by touching which one changes
    // nothing. Whatever hurts, the coach decides.
    if (!table.situations.length) offer("Something hurts", `${name(who)} asks the coach before going on.`, () => hurts(who));
  };
  const forThings = () => {
    table.kit.forEach(([words], at) => {
      if (counts[at] > 0 && table.moments.some(([of]) => of === at)) {
        offer(`${words}: one less than ${counts[at]}`, `One less of ${words}, ${counts[at] - 1} left.`, () => broken(at));
      }
    });
  };
  table.people.forEach(([words, , later], who) => {
    if (!later) return;
    const li = make("li", "");
    const button = make("button", words, { type: "button", className: "away" });
    button.dataset.who = String(who);
    button.setAttribute("aria-expanded", "false");
    li.append(button);
    list.append(li);
  });
  for (const button of document.querySelectorAll("#strip [data-who]")) {
    button.addEventListener("click", () => open(button, forPerson(Number(button.dataset.who))));
  }
  const things = make("button", "Something broke", { type: "button", id: "things" });
  things.setAttribute("aria-expanded", "false");
  things.addEventListener("click", () => open(things, forThings));
  const undo = make("button", "Take it back", { type: "button", id: "undo", hidden: true });
  undo.addEventListener("click", () => change("", back));
  for (const one of [things, undo]) {
    const li = make("li", "");
    li.append(one);
    list.append(li);
  }
  document.documentElement.classList.add("live");
})();
