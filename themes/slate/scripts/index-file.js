// Reads the search index that the command exports; src/search/pack/mod.rs tells its format. Never
// ranks, never touches the page or the network.
"use strict";

const rungbookIndexFile = (() => {
  const [NAME, ALSO, PARTS, ABOUT, SAME, TEXT, RUNGS] = [0, 1, 2, 3, 4, 5, 6];
  const [END, HYPHEN, COMMA, CAPITAL, BETWEEN, FIRST_WORD] = [0, 1, 2, 3, 4, 6];
  const SHAPE = 6;
  const { fround } = Math;

  /** The bytes of a text in base 64. @param {string} text */
  function fromBase64(text) {
    const letters = atob(text);
    const bytes = new Uint8Array(letters.length);
    for (let at = 0; at < letters.length; at += 1) bytes[at] = letters.charCodeAt(at);
    return bytes;
  }

  /** Numbers, texts and floats, one after the other. @param {Uint8Array} bytes */
  function cursor(bytes) {
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    const utf8 = new TextDecoder();
    let at = 0;
    function number() {
      let result = 0;
      for (let shift = 0; ; shift += 7) {
        const byte = bytes[at];
        at += 1;
        result |= (byte & 0x7f) << shift;
        if (byte < 0x80) return result;
      }
    }
    /** @param {number} count */
    function skip(count) {
      at += count;
      return at - count;
    }
    function text() {
      const length = number();
      const start = skip(length);
      return utf8.decode(bytes.subarray(start, at));
    }
    /** @param {number} count */
    const numbers = (count) => new Int32Array(count).map(number);
    /** @param {number} count */
    const floats = (count) =>
      new Float32Array(count).map(() => view.getFloat32(skip(4), true));
    /** @template T @param {() => T} one @returns {T[]} */
    const several = (one) => Array.from({ length: number() }, one);
    return { bytes, number, numbers, text, floats, several, skip };
  }

  /** @typedef {ReturnType<typeof cursor>} Cursor */

  /** @param {Cursor} from */
  function readNumbers(from) {
    const boosts = from.floats(TEXT + 1);
    const averages = from.floats(TEXT + 2);
    const [pairBoost, all, prefix, oneSlip, twoSlips, same, steps] = from.floats(7);
    return { boosts, averages, pairBoost, all, prefix, slips: [oneSlip, twoSlips], same, steps };
  }

  /** @param {Cursor} from */
  function readRules(from) {
    /** @type {Map<string, string>} */
    const folds = new Map();
    for (let left = from.number(); left > 0; left -= 1) {
      const [marked, plain] = [from.text(), from.text()];
      for (const letter of marked) folds.set(letter, plain);
    }
    const silent = from.text();
    const endings = from.several(() => ({ ending: from.text(), instead: from.text() }));
    return { folds, silent, endings, doubling: from.several(from.text) };
  }

  /** @param {Cursor} from */
  function readWords(from) {
    const count = from.number();
    const [shared, rests, all] = [from.numbers(count), from.numbers(count), from.text()];
    /** @type {string[]} */
    const texts = [];
    for (let at = 0, start = 0, before = ""; at < count; at += 1) {
      before = before.slice(0, shared[at]) + all.slice(start, start + rests[at]);
      start += rests[at];
      texts.push(before);
    }
    let stems = 0;
    const stemOf = new Int32Array(count).map(() => {
      const code = from.number();
      if (code === 1) stems += 1;
      return code === 0 ? -1 : code === 1 ? stems - 1 : stems + 1 - code;
    });
    const endings = from.numbers(count);
    const written = new Uint8Array(stems);
    for (let at = 0; at < count; at += 1) {
      if (endings[at] & 1 && stemOf[at] >= 0) written[stemOf[at]] = 1;
    }
    return { texts, stemOf, endings, written, stems, byNumber: from.numbers(from.number()) };
  }

  /** Meanings by the first stem of their phrases. @param {Cursor} from @param {number} stems */
  function readMeanings(from, stems) {
    /** @type {Map<number, {token: number, phrase: Int32Array}[]>} */
    const byFirst = new Map();
    const without = from.several(() => 0);
    const phrasesOf = without.map((_, at) => {
      const head = from.number();
      without[at] = head & 1;
      return Array.from({ length: head >> 1 }, () => {
        const phrase = from.numbers(from.number());
        const known = byFirst.get(phrase[0]) || [];
        byFirst.set(phrase[0], [...known, { token: stems + at, phrase }]);
        return phrase;
      });
    });
    return { byFirst, without, phrasesOf };
  }

  /** Kinds, parts and entries, without their phrases. @param {Cursor} from */
  function readPages(from) {
    const kinds = from.several(() => {
      return { word: from.text(), count: from.number(), before: from.text(), after: from.text() };
    });
    const sorts = [0, 1, 2].map(() => {
      const [word, numbered] = [from.text(), from.number() === 1];
      return { word, numbered, before: from.text(), after: from.text() };
    });
    const count = kinds.reduce((sum, kind) => sum + kind.count, 0);
    const kindOf = kinds.flatMap((kind, at) => new Array(kind.count).fill(at));
    return { kinds, sorts, count, kindOf, shapes: from.numbers(count * SHAPE) };
  }

  /** @typedef {ReturnType<typeof readPages>} Pages */

  /** Whose each phrase is and where it stands. @param {Pages} pages */
  function layPhrases({ count, shapes }) {
    const first = new Int32Array(count + 1);
    for (let entry = 0; entry < count; entry += 1) {
      const at = entry * SHAPE;
      const parts = shapes[at + 1] + shapes[at + 2] + shapes[at + 3];
      first[entry + 1] = first[entry] + 1 + shapes[at] + parts;
    }
    const entryOf = new Int32Array(first[count]);
    const fieldOf = new Uint8Array(first[count]);
    for (let entry = 0; entry < count; entry += 1) {
      const [start, end, at] = [first[entry], first[entry + 1], entry * SHAPE];
      const parts = start + 1 + shapes[at];
      entryOf.fill(entry, start, end);
      fieldOf.fill(ALSO, start + 1, parts).fill(PARTS, parts, end - shapes[at + 3]);
      fieldOf.fill(RUNGS, end - shapes[at + 3], end);
    }
    return { first, entryOf, fieldOf };
  }

  /**
   * The stems of every phrase, and the phrases of every stem.
   * @param {Cursor} from @param {number} count @param {ReturnType<typeof readWords>} words
   */
  function readPhrases(from, count, words) {
    const { bytes } = from;
    const length = from.number();
    let at = from.skip(length);
    const [byteAt, stemAt] = [new Int32Array(count + 1), new Int32Array(count + 1)];
    const all = new Int32Array(length);
    const stemByNumber = words.byNumber.map((word) => words.stemOf[word]);
    let used = 0;
    for (let phrase = 0; phrase < count; phrase += 1) {
      byteAt[phrase] = at;
      stemAt[phrase] = used;
      for (;;) {
        const code = numberAt(bytes, at);
        at += width(code);
        if (code === END) break;
        if (code >= FIRST_WORD) {
          const stem = stemByNumber[code - FIRST_WORD];
          if (stem >= 0) all[used++] = stem;
        } else if (code >= BETWEEN) {
          const size = numberAt(bytes, at);
          at += width(size) + size;
        }
      }
    }
    stemAt[count] = used;
    return { byteAt, stemAt, all, ...phrasesByStem(stemAt, all, words.stems) };
  }

  /** @param {Int32Array} stemAt @param {Int32Array} all @param {number} stems */
  function phrasesByStem(stemAt, all, stems) {
    const count = stemAt.length - 1;
    const startOf = new Int32Array(stems + 2);
    for (let at = 0; at < stemAt[count]; at += 1) startOf[all[at] + 2] += 1;
    for (let stem = 2; stem < stems + 2; stem += 1) startOf[stem] += startOf[stem - 1];
    const phrasesOf = new Int32Array(stemAt[count]);
    for (let phrase = 0; phrase < count; phrase += 1) {
      for (let at = stemAt[phrase]; at < stemAt[phrase + 1]; at += 1) {
        phrasesOf[startOf[all[at] + 1]++] = phrase;
      }
    }
    return { startOf, phrasesOf };
  }

  /** A number in at most three bytes. @param {Uint8Array} bytes @param {number} at */
  function numberAt(bytes, at) {
    const one = bytes[at];
    if (one < 0x80) return one;
    const two = bytes[at + 1];
    const low = (one & 0x7f) | ((two & 0x7f) << 7);
    return two < 0x80 ? low : low | (bytes[at + 2] << 14);
  }

  /** The bytes that a number takes. @param {number} number */
  const width = (number) => (number < 0x80 ? 1 : number < 0x4000 ? 2 : 3);

  /** Ids and addresses that do not follow the rule. @param {Cursor} from @param {Pages} pages */
  function readOdd(from, { count, shapes }) {
    /** @type {Map<number, string>} */
    const ids = new Map();
    /** @type {Map<number, string[]>} */
    const addresses = new Map();
    for (let entry = 0, at = 0; entry < count; entry += 1, at += SHAPE) {
      if (shapes[at + 4]) ids.set(entry, from.text());
      if (shapes[at + 5]) {
        const places = 1 + shapes[at + 1] + shapes[at + 2] + shapes[at + 3];
        addresses.set(entry, Array.from({ length: places }, from.text));
      }
    }
    return { ids, addresses };
  }

  /** How much shorter texts count for more: tantivy's table of lengths. @param {number} length */
  function roughLength(length) {
    let [start, step] = [40, 2];
    if (length < start) return length;
    while (length >= start + 8 * step) [start, step] = [start + 8 * step, step * 2];
    return start + Math.floor((length - start) / step) * step;
  }

  /** One over one plus the norm of BM25, for a word that stands once. @param {number} length */
  function lengthFactor(length, /** @type {number} */ average) {
    const share = fround(fround(fround(0.75) * length) / average);
    return fround(1 / fround(1 + fround(fround(1.2) * fround(0.25 + share))));
  }

  /** Reads an exported index. @param {Uint8Array} bytes */
  function read(bytes) {
    const from = cursor(bytes);
    if (String.fromCharCode(...bytes.subarray(0, 5)) !== "RUNG1") throw new Error("this is not a search index of this version");
    from.skip(5);
    const numbers = readNumbers(from);
    const rules = readRules(from);
    const words = readWords(from);
    const meanings = readMeanings(from, words.stems);
    const pages = readPages(from);
    const layout = layPhrases(pages);
    const phrases = readPhrases(from, layout.entryOf.length, words);
    const odd = readOdd(from, pages);
    const tokens = words.stems + meanings.without.length;
    const listAt = new Int32Array(tokens + 1);
    for (let token = 0; token < tokens; token += 1) listAt[token + 1] = from.number();
    listAt[0] = from.skip(0);
    for (let token = 0; token < tokens; token += 1) listAt[token + 1] += listAt[token];
    const norms = nameNorms(pages.count, layout, phrases, numbers.averages);
    return {
      bytes, numbers, rules, words, meanings, pages, layout, phrases, odd, listAt, norms,
    };
  }

  /** @typedef {ReturnType<typeof read>} Index */

  /**
   * @param {number} count @param {ReturnType<typeof layPhrases>} layout
   * @param {ReturnType<typeof readPhrases>} phrases @param {Float32Array} averages
   */
  function nameNorms(count, layout, { stemAt }, averages) {
    const lengths = [new Int32Array(count), new Int32Array(count)];
    for (let phrase = 0; phrase < layout.entryOf.length; phrase += 1) {
      const field = layout.fieldOf[phrase];
      if (field > ALSO) continue;
      lengths[field][layout.entryOf[phrase]] += stemAt[phrase + 1] - stemAt[phrase];
    }
    return lengths.map((all, field) =>
      Float32Array.from(all, (length) => lengthFactor(roughLength(length), averages[field])));
  }

  /** The bits of one token's lists. @param {Index} index @param {number} token */
  function listsOf({ bytes, listAt, pages }, token) {
    let at = listAt[token] * 8;
    const bit = () => {
      const value = (bytes[at >> 3] >> (7 - (at & 7))) & 1;
      at += 1;
      return value;
    };
    /** @param {number} count */
    const bits = (count) => {
      let value = 0;
      for (let left = count; left > 0; left -= 1) value = (value << 1) | bit();
      return value;
    };
    const zeros = () => {
      let count = 0;
      while (!bit()) count += 1;
      return count;
    };
    /** The next list. */
    return () => {
      const size = zeros();
      const list = new Int32Array(((1 << size) | bits(size)) - 1);
      const low = lowBits(list.length, pages.count);
      for (let place = 0, next = 0; place < list.length; place += 1) {
        list[place] = next + (zeros() << low) + bits(low);
        next = list[place] + 1;
      }
      return list;
    };
  }

  /** The width of the low part of a step: see src/search/pack/bits.rs. */
  function lowBits(/** @type {number} */ count, /** @type {number} */ below) {
    let low = 0;
    while ((count + 1) * 2 ** (low + 1) <= Math.floor((below * 69) / 100)) low += 1;
    return low;
  }

  /** A phrase as a person reads it. @param {Index} index @param {number} phrase */
  function phraseText({ bytes, words, phrases, layout }, phrase) {
    const utf8 = new TextDecoder();
    let at = phrases.byteAt[phrase];
    let [text, between, capital] = ["", "", layout.fieldOf[phrase] !== ALSO];
    /** @type {string | undefined} */
    let written;
    for (;;) {
      const code = numberAt(bytes, at);
      at += width(code);
      if (code === END) return text + (between === " " ? "" : between);
      if (code === HYPHEN) between = "-";
      else if (code === COMMA) between = ", ";
      else if (code === CAPITAL) capital = !capital;
      else if (code < FIRST_WORD) {
        const size = numberAt(bytes, at);
        at += width(size);
        const said = utf8.decode(bytes.subarray(at, at + size));
        at += size;
        if (code === BETWEEN) between = said;
        else written = said;
      } else {
        const word = words.texts[words.byNumber[code - FIRST_WORD]];
        text += between + (written ?? (capital ? word[0].toUpperCase() + word.slice(1) : word));
        [between, capital, written] = [" ", false, undefined];
      }
    }
  }

  /** The stems of a phrase, small words left out. @param {Index} index @param {number} phrase */
  const phraseStems = ({ phrases }, phrase) =>
    phrases.all.subarray(phrases.stemAt[phrase], phrases.stemAt[phrase + 1]);

  /**
   * The place of a phrase on its page: fault, cue or rung with its number, or nothing.
   * @param {Index} index @param {number} phrase
   */
  function placeOf({ layout, pages }, phrase) {
    const entry = layout.entryOf[phrase];
    const shape = pages.shapes.subarray(entry * SHAPE, entry * SHAPE + SHAPE);
    let number = phrase - layout.first[entry] - shape[0];
    for (let sort = 0; sort < 3 && number > 0; sort += 1) {
      if (number <= shape[sort + 1]) return { sort, number };
      number -= shape[sort + 1];
    }
    return null;
  }

  /** @param {Index} index @param {number} entry */
  const idOf = (index, entry) => index.odd.ids.get(entry) ??
    phraseText(index, index.layout.first[entry]).toLowerCase().replace(/[^\p{Alphabetic}\p{N}]+/gu, "-");

  /**
   * The address of a page or of a place on it.
   * @param {Index} index @param {number} entry @param {ReturnType<typeof placeOf>} place
   */
  function addressOf(index, entry, place) {
    const { kinds, sorts, kindOf, shapes } = index.pages;
    const odd = index.odd.addresses.get(entry);
    if (odd) {
      if (!place) return odd[0];
      const before = shapes.subarray(entry * SHAPE + 1, entry * SHAPE + 1 + place.sort);
      return odd[before.reduce((sum, parts) => sum + parts, place.number)];
    }
    const { before, after } = kinds[kindOf[entry]];
    const page = before + idOf(index, entry) + after;
    return place ? page + sorts[place.sort].before + place.number + sorts[place.sort].after : page;
  }

  return {
    NAME, ALSO, PARTS, ABOUT, SAME, TEXT, RUNGS,
    fromBase64, read, lengthFactor, listsOf, phraseText, phraseStems, placeOf, idOf, addressOf,
  };
})();

if (typeof module !== "undefined") module.exports = rungbookIndexFile;
