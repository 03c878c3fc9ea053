// What a member's book costs as it grows: reading it and adding one result, processor time of this machine. A
// benchmark, never a test: `node tests/benches/book.mjs`. 500 results are ten years of one member; 15,000 are
// those of a whole club, which no one book holds.
import { createRequire } from "node:module";

const kept = new Map();
globalThis.localStorage = {
  get length() { return kept.size; },
  key: (at) => [...kept.keys()][at] ?? null,
  getItem: (key) => kept.get(key) ?? null,
  removeItem: (key) => kept.delete(key),
  setItem: (key, text) => void kept.set(key, text),
};
const book = createRequire(import.meta.url)("../../themes/slate/scripts/book.js");

const result = (nth) => ({
  id: `r${nth}`, day: "2026-11-25", ladder: "push-up", rung: 4, setting: { hands: 90 }, counts: "reps", amount: 12,
  added_kg: 0, note: "", movement: "incline-push-up", settings: { hands: 60 },
});

/** The least of ten, milliseconds. */
function least(act) {
  const times = Array.from({ length: 10 }, (_, nth) => {
    const before = process.cpuUsage();
    act(nth);
    const { user, system } = process.cpuUsage(before);
    return (user + system) / 1000;
  });
  return Math.min(...times).toFixed(1);
}

for (const size of [500, 5000, 15000]) {
  kept.clear();
  const whole = { ...book.empty(), results: Array.from({ length: size }, (_, nth) => result(nth)) };
  kept.set("rungbook-book", JSON.stringify(whole));
  const read = least(() => book.read());
  const added = least((nth) => {
    if (!book.change((mine) => mine.results.push(result(size + nth)))) throw new Error(book.whyNot());
  });
  console.log(`${size} results, ${kept.get("rungbook-book").length} letters: read in ${read} ms, one added in ${added} ms`);
}
