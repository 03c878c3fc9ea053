// Reads the search index that the command exports; src/search/pack/mod.rs tells its format. Never
// ranks, never touches the page or the network.
"use strict";

const rungbookIndexFile = (() => {
  const [NAME, ALSO, PARTS, ABOUT, SAME, TEXT, RUNGS] = [0, 1, 2, 3, 4, 5, 6];
  const [END, HYPHEN, COMMA, CAPITAL, BETWEEN, FIRST_WORD] = [0, 1, 2, 3, 4, 6];
  const SHAPE = 4;
  const MORE = 0x4000;
  /** Entries read without a stop: a few milliseconds on a slow phone. */
  const AT_ONCE = 512;
  const { fround } = Math;

  /** What a letter stands for: see src/search/pack/letters.rs. @param {string} text @param {number} at */
  function valueAt(text, at) {
    const unit = text.charCodeAt(at);
    return unit > 0x5c ? unit - 0x24 : unit - 0x23;
  }

  /** Numbers, texts and floats, one after the other. @param {string} letters */
  function cursor(letters) {
    let at = 0;
    function number() {
      const value = valueAt(letters, at++);
      if (value < MORE) return value;
      let result = value - MORE;
      for (let scale = MORE; ; scale *= MORE) {
        const digit = valueAt(letters, at++);
        result += (digit < MORE ? digit : digit - MORE) * scale;
        if (digit < MORE) return result;
      }
    }
    /** @param {number} count */
    function skip(count) {
      at += count;
      return at - count;
    }
    function text() {
      const length = number();
      return letters.slice(at, skip(length) + length);
    }
    /** @param {number} count */
    function numbers(count) {
      const all = new Int32Array(count);
      for (let place = 0; place < count; place += 1) {
        const value = valueAt(letters, at);
        all[place] = value < MORE ? value : number();
        if (value < MORE) at += 1;
      }
      return all;
    }
    /** @param {number} count */
    const floats = (count) => new Float32Array(Uint32Array.from({ length: count }, number).buffer);
    /** @template T @param {() => T} one @returns {T[]} */
    const several = (one) => Array.from({ length: number() }, one);
    return { letters, number, numbers, text, floats, several, skip };
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
    const texts = from.text().split(" ");
    const count = texts.length;
    const codes = from.numbers(count);
    const stemOf = new Int32Array(count);
    let stems = 0;
    for (let at = 0; at < count; at += 1) {
      if (codes[at] === 1) stems += 1;
      stemOf[at] = codes[at] === 0 ? -1 : codes[at] === 1 ? stems - 1 : stems + 1 - codes[at];
    }
    const endings = from.numbers(count);
    const written = new Uint8Array(stems);
    for (let at = 0; at < count; at += 1) {
      if (endings[at] & 1 && stemOf[at] >= 0) written[stemOf[at]] = 1;
    }
    return { texts, stemOf, endings, written, stems, byNumber: from.numbers(from.number()) };
  }

  /** Meanings by the first stem of their phrases. @param {Cursor} from @param {number} stems */
  function readMeanings(from, stems) {
    /** @type {({token: number, phrase: number[]}[] | undefined)[]} */
    const byFirst = new Array(stems).fill(undefined);
    const without = new Uint8Array(from.number());
    /** @type {number[][][]} */
    const phrasesOf = [];
    for (let at = 0; at < without.length; at += 1) {
      const head = from.number();
      without[at] = head & 1;
      /** @type {number[][]} */
      const phrases = [];
      for (let left = head >> 1; left > 0; left -= 1) {
        /** @type {number[]} */
        const phrase = [];
        for (let stem = from.number(); stem > 0; stem -= 1) phrase.push(from.number());
        phrases.push(phrase);
        (byFirst[phrase[0]] ??= []).push({ token: stems + at, phrase });
      }
      phrasesOf.push(phrases);
    }
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

  /**
   * The stems of every phrase, and the phrases of every stem. Stops now and then.
   * @param {Cursor} from @param {Pages} pages @param {ReturnType<typeof readWords>} words
   */
  function* readPhrases(from, { count, shapes }, words) {
    const phrases = from.number();
    const times = from.numbers(words.stems);
    const startOf = new Int32Array(words.stems + 1);
    for (let stem = 0; stem < words.stems; stem += 1) startOf[stem + 1] = startOf[stem] + times[stem];
    const length = from.number();
    const stemByNumber = words.byNumber.map((word) => words.stemOf[word]);
    const room = () => new Int32Array(phrases + 1);
    const read = {
      first: new Int32Array(count + 1), entryOf: room(), fieldOf: new Uint8Array(phrases), startAt: room(), stemAt: room(),
      all: new Int32Array(startOf[words.stems]), startOf, phrasesOf: new Int32Array(startOf[words.stems]),
    };
    read.startAt[0] = from.skip(length);
    const next = startOf.slice();
    for (let entry = 0; entry < count; entry += AT_ONCE) {
      readSome(from.letters, { stemByNumber, shapes, next }, read, entry, Math.min(count, entry + AT_ONCE));
      yield;
    }
    return read;
  }

  /**
   * @typedef {{first: Int32Array, entryOf: Int32Array, fieldOf: Uint8Array, startAt: Int32Array, stemAt: Int32Array,
   *   all: Int32Array, startOf: Int32Array, phrasesOf: Int32Array}} Phrases
   * The first phrase of each entry; of each phrase its entry, its field, where its letters start and
   * where its stems do, all of which stand in `all`; where the phrases of each stem start, and these.
   */

  /**
   * Reads the phrases of some entries.
   * @param {string} letters
   * @param {{stemByNumber: Int32Array, shapes: Int32Array, next: Int32Array}} by `next`: where the next phrase of a stem goes
   * @param {Phrases} into @param {number} entry @param {number} last
   */
  function readSome(letters, { stemByNumber, shapes, next }, { first, entryOf, fieldOf, startAt, stemAt, all, phrasesOf }, entry, last) {
    let phrase = first[entry];
    let at = startAt[phrase];
    let used = stemAt[phrase];
    for (; entry < last; entry += 1) {
      const shape = entry * SHAPE;
      const parts = phrase + 1 + shapes[shape];
      const rungs = parts + shapes[shape + 1] + shapes[shape + 2];
      const end = rungs + shapes[shape + 3];
      let field = NAME;
      while (phrase < end) {
        const unit = letters.charCodeAt(at);
        let code = unit > 0x5c ? unit - 0x24 : unit - 0x23;
        at += 1;
        if (code >= MORE) code += valueAt(letters, at++) * MORE - MORE;
        if (code >= FIRST_WORD) {
          const stem = stemByNumber[code - FIRST_WORD];
          if (stem >= 0) {
            all[used] = stem;
            used += 1;
            phrasesOf[next[stem]] = phrase;
            next[stem] += 1;
          }
        } else if (code === END) {
          entryOf[phrase] = entry;
          fieldOf[phrase] = field;
          phrase += 1;
          field = phrase < parts ? ALSO : phrase < rungs ? PARTS : RUNGS;
          startAt[phrase] = at;
          stemAt[phrase] = used;
        } else if (code >= BETWEEN) at += valueAt(letters, at) + 1;
      }
      first[entry + 1] = end;
    }
  }

  /** Ids and addresses that do not follow the rule. @param {Cursor} from @param {Pages} pages */
  function readOdd(from, { shapes }) {
    /** @type {Map<number, string>} */
    const ids = new Map();
    /** @type {Map<number, string[]>} */
    const addresses = new Map();
    for (let left = from.number(); left > 0; left -= 1) {
      const [entry, odd] = [from.number(), from.number()];
      const at = entry * SHAPE;
      if (odd & 1) ids.set(entry, from.text());
      const places = 1 + shapes[at + 1] + shapes[at + 2] + shapes[at + 3];
      if (odd & 2) addresses.set(entry, Array.from({ length: places }, from.text));
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

  /**
   * Reads an exported index. Stops now and then, so that a page can do something else in between.
   * @param {string} letters
   */
  function* reading(letters) {
    if (!letters.startsWith("RUNG3")) throw new Error("this is not a search index of this version");
    const from = cursor(letters);
    from.skip(5);
    const numbers = readNumbers(from);
    const rules = readRules(from);
    const words = readWords(from);
    yield;
    const meanings = readMeanings(from, words.stems);
    const pages = readPages(from);
    yield;
    const phrases = yield* readPhrases(from, pages, words);
    const odd = readOdd(from, pages);
    const lengths = from.numbers(words.stems + meanings.without.length);
    const listAt = new Int32Array(lengths.length);
    for (let token = 0, at = from.skip(0); token < lengths.length; token += 1) {
      listAt[token] = at;
      at += lengths[token];
    }
    const norms = { inName: new Float32Array(pages.count), inAlso: new Float32Array(pages.count) };
    return { letters, numbers, rules, words, meanings, pages, phrases, odd, listAt, norms };
  }

  /** What a reading gives at its end. @template T @param {Generator<void, T, void>} steps */
  function toTheEnd(steps) {
    for (;;) {
      const { done, value } = steps.next();
      if (done) return /** @type {T} */ (value);
    }
  }

  /** Reads an exported index at once. @param {string} letters */
  const read = (letters) => toTheEnd(reading(letters));

  /** @typedef {ReturnType<typeof read>} Index */

  /** How much a word in the name of an entry counts, kept in the index. @param {Index} index @param {number} entry */
  function nameNorm({ phrases: { first, stemAt }, numbers, norms }, entry) {
    const length = stemAt[first[entry] + 1] - stemAt[first[entry]];
    return (norms.inName[entry] = lengthFactor(roughLength(length), numbers.averages[NAME]));
  }

  /** How much a word in its other names counts. @param {Index} index @param {number} entry */
  function alsoNorm({ pages, phrases: { first, stemAt }, numbers, norms }, entry) {
    const start = first[entry] + 1;
    const length = stemAt[start + pages.shapes[entry * SHAPE]] - stemAt[start];
    return (norms.inAlso[entry] = lengthFactor(roughLength(length), numbers.averages[ALSO]));
  }

  /** A phrase as a person reads it. @param {Index} index @param {number} phrase */
  function phraseText({ letters, words, phrases }, phrase) {
    const from = cursor(letters);
    from.skip(phrases.startAt[phrase]);
    let [text, between, capital] = ["", "", phrases.fieldOf[phrase] !== ALSO];
    /** @type {string | undefined} */
    let written;
    for (;;) {
      const code = from.number();
      if (code === END) return text + (between === " " ? "" : between);
      if (code === HYPHEN) between = "-";
      else if (code === COMMA) between = ", ";
      else if (code === CAPITAL) capital = !capital;
      else if (code === BETWEEN) between = from.text();
      else if (code < FIRST_WORD) written = from.text();
      else {
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
  function placeOf({ phrases, pages }, phrase) {
    const entry = phrases.entryOf[phrase];
    const shape = pages.shapes.subarray(entry * SHAPE, entry * SHAPE + SHAPE);
    let number = phrase - phrases.first[entry] - shape[0];
    for (let sort = 0; sort < 3 && number > 0; sort += 1) {
      if (number <= shape[sort + 1]) return { sort, number };
      number -= shape[sort + 1];
    }
    return null;
  }

  /** @param {Index} index @param {number} entry */
  const idOf = (index, entry) => index.odd.ids.get(entry) ?? hyphened(phraseText(index, index.phrases.first[entry]).toLowerCase());

  /** Words with hyphens between them; the letters of other tongues are only looked up when there are any. @param {string} text */
  const hyphened = (text) => text.replace(/[^\x00-\x7f]/.test(text) ? /[^\p{Alphabetic}\p{N}]+/gu : /[^a-z0-9]+/g, "-");

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
    read, reading, toTheEnd, lengthFactor, nameNorm, alsoNorm, phraseText, phraseStems, placeOf, idOf, addressOf,
  };
})();

if (typeof module !== "undefined") module.exports = rungbookIndexFile;
