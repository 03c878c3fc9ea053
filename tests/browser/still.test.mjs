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
async function sums(width, ...prepare) {
  const context = await browser.newContext({ serviceWorkers: "block", viewport: { width, height: 844 } });
  await context.addInitScript(watch);
  for (const one of prepare) await context.addInitScript(one);
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

/** A class's clock that was begun just now. */
const running = () => {
  const begun = Date.now() - 20_000;
  const now = { session: "push-and-pull", block: 0, started: begun, paused_at: null, paused_ms: 0, skipped_ms: 0, turned: 0, turned_ms: 0, ended_ms: null, added: {} };
  localStorage.setItem("rungbook-clock", JSON.stringify({ run: { session: "push-and-pull", week: null, mode: "class", from: 0, to: 5, at: 0, now, trail: [], begun, ended: null } }));
  localStorage.setItem("rungbook-clock-time", JSON.stringify({ own: Date.now(), wall: Date.now() }));
};

for (const [what, prepare] of [["book, kit and limits are", [stored]], ["book, kit, limits and a running clock are", [stored, running]]]) {
  test(`next to nothing moves on a phone where ${what} stored, on every kind of page`, async (t) => {
    const found = await sums(390, ...prepare);
    for (const [name, sum] of found.filter(([, sum]) => sum > 0.001)) t.diagnostic(`${name}: ${sum.toFixed(3)}`);
    assert.ok(found.length > 20, `${found.length} pages`);
    assert.deepEqual(found.filter(([, sum]) => sum > 0.02), []);
  });
}

test("who is known waits for the page no longer than the styles say, whatever fails", async () => {
  const context = await browser.newContext({ serviceWorkers: "block", viewport: { width: 390, height: 844 } });
  await context.addInitScript(stored);
  const page = await context.newPage();
  await page.goto(`${hall.address}movements/push-up.html`);
  await page.waitForFunction(() => !document.documentElement.classList.contains("settling"));
  assert.equal(await page.evaluate(() => getComputedStyle(document.querySelector("main")).visibility), "visible");
  // Nothing takes the wait away: the styles do.
  await page.evaluate(() => document.documentElement.classList.add("settling"));
  assert.equal(await page.evaluate(() => getComputedStyle(document.querySelector("main")).visibility), "hidden");
  await page.waitForFunction(() => getComputedStyle(document.querySelector("main")).visibility === "visible");
  await context.close();
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
