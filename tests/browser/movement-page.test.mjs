// The page of a movement on a phone: what is taught stands on three screens, the rest is one touch away.
// Never what the rest says: that is for the tests of faults, swaps and sheets.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeHall, openHall, pagesOf } from "./hall.mjs";

const PHONE = { width: 390, height: 844 };
const SCREENS = 3;

let site, browser, hall, page;

before(async () => {
  ({ site, hall, browser } = await openHall());
  page = await browser.newPage({ viewport: PHONE });
});
after(() => closeHall({ hall, browser }));

const movements = () => pagesOf(site).filter((name) => /^movements\/(?!index)/.test(name));

/** Screens from the top of the page to the end of its second swap, or of what stands for none. */
const screens = () => page.evaluate((height) => {
  const last = document.querySelector("[data-swaps] > ol") || document.querySelector(".swaps .ask");
  return (last.getBoundingClientRect().bottom + window.scrollY) / height;
}, PHONE.height);

test("figure, standard, cues, rungs and two swaps stand on three phone screens", async () => {
  const long = [];
  for (const name of movements()) {
    await page.goto(hall.address + name);
    const seen = await screens();
    if (seen > SCREENS) long.push(`${name}: ${seen.toFixed(2)}`);
  }
  assert.deepEqual(long, []);
});

test("a longer page is seen", async () => {
  await page.goto(`${hall.address}movements/push-up.html`);
  await page.evaluate(() => document.querySelectorAll("details").forEach((one) => { one.open = true; }));
  assert.ok(await screens() > SCREENS);
});

test("a link to a fault opens what it is folded into", async () => {
  await page.goto(`${hall.address}movements/push-up.html#fault-1`);
  await page.waitForFunction(() => document.querySelector("#fault-1").checkVisibility());
  assert.equal(await page.locator("details.faults[open]").count(), 1);
});

test("swaps for somebody: two in sight, the rest one touch away and numbered on", async () => {
  await page.goto(`${hall.address}movements/push-up.html`);
  await page.evaluate(() => sessionStorage.clear());
  const all = await page.locator("[data-swaps] li").count();
  assert.ok(all > 2);
  assert.equal(await page.locator("[data-swaps] > ol > li").count(), 2);
  assert.equal(await page.locator("[data-swaps] .more-swaps ol").getAttribute("start"), "3");
  assert.equal(await page.innerText("[data-swaps] .more-swaps summary"), `${all - 2} more`);
});
