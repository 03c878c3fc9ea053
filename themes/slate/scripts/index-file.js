// Reads the search index that the command exports; src/search/pack/mod.rs tells its format. Never
// ranks, never touches the page or the network.
// The next line asks the browser to make all of it ready on arrival, not at the first question.
//# allFunctionsCalledOnLoad
"use strict";

const rungbookIndexFile = (() => {
  const [NAME, ALSO, PARTS, ABOUT, SAME, TEXT, RUNGS] = [0, 1, 2, 3, 4, 5, 6];
  const [END, CAPITAL, FIRST_PIECE] = [0, 1, 2];
  /** Where a stem may stand in an entry, as two bits. */
  const PLACES = [NAME, ALSO, PARTS, RUNGS];
  const SHAPE = 4;
  const MORE = 0x4000;
  /** Sums of checks are below it: two letters. */
  const CHECK = 0x10000000;
  /** Entries read without a stop: a few at first, until the browser has made the reading fast. */
  const AT_ONCE = [16, 16, 16, 512];
  const { fround } = Math;

  /** Room for numbers below a bound, as little as they need: untouched memory costs time. @param {number} length @param {number} below */
  const room = (length, below) => (below <= 0x10000 ? new Uint16Array(length) : new Uint32Array(length));

  /** What a letter stands for, and the letter for it: src/search/pack/letters.rs. @param {number} unit */
  const valueOf = (unit) => (unit > 0x5c ? unit - 0x24 : unit - 0x23);
  /** @param {number} value */
  const unitOf = (value) => (value < 0x39 ? value + 0x23 : value + 0x24);
  const PHRASE_ENDS = unitOf(END);
  /** From this letter on, a number goes on in the next. */
  const WIDE = unitOf(MORE);
  /** The letter that two of them stand for, if letters went on so far. @param {number} unit @param {number} next */
  const wide = (unit, next) => unit + (valueOf(next) - 1) * MORE;

  /**
   * What is too small to be packed.
   * @typedef {[string, string]} Frame what stands before and after an id or a number in an address
   * @typedef {{boosts: number[], averages: number[], pair_boost: number, all: number, prefix: number,
   *   slips: number[], same: number, fault: number, steps: number, equals: number, folds: [string, string][], silent: string,
   *   endings: [string, string][], doubling: string[], words: string, stems: number, pieces: number,
   *   others: [string, number | null][], meanings: [number, number[][]][],
   *   kinds: [string, number, Frame][], sorts: [string, boolean, Frame][],
   *   odd: [number, string | null, string[]][]}} Head
   */

  /** Numbers and texts, one after the other. @param {string} letters */
  function cursor(letters) {
    let at = 0;
    function number() {
      let result = 0;
      for (let scale = 1; ; scale *= MORE) {
        const digit = valueOf(letters.charCodeAt(at++));
        if (!(digit >= MORE)) return result + digit * scale;
        result += (digit - MORE) * scale;
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
    /** As many numbers as asked, each as the sum of those before it; then the sum of all. @param {number} count */
    function sums(count) {
      const before = new Uint32Array(count + 1);
      let sum = 0;
      for (let place = 0; place < count; place += 1) {
        before[place] = sum;
        const unit = letters.charCodeAt(at);
        if (unit < WIDE) {
          sum += unit > 0x5c ? unit - 0x24 : unit - 0x23;
          at += 1;
        } else sum += number();
      }
      before[count] = sum;
      return before;
    }
    return { number, text, sums, skip };
  }

  /** @typedef {ReturnType<typeof cursor>} Cursor */

  /** The stem of each word, -1 for none. @param {string} letters @param {number} codesAt @param {number} count */
  function readStems(letters, codesAt, count) {
    const stemOf = new Int32Array(count);
    let stems = 0;
    for (let at = 0; at < count; at += 1) {
      const unit = letters.charCodeAt(codesAt + at);
      const code = unit > 0x5c ? unit - 0x24 : unit - 0x23;
      if (code === 1) stems += 1;
      stemOf[at] = code < 2 ? (code === 0 ? -1 : stems - 1) : stems + 1 - code;
    }
    return stemOf;
  }

  /** The stem that each letter of a phrase stands for, -1 for none. @param {string} letters @param {Head} head @param {number} piecesAt @param {Int32Array} stemOf */
  function stemsByUnit(letters, { pieces, others }, piecesAt, stemOf) {
    const stemByUnit = new Int32Array(unitOf(FIRST_PIECE + pieces)).fill(-1);
    for (let at = 0, unit = unitOf(FIRST_PIECE); at < pieces; at += 1, unit += unit === 0x5b ? 2 : 1) {
      const here = letters.charCodeAt(piecesAt + at);
      const piece = here > 0x5c ? here - 0x24 : here - 0x23;
      const word = piece & 1 ? others[piece >> 1][1] : piece >> 1;
      if (word !== null) stemByUnit[unit] = stemOf[word];
    }
    return stemByUnit;
  }

  /** Meanings by the first stem of their phrases. @param {Head} head */
  function byFirstStem({ meanings, stems }) {
    /** @type {Map<number, {token: number, phrase: number[]}[]>} */
    const byFirst = new Map();
    for (let at = 0; at < meanings.length; at += 1) {
      for (const phrase of meanings[at][1]) {
        const starting = byFirst.get(phrase[0]);
        if (starting) starting.push({ token: stems + at, phrase });
        else byFirst.set(phrase[0], [{ token: stems + at, phrase }]);
      }
    }
    return byFirst;
  }

  /**
   * Of each entry, once it is known, where its phrases start and where those of its parts do, and the
   * stems of its name, then of it and its other names. For each stem, from `endAt` of the one before
   * to its own, its places: four times an entry, plus which of PLACES.
   * @typedef {{stemByUnit: Int32Array, startAt: Uint32Array, partsAt: Uint32Array, lengths: Uint16Array,
   *   endAt: Uint32Array, places: Uint16Array | Uint32Array}} Phrases
   */

  /**
   * Notes where the stems of some entries stand; `endAt` holds where the next place of a stem goes.
   * @param {string} letters @param {number} shapesAt @param {Phrases} into @param {number} entry @param {number} last
   */
  function readSome(letters, shapesAt, { stemByUnit, startAt, partsAt, lengths, endAt, places }, entry, last) {
    let at = startAt[entry];
    for (; entry < last; entry += 1) {
      const shape = shapesAt + entry * SHAPE;
      // Phrases left once the name, and once the other names have been read.
      const rungs = valueOf(letters.charCodeAt(shape + 3));
      const parts = rungs + valueOf(letters.charCodeAt(shape + 1)) + valueOf(letters.charCodeAt(shape + 2));
      const also = parts + valueOf(letters.charCodeAt(shape));
      let [left, place, stems] = [1 + also, entry * PLACES.length, 0];
      while (left > 0) {
        const unit = letters.charCodeAt(at++);
        const stem = stemByUnit[unit < WIDE ? unit : wide(unit, letters.charCodeAt(at++))];
        if (stem >= 0) {
          places[endAt[stem]++] = place;
          stems += 1;
        } else if (unit === PHRASE_ENDS) {
          left -= 1;
          place = entry * PLACES.length + (left > parts ? 1 : left > rungs ? 2 : 3);
          if (left === also) lengths[entry * 2] = stems;
          if (left !== parts) continue;
          lengths[entry * 2 + 1] = stems;
          partsAt[entry] = at;
        }
      }
      startAt[entry + 1] = at;
    }
  }

  /** How much shorter texts count for more: tantivy's table of lengths. @param {number} length */
  function roughLength(length) {
    let [start, step] = [40, 2];
    if (length < start) return length;
    while (length >= start + 8 * step) [start, step] = [start + 8 * step, step * 2];
    return start + Math.floor((length - start) / step) * step;
  }

  /** One over one plus the norm of BM25, for a word that stands once. @param {number} length @param {number} average */
  function lengthFactor(length, average) {
    const share = fround(fround(fround(0.75) * length) / average);
    return fround(1 / fround(1 + fround(fround(1.2) * fround(0.25 + share))));
  }

  /** Reads an exported index. Stops now and then, so that a page can do something else in between. @param {string} letters */
  function* reading(letters) {
    const from = cursor(letters);
    from.skip(5);
    const check = from.number();
    let sum = 0;
    // Whoever reads on in a spoilt file may never come to an end.
    for (let at = from.skip(0); at < letters.length; at += 1) sum = (sum * 31 + letters.charCodeAt(at)) % CHECK;
    if (!letters.startsWith("RUNG5") || sum !== check) throw new Error("this is not a search index of this version");
    /** @type {Head} */
    const head = JSON.parse(from.text());
    const texts = head.words.split(" ");
    const stemOf = readStems(letters, from.skip(texts.length), texts.length);
    const [endingsAt, piecesAt] = [from.skip(texts.length), from.skip(head.pieces)];
    const count = head.kinds.reduce((sum, [, entries]) => sum + entries, 0);
    const shapesAt = from.skip(count * SHAPE);
    yield;
    const endAt = from.sums(head.stems);
    const startAt = new Uint32Array(count + 1);
    const length = from.number();
    startAt[0] = from.skip(length);
    const places = room(endAt[head.stems], count * PLACES.length);
    const phrases = {
      stemByUnit: stemsByUnit(letters, head, piecesAt, stemOf), startAt, partsAt: new Uint32Array(count),
      lengths: new Uint16Array(count * 2), endAt, places,
    };
    const listAt = from.sums(head.stems + head.meanings.length);
    const index = {
      letters, head, count, texts, stemOf, endingsAt, piecesAt, shapesAt, phrases, listAt, listsAt: from.skip(0),
      byFirst: byFirstStem(head), odd: new Map(head.odd.map((odd) => [odd[0], odd])),
      norms: { inName: new Float32Array(count), inAlso: new Float32Array(count) },
    };
    for (let entry = 0, step = 0; entry < count; step += 1) {
      yield;
      const last = Math.min(count, entry + AT_ONCE[Math.min(step, AT_ONCE.length - 1)]);
      readSome(letters, shapesAt, phrases, entry, last);
      entry = last;
    }
    return index;
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

  /** The stems of the phrase that starts at a letter, small words left out, and where the next starts. @param {Index} index @param {number} at */
  function phraseAt({ letters, phrases: { stemByUnit } }, at) {
    /** @type {number[]} */
    const stems = [];
    for (;;) {
      const unit = letters.charCodeAt(at++);
      if (unit === PHRASE_ENDS) return { stems, next: at };
      const stem = stemByUnit[unit < WIDE ? unit : wide(unit, letters.charCodeAt(at++))];
      if (stem >= 0) stems.push(stem);
    }
  }

  /**
   * The phrases of an entry, its name first: where each starts, its field and its stems.
   * @param {Index} index @param {number} entry
   */
  function phrasesOf(index, entry) {
    const { startAt } = index.phrases;
    const also = howMany(index, entry, 0);
    const rungs = also + partsIn(index, entry, 2);
    /** @type {{at: number, field: number, stems: number[]}[]} */
    const phrases = [];
    for (let at = startAt[entry], next = at; at < startAt[entry + 1]; at = next) {
      const here = phraseAt(index, at);
      const number = phrases.length;
      const field = number === 0 ? NAME : number <= also ? ALSO : number <= rungs ? PARTS : RUNGS;
      phrases.push({ at, field, stems: here.stems });
      next = here.next;
    }
    return phrases;
  }

  /** The endings of a word, as bits. @param {Index} index @param {number} word */
  const endingsOf = ({ letters, endingsAt }, word) => valueOf(letters.charCodeAt(endingsAt + word));

  /** Whether an entry has a stem; some stand only in the list of synonyms. @param {Index} index @param {number} stem */
  const isWritten = ({ listAt }, stem) => listAt[stem + 1] > listAt[stem];

  /** How many other names, faults, cues or rungs an entry has. @param {Index} index @param {number} entry @param {number} which from 0 */
  const howMany = ({ letters, shapesAt }, entry, which) => valueOf(letters.charCodeAt(shapesAt + entry * SHAPE + which));

  /** How many parts an entry has of so many sorts: faults, cues, rungs. @param {Index} index @param {number} entry @param {number} sorts */
  function partsIn(index, entry, sorts) {
    let sum = 0;
    for (let sort = 1; sort <= sorts; sort += 1) sum += howMany(index, entry, sort);
    return sum;
  }

  /** How much a word in the name of an entry counts, kept in the index. @param {Index} index @param {number} entry */
  function nameNorm(index, entry) {
    const length = index.phrases.lengths[entry * 2];
    return (index.norms.inName[entry] = lengthFactor(roughLength(length), index.head.averages[NAME]));
  }

  /** How much a word in its other names counts. @param {Index} index @param {number} entry */
  function alsoNorm(index, entry) {
    const { lengths } = index.phrases;
    const length = lengths[entry * 2 + 1] - lengths[entry * 2];
    return (index.norms.inAlso[entry] = lengthFactor(roughLength(length), index.head.averages[ALSO]));
  }

  /**
   * Whether the names of an entry, or its faults and cues, say one of these, stem after stem.
   * @param {Index} index @param {number} entry @param {boolean} inParts @param {ArrayLike<number>[]} ways
   */
  function entrySays(index, entry, inParts, ways) {
    const { letters, phrases: { stemByUnit, startAt, partsAt } } = index;
    let [at, length] = [inParts ? partsAt[entry] : startAt[entry], 0];
    for (let left = inParts ? partsIn(index, entry, 2) : 1 + howMany(index, entry, 0); left > 0; ) {
      const unit = letters.charCodeAt(at++);
      if (unit === PHRASE_ENDS) {
        left -= 1;
        length = 0;
        continue;
      }
      const stem = stemByUnit[unit < WIDE ? unit : wide(unit, letters.charCodeAt(at++))];
      if (stem < 0) continue;
      heard[length++] = stem;
      for (let way = 0; way < ways.length; way += 1) if (endsWith(length, ways[way])) return true;
    }
    return false;
  }

  /** The stems of the phrase that is being read. @type {number[]} */
  const heard = [];

  /** Whether the stems heard so far end with these. @param {number} length @param {ArrayLike<number>} said */
  function endsWith(length, said) {
    let same = 0;
    while (same < said.length && same < length && heard[length - 1 - same] === said[said.length - 1 - same]) same += 1;
    return same === said.length;
  }

  /** The phrase that starts at a letter as a person reads it. @param {Index} index @param {number} at @param {number} field */
  function phraseText({ letters, head, texts, piecesAt }, at, field) {
    const from = cursor(letters);
    from.skip(at);
    let [text, between, capital] = ["", "", field !== ALSO];
    for (;;) {
      const code = from.number();
      if (code === END) return text + (between === " " ? "" : between);
      if (code === CAPITAL) {
        capital = !capital;
        continue;
      }
      const piece = valueOf(letters.charCodeAt(piecesAt + code - FIRST_PIECE));
      const [other, isWord] = piece & 1 ? head.others[piece >> 1] : [undefined, 0];
      if (other !== undefined && isWord === null) between = other;
      else {
        const word = texts[piece >> 1];
        text += between + (other ?? (capital ? word[0].toUpperCase() + word.slice(1) : word));
        [between, capital] = [" ", false];
      }
    }
  }

  /**
   * The place of a phrase on its page: fault, cue or rung with its number, or nothing.
   * @param {Index} index @param {number} entry @param {number} phrase its number in the entry
   */
  function placeOf(index, entry, phrase) {
    let number = phrase - howMany(index, entry, 0);
    for (let sort = 0; sort < 3 && number > 0; sort += 1) {
      const here = howMany(index, entry, 1 + sort);
      if (number <= here) return { sort, number };
      number -= here;
    }
    return null;
  }

  /** The kind of an entry and the frame of its address: all of one kind stand together. @param {Index} index @param {number} entry */
  function kindOf({ head: { kinds } }, entry) {
    let at = 0;
    for (let end = kinds[0][1]; entry >= end; end += kinds[at][1]) at += 1;
    return { kind: kinds[at][0], frame: kinds[at][2] };
  }

  /** @param {Index} index @param {number} entry */
  const nameOf = (index, entry) => phraseText(index, index.phrases.startAt[entry], NAME);

  /** @param {Index} index @param {number} entry */
  const idOf = (index, entry) => index.odd.get(entry)?.[1] ?? hyphened(nameOf(index, entry).toLowerCase());

  /** Words with hyphens between them; the letters of other tongues are only looked up when there are any. @param {string} text */
  const hyphened = (text) => text.replace(/[^\x00-\x7f]/.test(text) ? /[^\p{Alphabetic}\p{N}]+/gu : /[^a-z0-9]+/g, "-");

  /**
   * The address of a page or of a place on it.
   * @param {Index} index @param {number} entry @param {ReturnType<typeof placeOf>} place
   */
  function addressOf(index, entry, place) {
    const odd = index.odd.get(entry)?.[2];
    if (odd?.length) return place ? odd[partsIn(index, entry, place.sort) + place.number] : odd[0];
    const [before, after] = kindOf(index, entry).frame;
    const page = before + idOf(index, entry) + after;
    if (!place) return page;
    const [left, right] = index.head.sorts[place.sort][2];
    return page + left + place.number + right;
  }

  return {
    NAME, ALSO, PARTS, ABOUT, SAME, TEXT, RUNGS,
    read, reading, toTheEnd, endingsOf, isWritten, lengthFactor, nameNorm, alsoNorm,
    entrySays, phrasesOf, phraseText, placeOf, kindOf, nameOf, idOf, addressOf,
  };
})();

if (typeof module !== "undefined") module.exports = rungbookIndexFile;
