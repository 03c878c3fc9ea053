// A fault, wherever a coach types it: the fault first with what to say, then its movements; on the
// floor the card opens at that fault. Never asks how the answers are ranked, only what is seen.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { closeHall, openHall, pagesOf } from "./hall.mjs";

const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, serviceWorkers: "block" };
const ANSWERS = "[data-search] .answers a";
let site, browser, hall;

before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** The floor on a phone, with what was typed answered. */
async function asked(words) {
  const context = await browser.newContext(PHONE);
  const page = await context.newPage();
  const errors = [];
  page.on("pageerror", (error) => errors.push(error.message));
  await page.goto(`${hall.address}floor.html`);
  await page.fill("[data-search] input", words);
  await page.waitForSelector(ANSWERS);
  const answers = await page.$$eval(ANSWERS, (links) => links.map((link) => ({
    name: link.querySelector(".name").textContent,
    text: link.textContent,
    href: link.getAttribute("href"),
  })));
  return { page, answers, close: async () => (assert.deepEqual(errors, []), context.close()) };
}

/** The movements that the page of a fault lists, by the names of their pages. */
function listedOn(fault) {
  const html = readFileSync(join(site, `faults/${fault}.html`), "utf8");
  return new Set([...html.matchAll(/movements\/([a-z0-9-]+)\.html#fault-\d+/g)].map(([, id]) => id));
}

/** Texts of a card, one below the other, as they stand. */
const linesOf = (page) => page.$$eval("[data-card] h1, [data-card] .big-cue q, [data-card] dt, [data-card] dd, [data-card] .card-standard", (all) => all.map((one) => one.textContent));

for (const [words, fault, say] of [
  ["hips sag", "hips-sag", "Move like a plank"],
  ["knees cave in", "knees-fall-in", "Spread the floor"],
  ["elbows flare out", "elbows-flare", "Draw an arrow with your elbows"],
]) {
  test(`on the floor "${words}" answers with the fault, its cue and what then; its movements come next`, async () => {
    const { page, answers, close } = await asked(words);
    assert.equal(answers[0].href, `faults/${fault}.html`, JSON.stringify(answers.slice(0, 3)));
    assert.ok(answers[0].text.includes(`Say “${say}”`), answers[0].text);
    assert.match(answers[0].text, /See .*Then /);
    const listed = listedOn(fault);
    assert.ok(listed.size > 6, `${fault} is in ${listed.size} movements`);
    for (const { href } of answers.slice(1, 6)) {
      const [, id] = /^movements\/([a-z0-9-]+)\.html#fault-\d+$/.exec(href) || [];
      assert.ok(listed.has(id), `${href} has no ${fault}`);
    }
    await page.tap(`${ANSWERS} >> nth=0`);
    await page.waitForSelector("[data-card] .fault-facts");
    assert.equal(new URL(page.url()).hash, `#fault/${fault}`);
    assert.ok((await page.$$eval("[data-card] :is(.big-cue q, .card-swaps q)", (all) => all.map((one) => one.textContent))).includes(say));
    const targets = await page.$$eval("[data-card] .swap-to", (all) => all.map((one) => one.getAttribute("href")));
    assert.deepEqual(new Set(targets.map((to) => /movements\/([a-z0-9-]+)\.html/.exec(to)[1])), listed);
    await close();
  });
}

test("a fault that is told otherwise elsewhere asks in which movement, each with its own cue", async () => {
  const { page, close } = await asked("hips sag");
  await page.tap(`${ANSWERS} >> nth=0`);
  await page.waitForSelector("[data-card] .card-swaps q");
  assert.match(await page.textContent(".card-swaps h2"), /Which movement\?/);
  assert.equal(await page.locator("[data-card] > .big-cue").count(), 0, "no movement's cue leads");
  const rows = await page.$$eval("[data-card] .card-swaps .swap-to", (all) => all.map((one) => ({ name: one.querySelector(".name").textContent, say: one.querySelector("q")?.textContent, bottom: one.getBoundingClientRect().bottom })));
  const row = (name) => rows.find((one) => one.name === name);
  assert.deepEqual([row("Plank").say, row("Push-up").say], ["Push the floor away", "Move like a plank"]);
  assert.ok(rows.every(({ say }) => say) && rows.length === listedOn("hips-sag").size);
  assert.ok(Math.max(row("Plank").bottom, row("Push-up").bottom) < 2 * 844, "within two screens");
  await page.locator(".card-swaps .name", { hasText: /^Plank$/ }).tap();
  await page.waitForFunction(() => document.querySelector("[data-card] .card-fault .big-cue q")?.textContent === "Push the floor away");
  await close();
});

test("hips sag: the plank and the push-up stand before the bar row, in whose fault more is seen", async () => {
  const { answers, close } = await asked("hips sag");
  const at = (id) => answers.findIndex(({ href }) => href.startsWith(`movements/${id}.html`));
  for (const first of ["plank", "push-up"]) {
    assert.ok(at(first) > 0, `${first} is no answer`);
    assert.ok(at("bar-row") < 0 || at(first) < at("bar-row"), `${first} after the bar row`);
  }
  await close();
});

test("a movement's fault opens its card at that fault: cue, see, cause, then, and only then the rest", async () => {
  const { page, close } = await asked("elbows flare push-up");
  const answer = `${ANSWERS}[href^="movements/push-up.html#fault-"]`;
  const number = Number(/\d+$/.exec(await page.getAttribute(answer, "href"))[0]);
  await page.tap(answer);
  await page.waitForSelector(".card-fault");
  assert.equal(new URL(page.url()).hash, `#push-up/fault/${number}`);
  const html = readFileSync(join(site, "movements/push-up.html"), "utf8");
  const [, item] = new RegExp(`<li id="fault-${number}">(.*?)</li>`, "s").exec(html);
  const written = (name) => new RegExp(`<p class="${name}"><span class="word">[A-Za-z]+</span> (?:<q>)?([^<]+)`).exec(item)[1].trim();
  const lines = await linesOf(page);
  const [see, cause, say] = ["see", "cause", "say"].map(written);
  assert.deepEqual(lines.slice(0, 7), ["Push-up", say, "See", see, "Cause", cause, "Then"]);
  assert.ok(lines.indexOf(see) < lines.findIndex((line) => line.startsWith("Chest")), "before the standard");
  const cue = await page.locator(".big-cue").boundingBox();
  const then = await page.locator(".card-fault dd >> nth=-1").boundingBox();
  assert.ok(cue.y + cue.height < 844 && then.y + then.height < 844, "all of it on the first screen");
  await page.goBack();
  await page.waitForSelector("[data-lists]:not([hidden])");
  await close();
});

test("what then names is offered to nobody whom it does not fit, on the card and by itself", async () => {
  const { page, close } = await asked("pull-up");
  // Then: the foot-assisted pull-up, which needs a bar too.
  await page.goto(`${hall.address}floor.html#pull-up/fault/1`);
  const then = page.locator(".card-fault dd >> nth=-1");
  await then.locator('a[href^="movements/foot-assisted-pull-up.html"]').waitFor();
  await page.click('[data-quick] button:text-is("No bar")');
  await page.waitForSelector("[data-card] .flag");
  assert.equal(await then.locator("a").count(), 0, "it leads on to what the person cannot do");
  assert.match(await then.textContent(), /Foot-assisted pull-up.*Not now: no bar/);
  await page.goto(`${hall.address}floor.html#fault/chin-reaches`);
  const row = page.locator('[data-card] .swap-to[href^="movements/pull-up.html"]');
  await row.waitFor();
  assert.match(await row.textContent(), /Not now: no bar/);
  await page.click("[data-quick] [data-clear]");
  assert.doesNotMatch(await row.textContent(), /Not now/);
  await close();
});

test("a fault that does not come leads to its page, and every fault has one that its list links", async () => {
  const page = await browser.newPage();
  await page.goto(`${hall.address}floor.html`);
  await page.route("**/cards/**", (route) => route.abort());
  await page.evaluate(() => (location.hash = "fault/hips-sag"));
  await page.waitForURL(`${hall.address}faults/hips-sag.html`);
  await page.goto(`${hall.address}faults/index.html`);
  const linked = await page.$$eval(".entries > li > a", (links) => links.map((link) => link.getAttribute("href")));
  const written = pagesOf(site).filter((name) => name.startsWith("faults/") && !name.endsWith("index.html"));
  assert.deepEqual(new Set(linked.map((to) => to.replace(/^(\.\.\/)?(faults\/)?/, "faults/"))), new Set(written));
  await page.close();
});

test("the drill asks for a fault with its cue once", () => {
  const html = readFileSync(join(site, "learning.html"), "utf8");
  const cards = [...html.matchAll(/<details class="fault-card">(.*?)<\/details>/gs)].map(([, card]) => card);
  const keys = cards.flatMap((card) => {
    const known = /faults\/([a-z-]+)\.html/.exec(card)?.[1];
    return known ? [`${known}: ${/<q>(.*?)<\/q>/.exec(card)?.[1]}`] : [];
  });
  assert.ok(keys.length > 100, `${keys.length} cards`);
  assert.deepEqual(keys.filter((key, at) => keys.indexOf(key) !== at), []);
  const pages = pagesOf(site).filter((name) => /^movements\/(?!index)/.test(name));
  const faults = pages.map((name) => [...readFileSync(join(site, name), "utf8").matchAll(/<li id="fault-/g)].length);
  const links = cards.flatMap((card) => [...card.matchAll(/movements\/[a-z0-9-]+\.html#fault-\d+/g)].map(String));
  assert.equal(new Set(links).size, links.length, "a fault of a movement stands on one card");
  assert.equal(links.length, faults.reduce((sum, count) => sum + count, 0), "and every one stands on a card");
});
