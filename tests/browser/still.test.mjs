// Nothing moves under the thumb: what a script will show has its place from the first paint, on every kind
// of page, for a first visitor and for somebody whose book, kit and limits are on the device.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeHall, kindsOf, openHall } from "./hall.mjs";

let site, browser, hall;
before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** What moved since the page was opened, as the browser counts it. */
const watch = () => {
  window.moved = [];
  new PerformanceObserver((list) => {
    for (const one of list.getEntries()) window.moved.push([one.value, (one.sources || []).map((source) => `${source.node?.nodeName}.${source.node?.className}`).join(", ")]);
  }).observe({ type: "layout-shift", buffered: true });
};

const stored = () => {
  localStorage.setItem("rungbook-kit", JSON.stringify({ mode: "picked", kit: ["chair", "towel"], noise: "loud" }));
  localStorage.setItem("rungbook-limits", JSON.stringify({ cautions: ["sore-wrist"], traits: [], asks: {} }));
  localStorage.setItem("rungbook-book", JSON.stringify({ schema: "rungbook-book-1", stature_cm: null, body_mass_kg: null, heights: {}, rungs: { "push-up": 4 }, results: [], done: [], notes: [] }));
};

/** The sum of what moved on each kind of page, at a width. */
async function sums(width, prepare) {
  const context = await browser.newContext({ serviceWorkers: "block", viewport: { width, height: 844 } });
  await context.addInitScript(watch);
  if (prepare) await context.addInitScript(prepare);
  const page = await context.newPage();
  const found = [];
  for (const name of kindsOf(site)) {
    await page.goto(hall.address + name);
    await page.waitForTimeout(700);
    const moved = await page.evaluate(() => window.moved);
    found.push([name, moved.reduce((all, [value]) => all + value, 0), JSON.stringify(moved)]);
  }
  await context.close();
  return found;
}

for (const width of [390, 1280]) {
  test(`nothing moves for a first visitor at ${width} px`, async () => {
    assert.deepEqual((await sums(width)).filter(([, sum]) => sum > 0.001), []);
  });

}

/** Where the answer for somebody takes room that nobody in particular has none of: their own version of each
 *  line, and the flag over a movement that does not fit them. Measured here, and not yet held. */
const ANSWERS = /^(sessions|movements|ladders)\/(?!index)/;

test("next to nothing moves on a phone where book, kit and limits are stored", async (t) => {
  const found = await sums(390, stored);
  for (const [name, sum] of found.filter(([name]) => ANSWERS.test(name))) t.diagnostic(`${name}: ${sum.toFixed(3)}`);
  assert.deepEqual(found.filter(([name, sum]) => !ANSWERS.test(name) && sum > 0.02), []);
});

test("what moves is seen", async () => {
  const context = await browser.newContext({ serviceWorkers: "block", viewport: { width: 390, height: 844 } });
  await context.addInitScript(watch);
  const page = await context.newPage();
  await page.goto(`${hall.address}index.html`);
  await page.evaluate(() => document.querySelector("main").prepend(Object.assign(document.createElement("p"), { textContent: "late ".repeat(200) })));
  await page.waitForTimeout(500);
  assert.ok((await page.evaluate(() => window.moved)).reduce((all, [value]) => all + value, 0) > 0.02);
  await context.close();
});
