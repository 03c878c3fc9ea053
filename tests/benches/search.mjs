// How large the search index is, how long it takes to read, and how long a keystroke takes, on a
// library generated from the starter library. Prints; asserts nothing.
//   cargo build --example search_answers && node tests/benches/search.mjs [ENTRIES]
import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, gzipSync } from "node:zlib";
import { searchScripts } from "../browser/search-scripts.mjs";

const root = fileURLToPath(new URL("../..", import.meta.url));
const entries = Number(process.argv[2] || 2000);
const folder = mkdtempSync(join(tmpdir(), "rungbook-bench-"));

/** The same numbers every time (Park and Miller 1988). */
let seed = 1;
const chance = (/** @type {number} */ below) => (seed = (seed * 48271) % 2147483647) % below;
/** @template T @param {T[]} list */
const pick = (list) => list[chance(list.length)];

const files = readdirSync(join(root, "content/movements"), { recursive: true, encoding: "utf8" })
  .filter((name) => name.endsWith(".md")).sort()
  .map((name) => readFileSync(join(root, "content/movements", name), "utf8"));

const words = files.join(" ").match(/\b[a-z]{3,}\b/g) || [];
/** Every fourth word is another one, so that no phrase stands twice and nothing packs too well. */
const vary = (/** @type {string} */ text) =>
  text.replace(/\b[a-z]{3,}\b/g, (word) => (chance(4) === 0 ? pick(words) : word));
/** A key's text in every file. @param {RegExp} pattern */
const pool = (pattern) => files.flatMap((text) => [...text.matchAll(pattern)].map(([, found]) => found));
const lines = { see: pool(/see: "?([^,"\n]+)/g), cause: pool(/cause: "?([^,"\n]+)/g), say: pool(/say: "?([^,"}\n]+)/g) };
const names = pool(/^name: (.+)$/gm).flatMap((name) => name.toLowerCase().split(" "));
const aliases = pool(/^aliases: \[(.*)\]$/gm).flatMap((list) => list.split(", "));
const sentences = files.flatMap((text) => text.split("\n---\n")[1].match(/[^.!?#\n][^.!?\n]*[.!?]/g) || []);

/** Names nobody else has, as a file's name is the entry's id. @type {Set<string>} */
const taken = new Set();
/** @returns {string} */
function freshName() {
  const name = `${pick(names)} ${pick(names)} ${pick(names)}`;
  if (taken.has(name.replace(/-/g, " "))) return freshName();
  taken.add(name.replace(/-/g, " "));
  return name;
}

/** @param {number} number */
function entry(number) {
  const text = files[number % files.length];
  const [head, body] = text.split("\n---\n");
  const count = (body.match(/[.!?]/g) || []).length;
  const name = freshName();
  const swap = { see: () => vary(pick(lines.see)), cause: () => vary(pick(lines.cause)), say: () => vary(pick(lines.say)) };
  const changed = head
    .replace(/^name: .+$/m, `name: ${name[0].toUpperCase()}${name.slice(1)}`)
    .replace(/^aliases: .+$/m, `aliases: [${[0, 1, 2].map(() => vary(pick(aliases))).join(", ")}]`)
    .replace(/(see|cause|say): "?[^,"}\n]+"?/g, (_, key) => `${key}: "${swap[/** @type {"see"} */ (key)]()}"`);
  const sections = ["Set-up", "How to teach it", "What to look for"];
  const written = sections.map((section) =>
    `## ${section}\n${Array.from({ length: Math.ceil(count / 3) }, () => vary(pick(sentences))).join(" ")}\n`);
  return { id: name.match(/[a-z0-9]+/g)?.join("-"), pattern: /^pattern: (.+)$/m.exec(head)?.[1] || "squat", text: `${changed}\n---\n${written.join("\n")}` };
}

function generate() {
  const library = join(folder, "content");
  for (const part of ["words", "ladders"]) cpSync(join(root, "content", part), join(library, part), { recursive: true });
  for (let number = 0; number < entries; number += 1) {
    const { id, pattern, text } = entry(number);
    mkdirSync(join(library, "movements", pattern), { recursive: true });
    writeFileSync(join(library, "movements", pattern, `${id}.md`), text);
  }
  return library;
}

/** Milliseconds of each of many runs, sorted. @param {() => void} act @param {number} times */
function clock(act, times) {
  return Float64Array.from({ length: times }, () => {
    const start = performance.now();
    act();
    return performance.now() - start;
  }).sort();
}
const at = (/** @type {Float64Array} */ sorted, /** @type {number} */ share) =>
  sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))].toFixed(3);

const yaml = readFileSync(join(root, "tests/queries.yaml"), "utf8");
const asked = [...yaml.matchAll(/\{ask: (.*?), find:/g)].map(([, ask]) => ask);
const [index, answers] = [join(folder, "index"), join(folder, "answers.json")];
execFileSync(join(root, "target/debug/examples/search_answers"), [generate(), index, answers], { input: asked.join("\n") });

const bytes = new Uint8Array(readFileSync(index));
const { rungbookRanking, rungbookIndexFile } = searchScripts();
// Everything that can be found counts as an entry: kit, cautions, muscles and the rest too.
const total = rungbookIndexFile.read(bytes).pages.count;
const share = (/** @type {number} */ size) => `${size} bytes, ${(size / total).toFixed(1)} an entry`;
console.log(`${entries} movements, ${total} entries in all`);
console.log(`plain    ${share(bytes.length)}`);
console.log(`gzip     ${share(gzipSync(bytes, { level: 9 }).length)}`);
console.log(`brotli   ${share(brotliCompressSync(bytes).length)}`);
console.log(`script, gzip ${share(gzipSync(Buffer.from(bytes).toString("base64"), { level: 9 }).length)}`);

const first = performance.now();
rungbookRanking.open(bytes);
console.log(`reading, first time ${(performance.now() - first).toFixed(1)} ms`);
const reads = clock(() => rungbookRanking.open(bytes), 30);
const before = process.cpuUsage();
for (let times = 0; times < 30; times += 1) rungbookRanking.open(bytes);
console.log(`reading, processor ${(process.cpuUsage(before).user / 30000).toFixed(1)} ms`);
console.log(`reading, later      ${at(reads, 0.5)} ms, 95 of 100 under ${at(reads, 0.95)} ms`);

const ranking = rungbookRanking.open(bytes);
const keystrokes = asked.flatMap((ask) => Array.from(ask, (_, length) => ask.slice(0, length + 1)));
/** The quickest of five, as other work on the machine only ever adds. @param {string} typed @param {() => void} prepare */
function quickest(typed, prepare) {
  const times = [1, 2, 3, 4, 5].map(() => {
    prepare();
    const start = performance.now();
    rungbookRanking.find(ranking, typed, 8);
    return performance.now() - start;
  });
  return Math.min(...times);
}
/** @param {string} words @param {() => void} prepare */
function keys(words, prepare) {
  const times = Float64Array.from(keystrokes, (typed) => quickest(typed, prepare)).sort();
  console.log(`${keystrokes.length} keystrokes, ${words}: ${at(times, 0.5)} ms, 95 of 100 under ${at(times, 0.95)} ms, all under ${at(times, 1)} ms`);
}
keys("nothing kept from earlier ones", () => {
  ranking.tokens.clear();
  ranking.pairs.clear();
});
keys("as one types", () => {});
rmSync(folder, { recursive: true, force: true });
