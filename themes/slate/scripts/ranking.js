// Ranks in the browser: the twin of src/search/ranking.rs and spot.rs, with tantivy's scores in its
// own arithmetic (32-bit floats). Never touches the page or the network.
// The next line asks the browser to make all of it ready on arrival, not at the first question.
//# allFunctionsCalledOnLoad
"use strict";

/**
 * @typedef {{total: Float32Array, gains: Float32Array, units: Uint8Array}} Sums
 * Of each entry: its score so far, what it gains if about everything asked, and about how many units it is.
 * @typedef {{index: SearchIndex, known: Known, flat: Float32Array, heard: Map<string, Said[]>,
 *   summed: Said[][], before: Sums, now: Sums, best: Float32Array, bestHead: Float32Array,
 *   sum: Float32Array, sumHead: Float32Array, touched: Int32Array, added: Int32Array,
 *   withHead: Uint8Array}} Ranking
 * An index; the sums of the units before the one that is being typed; and room to add up in: `best`,
 * `sum` and `withHead` hold nothing between two uses.
 * @typedef {{kind: string, id: string, name: string, part: string, number: number, matched: string,
 *   address: string, score: number}} Hit
 */

const rungbookRanking = (() => {
  const file = rungbookIndexFile;
  const { NAME, ALSO, PARTS, ABOUT, SAME, TEXT } = file;
  const PAIRS = 6;
  /** Fields as bits, as rungbookPostings has them. */
  const [IN_NAME, IN_ALSO, IN_PARTS, IN_ABOUT, IN_SAME] = [1, 2, 4, 8, 16];
  const { fround } = Math;

  /** Reads an exported index, with stops. @param {string} letters @returns {Generator<void, Ranking, void>} */
  function* opening(letters) {
    const index = yield* file.reading(letters);
    const flat = Float32Array.from(index.head.averages, (average) => file.lengthFactor(1, average));
    const { count } = index;
    const room = () => new Float32Array(count);
    const sums = () => ({ total: room(), gains: room(), units: new Uint8Array(count) });
    return {
      index, known: rungbookPostings.open(index), flat, heard: new Map(), summed: [], before: sums(), now: sums(),
      best: room(), bestHead: room(), sum: room(), sumHead: room(),
      touched: new Int32Array(count), added: new Int32Array(count), withHead: new Uint8Array(count),
    };
  }

  /** Reads an exported index at once. @param {string} letters */
  const open = (letters) => file.toTheEnd(opening(letters));

  /**
   * How a token scores, meant so surely: in each of its entries without the text, and in a text. Kept,
   * as the next letter mostly asks for it again.
   * @param {Ranking} ranking @param {Token} token @param {number} sure
   */
  function scored({ index, flat }, token, sure) {
    if (token.scored?.sure === sure) return token.scored;
    const { entries, fields, weights } = token;
    const { inName, inAlso } = index.norms;
    /** @param {number} field */
    const boosted = (field) => fround(weights[field] * fround(index.head.boosts[field] * sure));
    /** @param {number} field */
    const once = (field) => fround(boosted(field) * flat[field]);
    const [name, also, parts, about, same] = [boosted(NAME), boosted(ALSO), once(PARTS), once(ABOUT), once(SAME)];
    const heads = new Float32Array(entries.length);
    for (let at = 0; at < entries.length; at += 1) {
      const entry = entries[at];
      const has = fields[at];
      let head = 0;
      if (has & IN_NAME) head = fround(name * (inName[entry] || file.nameNorm(index, entry)));
      if (has & IN_ALSO) head = fround(head + fround(also * (inAlso[entry] || file.alsoNorm(index, entry))));
      if (has & IN_PARTS) head = fround(head + parts);
      if (has & IN_ABOUT) head = fround(head + about);
      if (has & IN_SAME) head = fround(head + same);
      heads[at] = head;
    }
    return (token.scored = { sure, heads, text: once(TEXT) });
  }

  /** Keeps, for each entry with a token, its score if it is better than the best so far. @param {Ranking} ranking @param {Choice} choice @param {number} used how many entries had any before */
  function keepBest(ranking, { token, sure, namesOnly }, used) {
    const found = rungbookPostings.look(ranking.known, token, namesOnly);
    const { heads, text } = scored(ranking, found, sure);
    const withHeads = keepHeads(ranking, found.entries, heads, namesOnly ? 0 : text, used);
    return namesOnly ? withHeads : keepMentions(ranking, rungbookPostings.mention(ranking.known, found), text, withHeads);
  }

  /** Its entries. A loop of its own, which the browser makes fast at once. @param {Ranking} ranking @param {Int32Array} entries @param {Float32Array} heads @param {number} text @param {number} used */
  function keepHeads({ best, bestHead, touched }, entries, heads, text, used) {
    for (let at = 0; at < entries.length; at += 1) {
      const entry = entries[at];
      const head = heads[at];
      if (head > bestHead[entry]) bestHead[entry] = head;
      const score = fround(head + text);
      const before = best[entry];
      if (score <= before) continue;
      if (before === 0) touched[used++] = entry;
      best[entry] = score;
    }
    return used;
  }

  /** Entries that only mention it. @param {Ranking} ranking @param {Int32Array} mentioning @param {number} text @param {number} used */
  function keepMentions({ best, touched }, mentioning, text, used) {
    for (let at = 0; at < mentioning.length; at += 1) {
      const entry = mentioning[at];
      const before = best[entry];
      if (text <= before) continue;
      if (before === 0) touched[used++] = entry;
      best[entry] = text;
    }
    return used;
  }

  /** The best reading for each entry; how many are touched. @param {Ranking} ranking @param {Choice[]} choices */
  function bestOf(ranking, choices) {
    let used = 0;
    for (const choice of choices) used = keepBest(ranking, choice, used);
    return used;
  }

  /** Adds a unit to the sums. @param {Ranking} ranking @param {Unit} unit @param {Sums} sums */
  function addUnit(ranking, unit, sums) {
    const { best, bestHead, touched } = ranking;
    if (unit.words.length === 1 && unit.whole.length === 0) {
      addTo(sums, bestOf(ranking, unit.words[0]), touched, best, bestHead, ranking.index.head.all);
    } else addTogether(ranking, unit, sums);
  }

  /** Adds up, and leaves nothing behind. @param {Sums} sums @param {number} used @param {Int32Array} touched @param {Float32Array} scores @param {Float32Array} heads @param {number} gain */
  function addTo({ total, gains, units }, used, touched, scores, heads, gain) {
    for (let at = 0; at < used; at += 1) {
      const entry = touched[at];
      total[entry] += scores[entry];
      scores[entry] = 0;
      if (heads[entry] === 0) continue;
      gains[entry] += fround(heads[entry] * gain);
      units[entry] += 1;
      heads[entry] = 0;
    }
  }

  /**
   * Each word by itself added up, or all as one: whichever is more. About the unit is what is about
   * each word, or about all as one.
   * @param {Ranking} ranking @param {Unit} unit @param {Sums} sums
   */
  function addTogether(ranking, unit, sums) {
    const { sum, sumHead, added, withHead } = ranking;
    let used = 0;
    for (const word of unit.words) used = addWord(ranking, bestOf(ranking, word), used);
    for (let at = 0; at < used; at += 1) {
      if (withHead[added[at]] < unit.words.length) sumHead[added[at]] = 0;
      withHead[added[at]] = 0;
    }
    used = addWhole(ranking, bestOf(ranking, unit.whole), used);
    addTo(sums, used, added, sum, sumHead, ranking.index.head.all);
  }

  /** One word of several. @param {Ranking} ranking @param {number} count of entries with it @param {number} used */
  function addWord({ best, bestHead, sum, sumHead, touched, added, withHead }, count, used) {
    for (let at = 0; at < count; at += 1) {
      const entry = touched[at];
      if (sum[entry] === 0) added[used++] = entry;
      sum[entry] += best[entry];
      sumHead[entry] += bestHead[entry];
      if (bestHead[entry] > 0) withHead[entry] += 1;
      best[entry] = 0;
      bestHead[entry] = 0;
    }
    return used;
  }

  /** All words as one. @param {Ranking} ranking @param {number} count of entries with it @param {number} used */
  function addWhole({ best, bestHead, sum, sumHead, touched, added }, count, used) {
    for (let at = 0; at < count; at += 1) {
      const entry = touched[at];
      if (sum[entry] === 0) added[used++] = entry;
      sum[entry] = Math.max(sum[entry], best[entry]);
      sumHead[entry] = Math.max(sumHead[entry], bestHead[entry]);
      best[entry] = 0;
      bestHead[entry] = 0;
    }
    return used;
  }

  /**
   * The sums of all units but the last: the words before the one being typed are mostly those of the
   * keystroke before.
   * @param {Ranking} ranking @param {Unit[]} units
   */
  function sumBefore(ranking, units) {
    const { summed, before } = ranking;
    const known = summed.length <= units.length && summed.every((said, at) =>
      said.length === units[at].said.length && said.every((word, place) => word === units[at].said[place]));
    if (!known) {
      summed.length = 0;
      for (const room of [before.total, before.gains, before.units]) room.fill(0);
    }
    for (const unit of units.slice(summed.length)) {
      addUnit(ranking, unit, before);
      summed.push(unit.said);
    }
  }

  /** The scores of all entries that answer. @param {Ranking} ranking @param {Question} question */
  function scores(ranking, { units, pairs, without }) {
    const { before, now } = ranking;
    sumBefore(ranking, units.slice(0, -1));
    now.total.set(before.total);
    now.gains.set(before.gains);
    now.units.set(before.units);
    for (const unit of units.slice(-1)) addUnit(ranking, unit, now);
    for (const either of pairs) addPairs(ranking, either, now.total);
    const all = units.length;
    const several = units.reduce((sum, { words }) => sum + Math.max(1, words.length), 0) > 1;
    for (let entry = 0; several && entry < now.units.length; entry += 1) {
      if (now.units[entry] === all) now.total[entry] += now.gains[entry];
    }
    for (const token of without) {
      for (const entry of rungbookPostings.ruledOut(ranking.known, token)) now.total[entry] = 0;
    }
    return now.total;
  }

  /** @param {Ranking} ranking @param {Pair[]} pairs @param {Float32Array} total */
  function addPairs(ranking, pairs, total) {
    const { index, known, flat, best, touched } = ranking;
    let used = 0;
    for (const { one, other, sure } of pairs) {
      const { entries, weight } = rungbookPostings.lookPair(known, one, other);
      const boost = fround(index.head.pair_boost * sure);
      const score = fround(fround(weight * boost) * flat[PAIRS]);
      for (const entry of entries) {
        if (best[entry] === 0) touched[used++] = entry;
        if (score > best[entry]) best[entry] = score;
      }
    }
    for (let at = 0; at < used; at += 1) {
      total[touched[at]] += best[touched[at]];
      best[touched[at]] = 0;
    }
  }

  /** The entries that answer best, best first. @param {Ranking} ranking @param {Float32Array} total @param {number} limit */
  function order({ index }, total, limit) {
    const { steps } = index.head;
    const count = total.length;
    /** @type {number[]} */
    const keys = [];
    let worst = Infinity;
    // Whatever scores no more than this comes after all that are kept.
    let low = 0;
    for (let entry = 0; entry < count; entry += 1) {
      if (total[entry] <= low) continue;
      // One number that sorts by score first and by entry among equals.
      const key = entry - Math.round(total[entry] * steps) * count;
      if (key >= worst) continue;
      let at = keys.length;
      while (at > 0 && keys[at - 1] > key) at -= 1;
      keys.splice(at, 0, key);
      if (keys.length > limit) keys.pop();
      if (keys.length < limit) continue;
      worst = keys[limit - 1];
      low = Math.max(0, (Math.floor(-worst / count) - 1) / steps);
    }
    return keys.map((key) => ((key % count) + count) % count);
  }

  /**
   * What each token may stand for: its word or whole, each with a number, and how surely.
   * @param {Question} question
   */
  function meantBy({ units }) {
    /** @type {Map<number, {slot: number, sure: number, namesOnly: boolean}[]>} */
    const byToken = new Map();
    let slots = 0;
    /** @param {Choice[]} choices */
    const slotOf = (choices) => {
      for (const { token, sure, namesOnly } of choices) {
        const known = byToken.get(token);
        const meant = { slot: slots, sure, namesOnly };
        if (known) known.push(meant);
        else byToken.set(token, [meant]);
      }
      return slots++;
    };
    const asked = units.map(({ words, whole }) => ({ words: words.map(slotOf), whole: slotOf(whole) }));
    return { byToken, asked, best: new Float64Array(slots) };
  }

  /** @typedef {ReturnType<typeof meantBy>} MeantBy */
  /** How much of the question a phrase says. @param {SearchIndex} index @param {MeantBy} question @param {ArrayLike<number>} stems @param {boolean} isName */
  function said(index, { byToken, asked, best }, stems, isName) {
    best.fill(0);
    /** @param {number} token */
    const hear = (token) => {
      for (const { slot, sure, namesOnly } of byToken.get(token) || []) {
        if (sure > best[slot] && (isName || !namesOnly)) best[slot] = sure;
      }
    };
    for (let at = 0; at < stems.length; at += 1) hear(stems[at]);
    rungbookQuestion.meaningsIn(index, stems, hear);
    let sum = 0;
    for (const { words, whole } of asked) {
      let each = 0;
      for (const slot of words) each += best[slot];
      sum += Math.max(each, best[whole]);
    }
    return sum;
  }

  /** The phrase of an entry that says most. @param {SearchIndex} index @param {MeantBy} question @param {number} entry */
  function spot(index, question, entry) {
    const phrases = file.phrasesOf(index, entry);
    const name = phrases[0].stems;
    let [spotted, most] = [0, said(index, question, name, true)];
    for (let number = 1; number < phrases.length; number += 1) {
      const { field, stems } = phrases[number];
      const isName = field === ALSO;
      const here = said(index, question, isName ? stems : [...name, ...stems], isName);
      if (here > most) [spotted, most] = [number, here];
    }
    const { stems, field } = phrases[spotted];
    // A phrase that says nothing of the question is no place to be found at.
    const length = most === 0 ? Infinity : 2 * stems.length + (field === ALSO || spotted === 0 ? 0 : 1);
    return { ...phrases[spotted], number: spotted, length };
  }

  /** @typedef {ReturnType<typeof spot>} Spot */
  /**
   * Puts those whose phrase says little more than was asked before their equals, a name before a
   * part; looks at all of the equals on the last step, of which some may stand beyond the limit.
   * @param {Ranking} ranking @param {Float32Array} total @param {number[]} entries @param {(entry: number) => Spot} spotOf
   */
  function settle({ index: { head } }, total, entries, spotOf) {
    /** @param {number} entry */
    const stepOf = (entry) => Math.round(total[entry] * head.steps);
    /** @type {number[]} */
    const settled = [];
    for (let at = 0; at < entries.length; ) {
      const step = stepOf(entries[at]);
      let equals = entries.filter((entry) => stepOf(entry) === step);
      at += equals.length;
      if (at === entries.length) equals = onStep(total, step, head.steps);
      if (equals.length > 1 && equals.length <= head.equals) {
        const lengths = new Map(equals.map((entry) => [entry, spotOf(entry).length]));
        /** @param {number} entry */
        const of = (entry) => lengths.get(entry) ?? Infinity;
        equals.sort((one, other) => (of(one) === of(other) ? one - other : of(one) - of(other)));
      }
      settled.push(...equals);
    }
    return settled.slice(0, entries.length);
  }

  /** Every entry on a step of the scores. @param {Float32Array} total @param {number} step @param {number} steps */
  function onStep(total, step, steps) {
    /** @type {number[]} */
    const found = [];
    for (let entry = 0; entry < total.length; entry += 1) {
      if (total[entry] > 0 && Math.round(total[entry] * steps) === step) found.push(entry);
    }
    return found;
  }

  /** @param {SearchIndex} index @param {Spot} phrase @param {number} entry @param {number} score @returns {Hit} */
  function hit(index, phrase, entry, score) {
    const place = file.placeOf(index, entry, phrase.number);
    const { kind } = file.kindOf(index, entry);
    const [part, numbered] = place ? index.head.sorts[place.sort] : ["page", false];
    const where = place ? part + (numbered ? ` ${place.number}` : "") : "also";
    return {
      kind, id: file.idOf(index, entry), name: file.nameOf(index, entry), part,
      number: place ? place.number : 0, score, address: file.addressOf(index, entry, place),
      // Where its text alone has the words, it may name a situation to warn of it.
      matched: phrase.length === Infinity ? "in its text" : phrase.number === 0 ? kind : `${where}: ${file.phraseText(index, phrase.at, phrase.field)}`,
    };
  }

  /** The best answers to what was typed. @param {Ranking} ranking @param {string} typed @param {number} limit */
  function find(ranking, typed, limit) {
    const { index } = ranking;
    const question = rungbookQuestion.ask(index, typed, ranking.heard);
    const total = scores(ranking, question);
    const meant = meantBy(question);
    /** @type {Map<number, Spot>} */
    const spots = new Map();
    /** @param {number} entry */
    const spotOf = (entry) => {
      const known = spots.get(entry) ?? spot(index, meant, entry);
      spots.set(entry, known);
      return known;
    };
    const entries = settle(ranking, total, order(ranking, total, limit), spotOf);
    // A movement that is called exactly what was typed stands first.
    /** @param {number} entry */
    const isIt = (entry) => +(file.kindOf(index, entry).kind === "movement" && rungbookQuestion.isSame(index, file.nameOf(index, entry), typed));
    entries.sort((one, other) => isIt(other) - isIt(one));
    return entries.map((entry) => hit(index, spotOf(entry), entry, total[entry]));
  }

  return { open, opening, find };
})();

if (typeof module !== "undefined") module.exports = rungbookRanking;
