// The coach's eight tasks on a phone, offline, from the front page: each done within four touches and six
// letters, the class of sixty minutes in three touches. A touch or a letter more fails.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeHall, openHall } from "./hall.mjs";

const [TOUCHES, LETTERS] = [4, 6];
const BOX = "[data-search] input";
const ANSWER = "[data-search] .answers a";
let site, browser, hall;
before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** A phone on a Tuesday of the cycle that fetched the site and lost the signal; counts what a thumb does. */
async function onThePhone(t, most, go) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
  const page = await context.newPage();
  await page.goto(hall.address);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await context.setOffline(true);
  await page.clock.setFixedTime(new Date("2027-01-19T18:30:00"));
  await page.goto(`${hall.address}index.html`);
  const count = { touches: 0, letters: 0 };
  const thumb = {
    touch: async (where) => {
      count.touches += 1;
      await (typeof where === "string" ? page.locator(where).first() : where.first()).tap();
    },
    type: async (words) => {
      count.letters += words.length;
      await page.keyboard.type(words);
      await page.waitForSelector(`${ANSWER}, .share-answer li`);
    },
  };
  try {
    await go(page, thumb);
    t.diagnostic(`${count.touches} touches, ${count.letters} letters`);
    assert.ok(count.touches <= most && count.letters <= LETTERS, JSON.stringify(count));
  } finally {
    await context.close();
  }
}

const seen = (page, words) => page.waitForFunction((say) => document.querySelector("main").innerText.replace(/\s+/g, " ").includes(say), words);

test("push-up and a sore wrist: changed like this, with its figure, and if not, this", (t) => onThePhone(t, TOUCHES, async (page, { touch, type }) => {
  await touch(page.getByRole("link", { name: /On the floor/ }));
  await touch("[data-quick] >> text=Sore wrist");
  await touch(BOX);
  await type("push-");
  await touch(`${ANSWER} >> text=Push-up`);
  await seen(page, "Change it:");
  await seen(page, "If not, this");
  assert.ok(await page.isVisible(".card-figure"));
}));

test("two bars, nine people: groups, stations, how long they stay", (t) => onThePhone(t, TOUCHES, async (page, { touch }) => {
  await touch(page.getByRole("link", { name: /Today/ }));
  await touch(".today.ready [data-whole]:visible");
  await touch("[data-share='1'] > summary");
  await page.waitForSelector(".share-answer li");
  assert.equal(await page.inputValue("[data-share='1'] [name=people]"), "9");
  assert.equal(await page.inputValue("[data-share='1'] [name=low-bar]"), "2");
  assert.match(await page.textContent(".share-answer"), /Groups of 5, 4, 2 stations: everybody moves one on every 9:00/);
}));

test("hips sag in the plank: what to say stands in the answer", (t) => onThePhone(t, TOUCHES, async (page, { touch, type }) => {
  await touch(BOX);
  await type("hips s");
  assert.match(await page.textContent(`${ANSWER} >> nth=0`), /Hips sag.*Say “Move like a plank”/);
  await touch(ANSWER);
  await seen(page, "Move like a plank");
}));

test("below the single-leg squat", (t) => onThePhone(t, TOUCHES, async (page, { touch, type }) => {
  await touch(BOX);
  await type("single");
  await touch(page.locator(ANSWER, { hasText: /squat/i }));
  await page.waitForURL(/movements|ladders/);
  await seen(page, "below");
}));

test("the class of sixty minutes runs", (t) => onThePhone(t, 3, async (page, { touch }) => {
  await touch(page.getByRole("link", { name: /Today/ }));
  await page.waitForSelector(".today.ready .go");
  await touch(".go");
  await page.waitForSelector("dialog[open]");
}));

test("posters for the wall", (t) => onThePhone(t, TOUCHES, async (page, { touch }) => {
  await touch(page.getByRole("link", { name: /Today/ }));
  await touch(".today.ready [data-whole]:visible");
  await touch(page.getByRole("link", { name: "Posters" }));
  await page.waitForURL(/posters/);
  await page.evaluate(() => { window.print = () => { document.title = "printed"; }; });
  await touch(page.getByRole("button", { name: "Print", exact: true }));
  await page.waitForFunction(() => document.title === "printed");
}));

test("pregnant: one state, named on every page", (t) => onThePhone(t, TOUCHES, async (page, { touch }) => {
  await touch(page.getByRole("link", { name: /On the floor/ }));
  await touch(".more-quick > summary");
  await touch(page.locator("[data-quick] button", { hasText: /pregnan/i }));
  await page.goto(`${hall.address}movements/push-up.html`);
  await page.waitForFunction(() => /pregnan/i.test(document.querySelector("[data-person]")?.textContent || ""));
}));

test("a quiet finisher of ten minutes", (t) => onThePhone(t, TOUCHES, async (page, { touch, type }) => {
  await touch(BOX);
  await type("finish");
  await touch(page.locator(ANSWER, { hasText: "Six to two, 6 min" }));
  await page.waitForURL(/sessions\/push-and-pull\.html#block-5$/);
}));
