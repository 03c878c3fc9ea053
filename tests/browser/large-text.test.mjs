// Text at twice its size on a phone: nothing is cut off and nothing scrolls sideways, on the pages that are used in
// class and at home (WCAG 2.2, success criterion 1.4.4). Letters are enlarged as a browser's own setting does it.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeHall, openHall } from "./hall.mjs";

const PAGES = ["floor.html", "floor.html#push-up", "floor.html#push-up/fault/1", "floor.html#fault/hips-sag", "floor.html#session/push-and-pull/2", "today.html", "movements/push-up.html", "movements/incline-push-up.html#rung-push-up-5", "sessions/push-and-pull.html"];
const SOMEBODY = { situations: ["pregnancy", "sore-wrist"], traits: [], lacks: ["pull-up-bar"] };
let browser, hall;

before(async () => ({ hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** A page with letters twice as large, for somebody in front or for nobody. */
async function enlarged(name, front, act) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, serviceWorkers: "block" });
  const page = await context.newPage();
  await page.goto(`${hall.address}floor.html`);
  if (front) await page.evaluate((one) => rungbookPerson.setFront(one), front);
  await page.goto("about:blank");
  await page.goto(hall.address + name);
  await page.evaluate(() => document.documentElement.style.setProperty("font-size", "200%"));
  await page.waitForTimeout(500);
  try {
    return await act(page);
  } finally {
    await context.close();
  }
}

/** What is cut: words beyond the edge of the screen, or in a box that hides what does not fit. */
const cut = (page) => page.evaluate(() => {
  const found = [];
  const wide = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth > wide) found.push(`the page scrolls sideways: ${document.documentElement.scrollWidth}`);
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const parent = texts.currentNode.parentElement;
    const words = texts.currentNode.textContent.trim();
    if (!words || !parent.checkVisibility({ visibilityProperty: true }) || parent.closest(".unseen, .skip, script, svg")) continue;
    const range = document.createRange();
    range.selectNodeContents(texts.currentNode);
    const boxes = [...range.getClientRects()];
    // A row that is meant to be swiped holds its words.
    const swiped = parent.closest(".settings");
    if (!swiped && boxes.some((box) => box.right > wide + 1 || box.left < -1)) found.push(`beyond the edge: ${words}`);
    for (let box = parent; box && box !== document.body; box = box.parentElement) {
      const style = getComputedStyle(box);
      const hides = style.overflowX !== "visible" || style.textOverflow === "ellipsis";
      if (!hides || box === swiped) continue;
      const edge = box.getBoundingClientRect();
      if (boxes.some((one) => one.right > edge.right + 1 || one.bottom > edge.bottom + 1)) found.push(`cut by .${box.className}: ${words}`);
    }
  }
  return found;
});

for (const name of PAGES) {
  test(`${name}: nothing is lost at twice the size`, async () => {
    for (const front of [null, SOMEBODY]) assert.deepEqual(await enlarged(name, front, cut), [], front ? "for somebody" : "for nobody");
  });
}

test("what is cut off is seen", () => enlarged("movements/push-up.html", null, async (page) => {
  assert.deepEqual(await cut(page), []);
  await page.evaluate(() => {
    const title = document.querySelector("h1");
    title.style.cssText = "overflow: hidden; height: 1rem";
    document.querySelector(".standard").style.width = "60rem";
  });
  const found = await cut(page);
  assert.ok(found.some((one) => /^cut by/.test(one)) && found.some((one) => /sideways/.test(one)), found.join("\n"));
}));
