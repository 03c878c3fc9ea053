// The class's clock while somebody is in front: one touch away, never in place of theirs unasked.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeHall, openHall } from "./hall.mjs";

let browser, hall;
before(async () => {
  ({ hall, browser } = await openHall());
});
after(() => closeHall({ hall, browser }));

test("browser: while somebody is in front the class's clock stays one touch away, and theirs one touch back", async () => {
  const context = await browser.newContext({ serviceWorkers: "block", viewport: { width: 390, height: 844 }, hasTouch: true });
  const page = await context.newPage();
  const troubles = [];
  page.on("pageerror", (error) => troubles.push(error.message));
  await page.clock.install({ time: new Date("2027-01-19T18:30:00") });
  await page.goto(`${hall.address}today.html`);
  await page.waitForSelector(".today.ready .hour.picked");
  await page.tap(".go");
  await page.waitForSelector("dialog[open] .clock-digits:not(:empty)");
  await page.clock.runFor(6_000);
  await page.click("dialog button:text-is('Hide')");
  await page.goto(`${hall.address}floor.html`);
  await page.evaluate(() => rungbookPerson.setFront({ situations: ["sore-wrist"], traits: [], lacks: [] }));
  await page.reload();
  await page.waitForFunction(() => /For this person/.test(document.querySelector(".run-strip")?.textContent || ""));
  await page.click(".run-strip button:text-is('Class')");
  await page.waitForFunction(() => /Class: /.test(document.querySelector(".run-strip")?.textContent || ""));
  const box = await page.locator(".run-strip").boundingBox();
  assert.ok(box.y + box.height <= 845 && box.height < 130, JSON.stringify(box));
  await page.click(".run-strip-open");
  await page.waitForSelector("dialog[open]");
  await page.clock.runFor(300);
  assert.match(await page.textContent(".clock-whose"), /for nobody in particular/);
  await page.click("dialog button:text-is('Hide')");
  await page.click(".run-strip button:text-is('Person')");
  await page.waitForFunction(() => /For this person/.test(document.querySelector(".run-strip")?.textContent || ""));
  // Who comes next does not read it either before it is asked for again.
  await page.click(".run-strip button:text-is('Class')");
  await page.evaluate(() => rungbookPerson.setFront({ situations: ["pregnancy"], traits: [], lacks: [] }));
  await page.evaluate(() => document.dispatchEvent(new CustomEvent("rungbook-who")));
  await page.waitForFunction(() => /For this person/.test(document.querySelector(".run-strip")?.textContent || ""));
  // Gone: the class's clock, and nothing to choose.
  await page.evaluate(() => rungbookPerson.setFront(null));
  await page.evaluate(() => document.dispatchEvent(new CustomEvent("rungbook-who")));
  await page.waitForFunction(() => !/For this person|Class: /.test(document.querySelector(".run-strip")?.textContent || ""));
  assert.equal(await page.locator(".run-strip-whose:visible").count(), 0);
  assert.deepEqual(troubles, []);
  await context.close();
});
