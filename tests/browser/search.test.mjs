// Search from every page: by name, by fault, by complaint, with typing errors, without a signal.
// Never a look at the index: what is typed is compared with what a person sees and can open.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { closeHall, openHall } from "./hall.mjs";

const BOX = "[data-search] input";
const ANSWERS = "[data-search] .answers a";
let site, browser, hall;

before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** Types words on a page and gives the answers: name, why, address. */
async function typed(page, words) {
  await page.fill(BOX, words);
  await page.waitForSelector(ANSWERS);
  return page.$$eval(ANSWERS, (links) => links.map((link) => ({
    name: link.querySelector(".name").textContent,
    why: link.querySelector(".why").textContent,
    to: link.href,
  })));
}

const ASKED = [
  ["strap row", /movements\/strap-row\.html/],
  ["press-up", /movements\/push-up\.html/],
  ["squatt", /(movements|ladders|patterns)\/squat\.html/],
  ["deadlfit", /movements\/deadlift\.html/],
  ["pul up", /(movements|ladders)\/pull-up\.html/],
  ["hips sag", /faults\/hips-sag\.html$/],
  ["hips sag in push-up", /movements\/[a-z-]+\.html#fault-\d+/],
  ["sore wrist", /cautions\/sore-wrist\.html/],
];

for (const [words, wanted] of ASKED) {
  test(`"${words}" finds what a coach means, among the first three`, async () => {
    const page = await browser.newPage();
    await page.goto(hall.address + "movements/index.html");
    const answers = await typed(page, words);
    assert.ok(answers.slice(0, 3).some((answer) => wanted.test(answer.to)), JSON.stringify(answers.slice(0, 5)));
    await page.close();
  });
}

test("Enter opens the first answer; a fault is opened at its place", async () => {
  const page = await browser.newPage();
  await page.goto(hall.address + "kit/index.html");
  const [first] = await typed(page, "hips sag in plank");
  await page.press(BOX, "Enter");
  await page.waitForURL(first.to);
  assert.ok(await page.isVisible(":target"));
  await page.close();
});

test("arrows mark the answers, the focus stays in the box, and Escape closes them", async () => {
  const page = await browser.newPage();
  await page.goto(hall.address);
  await typed(page, "push");
  await page.press(BOX, "ArrowDown");
  const marked = await page.$$eval(ANSWERS, (links) => links.map((link) => link.getAttribute("aria-selected")));
  assert.equal(marked.indexOf("true"), 0);
  assert.ok(await page.evaluate((box) => document.activeElement === document.querySelector(box), BOX));
  await page.keyboard.press("Escape");
  assert.equal(await page.locator(ANSWERS).count(), 0);
  assert.ok(await page.evaluate((box) => document.activeElement === document.querySelector(box), BOX));
  await page.close();
});

test("nothing found is said and shown, never as an empty list", async () => {
  const page = await browser.newPage();
  await page.goto(hall.address);
  await typed(page, "row");
  await page.fill(BOX, "xylophonequartz");
  await page.waitForFunction(() => /Nothing here says/.test(document.querySelector("[data-search] [role=status]").textContent));
  assert.match(await page.textContent("[data-search] [role=listbox]"), /xylophonequartz/, "what was not understood is shown");
  assert.ok(await page.isVisible('[data-search] a[href$="a-to-z.html"]'), "and where everything stands");
  await page.close();
});

test("what is typed stands in no address and no request", async () => {
  const page = await browser.newPage();
  await page.goto(hall.address);
  hall.requests.length = 0;
  await typed(page, "sore wrist");
  assert.equal(page.url(), hall.address);
  assert.deepEqual(hall.requests.filter((url) => /wrist|\?/.test(url)), []);
  await page.close();
});

test("search works from disk and without a signal", async () => {
  const disk = await browser.newPage();
  await disk.goto(pathToFileURL(site).href + "/ladders/row.html");
  assert.ok((await typed(disk, "strap row"))[0].to.startsWith("file:"));
  await disk.close();

  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(hall.address);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await context.setOffline(true);
  await page.goto(hall.address + "floor.html");
  assert.ok((await typed(page, "strap row")).length > 0);
  await context.close();
});
