// Ranks in the browser: the twin of src/search/ranking.rs and spot.rs, with tantivy's scores in its
// own arithmetic (32-bit floats). Never touches the page or the network.
"use strict";

/**
 * @typedef {{field: number, entries: Int32Array, weight: number}} Postings
 * @typedef {{heads: Postings[], text: () => Postings, ruledOut: () => Int32Array}} Token
 * @typedef {{index: SearchIndex, tokens: Map<number, Token>, pairs: Map<string, Postings>,
 *   flat: Float32Array, sums: Float32Array[]}} Ranking
 * An index with what has been worked out on it so far, and room to add up in.
 * @typedef {{kind: string, id: string, name: string, part: string, number: number, matched: string,
 *   address: string, score: number}} Hit
 */

const rungbookRanking = (() => {
  const file = rungbookIndexFile;
  const { NAME, ALSO, PARTS, SAME, TEXT, RUNGS } = file;
  const PAIRS = 6;
  const { fround } = Math;
  const NONE = new Int32Array(0);

  /** Reads an exported index. @param {Uint8Array} bytes @returns {Ranking} */
  function open(bytes) {
    const index = file.read(bytes);
    const flat = index.numbers.averages.map((average) => file.lengthFactor(1, average));
    const sums = Array.from({ length: 7 }, () => new Float32Array(index.pages.count));
    return { index, tokens: new Map(), pairs: new Map(), flat, sums };
  }

  /** BM25's weight of a word, without boost. @param {number} count @param {number} all */
  function weight(count, all) {
    const rare = fround(fround(all - count + 0.5) / fround(count + 0.5));
    return fround(fround(Math.log(fround(1 + rare))) * fround(1 + fround(1.2)));
  }

  /** @param {number} field @param {Int32Array} entries @param {number} all @returns {Postings} */
  const postings = (field, entries, all) => ({ field, entries, weight: weight(entries.length, all) });

  /** Ascending numbers, each once. @param {Int32Array[]} lists */
  function union(lists) {
    const some = lists.filter((list) => list.length > 0);
    if (some.length < 2) return some[0] || NONE;
    const all = new Int32Array(some.reduce((sum, list) => sum + list.length, 0));
    let [one, used] = [some[0], 0];
    for (let at = 1; at < some.length; at += 1) {
      used = merge(one, some[at], all);
      one = all.slice(0, used);
    }
    return one;
  }

  /** Two ascending lists into one. @param {Int32Array} one @param {Int32Array} other @param {Int32Array} into */
  function merge(one, other, into) {
    let [here, there, used] = [0, 0, 0];
    while (here < one.length || there < other.length) {
      const [mine, yours] = [one[here] ?? Infinity, other[there] ?? Infinity];
      into[used++] = mine < yours ? mine : yours;
      if (mine <= yours) here += 1;
      if (yours <= mine) there += 1;
    }
    return used;
  }

  /** Leaves out repeats. @param {Int32Array} sorted */
  const once = (sorted) => sorted.filter((number, at) => at === 0 || number !== sorted[at - 1]);

  /** The entries that have a stem in phrases of one sort. @param {SearchIndex} index @param {number} stem */
  function inPhrases({ phrases, layout }, stem) {
    const mine = phrases.phrasesOf.subarray(phrases.startOf[stem], phrases.startOf[stem + 1]);
    return [NAME, ALSO, PARTS, RUNGS].map((field) => {
      const here = mine.filter((phrase) => layout.fieldOf[phrase] === field);
      return once(here.map((phrase) => layout.entryOf[phrase]));
    });
  }

  /** The entries that say a meaning in their names and parts. @param {SearchIndex} index @param {number} token */
  function meant(index, token) {
    const { phrases, layout } = index;
    const found = index.meanings.phrasesOf[token - index.words.stems].map((said) => {
      const mine = phrases.phrasesOf.subarray(phrases.startOf[said[0]], phrases.startOf[said[0] + 1]);
      const saying = mine.filter((phrase) => {
        const stems = file.phraseStems(index, phrase);
        return layout.fieldOf[phrase] !== RUNGS &&
          stems.some((_, at) => said.every((stem, place) => stems[at + place] === stem));
      });
      return saying.map((phrase) => layout.entryOf[phrase]);
    });
    return union([...found.map(once), NONE]);
  }

  /** Everything about a token. @param {Ranking} ranking @param {number} token @returns {Token} */
  function look(ranking, token) {
    const found = ranking.tokens.get(token);
    if (found) return found;
    const { index } = ranking;
    const next = file.listsOf(index, token);
    const isStem = token < index.words.stems;
    const isWithout = !isStem && index.meanings.without[token - index.words.stems] === 1;
    const [name, also, parts, rungs] = isStem ? inPhrases(index, token) : [NONE, NONE, NONE, NONE];
    const same = isStem ? NONE : union([meant(index, token), next()]);
    const about = isStem || isWithout ? next() : NONE;
    const count = index.pages.count;
    const heads = [name, also, parts, about, same].map((entries, field) => postings(field, entries, count));
    // One letter has many words: what stands in the texts is only read when it counts.
    const mention = later(next);
    const text = later(() => {
      const entries = union([name, also, parts, rungs, about, same, mention()]);
      return postings(TEXT, entries, count);
    });
    const ruledOut = later(() => (mention(), isWithout ? next() : NONE));
    const made = { heads: heads.filter(({ entries }) => entries.length > 0), text, ruledOut };
    ranking.tokens.set(token, made);
    return made;
  }

  /** What `make` gives, made once and only when asked for. @template T @param {() => T} make */
  function later(make) {
    /** @type {T | undefined} */
    let made;
    return () => (made ??= make());
  }

  /** The entries with two stems side by side. @param {Ranking} ranking @param {number} one @param {number} other */
  function lookPair(ranking, one, other) {
    const key = `${one}+${other}`;
    const found = ranking.pairs.get(key);
    if (found) return found;
    const { phrases, layout, pages } = ranking.index;
    const mine = phrases.phrasesOf.subarray(phrases.startOf[one], phrases.startOf[one + 1]);
    const together = mine.filter((phrase) => {
      if (layout.fieldOf[phrase] === RUNGS) return false;
      const stems = file.phraseStems(ranking.index, phrase);
      return stems.some((stem, at) => at > 0 &&
        Math.min(stem, stems[at - 1]) === one && Math.max(stem, stems[at - 1]) === other);
    });
    const entries = once(together.map((phrase) => layout.entryOf[phrase]));
    const made = postings(PAIRS, entries, pages.count);
    ranking.pairs.set(key, made);
    return made;
  }

  /**
   * Adds one field's scores to `sum`; notes entries that had none.
   * @param {Ranking} ranking @param {Postings} postings @param {number} boost
   * @param {Float32Array} sum @param {number[]} touched
   */
  function addField({ index, flat }, { field, entries, weight }, boost, sum, touched) {
    const boosted = fround(weight * boost);
    const norms = field <= ALSO ? index.norms[field] : null;
    const plain = fround(boosted * flat[field]);
    for (let at = 0; at < entries.length; at += 1) {
      const entry = entries[at];
      if (sum[entry] === 0) touched.push(entry);
      sum[entry] += norms ? fround(boosted * norms[entry]) : plain;
    }
  }

  /** The larger of two for each entry. @param {Float32Array} best @param {Float32Array} from @param {number[]} touched */
  function keepBest(best, from, touched) {
    for (const entry of touched) if (from[entry] > best[entry]) best[entry] = from[entry];
  }

  /**
   * The best reading of a word: in every field, and in those an entry is about.
   * @param {Ranking} ranking @param {Choice[]} choices @param {Float32Array} best
   * @param {Float32Array} head @param {number[]} all entries that have any
   */
  function bestOf(ranking, choices, best, head, all) {
    const { sums, index } = ranking;
    const sum = sums[0];
    for (const { token, sure, namesOnly } of choices) {
      /** @type {number[]} */
      const touched = [];
      const { heads, text } = look(ranking, token);
      for (const here of heads) {
        if (namesOnly && here.field > ALSO && here.field !== SAME) continue;
        addField(ranking, here, fround(index.numbers.boosts[here.field] * sure), sum, touched);
      }
      keepBest(head, sum, touched);
      if (!namesOnly) addField(ranking, text(), fround(index.numbers.boosts[TEXT] * sure), sum, touched);
      for (const entry of touched) {
        if (best[entry] === 0) all.push(entry);
        if (sum[entry] > best[entry]) best[entry] = sum[entry];
        sum[entry] = 0;
      }
    }
  }

  /**
   * Each word by itself added up, or all as one: whichever is more.
   * @param {Ranking} ranking @param {Unit} unit
   */
  function unitScores(ranking, unit) {
    const [, word, wordHead, sum, sumHead] = ranking.sums;
    /** @type {number[]} */
    const answers = [];
    for (const choices of unit.words) {
      /** @type {number[]} */
      const touched = [];
      bestOf(ranking, choices, word, wordHead, touched);
      for (const entry of touched) {
        if (sum[entry] === 0) answers.push(entry);
        sum[entry] += word[entry];
        sumHead[entry] += wordHead[entry];
        word[entry] = 0;
        wordHead[entry] = 0;
      }
    }
    /** @type {number[]} */
    const touched = [];
    bestOf(ranking, unit.whole, word, wordHead, touched);
    for (const entry of touched) {
      if (sum[entry] === 0) answers.push(entry);
      if (word[entry] > sum[entry]) sum[entry] = word[entry];
      if (wordHead[entry] > sumHead[entry]) sumHead[entry] = wordHead[entry];
      word[entry] = 0;
      wordHead[entry] = 0;
    }
    return answers;
  }

  /** The scores of all entries that answer. @param {Ranking} ranking @param {Question} question */
  function scores(ranking, question) {
    const { index } = ranking;
    const [, , , sum, sumHead] = ranking.sums;
    const total = new Float32Array(index.pages.count);
    const heads = new Float32Array(index.pages.count);
    const units = new Uint8Array(index.pages.count);
    for (const unit of question.units) {
      for (const entry of unitScores(ranking, unit)) {
        total[entry] += sum[entry];
        heads[entry] += fround(sumHead[entry] * index.numbers.all);
        units[entry] += sumHead[entry] > 0 ? 1 : 0;
        sum[entry] = 0;
        sumHead[entry] = 0;
      }
    }
    for (const pairs of question.pairs) addPairs(ranking, pairs, total);
    const all = question.units.length;
    for (let entry = 0; all > 1 && entry < units.length; entry += 1) {
      if (units[entry] === all) total[entry] += heads[entry];
    }
    for (const token of question.without) {
      for (const entry of look(ranking, token).ruledOut()) total[entry] = 0;
    }
    return total;
  }

  /** @param {Ranking} ranking @param {Pair[]} pairs @param {Float32Array} total */
  function addPairs(ranking, pairs, total) {
    const [, word] = ranking.sums;
    /** @type {Set<number>} */
    const answers = new Set();
    for (const { one, other, sure } of pairs) {
      const here = lookPair(ranking, one, other);
      const boost = fround(ranking.index.numbers.pairBoost * sure);
      const score = fround(fround(here.weight * boost) * ranking.flat[PAIRS]);
      for (const entry of here.entries) {
        answers.add(entry);
        if (score > word[entry]) word[entry] = score;
      }
    }
    for (const entry of answers) {
      total[entry] += word[entry];
      word[entry] = 0;
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

  /** How much of the question a phrase says. @param {SearchIndex} index @param {Question} question @param {number[]} stems @param {boolean} isName */
  function said(index, question, stems, isName) {
    const tokens = new Set([...stems, ...rungbookQuestion.meaningsIn(index, stems)]);
    /** @param {Choice[]} choices */
    const best = (choices) => choices.reduce((most, { token, sure, namesOnly }) =>
      tokens.has(token) && (isName || !namesOnly) ? Math.max(most, sure) : most, 0);
    return question.units.reduce((sum, { words, whole }) => {
      const each = words.reduce((all, choices) => all + best(choices), 0);
      return sum + Math.max(each, best(whole));
    }, 0);
  }

  /** The phrase of an entry that says most. @param {SearchIndex} index @param {Question} question @param {number} entry */
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

  /** @param {SearchIndex} index @param {Question} question @param {number} entry @param {number} score @returns {Hit} */
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
    const question = rungbookQuestion.ask(ranking.index, typed);
    const total = scores(ranking, question);
    return order(ranking, total, limit).map((entry) => hit(ranking.index, question, entry, total[entry]));
  }

  return { fromBase64: file.fromBase64, open, find };
})();

if (typeof module !== "undefined") module.exports = rungbookRanking;
