// My book in the browser: what a member writes is kept on the device, said back, and taken away.
// Never trusts the page's own word alone: storage, files and the real command are looked at too.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import Ajv2020 from "ajv/dist/2020.js";
import { closeHall, HOUSE, openHall, ownFolder } from "./hall.mjs";

const PROGRAM = process.env.RUNGBOOK || join(HOUSE, "target/debug/rungbook");
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
let site, browser, hall;

before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** A device of its own, at the book; fails on anything the page complains about. */
async function device(run, options = {}) {
  const context = await browser.newContext({ serviceWorkers: "block", ...options });
  const page = await context.newPage();
  const complaints = [];
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("console", (line) => line.type() === "error" && complaints.push(line.text()));
  await page.goto(`${hall.address}book.html`);
  try {
    await run(page, context);
    assert.deepEqual(complaints, []);
  } finally {
    await context.close();
  }
}

const book = (page) => page.evaluate(() => JSON.parse(localStorage.getItem("rungbook-book") || "null"));
const said = (page) => page.textContent("[data-said]");

/** Writes a result as a member does. */
async function add(page, { ladder, rung, amount, own, added, day, note }) {
  await page.evaluate(() => (document.querySelector("[data-adding]").open = true));
  const form = '[data-form="result"]';
  await page.selectOption(`${form} [name="ladder"]`, ladder);
  await page.selectOption(`${form} [name="rung"]`, String(rung));
  await page.fill(`${form} [name="amount"]`, String(amount));
  if (own) await page.fill(`${form} [name="own"]`, String(own));
  if (added) await page.fill(`${form} [name="added"]`, String(added));
  if (day) await page.fill(`${form} [name="day"]`, day);
  if (note) await page.fill(`${form} [name="note"]`, note);
  await page.click(`${form} button[type="submit"]`);
}

const PUSH = { ladder: "push-up", rung: 2, amount: 12, day: "2026-10-07" };
const AGAIN = { ladder: "push-up", rung: 2, amount: 20, own: 85, day: "2026-11-18", note: "kitchen" };
const PLANK = { ladder: "plank", rung: 2, amount: 45, added: 2.5, day: "2026-11-18" };

async function three(page) {
  for (const one of [PUSH, AGAIN, PLANK]) await add(page, one);
  await page.waitForSelector(".ladder-results table");
}

/** What the page downloads on a click, as text. */
async function downloaded(page, selector) {
  const [download] = await Promise.all([page.waitForEvent("download"), page.click(selector)]);
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), "utf8") };
}

test("without scripts the page says what it would do", () => device(async (page) => {
  assert.match(await page.textContent("main"), /The book needs scripts\. With them this page keeps your results/);
  assert.equal(await page.isVisible("[data-book]"), false);
}, { javaScriptEnabled: false }));

test("an empty book fetches nothing for results, and helps", () => device(async (page) => {
  assert.match(await page.textContent('[data-empty="results"]'), /do its test once/);
  assert.equal(await book(page), null, "looking keeps nothing");
  const fetched = await page.evaluate(() => performance.getEntriesByType("resource").map((one) => one.name));
  assert.ok(!fetched.some((name) => /placing|cards|norms|retest|book-plot|book-away/.test(name)), fetched.join(" "));
}));

test("a result is kept, and the page says the sentence of the command", () => device(async (page) => {
  await add(page, { ladder: "push-up", rung: 4, amount: 12, day: "2026-11-25" });
  await page.waitForSelector(".ladder-results table");
  const kept = (await book(page)).results;
  assert.equal(kept.length, 1);
  const { id, ...rest } = kept[0];
  assert.match(id, /^[0-9a-f]{16}$/);
  assert.deepEqual(rest, { day: "2026-11-25", ladder: "push-up", rung: 4, setting: null, counts: "reps", amount: 12, added_kg: 0, note: "", movement: "incline-push-up", settings: { hands: 60 } });
  const command = JSON.parse(execFileSync(PROGRAM, ["place", "push-up", "--rung", "4", "--reps", "12", "--format", "json"], { cwd: HOUSE }));
  const answer = await page.textContent(".ladder-results .answer");
  assert.ok(answer.includes(command.today.say), answer);
  assert.ok(answer.includes(command.move_up.say), answer);
  for (const note of command.notes) assert.ok(answer.includes(note), note);
}));

test("the own height is kept as a setting, and the comparison says what differs", () => device(async (page) => {
  await add(page, PUSH);
  await add(page, AGAIN);
  await page.waitForSelector(".ladder-results tbody tr:nth-child(2)");
  assert.deepEqual((await book(page)).results.map((one) => one.setting), [null, { hands: 85 }]);
  const latest = await page.textContent(".ladder-results tbody tr:first-child");
  assert.match(latest, /hands 85 cm/);
  assert.match(latest, /Not the same test \(another height or lean\): the first result predicts \d+ to \d+/);
}));

test("two results of one day are one session, for the rule and as a retest", () => device(async (page) => {
  const twice = { ladder: "push-up", rung: 4, amount: 12 };
  await add(page, { ...twice, day: "2026-11-20" });
  await add(page, { ...twice, day: "2026-11-20" });
  await page.waitForSelector(".ladder-results tbody tr:nth-child(2)");
  assert.match(await page.textContent(".ladder-results tbody tr:first-child"), /The same day: one session, so no retest\./);
  assert.match(await page.textContent(".ladder-results .answer"), /counts as session 1 of 2/);
  await add(page, { ...twice, day: "2026-11-24" });
  await page.waitForSelector(".ladder-results tbody tr:nth-child(3)");
  assert.match(await page.textContent(".ladder-results tbody tr:first-child"), /Within noise: 12 repetitions, then 12/);
  const answer = await page.textContent(".ladder-results .answer");
  assert.match(answer, /Ready for rung 5/);
  assert.doesNotMatch(answer.split("Every rung")[0], /too much/, "one advice, not two");
}));

test("999 repetitions are asked again", () => device(async (page) => {
  await add(page, { ladder: "push-up", rung: 4, amount: 999, day: "2026-11-20" });
  assert.ok(await page.$eval('[data-form="result"] [name="amount"]', (field) => field.validity.rangeOverflow));
  assert.equal((await book(page))?.results?.length ?? 0, 0);
}));

test("nobody is told to do what their limits leave out, and a rung that is changed says how", () => device(async (page) => {
  await add(page, { ladder: "push-up", rung: 9, amount: 12, day: "2026-11-20" });
  await page.waitForSelector(".answer .today");
  assert.match(await page.textContent(".answer .today"), /^Rung 9 today/);
  // A caution of pregnancy leaves out or changes what the wrist and the belly take at rung 9.
  await page.evaluate(() => {
    rungbookPerson.keepLimits(["pregnancy", "sore-wrist"], [], false);
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  await page.waitForFunction(() => !/^Rung 9 today/.test(document.querySelector(".answer .today")?.textContent || "Rung 9 today"));
  const now = await page.textContent(".answer .today");
  const placed = JSON.parse(execFileSync(PROGRAM, ["place", "push-up", "--rung", "9", "--reps", "12", "--avoid", "pregnancy,sore-wrist", "--format", "json", "--library", join(HOUSE, "content")], { encoding: "utf8" }));
  assert.match(now, /Rung 9 by the test, and not for you: you leave out/);
  assert.ok(JSON.stringify(placed).includes("not for you"), "and so says the command");
  assert.equal(await page.locator(".answer p", { hasText: "Move up?" }).count(), 0);
}));

test("a height that is a chair's back is asked again, and not kept", () => device(async (page) => {
  await page.fill('[name="height-chair"]', "90");
  await page.locator('[name="height-chair"]').blur();
  assert.match(await said(page), /Not kept: this is from 28 to 63/);
  assert.equal((await book(page))?.heights?.chair, undefined);
}));

test("a rung picked on another device never stands above what was counted on this one", () => device(async (page) => {
  await add(page, { ladder: "push-up", rung: 4, amount: 5, day: "2026-11-20" });
  const merged = await page.evaluate(async () => {
    await rungbookBring.files(["scripts/book-file.js"]);
    const theirs = { ...structuredClone(rungbookBook.read()), results: [], rungs: { "push-up": 9, row: 2 }, rungs_then: {} };
    const mine = structuredClone(rungbookBook.read());
    rungbookBookFile.merge(mine, theirs);
    return mine.rungs;
  });
  assert.deepEqual(merged, { row: 2 });
}));

test("the plot stands on the demand axis: its dots keep the distances of the ladder's numbers", () => device(async (page) => {
  for (const [at, rung] of [2, 4, 8].entries()) await add(page, { ladder: "push-up", rung, amount: 8, day: `2026-0${at + 1}-10` });
  await page.waitForFunction(() => document.querySelectorAll(".plot .dot").length === 3);
  const down = await page.$$eval(".plot .dot", (dots) => dots.map((dot) => Number(dot.getAttribute("cy"))));
  const data = readFileSync(join(site, "cards/ladders/push-up.js"), "utf8");
  const { rungs } = JSON.parse(data.slice(data.indexOf("(") + 1, data.lastIndexOf(")")));
  const [a, b, c] = [1, 3, 7].map((at) => rungs[at].axis.value);
  const share = (down[0] - down[1]) / (down[0] - down[2]);
  assert.ok(Math.abs(share - (b - a) / (c - a)) < 0.001, `${share} against ${(b - a) / (c - a)}`);
  assert.match(await page.getAttribute(".plot", "aria-label"), /3 results over time.*table below/);
}));

test("a result is edited and erased", () => device(async (page) => {
  await three(page);
  await page.click('[data-act="edit"][aria-label*="45 s"]');
  await page.fill('[data-form="result"] [name="amount"]', "50");
  await page.click('[data-form="result"] button[type="submit"]');
  await page.waitForFunction(() => JSON.parse(localStorage.getItem("rungbook-book")).results.some((one) => one.amount === 50));
  assert.equal((await book(page)).results.length, 3);
  await page.click('[data-act="erase-result"][aria-label*="50 s"]');
  assert.deepEqual((await book(page)).results.map((one) => one.ladder), ["push-up", "push-up"]);
  await page.click('[data-said] button:text("Undo")');
  assert.equal((await book(page)).results.filter((one) => one.amount === 50).length, 1, "it is put back");
}));

test("rungs, heights, stature, mass and notes are kept; kit is shown", () => device(async (page) => {
  await page.evaluate(() => localStorage.setItem("rungbook-kit", JSON.stringify({ mode: "picked", kit: ["chair", "water-bottle"], noise: "loud" })));
  await page.reload();
  assert.match(await page.textContent("[data-kit]"), /chair, water bottle/);
  assert.equal(await page.inputValue('[name="height-counter"]'), "", "a hint is never filled in by itself");
  assert.match(await page.textContent("#hint-counter"), /85 to 95 cm/);
  await page.selectOption('[data-form="rungs"] [name="row"]', "3");
  await page.fill('[name="height-counter"]', "91.5");
  await page.fill('[name="stature"]', "168");
  await page.fill('[name="mass"]', "62");
  await page.fill('[data-form="note"] [name="text"]', "Slept badly");
  await page.click('[data-form="note"] button');
  const kept = await book(page);
  assert.deepEqual([kept.rungs, kept.heights, kept.stature_cm, kept.body_mass_kg], [{ row: 3 }, { counter: 91.5 }, 168, 62]);
  assert.equal(kept.notes[0].text, "Slept badly");
  await page.reload();
  assert.equal(await page.inputValue('[data-form="rungs"] [name="row"]'), "3");
  assert.equal(await page.inputValue('[name="height-counter"]'), "91.5");
}));

/** Judges JSON by the schema that the site serves: Ajv, an independent validator of draft 2020-12. */
function schemaSays(text) {
  const schema = JSON.parse(readFileSync(join(site, "data/book.schema.json"), "utf8"));
  // Days have a pattern too; of `format` alone Ajv knows nothing without another package.
  const ajv = new Ajv2020({ allErrors: true, formats: { date: true }, strictTypes: false });
  const fits = ajv.compile(schema);
  return { ok: fits(JSON.parse(text)), said: ajv.errorsText(fits.errors) };
}

test("the export fits the schema; erased and read in again it is the same book", () => device(async (page) => {
  await three(page);
  await page.selectOption('[data-form="rungs"] [name="row"]', "3");
  await page.fill('[name="height-chair"]', "45");
  await page.fill('[data-form="note"] [name="text"]', "Two\nlines");
  await page.click('[data-form="note"] button');
  await page.evaluate(() => {
    localStorage.setItem("rungbook-kit", JSON.stringify({ mode: "picked", kit: ["chair"], noise: "quiet" }));
    sessionStorage.setItem("rungbook-limits", JSON.stringify({ cautions: [], traits: ["impact"], names: ["impact"], asks: ["impact:1"] }));
    rungbookBook.change((mine) => mine.done.push({ id: "d1", day: "2026-11-18", session: "push-and-pull", block: "Pull", rounds: 3.5, reps: null, note: "" }));
  });
  const whole = await book(page);
  const { name, text } = await downloaded(page, '[data-act="export"]');
  assert.match(name, /^my-book-\d{4}-\d\d-\d\d\.json$/);
  assert.ok(!text.includes("impact"), "limits only when ticked");
  await page.check('[data-form="file"] [name="limits"]');
  const withLimits = await downloaded(page, '[data-act="export"]');
  assert.deepEqual(JSON.parse(withLimits.text).limits.traits, ["impact"]);
  for (const one of [text, withLimits.text]) {
    const { ok, said } = schemaSays(one);
    assert.ok(ok, said);
  }
  assert.ok(!schemaSays(text.replace('"rung": 2', '"rung": 0')).ok, "the judge sees a wrong rung");

  await page.click('[data-act="erase"]');
  await page.click('[data-act="keep"]');
  assert.deepEqual(await book(page), whole, "asked, and kept");
  await page.click('[data-act="erase"]');
  await Promise.all([page.waitForNavigation(), page.click('[data-act="sure"]')]);
  const left = await page.evaluate(() => [...Object.keys(localStorage), ...Object.keys(sessionStorage)].filter((key) => key.startsWith("rungbook") && !/floor|offline/.test(key)));
  assert.deepEqual(left, []);

  await page.setInputFiles('[name="file"]', { name: "book.json", mimeType: "application/json", buffer: Buffer.from(text) });
  await page.waitForFunction(() => /Read in: 5 new, 0/.test(document.querySelector("[data-said]").textContent));
  assert.deepEqual(await book(page), whole);
  assert.deepEqual(await page.evaluate(() => JSON.parse(localStorage.getItem("rungbook-kit")).kit), ["chair"]);
  await page.setInputFiles('[name="file"]', { name: "book.json", mimeType: "application/json", buffer: Buffer.from(text) });
  await page.waitForFunction(() => /Read in: 0 new, 5/.test(document.querySelector("[data-said]").textContent));
  assert.deepEqual(await book(page), whole, "read in twice is read in once");
}));

test("a wrong file changes nothing and is said place by place", () => device(async (page) => {
  await add(page, PUSH);
  const whole = await book(page);
  const wrong = { export: "rungbook-export-1", kit: null, book: { ...whole, results: [{ ...whole.results[0], id: "x", day: "2026-02-30" }], stature_cm: "tall" } };
  for (const [text, expected] of [
    [JSON.stringify(wrong), /results\[0\]\.day is "2026-02-30"; it should be a day.*stature_cm|stature_cm.*results\[0\]\.day is "2026-02-30"/s],
    ["wren push-up rung 4", /no JSON/],
    ["{}", /was not written by My book/],
  ]) {
    await page.setInputFiles('[name="file"]', { name: "b.json", mimeType: "application/json", buffer: Buffer.from(text) });
    await page.waitForFunction((pattern) => new RegExp(pattern, "s").test(document.querySelector("[data-trouble]").textContent), expected.source);
    assert.deepEqual(await book(page), whole);
  }
}));

test("a broken book is said and can be saved", () => device(async (page) => {
  await page.evaluate(() => localStorage.setItem("rungbook-book", "{broken"));
  await page.reload();
  assert.match(await page.textContent("[data-trouble]"), /could not be read\. Nothing is lost/);
  const { text } = await downloaded(page, "[data-trouble] button");
  assert.equal(text, "{broken");
}));

test("the text for the coach is read by the real command, and holds nothing private", () => device(async (page) => {
  await page.evaluate(() => sessionStorage.setItem("rungbook-limits", JSON.stringify({ cautions: [], traits: ["impact"], names: ["impact"], asks: ["impact:1"] })));
  await three(page);
  await page.fill('[name="mass"]', "62");
  await page.fill('[data-form="hand"] [name="nick"]', "Song Thrush");
  await page.selectOption('[data-form="hand"] [name="which"]', "all");
  await page.waitForFunction(() => document.querySelector('[data-form="hand"] [name="text"]').value.split("\n").length === 4);
  const { text } = await downloaded(page, '[data-act="save"]');
  assert.equal(text, [
    "song-thrush push-up rung 2 12 reps 2026-10-07, of incline-push-up hands 90 cm",
    "song-thrush push-up rung 2 20 reps 2026-11-18, hands 85 cm, of incline-push-up hands 90 cm",
    "song-thrush plank rung 2 45 s 2026-11-18, added 2.5 kg, of knee-plank", "",
  ].join("\n"));
  assert.doesNotMatch(text, /impact|62|kitchen/);
  const roster = join(ownFolder(), "roster.yaml");
  const add = () => execFileSync(PROGRAM, ["roster", "add", "-", "--roster", roster], { cwd: HOUSE, input: text, encoding: "utf8" });
  assert.equal(add().match(/^added: song-thrush/gm).length, 3);
  assert.equal(add().match(/^already there/gm).length, 3);
  assert.match(readFileSync(roster, "utf8"), /hands: 85 cm/);
  assert.equal(await page.evaluate(() => localStorage.getItem("rungbook-book-asked")), null, "the nickname is not kept unless chosen");
}));

test("a published table is context with source and protocol; age and sex are not kept unless chosen", () => device(async (page) => {
  await add(page, { ladder: "push-up", rung: 8, amount: 21, day: "2026-11-25" });
  await page.waitForSelector("[data-norms]:not([hidden])");
  await page.click("[data-norms] > summary");
  const form = '[data-form="norms"]';
  assert.equal(await page.inputValue(`${form} [name="value"]`), "21");
  await page.fill(`${form} [name="age"]`, "34");
  await page.selectOption(`${form} [name="sex"]`, "male");
  // The table of the brief's own source: men of 30 to 39, 17 to 21 is Good (CSEP, as printed by ACSM).
  const words = await page.textContent("[data-context]");
  assert.match(words, /21: Good\./);
  assert.match(words, /CSEP/);
  assert.match(words, /no time limit/);
  assert.equal(await page.evaluate(() => localStorage.getItem("rungbook-book-asked")), null);
  await page.check(`${form} [name="keep"]`);
  assert.deepEqual(await page.evaluate(() => JSON.parse(localStorage.getItem("rungbook-book-asked"))), { age: 34, sex: "male" });
}));

for (const scheme of ["light", "dark"]) {
  test(`axe finds nothing on a full book, ${scheme}; nothing scrolls sideways at 390 px`, () => device(async (page) => {
    await page.evaluate(AXE);
    await three(page);
    await page.evaluate(() => document.querySelectorAll("details").forEach((one) => (one.open = true)));
    const found = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
    assert.deepEqual(found.violations.map((one) => `${one.id}: ${one.nodes.map((node) => node.html.slice(0, 150)).join(" | ")}`), []);
    assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
    const small = await page.$$eval("main button, main select, main label.button", (all) =>
      all.filter((one) => one.offsetParent && one.getBoundingClientRect().height < 43.5).map((one) => one.outerHTML.slice(0, 80)));
    assert.deepEqual(small, []);
  }, { viewport: { width: 390, height: 844 }, colorScheme: scheme, bypassCSP: true }));
}

test("nothing of the book is asked of anyone or stands in an address", () => device(async (page) => {
  hall.requests.length = 0;
  await three(page);
  assert.equal(await page.evaluate(() => location.href), `${hall.address}book.html`);
  assert.ok(hall.requests.length > 0);
  assert.deepEqual(hall.requests.filter((url) => url.includes("?")), []);
}));

test("a day that has not come is asked again, and nothing is kept", () => device(async (page) => {
  const tomorrow = await page.evaluate(() => rungbookBook.today(new Date(Date.now() + 86_400_000)));
  await add(page, { ...PUSH, day: tomorrow });
  assert.equal(await book(page), null);
  assert.match(await page.evaluate(() => document.querySelector('[data-form="result"] [name="day"]').validationMessage), /\d/);
  await add(page, { ...PUSH, day: await page.evaluate(() => rungbookBook.today()) });
  assert.equal((await book(page)).results.length, 1);
}));

test("on a phone what was kept is said in sight, and the form stays at its ladder and rung", () => device(async (page) => {
  await add(page, PUSH);
  await page.waitForSelector(".ladder-results table");
  await page.waitForTimeout(500);
  assert.match(await said(page), /Result kept/);
  const box = await page.locator("[data-said]").boundingBox();
  assert.ok(box.y >= 0 && box.y + box.height <= 844, JSON.stringify(box));
  const form = await page.$eval('[data-form="result"]', (one) => [one.elements.ladder.value, one.elements.rung.value]);
  assert.deepEqual(form, ["push-up", "2"]);
}, { viewport: { width: 390, height: 844 } }));
