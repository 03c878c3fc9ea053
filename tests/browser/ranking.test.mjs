// One ranking, two readers: the script gives the answers of the command, which are tantivy's.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";
import { indexIn, searchScripts } from "./search-scripts.mjs";

const root = fileURLToPath(new URL("../..", import.meta.url));
const LIMIT = 30;

/** What people type: every labelled question, each on its way there, and with a letter missing. */
function questions() {
  const yaml = readFileSync(join(root, "tests/queries.yaml"), "utf8");
  const asked = [...yaml.matchAll(/\{ask: (.*?), find:/g)].map(([, words]) => words);
  const typing = asked.flatMap((words) =>
    [words.slice(0, 1), words.slice(0, 4), words.slice(0, words.lastIndexOf(" ") + 2), words.slice(0, -2)]);
  const slips = asked.map((words, at) => {
    const letter = (at * 7) % words.length;
    return words.slice(0, letter) + words.slice(letter + 1);
  });
  const odd = ["", " ", "a", "the", "zzzzqqqq", "NO BAR", "Zoë's", "push-up ", "no", "without", "60 cm", "lat\u00e9ral", "10 min quiet unicycle", "unicycle", "yoga", "trampolineing", "dumbblerds", "wrxst", "plnkq squxt", "kettelbellz"];
  return [...new Set([...asked, ...typing, ...slips, ...odd])];
}

let folder = "";
/** @type {{ask: string, hits: Record<string, unknown>[], unknown: string[], near: string[]}[]} */
let command = [];
/** @type {any} */
let ranking;
/** @type {any} One that is asked each question by itself. */
let fresh;
/** @type {any} */
let rungbookRanking;
/** @type {any} */
let rungbookAnswers;

/** What the command answers from a library, and the index it exports. @param {string} library @param {string[]} asked */
function answersOf(library, asked) {
  const [index, answers] = [join(folder, "index"), join(folder, "answers.json")];
  const run = ["run", "--quiet", "--locked", "--example", "search_answers", "--", library, index, answers];
  execFileSync("cargo", run, { cwd: root, input: asked.join("\n"), stdio: ["pipe", "inherit", "inherit"] });
  return { answers: JSON.parse(readFileSync(answers, "utf8")), letters: indexIn(readFileSync(index, "utf8")) };
}

before(() => {
  folder = mkdtempSync(join(tmpdir(), "rungbook-search-"));
  const { answers, letters } = answersOf("content", questions());
  command = answers;
  ({ rungbookRanking, rungbookAnswers } = searchScripts());
  [ranking, fresh] = [0, 1].map(() => rungbookRanking.open(letters));
});

after(() => rmSync(folder, { recursive: true, force: true }));

/** Hits without their scores. @param {any[]} hits */
const plain = (hits) => hits.map(({ score, ...rest }) => rest);

test("enough is asked", () => {
  assert.ok(command.length >= 200, `${command.length} questions`);
  const answered = command.filter(({ hits }) => hits.length > 0);
  assert.ok(answered.length >= 200, `${answered.length} questions with an answer`);
});

test("same order, same places, same words, same addresses", () => {
  for (const { ask, hits } of command) assert.deepEqual(plain(rungbookRanking.find(ranking, ask, LIMIT)), plain(hits), ask);
});

test("what nothing says, and the nearest words to it", () => {
  let unknown = 0;
  for (const one of command) {
    rungbookRanking.find(ranking, one.ask, LIMIT);
    assert.deepEqual(rungbookAnswers.heard(ranking), { unknown: one.unknown, near: one.near }, one.ask);
    unknown += one.unknown.length > 0 && one.near.length > 0 ? 1 : 0;
  }
  assert.ok(unknown > 2, `${unknown} with a nearest word`);
});

test("scores within a millionth", () => {
  for (const { ask, hits } of command) {
    const mine = rungbookRanking.find(ranking, ask, LIMIT);
    hits.forEach((/** @type {any} */ hit, at) => {
      const apart = Math.abs(mine[at].score - hit.score) / hit.score;
      assert.ok(apart <= 1e-6, `${ask}: ${hit.id} ${mine[at].score} and ${hit.score}`);
    });
  }
});

test("typed letter by letter, each answer is that of the words asked at once", () => {
  const words = command.map(({ ask }) => ask).filter((_, at) => at % 9 === 0);
  for (const ask of words) {
    for (let length = 1; length <= ask.length; length += 1) {
      const typed = rungbookRanking.find(ranking, ask.slice(0, length), LIMIT);
      // An empty question in between leaves nothing of the keystroke before.
      rungbookRanking.find(fresh, "", LIMIT);
      assert.deepEqual(typed, rungbookRanking.find(fresh, ask.slice(0, length), LIMIT), ask.slice(0, length));
    }
  }
});

test("more different words than one letter can stand for are found and shown alike", () => {
  const library = join(folder, "many");
  mkdirSync(join(library, "movements/pull"), { recursive: true });
  cpSync(join(root, "content/words"), join(library, "words"), { recursive: true });
  const word = (/** @type {number} */ number) =>
    `zu${Array.from(number.toString(20), (digit) => "bcdfghjklmnpqrtvwxza"[parseInt(digit, 20)]).join("")}`;
  const [files, names] = [40, 500];
  for (let file = 0; file < files; file += 1) {
    const aliases = Array.from({ length: names }, (_, at) => word(file * names + at));
    writeFileSync(join(library, `movements/pull/${word(file)}-hold.md`),
      `---\nname: ${word(file)} hold\naliases: [${aliases.join(", ")}]\npattern: pull\n---\n`);
  }
  const asked = Array.from({ length: 40 }, (_, at) => word(at * 499 + 3));
  const { answers, letters } = answersOf(library, asked);
  const many = rungbookRanking.open(letters);
  const { pieces } = many.index.head;
  assert.ok(pieces > 0x4000 + 100, `${pieces} different pieces`);
  for (const { ask, hits } of answers) {
    assert.ok(hits.length > 0, ask);
    assert.deepEqual(plain(rungbookRanking.find(many, ask, LIMIT)), plain(hits), ask);
  }
});

test("a file that is no index is refused", () => {
  assert.throws(() => rungbookRanking.open("RUNG1 and more"), /not a search index/);
});
