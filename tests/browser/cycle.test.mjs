// The page of a cycle in the browser: every plan without scripts, one with them, from the rung that
// the member's book holds. Never writes into the book: picking a rung here only shows it.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeHall, openHall } from "./hall.mjs";

const PAGE = "cycles/six-weeks-push-and-pull.html";
const PUSH_UP = '[data-plan="push-up"]';
let site, browser, hall;

before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** The rungs whose plans are shown, and the number in each shown row of the first of them. */
const shown = (page, plan) => page.locator(`${plan} details[data-start]`).evaluateAll((all) => {
  const seen = all.filter((one) => one.checkVisibility());
  const open = seen.filter((one) => one.open);
  return {
    plans: seen.map((one) => one.dataset.start),
    open: open.map((one) => one.dataset.start),
    rungs: [...open[0].querySelectorAll(".rung-number")].map((one) => Number(one.textContent)),
  };
});

test("without scripts every plan is on the page, the test's rung open", async () => {
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(hall.address + PAGE);
  const html = await page.content();
  assert.equal((html.match(/data-start="/g) || []).length, 9 + 9);
  assert.equal((html.match(/<details data-start="\d+"[^>]* open/g) || []).length, 2);
  assert.match(html, /<details data-start="4"[^>]* open/);
  assert.equal(await page.locator("select").count(), 0);
  await context.close();
});

test("with scripts one plan is shown, and the keyboard picks another", async () => {
  const page = await browser.newPage();
  await page.goto(hall.address + PAGE);
  assert.deepEqual(await shown(page, PUSH_UP), { plans: ["4"], open: ["4"], rungs: [4, 4, 4, 5, 5, 4] });
  await page.getByLabel("You start on rung").first().focus();
  await page.keyboard.press("ArrowUp");
  assert.deepEqual(await shown(page, PUSH_UP), { plans: ["3"], open: ["3"], rungs: [3, 3, 3, 4, 4, 3] });
  assert.deepEqual((await shown(page, '[data-plan="row"]')).plans, ["4"], "the other ladder stays");
  assert.equal(await page.evaluate(() => localStorage.getItem("rungbook-book")), null, "picking keeps nothing");
  await page.close();
});

test("the member's own rung is picked, and follows the book until they pick one", async () => {
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(hall.address + PAGE);
  await page.evaluate(() => rungbookBook.change((book) => { book.rungs["push-up"] = 8; book.rungs.row = 99; }));
  await page.reload();
  assert.deepEqual(await shown(page, PUSH_UP), { plans: ["8"], open: ["8"], rungs: [8, 8, 8, 9, 9, 8] });
  assert.match(await page.locator(`${PUSH_UP} [role=status]`).textContent(), /your book on this device/);
  assert.deepEqual((await shown(page, '[data-plan="row"]')).plans, ["4"], "a rung that the ladder has not");
  await page.evaluate(() => rungbookBook.change((book) => { book.rungs["push-up"] = 2; }));
  assert.deepEqual((await shown(page, PUSH_UP)).plans, ["2"]);
  await page.locator(`${PUSH_UP} select`).selectOption("6");
  await page.evaluate(() => rungbookBook.change((book) => { book.rungs["push-up"] = 1; }));
  assert.deepEqual((await shown(page, PUSH_UP)).plans, ["6"], "what was picked stays");
  assert.equal(await page.locator(`${PUSH_UP} [role=status]`).textContent(), "");
  await context.close();
});

test("the calendar is one file, served as a calendar", async () => {
  const page = await browser.newPage();
  await page.goto(hall.address + PAGE);
  const file = await page.getByRole("link", { name: "take the file" }).evaluate((link) => link.href);
  const answer = await page.request.get(file);
  assert.match(answer.headers()["content-type"], /^text\/calendar/);
  assert.match(await answer.text(), /^BEGIN:VCALENDAR\r\n/);
  await page.close();
});

/** Sizes in px of the drawings' words, as laid out. */
const wordSizes = (page) => page.locator(".chart text").evaluateAll((all) => {
  const seen = all.filter((one) => one.checkVisibility());
  return seen.map((one) => {
    const { width } = one.ownerSVGElement.getBoundingClientRect();
    return parseFloat(getComputedStyle(one).fontSize) * (width / one.ownerSVGElement.viewBox.baseVal.width);
  });
});

for (const scheme of ["light", "dark"]) {
  test(`the drawings are readable at 320 px and stay in their frame, ${scheme}`, async () => {
    const context = await browser.newContext({ viewport: { width: 320, height: 800 }, colorScheme: scheme });
    const page = await context.newPage();
    await page.goto(hall.address + PAGE);
    const sizes = await wordSizes(page);
    // Ten px at least; common practice, no source.
    assert.ok(sizes.length > 40 && Math.min(...sizes) >= 10, String(Math.min(...sizes)));
    const outside = await page.locator(".chart text").evaluateAll((all) => {
      const over = all.filter((one) => one.checkVisibility()).filter((one) => {
        const [box, frame] = [one.getBoundingClientRect(), one.ownerSVGElement.getBoundingClientRect()];
        return box.left < frame.left - 1 || box.right > frame.right + 1 || box.bottom > frame.bottom + 1;
      });
      return over.map((one) => one.textContent);
    });
    assert.deepEqual(outside, []);
    await context.close();
  });
}
