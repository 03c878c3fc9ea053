// A complaint typed in class: a stop sign comes before every answer, a caution is set for the person in
// front by one touch, and what has a name is found by it without leaving the floor.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import vm from "node:vm";
import { HOUSE, closeHall, openHall } from "./hall.mjs";
import { indexIn, searchScripts } from "./search-scripts.mjs";

const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true };
const STOPS = ["dizzy today", "dizzy", "Dizzy!", "dizz", "dizy", "lightheaded", "light-headed", "faint", "feels faint", "chest pain", "pain in the chest", "my chest hurts", "heart racing", "can't breathe", "cant breathe", "gone pale", "palpitations", "can't feel my legs", "his arm has gone numb, numb arm", "slurred speech", "collapsed"];
/** What has a word of a sign in it, and is none. */
const NO_STOPS = ["chest", "chest press", "pain", "wrist pain", "knee pain", "sore wrist", "breathe out", "breath held", "heart disease", "head", "press", "pale", "spin", "knees collapse", "arch collapses"];
let site, hall, browser;

before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** The club's stop signs as the coach wrote them. */
const signs = () => /stop-signs:\n((?: {2}- .*\n)+)/.exec(readFileSync(join(HOUSE, "content/club.yaml"), "utf8"))[1].trim().split("\n").map((line) => line.replace(/^\s*- /, ""));

/** A page with the search box open. */
async function pageAt(name, act) {
  const context = await browser.newContext(PHONE);
  const page = await context.newPage();
  await page.goto(hall.address + name);
  try {
    return await act(page);
  } finally {
    await context.close();
  }
}

/** Types it, and waits until it is answered. */
async function type(page, words) {
  await page.fill("#search-words", "");
  await page.tap("#search-words");
  await page.fill("#search-words", words);
  await page.waitForFunction(() => !document.querySelector("#search-answers").hidden);
}

for (const name of ["floor.html", "sessions/push-and-pull.html"]) {
  test(`${name}: a stop sign that is typed shows them all before any answer`, () => pageAt(name, async (page) => {
    assert.ok(signs().length > 4);
    for (const words of STOPS) {
      await type(page, words);
      const first = page.locator("#search-answers > li").first();
      assert.match(await first.textContent(), /^Stop now, and get help, at any of these: /, words);
      for (const sign of signs()) assert.ok((await first.textContent()).includes(sign), `${words}: ${sign}`);
      // Below it nothing that somebody could train on, and nothing that sets somebody up for it.
      const below = await page.$$eval("#search-answers > li:not(.stop-now)", (all) => all.map((one) => [one.className, one.querySelector("a")?.getAttribute("href")]));
      assert.ok(below.length <= 3 && below.every(([, to]) => /cautions\/[a-z0-9-]+\.html$/.test(to)), `${words}: ${JSON.stringify(below)}`);
      assert.equal(await page.locator("#search-answers .sets").count(), 0, words);
    }
    for (const words of NO_STOPS) {
      await type(page, words);
      assert.equal(await page.locator("#search-answers .stop-now").count(), 0, words);
    }
  }));
}

test("Enter on a stop sign leads to the signs, and to no movement or caution", () => pageAt("floor.html", async (page) => {
  await type(page, "dizzy");
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => document.activeElement?.id === "safety");
  assert.match(page.url(), /floor\.html$/);
  assert.ok(await page.locator("#safety").isVisible());
  assert.equal(await page.locator(".card h1").count(), 0);
}));

test("no name of a movement, a ladder or a piece of kit is taken for a stop sign", () => {
  const stop = vm.runInThisContext(`(() => { const window = globalThis; ${["index-file", "question", "postings", "stop"].map((name) => readFileSync(join(HOUSE, `themes/slate/scripts/${name}.js`), "utf8")).join("\n")}
    ${readFileSync(join(site, "data/stop.js"), "utf8")} return rungbookStop; })()`);
  const { rungbookRanking } = searchScripts();
  const { index } = rungbookRanking.open(indexIn(readFileSync(join(site, "data/search-index.js"), "utf8")));
  const names = ["movements", "ladders", "kit", "sessions"].flatMap((folder) => readdirSync(join(site, folder)).map((file) => file.replace(".html", "").replaceAll("-", " ")));
  assert.ok(names.length > 120);
  assert.deepEqual(names.filter((name) => stop.says(index, name)), []);
  // The command says the same of the same words.
  const program = process.env.RUNGBOOK || join(HOUSE, "target/debug/rungbook");
  for (const words of ["dizzy today", "dizy", "pain in the chest", "chest press", "wrist pain", "faint", "can't feel my legs", "knees collapse", "dizzy in the plank"]) {
    const said = JSON.parse(execFileSync(program, ["find", words, "--format", "json", "--library", join(HOUSE, "content")], { encoding: "utf8" }));
    assert.deepEqual(said.stop ?? [], stop.says(index, words) ? signs() : [], words);
    if (said.stop) assert.deepEqual(said.hits.filter(({ kind }) => kind !== "caution"), [], words);
  }
});

test("a complaint that is a caution is set for the person in front by one touch, and the floor stays", () => pageAt("floor.html#pull-up", async (page) => {
  await page.waitForSelector(".card h1");
  await type(page, "sore wrist");
  const answer = page.locator("#search-answers a[href$='cautions/sore-wrist.html']");
  await answer.locator(".sets").waitFor();
  assert.match(await answer.textContent(), /set it for this person/);
  await answer.tap();
  await page.waitForFunction(() => /sore wrist/.test(document.querySelector("[data-person]").textContent));
  assert.match(page.url(), /floor\.html#pull-up$/);
  assert.deepEqual((await page.evaluate(() => rungbookPerson.front())).situations, ["sore-wrist"]);
  // What was set before stays, and it is not set twice.
  await type(page, "pregnant");
  await page.locator("#search-answers a[href$='cautions/pregnancy.html'] .sets").waitFor();
  await page.tap("#search-answers a[href$='cautions/pregnancy.html']");
  await page.waitForFunction(() => rungbookPerson.front()?.situations.length === 2);
  await type(page, "sore wrist");
  await answer.locator(".sets").waitFor();
  assert.match(await answer.locator(".sets").textContent(), /^Set for this person$/);
}));

test("a movement that is called exactly what was typed stands first, and stays on the floor", async () => {
  const { rungbookRanking } = searchScripts();
  const ranking = rungbookRanking.open(indexIn(readFileSync(join(site, "data/search-index.js"), "utf8")));
  const names = readdirSync(join(site, "movements")).filter((file) => file !== "index.html").map((file) => [file.replace(".html", ""), /<h1>([^<]+)<\/h1>/.exec(readFileSync(join(site, "movements", file), "utf8"))[1]]);
  assert.ok(names.length > 80);
  for (const [id, name] of names) {
    for (const words of [name, name.toLowerCase().replaceAll("-", " ")]) {
      const [first] = rungbookRanking.find(ranking, words, 12);
      assert.deepEqual([first.kind, first.id], ["movement", id], words);
    }
  }
  await pageAt("floor.html", async (page) => {
    for (const [words, name] of [["split squat", "Split squat"], ["overhead press", "Overhead press"], ["bridge", "Bridge"]]) {
      await type(page, words);
      await page.keyboard.press("Enter");
      await page.waitForFunction((name) => document.querySelector(".card h1")?.textContent === name, name);
      assert.match(page.url(), /floor\.html#/);
    }
  });
});

test("a ladder that is found opens where the coach is, over an open card too", () => pageAt("floor.html#pull-up", async (page) => {
  await page.waitForSelector(".card h1");
  await type(page, "bridge");
  await page.tap("#search-answers a[href$='ladders/bridge.html']");
  await page.waitForFunction(() => document.querySelector(".rail [data-rung='bridge/1']")?.checkVisibility());
  assert.match(page.url(), /floor\.html#?$/);
  assert.equal(await page.locator("details.floor-ladder[open]").count(), 1);
}));
