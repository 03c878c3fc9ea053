// How large the search index is, how long it takes to read, and how long a keystroke takes, on a
// library generated from the starter library: in a real page, as it is and throttled. Prints; asserts
// nothing. The thread of the page has a core to itself, as on a phone: with two cores, the browser's
// own helpers would take turns with it, four milliseconds at a time.
//   cargo build --bins --example search_answers && node tests/benches/search.mjs [MOVEMENTS ...]
import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { availableParallelism, tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { brotliCompressSync, gzipSync } from "node:zlib";
import { builtSite, openBrowser, serve } from "../browser/hall.mjs";
import { indexIn, searchScripts } from "../browser/search-scripts.mjs";

const root = fileURLToPath(new URL("../..", import.meta.url));
/** New pages for the time of reading, and passes over all keystrokes. */
const [RUNS, PASSES] = [15, 4];
/** Asked before anything is kept to fewer of them. */
const CORES = availableParallelism();
const { rungbookIndexFile } = searchScripts();
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

/** @param {number} entries */
function generate(entries) {
  seed = 1;
  taken.clear();
  const library = join(folder, "content");
  for (const part of ["words", "ladders"]) cpSync(join(root, "content", part), join(library, part), { recursive: true });
  for (let number = 0; number < entries; number += 1) {
    const { id, pattern, text } = entry(number);
    mkdirSync(join(library, "movements", pattern), { recursive: true });
    writeFileSync(join(library, "movements", pattern, `${id}.md`), text);
  }
  return library;
}

/** The index of a generated library, as the script that a page fetches. @param {number} entries */
function indexOf(entries) {
  const [index, answers] = [join(folder, "index.js"), join(folder, "answers.json")];
  const library = generate(entries);
  execFileSync(join(root, "target/debug/examples/search_answers"), [library, index, answers], { input: "" });
  rmSync(library, { recursive: true });
  return readFileSync(index, "utf8");
}

/** A page of the starter site with another index, as slow as asked. @param {string} script @param {number} slower */
async function pageWith(script, slower) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, serviceWorkers: "block" });
  const page = await context.newPage();
  await page.route("**/data/search-index.js", (route) =>
    route.fulfill({ body: script, contentType: "text/javascript; charset=utf-8" }));
  await page.goto(`${hall.address}floor.html`);
  await (await context.newCDPSession(page)).send("Emulation.setCPUThrottlingRate", { rate: slower });
  for (const name of ["index-file", "question", "postings", "ranking"]) {
    await page.addScriptTag({ url: `${hall.address}scripts/${name}.js` });
  }
  await page.addScriptTag({ url: `${hall.address}data/search-index.js` });
  await page.evaluate(busy);
  keepApart();
  return page;
}

/** The parent of a program. @param {string} program */
function parentOf(program) {
  try {
    return readFileSync(`/proc/${program}/stat`, "utf8").split(") ")[1].split(" ")[1];
  } catch {
    return "0";
  }
}

/** Whether the browser of this bench started a program. @param {string} program */
function isOurs(program) {
  for (let one = program; Number(one) > 1; one = parentOf(one)) if (one === String(process.pid)) return true;
  return false;
}

/** The threads of our browser's programs, those that run pages first. @returns {string[][]} */
function threads() {
  const [pages, others] = [[], []];
  for (const program of readdirSync("/proc").filter((name) => /^\d+$/.test(name) && isOurs(name))) {
    try {
      const isPage = readFileSync(`/proc/${program}/cmdline`, "utf8").includes("--type=renderer");
      for (const thread of readdirSync(`/proc/${program}/task`)) (isPage && thread === program ? pages : others).push(thread);
    } catch {
      // It has ended meanwhile.
    }
  }
  return [pages, others];
}

/** Something that has nothing to do with the index, until the browser has started all its helpers. */
const busy = async () => {
  const sorting = () => Array.from({ length: 2e4 }, (_, at) => (at * 31) % 65521).sort((one, other) => one - other);
  const adding = (/** @type {number} */ sum) => {
    for (let at = 0; at < 1e5; at += 1) sum = (sum * 31 + at) % 65521;
    return sum;
  };
  let sum = 0;
  for (const until = performance.now() + 200; performance.now() < until; await new Promise((next) => setTimeout(next))) {
    sum += adding(sorting()[7] + sum);
  }
  return sum;
};

/** Gives the threads of pages the last core, and all others, ours too, the rest. Says so if it could not. */
function keepApart() {
  const [pages, others] = threads();
  const moved = CORES > 1 && pages.map((thread) => move(thread, String(CORES - 1))).some(Boolean);
  others.forEach((thread) => move(thread, `0-${Math.max(0, CORES - 2)}`));
  if (!moved) console.log("  (the page shares its core)");
}

/** Keeps a thread to some cores, if it is still there. @param {string} thread @param {string} cores */
function move(thread, cores) {
  try {
    execFileSync("taskset", ["-pc", cores, thread], { stdio: "pipe" });
    return true;
  } catch {
    return false;
  }
}

/**
 * Reads the index for the first time in a new page, as the search box does: with a stop after each
 * step. All steps together, the longest, and the first answer to one letter after it, in ms.
 */
const reading = async () => {
  const steps = rungbookRanking.opening(window.rungbookSearchIndex);
  let [all, longest, step] = [0, 0, { done: false }];
  while (!step.done) {
    await new Promise((next) => setTimeout(next));
    const start = performance.now();
    step = steps.next();
    const took = performance.now() - start;
    all += took;
    longest = Math.max(longest, took);
  }
  const start = performance.now();
  rungbookRanking.find(step.value, "g", 12);
  return [all, longest, performance.now() - start];
};

/**
 * Every keystroke in the order of typing, each pass with an index that nobody has asked yet; of each
 * the quickest of the passes, as other work on the machine only ever adds.
 */
const typing = async ([typed, passes]) => {
  const best = new Array(typed.length).fill(Infinity);
  for (let pass = 0; pass < passes; pass += 1) {
    const ranking = rungbookRanking.open(window.rungbookSearchIndex);
    for (let at = 0; at < typed.length; at += 1) {
      const start = performance.now();
      rungbookRanking.find(ranking, typed[at], 12);
      best[at] = Math.min(best[at], performance.now() - start);
    }
    await new Promise((next) => setTimeout(next));
  }
  return best;
};

/** @param {number[]} numbers @param {number} share */
const at = (numbers, share) =>
  [...numbers].sort((one, other) => one - other)[Math.min(numbers.length - 1, Math.floor(numbers.length * share))].toFixed(1);

/** @param {string} script @param {number} slower */
async function readings(script, slower) {
  const found = [];
  for (let run = 0; run < RUNS; run += 1) {
    const page = await pageWith(script, slower);
    found.push(await page.evaluate(reading));
    await page.context().close();
  }
  const [all, longest, first] = [0, 1, 2].map((which) => found.map((one) => one[which]));
  console.log(`  read, ${slower} times throttled, new page: quickest ${at(all, 0)} ms, median ${at(all, 0.5)} ms; longest step: ${at(longest, 0)} ms, ${at(longest, 0.5)} ms; then the first answer: ${at(first, 0)} ms, ${at(first, 0.5)} ms`);
}

/** @param {string} script @param {number} slower */
async function keystrokes(script, slower) {
  const page = await pageWith(script, slower);
  const times = await page.evaluate(typing, [typed, PASSES]);
  console.log(`  ${typed.length} keystrokes, ${slower} times throttled: median ${at(times, 0.5)} ms, 95 of 100 under ${at(times, 0.95)} ms, all under ${at(times, 1)} ms`);
  await page.context().close();
}

const yaml = readFileSync(join(root, "tests/queries.yaml"), "utf8");
const asked = [...yaml.matchAll(/\{ask: (.*?), find:/g)].map(([, ask]) => ask);
/** Letter by letter; every third question with a letter left out. */
const typed = asked.flatMap((ask, number) => {
  const slip = number % 3 === 0 ? (number * 7) % ask.length : ask.length;
  const words = ask.slice(0, slip) + ask.slice(slip + 1);
  return Array.from(words, (_, length) => words.slice(0, length + 1));
});

const hall = await serve(builtSite());
const browser = await openBrowser();
for (const movements of process.argv.length > 2 ? process.argv.slice(2).map(Number) : [2000, 10000]) {
  const script = indexOf(movements);
  // Everything that can be found counts as an entry: kit, cautions, muscles and the rest too.
  const total = rungbookIndexFile.read(indexIn(script)).count;
  const share = (/** @type {number} */ size) => `${size} bytes, ${(size / total).toFixed(1)} an entry`;
  console.log(`${movements} movements, ${total} entries in all, as the script that a page fetches`);
  console.log(`  plain ${share(Buffer.byteLength(script))}; gzip -9 ${share(gzipSync(script, { level: 9 }).length)}; brotli ${share(brotliCompressSync(script).length)}`);
  for (const slower of [1, 4]) {
    await readings(script, slower);
    await keystrokes(script, slower);
  }
}
await browser.close();
await hall.stop();
rmSync(folder, { recursive: true, force: true });
