// The member's book without a page: what storage holds and what the script makes of it.
// Never a real browser: storage is a map here; the page has its own tests in book-page.test.mjs.
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { join } from "node:path";
import { beforeEach, test } from "node:test";
import { HOUSE } from "./hall.mjs";

const book = createRequire(import.meta.url)(join(HOUSE, "themes/slate/scripts/book.js"));
const KEY = "rungbook-book";

/** Storage as browsers have it, with room for so many letters. */
function storage(room = Infinity) {
  const kept = new Map();
  const size = () => [...kept].reduce((total, [key, text]) => total + key.length + text.length, 0);
  return {
    get length() { return kept.size; },
    key: (at) => [...kept.keys()][at] ?? null,
    getItem: (key) => kept.get(key) ?? null,
    removeItem: (key) => kept.delete(key),
    setItem(key, text) {
      if (size() - (kept.get(key)?.length ?? 0) + text.length > room) throw new Error("full");
      kept.set(key, String(text));
    },
  };
}

const withStorage = (value) => Object.defineProperty(globalThis, "localStorage", { value, configurable: true, writable: true });

const RESULT = {
  id: "a1", day: "2026-11-25", ladder: "push-up", rung: 4, setting: { hands: 90 }, counts: "reps", amount: 12, added_kg: 0, note: "",
};

beforeEach(() => withStorage(storage()));

test("a device without a book has an empty, whole one", () => {
  assert.deepEqual(book.read(), {
    schema: "rungbook-book-1", stature_cm: null, body_mass_kg: null, heights: {}, rungs: {}, results: [], done: [], notes: [],
  });
  assert.deepEqual(book.trouble(), []);
});

test("a change is kept and read again", () => {
  assert.equal(book.change((mine) => {
    mine.rungs["push-up"] = 4;
    mine.heights.counter = 90;
    mine.results.push(RESULT);
  }), true);
  assert.deepEqual(book.read().results, [RESULT]);
  assert.deepEqual(book.read().rungs, { "push-up": 4 });
  assert.deepEqual(JSON.parse(localStorage.getItem(KEY)), book.read());
});

test("a change that makes no valid book changes nothing", () => {
  book.change((mine) => mine.results.push(RESULT));
  const before = localStorage.getItem(KEY);
  for (const wrong of [{ day: "2026-02-30" }, { rung: 0 }, { rung: 1.5 }, { amount: -1 }, { amount: NaN }, { counts: "metres" }, { added_kg: "5" }, { id: "a1" }]) {
    assert.equal(book.change((mine) => mine.results.push({ ...RESULT, id: "b2", ...wrong })), false, JSON.stringify(wrong));
  }
  assert.equal(localStorage.getItem(KEY), before);
});

test("a result and a picked rung keep what the rung was; older ones without it are read too", () => {
  const then = { movement: "incline-push-up", settings: { hands: 60 } };
  assert.equal(book.change((mine) => {
    mine.results.push(RESULT, { ...RESULT, id: "b2", ...then });
    mine.rungs["push-up"] = 4;
    mine.rungs_then = { "push-up": then };
  }), true);
  assert.deepEqual(book.read().results, [RESULT, { ...RESULT, id: "b2", ...then }]);
  assert.deepEqual(book.read().rungs_then, { "push-up": then });
  assert.deepEqual(book.trouble(), []);
  for (const wrong of [{ movement: 3 }, { movement: "No id" }, { settings: [] }, { settings: { hands: "60" } }]) {
    assert.equal(book.change((mine) => mine.results.push({ ...RESULT, id: "c3", ...then, ...wrong })), false, JSON.stringify(wrong));
    assert.equal(book.change((mine) => { mine.rungs_then = { row: { ...then, ...wrong } }; }), false, JSON.stringify(wrong));
  }
});

test("what is no book is kept aside, once, and said", () => {
  for (const [at, kept] of ["{\"schema\":\"rungbook-book-1\"", "[]", "null", "{\"schema\":\"rungbook-book-9\",\"results\":[]}"].entries()) {
    localStorage.setItem(KEY, kept);
    assert.deepEqual(book.read(), book.empty());
    assert.ok(book.trouble().length > 0, kept);
    assert.equal(book.asides().length, at + 1);
    assert.ok(book.asides().some((one) => one.text === kept && one.key.startsWith(`${KEY}-aside-`)));
    assert.equal(localStorage.getItem(KEY), kept, "reading alone replaces nothing");
  }
  assert.equal(book.change((mine) => { mine.rungs.row = 2; }), true);
  assert.deepEqual(book.trouble(), []);
  assert.equal(book.asides().length, 4);
});

test("one broken entry costs no other, and stays in what is kept aside", () => {
  const mine = { ...book.empty(), results: [RESULT, { ...RESULT, id: "b2", day: "2026-13-01" }, null, RESULT], rungs: { row: 2, "Push Up": 3 } };
  const kept = JSON.stringify(mine);
  localStorage.setItem(KEY, kept);
  assert.deepEqual(book.read().results, [RESULT]);
  assert.deepEqual(book.read().rungs, { row: 2 });
  assert.deepEqual(book.trouble().map((one) => one.split(/[ ;]/)[0]).sort(), ["results[1].day", "results[2]", "results[3].id", "rungs.Push"]);
  assert.deepEqual(book.asides().map((one) => one.text), [kept]);
});

test("keys of a later version are not dropped in silence", () => {
  localStorage.setItem(KEY, JSON.stringify({ ...book.empty(), mood: "fine" }));
  assert.deepEqual(book.trouble(), ["mood is not known here"]);
  assert.equal(book.asides().length, 1);
});

test("names that every object has are not taken for entries", () => {
  localStorage.setItem(KEY, `{"schema":"rungbook-book-1","stature_cm":null,"body_mass_kg":null,"heights":{"__proto__":9},"rungs":{"constructor":3},"results":[],"done":[],"notes":[]}`);
  assert.equal(Object.keys(book.read().heights).length, 0);
  assert.deepEqual(Object.entries(book.read().rungs), [["constructor", 3]]);
  assert.equal({}.polluted, undefined);
});

test("full storage refuses, and a broken book that cannot be kept aside is not overwritten", () => {
  const broken = "x".repeat(150);
  withStorage(storage(200));
  localStorage.setItem(KEY, broken);
  assert.equal(book.change((mine) => { mine.rungs.row = 2; }), false);
  assert.equal(localStorage.getItem(KEY), broken);
  withStorage(storage(20));
  assert.equal(book.change((mine) => { mine.rungs.row = 2; }), false);
});

test("storage that throws leaves an empty book and says false", () => {
  Object.defineProperty(globalThis, "localStorage", { get() { throw new Error("forbidden"); }, configurable: true });
  assert.deepEqual(book.read(), book.empty());
  assert.deepEqual(book.asides(), []);
  assert.equal(book.change(() => {}), false);
  assert.equal(book.erase(), false);
});

test("erasing leaves nothing of the book and nothing aside; other keys stay", () => {
  localStorage.setItem("rungbook-kit", "{}");
  localStorage.setItem(KEY, "broken");
  book.change((mine) => { mine.rungs.row = 2; });
  assert.equal(book.asides().length, 1);
  assert.equal(book.erase(), true);
  assert.equal(localStorage.length, 1);
  assert.deepEqual(book.read(), book.empty());
});

test("days are those of the calendar; today is this device's", () => {
  for (const day of ["2024-02-29", "2026-11-25"]) assert.ok(book.isDay(day), day);
  for (const day of ["2026-02-29", "2026-1-5", "25.11.2026", "2026-00-10", "", null, 20261125]) assert.ok(!book.isDay(day), String(day));
  assert.equal(book.today(new Date(2026, 2, 5, 23, 59)), "2026-03-05");
});

test("ids do not repeat", () => {
  const ids = new Set(Array.from({ length: 1000 }, () => book.newId()));
  assert.equal(ids.size, 1000);
});
