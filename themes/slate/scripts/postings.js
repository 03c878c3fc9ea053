// Where the tokens of a question stand: the entries of each, by field, worked out when first asked
// for. Never scores, never touches the page or the network.
// The next line asks the browser to make all of it ready on arrival, not at the first question.
//# allFunctionsCalledOnLoad
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
  const { NAME, ALSO, PARTS, ABOUT, SAME, TEXT, RUNGS } = rungbookIndexFile;
  const { fround } = Math;
  const NONE = new Int32Array(0);
  /** The bit of each field; rungs count with the text alone. */
  const BIT = [1, 2, 4, 8, 16, 0, 32];
  const NAMES = 1 | 2 | 16;
  /** The fields of the places of a stem. */
  const FIELD_OF = [NAME, ALSO, PARTS, RUNGS];

  /** @param {number} length @returns {undefined[]} */
  const empty = (length) => new Array(length).fill(undefined);

  /** @param {SearchIndex} index @returns {Known} */
  function open(index) {
    const { count } = index;
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
  function listsOf({ letters, listAt, listsAt, count }, token) {
    let at = listsAt + listAt[token];
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
      if (listAt[token + 1] === listAt[token]) return 0;
      const width = zeros();
      return ((1 << width) | bits(width)) - 1;
    }
    /** @param {number} length */
    function entries(length) {
      const list = new Int32Array(length);
      const low = lowBits(length, count);
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
      const low = lowBits(length, count - known.length);
      for (let place = 0, next = 0; place < length; place += 1, next += 1) {
        for (let left = (zeros() << low) + bits(low); left > 0 || marks[next] !== 0; next += 1) left -= marks[next] ^ 1;
        list[place] = next;
      }
      for (let at = 0; at < known.length; at += 1) marks[known[at]] = 0;
      return list;
    }
    return { size, entries, others };
  }

  /** The width of the low part of a step: see src/search/pack/bits.rs. @param {number} count @param {number} below */
  function lowBits(count, below) {
    let low = 0;
    while ((count + 1) * 2 ** (low + 1) <= Math.floor((below * 69) / 100)) low += 1;
    return low;
  }

  /** Where the places of a stem start; they end where the next one's start. @param {SearchIndex} index @param {number} stem */
  const startOf = ({ phrases: { endAt } }, stem) => (stem === 0 ? 0 : endAt[stem - 1]);

  /** The stem of these that stands in the fewest places. @param {SearchIndex} index @param {ArrayLike<number>} stems */
  function rarest(index, stems) {
    const { endAt } = index.phrases;
    let [best, fewest] = [stems[0], Infinity];
    for (let at = 0; at < stems.length; at += 1) {
      const here = endAt[stems[at]] - startOf(index, stems[at]);
      if (here < fewest) [best, fewest] = [stems[at], here];
    }
    return best;
  }

  /**
   * The entries with a phrase that says one of these, one stem after the other; rungs do not count.
   * All of them hold the same stems.
   * @param {SearchIndex} index @param {ArrayLike<number>[]} ways
   */
  function saying(index, ways) {
    const stem = rarest(index, ways[0]);
    const { endAt, places } = index.phrases;
    const others = Array.from(ways[0]).filter((one) => one !== stem);
    const next = others.map((other) => startOf(index, other));
    /** @type {number[]} */
    const entries = [];
    let said = -1;
    let asked = -1;
    for (let at = startOf(index, stem); at < endAt[stem]; at += 1) {
      const place = places[at];
      const [entry, field] = [place >> 2, FIELD_OF[place & 3]];
      if (entry === said || place === asked || field === RUNGS || !standAll(index, others, next, place)) continue;
      asked = place;
      if (ways[0].length > 1 && !rungbookIndexFile.entrySays(index, entry, field === PARTS, ways)) continue;
      said = entry;
      entries.push(entry);
    }
    return entries;
  }

  /** Whether stems stand in a place; `next` is where to look on, as places only grow. @param {SearchIndex} index @param {number[]} stems @param {number[]} next @param {number} place */
  function standAll({ phrases: { endAt, places } }, stems, next, place) {
    for (let at = 0; at < stems.length; at += 1) {
      const end = endAt[stems[at]];
      while (next[at] < end && places[next[at]] < place) next[at] += 1;
      if (next[at] === end || places[next[at]] !== place) return false;
    }
    return true;
  }

  /**
   * Notes the entries in which a stem stands: in which field, and how many new ones a field has.
   * @param {Known} known @param {number} token @param {number} counting the bits of the fields that count
   * @param {Int32Array} counts of each field
   */
  function findStem({ index, marks, found }, token, counting, counts) {
    const { places, endAt } = index.phrases;
    const end = endAt[token];
    let used = 0;
    for (let at = startOf(index, token); at < end; at += 1) {
      const field = FIELD_OF[places[at] & 3];
      const bit = BIT[field] & counting;
      if (bit === 0) continue;
      const entry = places[at] >> 2;
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
  const meant = (index, token) =>
    index.head.meanings[token - index.head.stems][1].flatMap((said) => saying(index, [said]));

  /** Everything about a token, or only what names say. @param {Known} known @param {number} token @param {boolean} namesOnly */
  function look(known, token, namesOnly) {
    if (namesOnly) return (known.inNames[token] ??= inNames(known, token));
    return (known.tokens[token] ??= made(known, token));
  }

  /** One letter begins many words: their lists are only read when they count. @param {Known} known @param {number} token @returns {Token} */
  function inNames(known, token) {
    const counts = new Int32Array(RUNGS + 1);
    const isStem = token < known.index.head.stems;
    const lists = listsOf(known.index, token);
    const used = isStem ? findStem(known, token, NAMES, counts) : findSame(known, token, lists, counts);
    return foundSoFar(known, used, counts, lists);
  }

  /** @param {Known} known @param {number} token @returns {Token} */
  function made(known, token) {
    const { index } = known;
    const lists = listsOf(index, token);
    const counts = new Int32Array(RUNGS + 1);
    const isStem = token < index.head.stems;
    const isWithout = !isStem && index.head.meanings[token - index.head.stems][0] === 1;
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
    for (let field = 0; field < counts.length; field += 1) weights[field] = weight(counts[field], index.count);
    return { entries, fields, weights, mentions: 0, mentioning: undefined, rest, scored: undefined };
  }

  /** The entries with two stems side by side, the smaller named first. @param {Known} known @param {number} one @param {number} other */
  function lookPair(known, one, other) {
    const { index, pairs } = known;
    const key = one * index.head.stems + other;
    const found = pairs.get(key);
    if (found) return found;
    const entries = Int32Array.from(saying(index, [[one, other], [other, one]]));
    const made = { entries, weight: weight(entries.length, index.count) };
    pairs.set(key, made);
    return made;
  }

  return { open, look, mention, ruledOut, lookPair };
})();

if (typeof module !== "undefined") module.exports = rungbookPostings;
