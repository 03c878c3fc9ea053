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

test("opened at a rung the page begins with its number, and shows its own neighbours, in one form of address", async () => {
  for (const [rung, above, below] of [[5, 6, 4], [4, 5, 3]]) {
    await page.goto("about:blank");
    await page.goto(`${hall.address}movements/incline-push-up.html#rung-push-up-${rung}`);
    await page.waitForSelector("[data-flag]:not([hidden])");
    assert.match(await page.textContent("[data-flag]"), new RegExp(`rung ${rung} of its ladder`));
    assert.equal(await page.evaluate(() => scrollY), 0, "what is said of the rung is out of sight");
    const rail = await page.$$eval(".standing:has(:target) .rail > li", (all) => Object.fromEntries(all.map((one) => [one.value, one.querySelector("a").textContent])));
    const words = (where) => page.locator(`.standing:has(:target) .neighbours > .${where}`).innerText();
    assert.ok((await words("above")).includes(rail[above]));
    assert.match(await words("between"), new RegExp(`Here, rung ${rung} of ${Object.keys(rail).length}`));
    assert.ok((await words("below")).includes(rail[below]));
    assert.match(await page.getAttribute(".standing:has(:target) .neighbours > .below", "href"), new RegExp(`#rung-push-up-${below}$`));
  }
  // Another rung of the same page.
  await page.evaluate(() => { location.hash = "rung-push-up-3"; });
  await page.waitForFunction(() => /rung 3 of its ladder/.test(document.querySelector("[data-flag]").textContent));
  assert.match(await page.locator(".standing:has(:target) .neighbours > .between").innerText(), /rung 3 of/);
});

test("a neighbour at a rung is marked for whom the page is for, like the list", async () => {
  await page.goto(`${hall.address}movements/incline-push-up.html`);
  await page.evaluate(() => rungbookPerson.keepKit({ mode: "picked", kit: ["chair"], noise: "loud" }));
  await page.goto("about:blank");
  await page.goto(`${hall.address}movements/incline-push-up.html#rung-push-up-5`);
  await page.waitForSelector(".neighbours[data-at] .misfit-why");
  assert.match(await page.innerText(".neighbours > .below"), /needs box or bench/);
  await page.evaluate(() => rungbookPerson.forgetMine());
});

test("no page leads to a rung in another form", async () => {
  const { readFileSync } = await import("node:fs");
  const { join } = await import("node:path");
  const bad = pagesOf(site).flatMap((name) => [...readFileSync(join(site, name), "utf8").matchAll(/href="[^"]*#rung\/[^"]*"/g)].map(([to]) => `${name}: ${to}`));
  assert.deepEqual(bad, []);
});
