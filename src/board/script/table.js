// What the board's file knows by itself: who does what, what is in use, and the next best for one person.
// Never a reason, never an offer that is not in the table, never more of a thing than there is.
"use strict";

const rungbookTable = (() => {
  /** The board that a table holds. */
  function from(table) {
    const sets = table.sets.map((set) => ({ ...set, now: set.taken }));
    const counts = table.kit.map(([, count]) => count);
    const away = table.people.map(([, , later]) => later);
    // Whom something hurts asks the coach until that is taken back, also after they have gone and come.
    const asks = [...table.asks];
    const past = [];
    const moved = [];

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
      if (asks[set.who]) return found;
      set.offers.forEach((offer, at) => {
        if (room(set, offer) && (found === null || offer[1] < set.offers[found][1])) found = at;
      });
      return found;
    };
    const coachDecides = (set) => (offerOf(set)?.[0] ?? null) === null;
    const text = (set) => (coachDecides(set) ? ["Ask your coach", "", ""] : table.texts[offerOf(set)[0]]);
    const said = (set) => text(set).join("\n");
    const put = (set, at) => {
      const before = said(set);
      set.now = at;
      if (said(set) !== before) moved.push(set);
    };

    // Something hurts, and nobody here is told what: until the coach has decided, nothing is asked.
    const hurts = (who) => {
      asks[who] = true;
      for (const set of sets) if (set.who === who) put(set, null);
    };

    // Somebody is sore: what they do is left as it is wherever it stands in both lists, word for word. A
    // situation that says nothing of a line leaves all that was there before any: still its own list, so
    // that of two situations nothing is taken which only one of them was asked about. Where no list has been
    // made yet, the coach decides.
    const sore = (who, at) => {
      const others = table.situations[at][1];
      if (!others) return hurts(who);
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
        moved.push(set);
      });
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
        moved.push(set);
      }
    };
    const go = (who) => {
      for (const set of sets) if (set.who === who) set.now = null;
      away[who] = true;
    };

    const keep = () => past.push(JSON.stringify([sets.map((s) => [s.now, s.offers, s.sore]), counts, away, asks]));
    const back = () => {
      const [old, number, gone, hurt] = JSON.parse(past.pop());
      sets.forEach((set, at) => ([set.now, set.offers, set.sore] = old[at]));
      [[number, counts], [gone, away], [hurt, asks]].forEach(([all, to]) => all.forEach((one, at) => (to[at] = one)));
    };
    /** A touch answered from the table alone; `moved` says what is another now. */
    const does = (kind, ...of) => {
      moved.length = 0;
      if (kind === "back") return back();
      keep();
      ({ here: come, gone: go, hurts, sore, broke: broken })[kind](...of);
    };
    return { table, sets, counts, away, asks, past, moved, name, text, coachDecides, most, does };
  }
  return { from };
})();

if (typeof module !== "undefined") module.exports = rungbookTable;
