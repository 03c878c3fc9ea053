// A phone in a sweaty hand: nothing scrolls sideways, and what is touched is large enough.
// Never measures with the script's help: sizes are those that the browser laid out.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeHall, kindsOf, openHall } from "./hall.mjs";

/** Touch targets: 44 by 44 px (WCAG 2.2, success criterion 2.5.5, level AAA). */
const LEAST = 44;
/** What a person aims at; links in running text are exempt, as in the criterion. */
const MAIN_CONTROLS = [
  "button",
  "summary",
  ".button",
  ".top a",
  ".places a",
  ".door",
  ".rail li > a",
  "a.above, a.below",
  ".entries > li > a",
  ".swaps li > a",
  ".cards h2 a, .cards h3 a",
  "label:has(input)",
  "[data-search] input",
  "[data-search] .answers a",
].join(", ");

let site, browser, hall;

before(async () => ({ site, hall, browser } = await openHall("/")));
after(() => closeHall({ hall, browser }));

/** Opens every kind of page at a width. */
async function everyKind(width, look) {
  const context = await browser.newContext({ viewport: { width, height: 844 }, hasTouch: true });
  const page = await context.newPage();
  for (const name of kindsOf(site, 3)) {
    await page.goto(hall.address + name);
    await page.evaluate(() => document.querySelectorAll("details").forEach((one) => (one.open = true)));
    await look(page, name);
  }
  await context.close();
}

/** Elements that reach over the right edge. */
const tooWide = (page) => page.evaluate(() => {
  const edge = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth <= edge) return [];
  const over = [...document.querySelectorAll("body *")].filter((one) => one.getBoundingClientRect().right > edge + 1);
  return ["the page scrolls sideways", ...over.slice(0, 5).map((one) => `${one.tagName}.${one.className}`)];
});

for (const width of [320, 390, 820]) {
  test(`nothing scrolls sideways at ${width} px`, async () => {
    const complaints = [];
    await everyKind(width, async (page, name) => {
      const wide = await tooWide(page);
      if (wide.length) complaints.push(`${name}: ${wide.join(", ")}`);
    });
    assert.deepEqual(complaints, []);
  });
}

test("a box that is too wide is seen", async () => {
  const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
  await page.goto(hall.address);
  await page.evaluate(() => document.querySelector("main").style.setProperty("width", "500px"));
  assert.ok((await tooWide(page)).length > 0);
  await page.close();
});

/** Main controls that are shown and too small to hit. */
const tooSmall = (page) => page.evaluate(([controls, least]) => {
  const shown = [...document.querySelectorAll(controls)].filter((one) => one.checkVisibility());
  // A link that runs over two lines is hit on either; its height is what counts. Short words are
  // narrow, and have room around them.
  const small = shown.filter((one) => one.getBoundingClientRect().height < least - 0.5);
  return small.map((one) => `${one.className || one.tagName} "${one.textContent.trim().slice(0, 30)}" ${Math.round(one.getBoundingClientRect().height)} px`);
}, [MAIN_CONTROLS, LEAST]);

test("main controls are 44 px high at least, on every kind of page", async () => {
  const complaints = new Set();
  await everyKind(390, async (page, name) => {
    for (const small of await tooSmall(page)) complaints.add(`${name}: ${small}`);
  });
  assert.deepEqual([...complaints], []);
});

test("a small button is seen", async () => {
  const page = await browser.newPage({ viewport: { width: 390, height: 844 } });
  await page.goto(hall.address + "kit-and-limits.html");
  await page.evaluate(() => document.querySelector("[data-act]").setAttribute("hidden", ""));
  assert.deepEqual(await tooSmall(page), []);
  await page.evaluate(() => document.querySelector("[data-preset]").style.setProperty("min-height", "0"));
  await page.evaluate(() => document.querySelector("[data-preset]").style.setProperty("padding", "0"));
  assert.equal((await tooSmall(page)).length, 1);
  await page.close();
});
