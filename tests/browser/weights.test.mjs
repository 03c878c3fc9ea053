// Weights: what a phone must fetch before a page works, and what the whole site takes offline.
// Never a guess: bytes are those of the built files, packed with gzip as any host sends them.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { before, test } from "node:test";
import { gzipSync } from "node:zlib";
import { builtSite, filesBelow, pagesOf } from "./hall.mjs";

/** Packed bytes. 14,600 is what a first answer carries (RFC 6928: ten segments of 1,460 bytes): one
 *  for a page, one for its styles, and little more for its scripts; search comes on first use. */
/** Of a page: 20,000, and 200 for what keeps the page of somebody who is known from moving (settle.js). */
const BUDGET = { scriptsOfAPage: 20_200, words: 8_000, searchScripts: 16_000, stopScript: 900, styles: 14_600, page: 14_600 };
/** What ids mean: data that every page reads, one file for the whole site, kept after the first page. */
const WORDS = "data/words.js";
/** What the whole site may take for each movement: 2.5 MB for the 97 that it began with. */
const SITE_PER_MOVEMENT = 2_500_000 / 97;
/** And for each fault's page and card, and each caution's page, which came to it later. */
const SITE_PER_FAULT_OR_CAUTION = 4_000;
/** And for each picture of a fault, which came last. */
const SITE_PER_DRAWN_FAULT = 3_500;
/** And for each movement's bands and for its settings as things at hand, which came later. */
const SITE_PER_BAND = 250;
/** Faces, whole arms and shoes from the front, and what a rung asks at the end of a repetition. */
const SITE_PER_PERSON = 160;
/** And for today: its page, the week's doses, the clock of a whole session and its face. */
const SITE_TODAY = 25_000;
/** And for what of each session hangs on the wall, and for sharing little kit, its scripts with it. */
const SITE_PER_WALL = 4_800;
const SITE_SHARE = 6_000;
/** And for blocks, which search finds by length, noise, kit and purpose. */
const SITE_BLOCKS = 3_000;
/** And for the own signs of every situation, brought for who has one. */
const SITE_SIGNS = 6_000;
/** And for the stop signs and complaints that are typed in class, for links to a rung, and for which tile is whose. */
const SITE_IN_FRONT = 7_800;
/** And for the eighth stop sign, on every page that tells somebody to move. */
const SITE_PER_STOP_SIGN = 20;
/** And for the picture of a fault that its card on the floor names. */
const SITE_DRILL = 1_500;
/** And for a cycle's calendar with a reminder. */
const SITE_PER_REMINDER = 3_000;
/** And for each ladder after the 25 that 137 movements had: its page (4,200), its data (1,300), pictures of rungs. */
const [SITE_LADDERS, SITE_PER_LADDER] = [25, 9_000];
/** The scripts of search: reading the index, understanding the question, ranking, showing. */
const SEARCH = ["index-file.js", "question.js", "postings.js", "ranking.js", "answers.js", "search.js"];
/** The pages that list everything; they may take more than one answer. */
const LISTS = ["a-to-z.html", "learning.html", "muscles.html", "sources.html", "cautions/index.html"];
const LIST_BUDGET = 30_000;

/** Bytes as built that an entry takes, the mean of all: its page, card, picture and motion. */
const ENTRY = { "movements/": 40_000, "cards/": 20_000, "figures/movements/": 17_000, "motion/": 10_000 };
/** A site packs to less than this part of itself: how much is kept on a device unasked goes by it. */
const PACKS_TO = 1 / 4;

let site;
const bytes = (name) => readFileSync(join(site, name));
const packed = (name) => gzipSync(bytes(name), { level: 9 }).length;
const sum = (numbers) => numbers.reduce((total, one) => total + one, 0);

/** The files that a page asks for by an attribute. */
function wanted(name, ending) {
  const html = bytes(name).toString();
  const found = [...html.matchAll(/(?:src|href)="([^"]+)"/g)].map((match) => match[1]).filter((to) => to.endsWith(ending));
  return [...new Set(found)].map((to) => to.replace(/^(\.\.\/|\/)+/, ""));
}

before(() => {
  site = builtSite();
});

test("scripts and styles of every page keep to their budget", (t) => {
  const heaviest = { scripts: 0, styles: 0 };
  for (const name of pagesOf(site)) {
    const scripts = sum(wanted(name, ".js").filter((file) => file !== WORDS).map(packed));
    const styles = sum(wanted(name, ".css").map(packed));
    heaviest.scripts = Math.max(heaviest.scripts, scripts);
    heaviest.styles = Math.max(heaviest.styles, styles);
    assert.ok(scripts > 0 && scripts <= BUDGET.scriptsOfAPage, `${name}: ${scripts} bytes of scripts`);
    assert.ok(styles > 0 && styles <= BUDGET.styles, `${name}: ${styles} bytes of styles`);
  }
  const search = sum(SEARCH.map((name) => packed(`scripts/${name}`)));
  assert.ok(search <= BUDGET.searchScripts, `${search} bytes of search scripts`);
  // Not search: what stands before every answer, where a stop sign is typed. A file of its own.
  const stop = packed("scripts/stop.js");
  assert.ok(stop <= BUDGET.stopScript, `${stop} bytes for stop signs`);
  assert.ok(packed(WORDS) <= BUDGET.words, `${packed(WORDS)} bytes of words`);
  t.diagnostic(`search: ${search} bytes packed, words: ${packed(WORDS)}`);
  t.diagnostic(`heaviest page: scripts ${heaviest.scripts} bytes packed, styles ${heaviest.styles}`);
});

test("every page keeps to its budget", (t) => {
  const weights = pagesOf(site).map((name) => [packed(name), name]).sort((a, b) => b[0] - a[0]);
  const over = weights.filter(([weight, name]) => weight > (LISTS.includes(name) ? LIST_BUDGET : BUDGET.page));
  for (const [weight, name] of weights.slice(0, 5)) t.diagnostic(`${name}: ${weight} bytes packed`);
  const movements = weights.filter(([, name]) => name.startsWith("movements/")).map(([weight]) => weight);
  t.diagnostic(`a movement, middle of all: ${movements[Math.floor(movements.length / 2)]} bytes packed`);
  assert.deepEqual(over, []);
});

test("the whole site is small enough to keep on a phone", (t) => {
  const files = filesBelow(site);
  const whole = sum(files.map((name) => bytes(name).length));
  const small = sum(files.map(packed));
  t.diagnostic(`whole site: ${files.length} files, ${whole} bytes, ${small} packed`);
  const movements = files.filter((name) => /^movements\/(?!index)/.test(name)).length;
  t.diagnostic(`${Math.round(small / movements)} bytes packed for each of ${movements} movements`);
  const others = files.filter((name) => /^(faults|cautions)\/(?!index).*\.html$/.test(name)).length;
  const drawn = files.filter((name) => name.startsWith("figures/faults/")).length;
  const budget = movements * (SITE_PER_MOVEMENT + SITE_PER_BAND + SITE_PER_PERSON) + others * SITE_PER_FAULT_OR_CAUTION
    + drawn * SITE_PER_DRAWN_FAULT + SITE_TODAY + SITE_SIGNS
    + files.filter((name) => name.startsWith("posters/")).length * SITE_PER_WALL + SITE_SHARE + SITE_BLOCKS
    + files.filter((name) => name.endsWith(".html")).length * SITE_PER_STOP_SIGN + SITE_DRILL
    + Math.max(0, files.filter((name) => /^ladders\/(?!index).*\.html$/.test(name)).length - SITE_LADDERS) * SITE_PER_LADDER
    + SITE_IN_FRONT + files.filter((name) => name.startsWith("calendars/reminders/")).length * SITE_PER_REMINDER;
  assert.ok(small <= whole * PACKS_TO, `${small} of ${whole} bytes`);
  assert.ok(small <= budget, `${small} bytes packed, ${Math.round(budget)} allowed`);
});

test("what an entry takes keeps to its budget, kind by kind", (t) => {
  const files = filesBelow(site);
  const movements = files.filter((name) => /^movements\/(?!index)/.test(name)).length;
  for (const [folder, most] of Object.entries(ENTRY)) {
    const own = files.filter((name) => name.startsWith(folder) && !name.slice(folder.length).includes("/") && !name.endsWith("index.html"));
    const mean = Math.round(sum(own.map((name) => bytes(name).length)) / movements);
    t.diagnostic(`${folder} ${mean} bytes an entry`);
    assert.ok(own.length > 0 && mean <= most, `${folder} ${mean} bytes an entry`);
  }
});
