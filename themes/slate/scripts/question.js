// What a person typed, turned into what may be meant: the browser's twin of src/search/question.rs,
// fold.rs and vocabulary.rs. Never ranks, never touches the page.
// The next line asks the browser to make all of it ready on arrival, not at the first question.
//# allFunctionsCalledOnLoad
"use strict";

/**
 * @typedef {ReturnType<typeof rungbookIndexFile.read>} SearchIndex
 * @typedef {{token: number, sure: number, namesOnly: boolean}} Choice
 * What may be meant, and how surely.
 * @typedef {{said: Said[], words: Choice[][], whole: Choice[]}} Unit
 * Words judged together: each by itself, or all as one.
 * @typedef {{one: number, other: number, sure: number}} Pair
 * @typedef {{units: Unit[], pairs: Pair[][], without: number[]}} Question
 * @typedef {Map<number, number>} Sure how surely each token is meant
 * @typedef {{text: string, choices: Choice[], stems: Sure}} Said
 */

const rungbookQuestion = (() => {
  const SMALL = -1;
  /** Fewer letters than these, and an unfinished word stands in almost every text. */
  const SHORTEST = 3;
  const { fround } = Math;
  /** The letters of other tongues are a long list, only made when there are any. @param {string} letter */
  const isLetterOrDigit = (letter) =>
    letter < "\x80" ? /[A-Za-z0-9]/.test(letter) : /[\p{Alphabetic}\p{N}]/u.test(letter);

  /** The plain words of a text. @param {SearchIndex} index @param {string} text */
  function fold({ head }, text) {
    /** @type {string[]} */
    const words = [];
    let word = "";
    for (const letter of text) {
      let plain = "";
      for (const small of letter.toLowerCase()) {
        const folded = head.folds.find(([marked]) => marked.includes(small));
        plain += folded ? folded[1] : isLetterOrDigit(small) ? small : "";
      }
      if (plain === "" && !head.silent.includes(letter) && word !== "") {
        words.push(word);
        word = "";
      }
      word += plain;
    }
    return word === "" ? words : [...words, word];
  }

  /** Whether two texts are the same words. @param {SearchIndex} index @param {string} one @param {string} other */
  const isSame = (index, one, other) => fold(index, one).join() === fold(index, other).join();

  /** Whether the last word may still grow. @param {SearchIndex} index @param {string} text */
  function isOpen({ head }, text) {
    const last = [...text].pop();
    return last !== undefined && (isLetterOrDigit(last) || head.silent.includes(last));
  }

  /** The first word not before this one. @param {string[]} texts @param {string} word */
  function lowerBound(texts, word) {
    let [low, high] = [0, texts.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (texts[middle] < word) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /** The place of a word, or -1. @param {SearchIndex} index @param {string} word */
  function surface({ texts }, word) {
    const at = lowerBound(texts, word);
    return texts[at] === word ? at : -1;
  }

  /**
   * The stem of a word, as written or with another ending; SMALL, or nothing if it is unknown.
   * @param {SearchIndex} index @param {string} word @returns {number | undefined}
   */
  function known(index, word) {
    const at = surface(index, word);
    if (at >= 0) return index.stemOf[at];
    const { endings, doubling } = index.head;
    for (let bit = 0; bit < endings.length; bit += 1) {
      const [ending, instead] = endings[bit];
      if (!word.endsWith(ending)) continue;
      const stem = sameStem(index, bit, word.slice(0, word.length - ending.length) + instead);
      if (stem !== undefined) return stem;
    }
    for (let bit = 0; bit < doubling.length; bit += 1) {
      const base = word.slice(0, word.length - doubling[bit].length);
      const last = base[base.length - 1];
      const doubled = word.endsWith(doubling[bit]) && base.length > 1 && base.endsWith(last + last);
      if (!doubled) continue;
      const stem = sameStem(index, endings.length + bit, base.slice(0, -1));
      if (stem !== undefined) return stem;
    }
    return undefined;
  }

  /** @param {SearchIndex} index @param {number} bit @param {string} base */
  function sameStem(index, bit, base) {
    const at = surface(index, base);
    const same = at >= 0 && (rungbookIndexFile.endingsOf(index, at) >> bit) & 1;
    return same && index.stemOf[at] >= 0 ? index.stemOf[at] : undefined;
  }

  /** @param {SearchIndex} index @param {number | undefined} stem */
  const isWritten = (index, stem) => stem !== undefined && stem >= 0 && rungbookIndexFile.isWritten(index, stem);

  /**
   * Tells the meanings said anywhere in these stems.
   * @param {SearchIndex} index @param {ArrayLike<number>} stems @param {(token: number) => void} tell
   */
  function meaningsIn({ byFirst }, stems, tell) {
    for (let at = 0; at < stems.length; at += 1) {
      const starting = byFirst.get(stems[at]);
      if (starting === undefined) continue;
      for (const { token, phrase } of starting) {
        let same = 1;
        while (same < phrase.length && stems[at + same] === phrase[same]) same += 1;
        if (same === phrase.length) tell(token);
      }
    }
  }

  /** Keeps the surest reading. @param {Sure} choices @param {number} token @param {number} sure */
  function choose(choices, token, sure) {
    choices.set(token, Math.max(sure, choices.get(token) ?? 0));
  }

  /** Adds the meanings of single words. What a short word only begins counts in names. @param {SearchIndex} index @param {Sure} choices */
  function withMeanings(index, choices, short = false) {
    for (const [stem, sure] of [...choices]) {
      for (const { token, phrase } of index.byFirst.get(stem) || []) {
        if (phrase.length === 1) choose(choices, token, fround(sure * index.head.same));
      }
    }
    return Array.from(choices, ([token, sure]) => ({ token, sure, namesOnly: short && sure <= index.head.prefix }));
  }

  /**
   * What a word may be.
   * @param {SearchIndex} index @param {string} text @param {boolean} open @returns {Said[]}
   */
  function hear(index, text, open) {
    const stem = known(index, text);
    /** @type {Sure} */
    let choices = new Map();
    if (stem !== undefined && stem !== SMALL) choose(choices, stem, 1);
    let stems = new Map(choices);
    // A word nobody wrote is most often the beginning of one: `pul up`.
    if (open || (stem === undefined && text.length >= SHORTEST)) begunBy(index, text, choices);
    if (stem === SMALL && choices.size === 0) return [];
    if (!open) stems = new Map(choices);
    if (!isWritten(index, stem)) {
      const halves = split(index, text);
      if (halves) return halves.flatMap((half) => hear(index, half, false));
    }
    if (choices.size === 0) {
      choices = slipped(index, text, open);
      stems = new Map(choices);
    }
    const short = open && text.length < SHORTEST;
    return [{ text, choices: withMeanings(index, choices, short), stems }];
  }

  /** The words that begin like this. @param {SearchIndex} index @param {string} text @param {Sure} choices */
  function begunBy({ texts, stemOf, head }, text, choices) {
    for (let at = lowerBound(texts, text); texts[at]?.startsWith(text); at += 1) {
      if (stemOf[at] >= 0) choose(choices, stemOf[at], head.prefix);
    }
  }

  /** The two known words that a word is made of. @param {SearchIndex} index @param {string} text */
  function split(index, text) {
    const letters = [...text];
    for (let at = 3; at < letters.length - 1; at += 1) {
      const halves = [letters.slice(0, at).join(""), letters.slice(at).join("")];
      if (halves.every((half) => isWritten(index, known(index, half)))) return halves;
    }
    return undefined;
  }

  /** A bit for each letter in a word; two letters may share one. @param {string} word */
  function lettersIn(word) {
    let letters = 0;
    for (let at = 0; at < word.length; at += 1) letters |= 1 << (word.charCodeAt(at) & 31);
    return letters;
  }

  /** How many bits are set, counted up to three. @param {number} bits */
  function fewBits(bits) {
    const one = bits & (bits - 1);
    const two = one & (one - 1);
    return bits === 0 ? 0 : one === 0 ? 1 : two === 0 ? 2 : 3;
  }

  /** @type {WeakMap<string[], Int32Array>} */
  const lettersOf = new WeakMap();
  /** The letters of every word, worked out at the first slip. @param {string[]} texts */
  function allLetters(texts) {
    const known = lettersOf.get(texts);
    if (known) return known;
    const letters = Int32Array.from(texts, lettersIn);
    lettersOf.set(texts, letters);
    return letters;
  }

  /** @param {SearchIndex} index @param {string} text @param {boolean} open */
  function slipped({ texts, stemOf, head }, text, open) {
    const most = text.length < 4 ? 0 : text.length < 8 ? 1 : 2;
    /** @type {Sure} */
    const choices = new Map();
    const letters = allLetters(texts);
    const typed = lettersIn(text);
    for (let slips = 1; slips <= most && choices.size === 0; slips += 1) {
      const sure = head.slips[slips - 1];
      for (let at = 0; at < texts.length; at += 1) {
        // A slip brings in one letter at most, so more letters that the word lacks are too many.
        if (fewBits(typed & ~letters[at]) > slips) continue;
        const [written, stem] = [texts[at], stemOf[at]];
        if (stem < 0 || (slips === 2 && text[0] !== written[0])) continue;
        const [whole, begun] = distance(text, written, slips, open);
        if (whole === slips) choose(choices, stem, sure);
        else if (open && begun === slips) choose(choices, stem, fround(sure * head.prefix));
      }
    }
    return choices;
  }

  const rows = [0, 1, 2].map(() => new Uint8Array(256));

  /**
   * Slips between what was typed and a word, and between it and the word's beginning; anything above
   * `most` counts as one more than it.
   * @param {string} typed @param {string} written @param {number} most @param {boolean} open
   */
  function distance(typed, written, most, open) {
    const far = most + 1;
    if (typed.length > written.length + most || typed.length > 200) return [far, far];
    if (!open && written.length > typed.length + most) return [far, far];
    const columns = Math.min(written.length, typed.length + far);
    let [before, last, line] = rows;
    for (let column = 0; column <= columns; column += 1) last[column] = column;
    for (let row = 0; row < typed.length; row += 1) {
      const letter = typed.charCodeAt(row);
      let least = (line[0] = row + 1);
      for (let column = 0; column < columns; column += 1) {
        const same = letter === written.charCodeAt(column) ? 0 : 1;
        let cost = Math.min(last[column] + same, last[column + 1] + 1, line[column] + 1);
        const exchanged = row > 0 && column > 0 && letter === written.charCodeAt(column - 1) &&
          typed.charCodeAt(row - 1) === written.charCodeAt(column);
        if (exchanged) cost = Math.min(cost, before[column - 1] + 1);
        line[column + 1] = cost;
        if (cost < least) least = cost;
      }
      if (least > most) return [far, far];
      [before, last, line] = [last, line, before];
    }
    let begun = far;
    for (let column = 0; column <= columns; column += 1) begun = Math.min(begun, last[column]);
    return [columns === written.length ? Math.min(last[columns], far) : far, begun];
  }

  /** How surely these words say the phrase. @param {Said[]} said @param {ArrayLike<number>} phrase */
  function says(said, phrase) {
    let least = 1;
    for (let at = 0; at < phrase.length; at += 1) {
      const sure = said[at]?.stems.get(phrase[at]);
      if (sure === undefined) return undefined;
      least = Math.min(least, sure);
    }
    return least;
  }

  /** The meanings of the longest phrase of two or more words. @param {SearchIndex} index @param {Said[]} said */
  function longestPhrase(index, said) {
    let length = 2;
    /** @type {Sure} */
    const found = new Map();
    for (const stem of said[0].stems.keys()) {
      for (const { token, phrase } of index.byFirst.get(stem) || []) {
        const sure = phrase.length < length ? undefined : says(said, phrase);
        if (sure === undefined) continue;
        if (phrase.length > length) found.clear();
        length = phrase.length;
        choose(found, token, fround(sure * index.head.same));
      }
    }
    const whole = Array.from(found, ([token, sure]) => ({ token, sure, namesOnly: false }));
    return { length, whole };
  }

  /** Two words written as one. @param {SearchIndex} index @param {Said[]} said */
  function joined(index, said) {
    const at = said.length < 2 ? -1 : surface(index, said[0].text + said[1].text);
    const stem = at < 0 ? SMALL : index.stemOf[at];
    return stem === SMALL ? undefined : withMeanings(index, new Map([[stem, 1]]));
  }

  /** @param {Said} one @param {Said} other @returns {Pair[]} */
  function sideBySide(one, other) {
    if (Math.max(one.stems.size, other.stems.size) > 4) return [];
    /** @type {Map<string, Pair>} */
    const pairs = new Map();
    for (const [first, sure] of one.stems) {
      for (const [second, also] of other.stems) {
        const pair = { one: Math.min(first, second), other: Math.max(first, second), sure: Math.min(sure, also) };
        const key = `${pair.one}+${pair.other}`;
        if (pair.sure > (pairs.get(key)?.sure ?? 0)) pairs.set(key, pair);
      }
    }
    return [...pairs.values()];
  }

  /**
   * Understands what was typed.
   * @param {SearchIndex} index @param {string} typed
   * @param {Map<string, Said[]>} heard the words of the question before; those of this one after
   * @returns {Question}
   */
  function ask(index, typed, heard) {
    const words = fold(index, typed);
    const open = isOpen(index, typed);
    const before = new Map(heard);
    heard.clear();
    const said = words.flatMap((word, at) => {
      const mayGrow = open && at === words.length - 1;
      const key = mayGrow ? `${word}~` : word;
      const heardNow = before.get(key) || hear(index, word, mayGrow);
      heard.set(key, heardNow);
      return heardNow;
    });
    /** @type {Question} */
    const question = { units: [], pairs: [], without: [] };
    for (let at = 0; at < said.length; ) at += nextUnit(index, said.slice(at), question);
    for (let at = 1; at < said.length; at += 1) {
      const pairs = sideBySide(said[at - 1], said[at]);
      if (pairs.length > 0) question.pairs.push(pairs);
    }
    return question;
  }

  /** @param {SearchIndex} index @param {Said[]} said @param {Question} question */
  function nextUnit(index, said, question) {
    const { length, whole } = longestPhrase(index, said);
    /** @param {number} count */
    const words = (count) => said.slice(0, count).map(({ choices }) => choices);
    if (whole.length > 0) {
      const tokens = whole.map(({ token }) => token);
      /** @param {number} token */
      const sortOf = (token) => index.head.meanings[token - index.head.stems]?.[0];
      const without = tokens.filter((token) => sortOf(token) === 1);
      question.without.push(...without);
      // Without a bar means just that; any other phrase counts for as much as its words.
      const times = without.length > 0 ? 1 : length;
      const scaled = whole.map((choice) => {
        const sure = fround(choice.sure * times);
        // A fault called by its name counts for more than the words of the name.
        return { ...choice, sure: sortOf(choice.token) === 2 ? fround(sure * index.head.fault) : sure };
      });
      question.units.push({ said: said.slice(0, length), words: without.length > 0 ? [] : words(length), whole: scaled });
      return length;
    }
    const asOne = joined(index, said);
    const count = asOne ? 2 : 1;
    question.units.push({ said: said.slice(0, count), words: words(count), whole: asOne || [] });
    return count;
  }

  return { fold, isSame, meaningsIn, ask, distance };
})();

if (typeof module !== "undefined") module.exports = rungbookQuestion;
