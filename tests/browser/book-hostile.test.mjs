// A member's file that is read in, spoilt by hand and from a seed: it is refused place by place, or what came
// in is a whole, valid book. Nothing throws, nothing reaches further than the book.
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { join } from "node:path";
import { test } from "node:test";
import { dice } from "./dice.mjs";
import { HOUSE } from "./hall.mjs";

const script = (name) => createRequire(import.meta.url)(join(HOUSE, `themes/slate/scripts/${name}.js`));
const book = (globalThis.rungbookBook = script("book"));
const file = script("book-file");

const RESULT = {
  id: "a1", day: "2026-11-25", ladder: "push-up", rung: 4, setting: { hands: 90 }, counts: "reps", amount: 12,
  added_kg: 0, note: "in the kitchen", movement: "incline-push-up", settings: { hands: 60 },
};
const SOUND = {
  export: "rungbook-export-1", kit: { mode: "picked", kit: ["chair"], noise: "quiet" },
  limits: { cautions: ["sore-wrist"], traits: ["impact"], asks: { impact: "impact:1" } },
  book: {
    schema: "rungbook-book-1", stature_cm: 170, body_mass_kg: null, heights: { counter: 90 }, rungs: { "push-up": 4 },
    rungs_then: { "push-up": { movement: "incline-push-up", settings: { hands: 60 } } }, results: [RESULT],
    done: [{ id: "d1", day: "2026-11-25", session: "push-and-pull", block: "Row", rounds: 3, reps: null, note: "" }],
    notes: [{ id: "n1", day: "2026-11-25", text: "fine" }],
  },
};
const whole = JSON.stringify(SOUND, null, 2);

/** Values that nobody means. */
const ODD = [
  null, true, -1, 0, 1e308, -1e-308, 1e21, "", "nan", "../x", "__proto__", "constructor", "<script>alert(1)</script>",
  "2026-02-30", "9999-99-99", "\u0000\u202e\ufffe", "x".repeat(100_000), [], {}, [[]], { __proto__: null, a: 1 }, [null], 12.5, "push-up\nwren row rung 9 9 reps 2026-01-01",
];

/** Every place in a value, as a list of keys. */
function places(value, at = []) {
  if (typeof value !== "object" || value === null) return [at];
  return [at, ...Object.keys(value).flatMap((key) => places(value[key], [...at, key]))];
}

function withAt(value, [key, ...rest], put) {
  if (key === undefined) return put;
  const copy = Array.isArray(value) ? [...value] : { ...value };
  copy[key] = withAt(value[key], rest, put);
  return copy;
}

/** By hand: sizes, depths, doubles, other programs' files, names that objects have. */
const BY_HAND = [
  "", " ", "null", "[]", "7", "\"text\"", "{", whole.slice(0, -3), `\ufeff${whole}`, whole.repeat(2), "[".repeat(200_000), "{\"a\":".repeat(100_000),
  whole.replace("\"kit\"", "\"kit\": null, \"kit\""), "wren push-up rung 4 12 reps 2026-11-25", "BEGIN:VCALENDAR",
  JSON.stringify({ ...SOUND, book: { ...SOUND.book, results: Array(20_000).fill(RESULT) } }),
  whole.replace("\"book\": {", "\"book\": { \"__proto__\": { \"polluted\": true }, \"constructor\": 1,"),
  whole.replace("\"heights\": {", "\"heights\": { \"__proto__\": 90, \"toString\": 90,"),
  whole.replace("\"rungs\": {", "\"rungs\": { \"has-own-property\": 1e99,"),
  whole.replace("rungbook-export-1", "rungbook-export-2"), whole.replace("rungbook-book-1", "rungbook-book-0"),
];

const IN_PLACES = places(SOUND).flatMap((at) => ODD.map((odd) => JSON.stringify(withAt(SOUND, at, odd)) ?? "undefined"));

/** From a seed: letters turned, cut, doubled, put in. */
function rolled(count) {
  const roll = dice(1717);
  return Array.from({ length: count }, () => {
    let text = whole;
    for (let times = 1 + roll(4); times > 0; times -= 1) {
      const at = roll(text.length);
      const to = Math.min(text.length, at + roll(40));
      const sign = "{}[]\",:0-9eE\\u\n\u202e"[roll(18)];
      text = [text.slice(0, at) + sign + text.slice(at), text.slice(0, at) + text.slice(to), text.slice(0, to) + text.slice(at), text.slice(0, at) + sign + text.slice(at + 1)][roll(4)];
    }
    return text;
  });
}

test("every spoilt file is refused place by place, or what came in is a valid book", (t) => {
  const all = [...BY_HAND, ...IN_PLACES, ...rolled(400)];
  const seen = { refused: 0, read: 0 };
  for (const text of all) {
    const shown = text.slice(0, 60);
    const { file: read, wrong } = file.read(text);
    assert.equal(read === null, wrong.length > 0, shown);
    if (read === null) {
      seen.refused += 1;
      assert.ok(wrong.every((one) => one.includes(" ") && one.length < 400), `${shown}: ${wrong[0].slice(0, 500)}`);
      continue;
    }
    seen.read += 1;
    assert.deepEqual(book.check(read.book).wrong, [], shown);
    const mine = { ...book.empty(), results: [{ ...RESULT, amount: 15 }] };
    file.merge(mine, read.book);
    assert.deepEqual(book.check(mine).wrong, [], shown);
    assert.equal(mine.results.find((one) => one.id === "a1").amount, 15, "what is here stays");
    const handed = file.handOver(mine.results, { nick: "wren", all: true, notes: true, units: { hands: "cm" } });
    assert.equal(handed.split("\n").length, mine.results.length + 1, `${shown}: a result is a line`);
  }
  assert.equal({}.polluted, undefined);
  assert.ok(seen.read > 20, `${seen.read} were read`);
  t.diagnostic(`${all.length} bad books: ${seen.refused} said, ${seen.read} read whole, 0 threw`);
});
