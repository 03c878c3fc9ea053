// Where the tokens of a question stand: the entries of each, by field, worked out when first asked
// for. Never scores, never touches the page or the network.
"use strict";

/**
 * @typedef {{entries: Int32Array, fields: Uint8Array, weights: Float32Array, mentions: number,
 *   mentioning: Int32Array | undefined, rest: {size: () => number, entries: (length: number) => Int32Array,
 *   others: (length: number, known: Int32Array, marks: Uint8Array) => Int32Array},
 *   scored: {sure: number, heads: Float32Array, text: number} | undefined}} Token
 * The entries with a token in a phrase, in what they are about or in another wording; for each the
 * fields as bits; the weight of the token in each field; how many only mention it, and once they
 * were asked for, which; its other lists; the last scores.
 * @typedef {{entries: Int32Array, weight: number}} Postings
 * @typedef {{index: SearchIndex, tokens: (Token | undefined)[], inNames: (Token | undefined)[], pairs: Map<number, Postings>, marks: Uint8Array, found: Int32Array}} Known
 * What has been worked out so far, and room to work in: `marks` is all nothing between two uses.
 */

const rungbookPostings = (() => {
  const { ABOUT, SAME, TEXT, RUNGS } = rungbookIndexFile;
  const { fround } = Math;
  const NONE = new Int32Array(0);
  /** The bit of each field; rungs count with the text alone. */
  const BIT = [1, 2, 4, 8, 16, 0, 32];
  const NAMES = 1 | 2 | 16;

  /** @param {number} length @returns {undefined[]} */
  const empty = (length) => new Array(length).fill(undefined);

  /** @param {SearchIndex} index @returns {Known} */
  function open(index) {
    const { count } = index.pages;
    return {
      index, tokens: empty(index.listAt.length), inNames: empty(index.listAt.length), pairs: new Map(),
      marks: new Uint8Array(count), found: new Int32Array(count),
    };
  }

  /** BM25's weight of a word, without boost. @param {number} count @param {number} all */
  function weight(count, all) {
    const rare = fround(fround(all - count + 0.5) / fround(count + 0.5));
    return fround(fround(Math.log(fround(1 + rare))) * fround(1 + fround(1.2)));
  }

  /**
   * The lists of one token, one after the other: the length of the next, then its entries.
   * @param {SearchIndex} index @param {number} token
   */
  function listsOf({ letters, listAt, pages }, token) {
    let at = listAt[token];
    // The next bits, from the highest on, and how many there are.
    let [ahead, have] = [0, 0];
    function fill() {
      for (; have <= 26; have += 6) {
        const unit = letters.charCodeAt(at++);
        ahead |= (unit > 0x5c ? unit - 0x24 : unit - 0x23) << (26 - have);
      }
    }
    function zeros() {
      let count = 0;
      for (;;) {
        fill();
        const here = Math.clz32(ahead);
        if (here < have) {
          ahead = (ahead << here) << 1;
          have -= here + 1;
          return count + here;
        }
        count += have;
        [ahead, have] = [0, 0];
      }
    }
    /** @param {number} count */
    function bits(count) {
      if (count === 0) return 0;
      fill();
      const value = ahead >>> (32 - count);
      ahead <<= count;
      have -= count;
      return value;
    }
    function size() {
      const width = zeros();
      return ((1 << width) | bits(width)) - 1;
    }
    /** @param {number} length */
    function entries(length) {
      const list = new Int32Array(length);
      const low = lowBits(length, pages.count);
      for (let place = 0, next = 0; place < length; place += 1) {
        next += (zeros() << low) + bits(low);
        list[place] = next;
        next += 1;
      }
      return list;
    }
    /** Entries numbered among those that are not known. @param {number} length @param {Int32Array} known @param {Uint8Array} marks */
    function others(length, known, marks) {
      for (let at = 0; at < known.length; at += 1) marks[known[at]] = 1;
      const list = new Int32Array(length);
      const low = lowBits(length, pages.count - known.length);
      for (let place = 0, next = 0; place < length; place += 1, next += 1) {
        for (let left = (zeros() << low) + bits(low); left > 0 || marks[next] !== 0; next += 1) left -= marks[next] ^ 1;
        list[place] = next;
      }
      for (let at = 0; at < known.length; at += 1) marks[known[at]] = 0;
      return list;
    }
    return { size, entries, others };
  }

  /** The width of the low part of a step: see src/search/pack/bits.rs. */
  function lowBits(/** @type {number} */ count, /** @type {number} */ below) {
    let low = 0;
    while ((count + 1) * 2 ** (low + 1) <= Math.floor((below * 69) / 100)) low += 1;
    return low;
  }

  /** The numbers of the phrases that have a stem. @param {SearchIndex} index @param {number} stem */
  const phrasesOf = ({ phrases }, stem) =>
    phrases.phrasesOf.subarray(phrases.startOf[stem], phrases.startOf[stem + 1]);

  /** The stem of these that the fewest phrases have. @param {SearchIndex} index @param {ArrayLike<number>} stems */
  function rarest({ phrases: { startOf } }, stems) {
    let best = stems[0];
    for (let at = 1; at < stems.length; at += 1) {
      const here = startOf[stems[at] + 1] - startOf[stems[at]];
      if (here < startOf[best + 1] - startOf[best]) best = stems[at];
    }
    return best;
  }

  /** Whether a phrase says these stems one after the other. @param {SearchIndex} index @param {number} phrase @param {ArrayLike<number>} said */
  function says({ phrases: { all, stemAt } }, phrase, said) {
    const last = stemAt[phrase + 1] - said.length;
    for (let at = stemAt[phrase]; at <= last; at += 1) {
      let same = 0;
      while (same < said.length && all[at + same] === said[same]) same += 1;
      if (same === said.length) return true;
    }
    return false;
  }

  /**
   * Notes the entries of phrases: in which field, and how many new ones a field has.
   * @param {Known} known @param {number} token @param {number} counting the bits of the fields that count
   * @param {Int32Array} counts of each field
   */
  function findStem({ index, marks, found }, token, counting, counts) {
    const { entryOf, fieldOf } = index.phrases;
    const { phrasesOf: all, startOf } = index.phrases;
    const end = startOf[token + 1];
    let used = 0;
    for (let at = startOf[token]; at < end; at += 1) {
      const field = fieldOf[all[at]];
      const bit = BIT[field] & counting;
      if (bit === 0) continue;
      const entry = entryOf[all[at]];
      const before = marks[entry];
      if (before & bit) continue;
      if (before === 0) found[used++] = entry;
      marks[entry] = before | bit;
      counts[field] += 1;
    }
    return used;
  }

  /** Notes entries of one field. @param {Known} known @param {ArrayLike<number>} entries @param {number} field @param {number} used @param {Int32Array} counts */
  function findIn({ marks, found }, entries, field, used, counts) {
    for (let at = 0; at < entries.length; at += 1) {
      const before = marks[entries[at]];
      if (before & BIT[field]) continue;
      if (before === 0) found[used++] = entries[at];
      marks[entries[at]] = before | BIT[field];
      counts[field] += 1;
    }
    return used;
  }

  /** The entries that say a meaning in their names and parts, some twice. @param {SearchIndex} index @param {number} token */
  function meant(index, token) {
    const { entryOf, fieldOf } = index.phrases;
    /** @type {number[]} */
    const entries = [];
    for (const said of index.meanings.phrasesOf[token - index.words.stems]) {
      for (const phrase of phrasesOf(index, rarest(index, said))) {
        if (fieldOf[phrase] !== RUNGS && says(index, phrase, said)) entries.push(entryOf[phrase]);
      }
    }
    return entries;
  }

  /** Everything about a token, or only what names say. @param {Known} known @param {number} token @param {boolean} namesOnly */
  function look(known, token, namesOnly) {
    if (namesOnly) return (known.inNames[token] ??= inNames(known, token));
    return (known.tokens[token] ??= made(known, token));
  }

  /** One letter begins many words: their lists are only read when they count. @param {Known} known @param {number} token @returns {Token} */
  function inNames(known, token) {
    const counts = new Int32Array(RUNGS + 1);
    const isStem = token < known.index.words.stems;
    const lists = listsOf(known.index, token);
    const used = isStem ? findStem(known, token, NAMES, counts) : findSame(known, token, lists, counts);
    return foundSoFar(known, used, counts, lists);
  }

  /** @param {Known} known @param {number} token @returns {Token} */
  function made(known, token) {
    const { index } = known;
    const lists = listsOf(index, token);
    const counts = new Int32Array(RUNGS + 1);
    const isStem = token < index.words.stems;
    const isWithout = !isStem && index.meanings.without[token - index.words.stems] === 1;
    let used = isStem ? findStem(known, token, -1, counts) : findSame(known, token, lists, counts);
    if (isStem || isWithout) used = findIn(known, lists.entries(lists.size()), ABOUT, used, counts);
    const mentions = lists.size();
    counts[TEXT] = used + mentions;
    return { ...foundSoFar(known, used, counts, lists), mentions };
  }

  /** The entries that only mention a token, read when they are asked for. @param {Known} known @param {Token} token */
  function mention({ marks }, token) {
    return (token.mentioning ??= token.mentions > 0 ? token.rest.others(token.mentions, token.entries, marks) : NONE);
  }

  /** The entries that a meaning rules out. @param {Known} known @param {number} token */
  function ruledOut(known, token) {
    // Read anew: its list stands after what texts mention.
    const { rest, mentions, entries } = made(known, token);
    rest.others(mentions, entries, known.marks);
    return rest.entries(rest.size());
  }

  /** Notes the entries that say a meaning. @param {Known} known @param {number} token @param {ReturnType<typeof listsOf>} lists @param {Int32Array} counts */
  function findSame(known, token, lists, counts) {
    const used = findIn(known, meant(known.index, token), SAME, 0, counts);
    return findIn(known, lists.entries(lists.size()), SAME, used, counts);
  }

  /** Takes what was noted, and leaves nothing behind. @param {Known} known @param {number} used @param {Int32Array} counts @param {Token["rest"]} rest @returns {Token} */
  function foundSoFar({ index, marks, found }, used, counts, rest) {
    const entries = found.slice(0, used);
    const fields = new Uint8Array(used);
    for (let at = 0; at < used; at += 1) {
      fields[at] = marks[entries[at]];
      marks[entries[at]] = 0;
    }
    const weights = new Float32Array(counts.length);
    for (let field = 0; field < counts.length; field += 1) weights[field] = weight(counts[field], index.pages.count);
    return { entries, fields, weights, mentions: 0, mentioning: undefined, rest, scored: undefined };
  }

  /** The entries with two stems side by side, the smaller named first. @param {Known} known @param {number} one @param {number} other */
  function lookPair(known, one, other) {
    const { index, pairs } = known;
    const key = one * index.words.stems + other;
    const found = pairs.get(key);
    if (found) return found;
    const { entryOf, fieldOf } = index.phrases;
    const [forth, back] = [Int32Array.of(one, other), Int32Array.of(other, one)];
    /** @type {number[]} */
    const entries = [];
    for (const phrase of phrasesOf(index, rarest(index, forth))) {
      if (fieldOf[phrase] === RUNGS || entryOf[phrase] === entries[entries.length - 1]) continue;
      if (says(index, phrase, forth) || says(index, phrase, back)) entries.push(entryOf[phrase]);
    }
    const made = { entries: Int32Array.from(entries), weight: weight(entries.length, index.pages.count) };
    pairs.set(key, made);
    return made;
  }

  return { open, look, mention, ruledOut, lookPair };
})();

if (typeof module !== "undefined") module.exports = rungbookPostings;
