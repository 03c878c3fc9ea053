// Ranks in the browser: the twin of src/search/ranking.rs and spot.rs, with tantivy's scores in its
// own arithmetic (32-bit floats). Never touches the page or the network.
"use strict";

/**
 * @typedef {{entries: Int32Array, scores: Float32Array, heads: Float32Array}} Scored
 * Entries with their scores from every field, and from the fields that an entry is about.
 * @typedef {{index: SearchIndex, known: Known, flat: Float32Array, heard: Map<string, Said[]>,
 *   scored: Map<Choice[], Scored>, best: Float32Array, bestHead: Float32Array, sum: Float32Array,
 *   sumHead: Float32Array, touched: Int32Array}} Ranking
 * An index, what the last question has worked out, and room to add up in: nothing between two uses.
 * @typedef {{kind: string, id: string, name: string, part: string, number: number, matched: string,
 *   address: string, score: number}} Hit
 */

const rungbookRanking = (() => {
  const file = rungbookIndexFile;
  const { NAME, ALSO, PARTS, ABOUT, SAME, TEXT } = file;
  const PAIRS = 6;
  /** Fields as bits, as rungbookPostings has them. */
  const [IN_NAME, IN_ALSO, IN_PARTS, IN_ABOUT, IN_SAME] = [1, 2, 4, 8, 16];
  const NAMES = IN_NAME | IN_ALSO | IN_SAME;
  const { fround } = Math;

  /**
   * Reads an exported index, with stops.
   * @param {string} letters @returns {Generator<void, Ranking, void>}
   */
  function* opening(letters) {
    const index = yield* file.reading(letters);
    const flat = index.numbers.averages.map((average) => file.lengthFactor(1, average));
    const room = () => new Float32Array(index.pages.count);
    return {
      index, known: rungbookPostings.open(index), flat, heard: new Map(), scored: new Map(), best: room(),
      bestHead: room(), sum: room(), sumHead: room(), touched: new Int32Array(index.pages.count),
    };
  }

  /** Reads an exported index at once. @param {string} letters */
  const open = (letters) => file.toTheEnd(opening(letters));

  /**
   * Keeps, for each entry with the token, its score if it is better than the best so far.
   * @param {Ranking} ranking @param {Choice} choice @param {number} used how many entries had any before
   */
  function keepBest(ranking, { token, sure, namesOnly }, used) {
    const { index, flat, best, bestHead, touched } = ranking;
    const { entries, fields, weights, mention } = rungbookPostings.look(ranking.known, token);
    const [inName, inAlso] = index.norms;
    const boosted = index.numbers.boosts.map((boost, field) => weights[field] * fround(boost * sure));
    const [parts, about, same, text] = [PARTS, ABOUT, SAME, TEXT].map((field) => fround(boosted[field] * flat[field]));
    const [name, also] = [boosted[NAME], boosted[ALSO]];
    const counting = namesOnly ? NAMES : -1;
    for (let at = 0; at < entries.length; at += 1) {
      const [entry, has] = [entries[at], fields[at] & counting];
      if (has === 0) continue;
      let score = 0;
      if (has & IN_NAME) score = fround(name * inName[entry]);
      if (has & IN_ALSO) score = fround(score + fround(also * inAlso[entry]));
      if (has & IN_PARTS) score = fround(score + parts);
      if (has & IN_ABOUT) score = fround(score + about);
      if (has & IN_SAME) score = fround(score + same);
      if (score > bestHead[entry]) bestHead[entry] = score;
      if (!namesOnly) score = fround(score + text);
      if (best[entry] === 0) touched[used++] = entry;
      if (score > best[entry]) best[entry] = score;
    }
    if (namesOnly) return used;
    const mentioning = mention();
    for (let at = 0; at < mentioning.length; at += 1) {
      const entry = mentioning[at];
      if (best[entry] === 0) touched[used++] = entry;
      if (text > best[entry]) best[entry] = text;
    }
    return used;
  }

  /** The best reading of a word for each entry. @param {Ranking} ranking @param {Choice[]} choices @returns {Scored} */
  function bestOf(ranking, choices) {
    const { best, bestHead, touched } = ranking;
    let used = 0;
    for (const choice of choices) used = keepBest(ranking, choice, used);
    const entries = touched.slice(0, used);
    const [scores, heads] = [new Float32Array(used), new Float32Array(used)];
    for (let at = 0; at < used; at += 1) {
      const entry = entries[at];
      scores[at] = best[entry];
      heads[at] = bestHead[entry];
      best[entry] = 0;
      bestHead[entry] = 0;
    }
    return { entries, scores, heads };
  }

  /**
   * Each word by itself added up, or all as one: whichever is more.
   * @param {Ranking} ranking @param {Unit} unit @param {(choices: Choice[]) => Scored} scoreOf
   */
  function unitScores(ranking, unit, scoreOf) {
    if (unit.words.length === 1 && unit.whole.length === 0) return scoreOf(unit.words[0]);
    const { sum, sumHead, touched } = ranking;
    // Read first: the room for entries is needed for each.
    const [words, whole] = [unit.words.map(scoreOf), bestOf(ranking, unit.whole)];
    let used = 0;
    for (const { entries, scores, heads } of words) {
      for (let at = 0; at < entries.length; at += 1) {
        const entry = entries[at];
        if (sum[entry] === 0) touched[used++] = entry;
        sum[entry] += scores[at];
        sumHead[entry] += heads[at];
      }
    }
    for (let at = 0; at < whole.entries.length; at += 1) {
      const entry = whole.entries[at];
      if (sum[entry] === 0) touched[used++] = entry;
      if (whole.scores[at] > sum[entry]) sum[entry] = whole.scores[at];
      if (whole.heads[at] > sumHead[entry]) sumHead[entry] = whole.heads[at];
    }
    const entries = touched.slice(0, used);
    const scores = Float32Array.from(entries, (entry) => sum[entry]);
    const heads = Float32Array.from(entries, (entry) => sumHead[entry]);
    for (const entry of entries) {
      sum[entry] = 0;
      sumHead[entry] = 0;
    }
    return { entries, scores, heads };
  }

  /** The scores of all entries that answer. @param {Ranking} ranking @param {Question} question */
  function scores(ranking, question) {
    const { index, known } = ranking;
    const total = new Float32Array(index.pages.count);
    const gains = new Float32Array(index.pages.count);
    const units = new Uint8Array(index.pages.count);
    // The words before the last are those of the keystroke before: their scores stand already.
    const [before, now] = [ranking.scored, new Map()];
    /** @param {Choice[]} choices */
    const scoreOf = (choices) => {
      const scored = now.get(choices) || before.get(choices) || bestOf(ranking, choices);
      now.set(choices, scored);
      return scored;
    };
    const gain = index.numbers.all;
    for (const unit of question.units) {
      const { entries, scores, heads } = unitScores(ranking, unit, scoreOf);
      for (let at = 0; at < entries.length; at += 1) {
        const entry = entries[at];
        total[entry] += scores[at];
        if (heads[at] === 0) continue;
        gains[entry] += fround(heads[at] * gain);
        units[entry] += 1;
      }
    }
    ranking.scored = now;
    for (const pairs of question.pairs) addPairs(ranking, pairs, total);
    const all = question.units.length;
    for (let entry = 0; all > 1 && entry < units.length; entry += 1) {
      if (units[entry] === all) total[entry] += gains[entry];
    }
    for (const token of question.without) {
      for (const entry of rungbookPostings.look(known, token).ruledOut()) total[entry] = 0;
    }
    return total;
  }

  /** @param {Ranking} ranking @param {Pair[]} pairs @param {Float32Array} total */
  function addPairs(ranking, pairs, total) {
    const { index, known, flat, best, touched } = ranking;
    let used = 0;
    for (const { one, other, sure } of pairs) {
      const { entries, weight } = rungbookPostings.lookPair(known, one, other);
      const boost = fround(index.numbers.pairBoost * sure);
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
    const { steps } = index.numbers;
    const count = total.length;
    /** @type {number[]} */
    const keys = [];
    let worst = Infinity;
    for (let entry = 0; entry < count; entry += 1) {
      if (total[entry] === 0) continue;
      // One number that sorts by score first and by entry among equals.
      const key = entry - Math.round(total[entry] * steps) * count;
      if (key >= worst) continue;
      let at = keys.length;
      while (at > 0 && keys[at - 1] > key) at -= 1;
      keys.splice(at, 0, key);
      if (keys.length > limit) keys.pop();
      if (keys.length === limit) worst = keys[limit - 1];
    }
    return keys.map((key) => ((key % count) + count) % count);
  }

  /**
   * The tokens of each word and of each whole with how surely they are meant: in names, elsewhere.
   * @param {Question} question
   */
  function meantBy({ units }) {
    /** @param {Choice[]} choices */
    const both = (choices) => {
      const [names, elsewhere] = [new Map(), new Map()];
      for (const { token, sure, namesOnly } of choices) {
        names.set(token, sure);
        if (!namesOnly) elsewhere.set(token, sure);
      }
      return { names, elsewhere };
    };
    return units.map(({ words, whole }) => ({ words: words.map(both), whole: both(whole) }));
  }

  /** @typedef {ReturnType<typeof meantBy>} MeantBy */

  /** How much of the question a phrase says. @param {SearchIndex} index @param {MeantBy} question @param {number[]} stems @param {boolean} isName */
  function said(index, question, stems, isName) {
    const tokens = [...stems, ...rungbookQuestion.meaningsIn(index, stems)];
    /** @param {MeantBy[number]["whole"]} meant */
    const best = ({ names, elsewhere }) => {
      const here = isName ? names : elsewhere;
      let most = 0;
      if (here.size === 0) return most;
      for (const token of tokens) {
        const sure = here.get(token);
        if (sure !== undefined && sure > most) most = sure;
      }
      return most;
    };
    let sum = 0;
    for (const { words, whole } of question) {
      let each = 0;
      for (const word of words) each += best(word);
      sum += Math.max(each, best(whole));
    }
    return sum;
  }

  /** The phrase of an entry that says most. @param {SearchIndex} index @param {MeantBy} question @param {number} entry */
  function spot(index, question, entry) {
    const [first, end] = [index.layout.first[entry], index.layout.first[entry + 1]];
    const name = [...file.phraseStems(index, first)];
    let [spotted, most] = [first, said(index, question, name, true)];
    for (let phrase = first + 1; phrase < end; phrase += 1) {
      const isName = index.layout.fieldOf[phrase] === ALSO;
      const stems = [...file.phraseStems(index, phrase)];
      const here = said(index, question, isName ? stems : [...name, ...stems], isName);
      if (here > most) [spotted, most] = [phrase, here];
    }
    return spotted;
  }

  /** @param {SearchIndex} index @param {MeantBy} question @param {number} entry @param {number} score @returns {Hit} */
  function hit(index, question, entry, score) {
    const { kinds, kindOf, sorts } = index.pages;
    const first = index.layout.first[entry];
    const phrase = spot(index, question, entry);
    const place = file.placeOf(index, phrase);
    const kind = kinds[kindOf[entry]].word;
    const sort = place ? sorts[place.sort] : { word: "page", numbered: false };
    const where = place ? sort.word + (sort.numbered ? ` ${place.number}` : "") : "also";
    return {
      kind, id: file.idOf(index, entry), name: file.phraseText(index, first), part: sort.word,
      number: place ? place.number : 0, score, address: file.addressOf(index, entry, place),
      matched: phrase === first ? kind : `${where}: ${file.phraseText(index, phrase)}`,
    };
  }

  /** The best answers to what was typed. @param {Ranking} ranking @param {string} typed @param {number} limit */
  function find(ranking, typed, limit) {
    const { index } = ranking;
    const question = rungbookQuestion.ask(index, typed, ranking.heard);
    const total = scores(ranking, question);
    const meant = meantBy(question);
    return order(ranking, total, limit).map((entry) => hit(index, meant, entry, total[entry]));
  }

  return { open, opening, find };
})();

if (typeof module !== "undefined") module.exports = rungbookRanking;
