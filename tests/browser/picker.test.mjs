// Kit and limits in the browser: what fits is shown, and what is picked stays on the device.
// Never trusts the script's own word: what the page shows is compared with its `data-` attributes.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { after, before, test } from "node:test";
import { builtSite, openBrowser, serve } from "./hall.mjs";

const MOVEMENT = "movements/pull-up.html";
let browser, hall;

before(async () => {
  hall = await serve(builtSite());
  browser = await openBrowser();
});
after(async () => {
  await browser.close();
  await hall.stop();
});

/** A device of its own: nothing kept from another test. */
async function device(run) {
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(hall.address + "kit-and-limits.html");
  try {
    await run(page, context);
  } finally {
    await context.close();
  }
}

const tick = (page, name, value) => page.check(`input[name="${name}"][value="${value}"]`);
const kept = (page, store, key) => page.evaluate(([s, k]) => window[s].getItem(k), [store, key]);
const shown = (page, list) =>
  page.$$eval(`${list} > li`, (items) => items.filter((item) => !item.hidden).map((item) => ({ ...item.dataset })));

/** The rule, written a second time from its description: kit, traits and noise leave out. */
function should(data, { kit, limits }) {
  const needs = data.kit.split(" ").filter(Boolean).map((need) => need.split("|"));
  const traits = data.traits.split(" ").filter(Boolean).map((word) => word.split(":"));
  const hasKit = kit === null || needs.every((need) => need.some((one) => kit.includes(one)));
  return hasKit && traits.every(([trait, level]) => !(Number(level) >= (limits[trait] ?? 3)));
}

test("a limit takes every movement with its trait off the lists", () => device(async (page) => {
  await page.goto(hall.address + "movements/index.html");
  const whole = await shown(page, "[data-filtered]");
  await page.goto(hall.address + "kit-and-limits.html");
  await tick(page, "trait", "loaded-wrist-extension");
  await page.goto(hall.address + "movements/index.html");
  const left = await shown(page, "[data-filtered]");
  const person = { kit: null, limits: { "loaded-wrist-extension": 1 } };
  assert.deepEqual(left, whole.filter((data) => should(data, person)));
  assert.ok(left.length < whole.length && left.length > 20);
}));

test("kit at hand filters the swaps and the lists; nothing left says ask your coach", () => device(async (page) => {
  await page.goto(hall.address + MOVEMENT);
  const before = await shown(page, "[data-swaps]");
  await page.goto(hall.address + "kit-and-limits.html");
  await tick(page, "kit", "band");
  assert.ok(await page.isChecked('input[name="kit-mode"][value="picked"]'), "ticking kit means only what is ticked");
  await page.goto(hall.address + MOVEMENT);
  const left = await shown(page, "[data-swaps]");
  assert.deepEqual(left, before.filter((data) => should(data, { kit: ["band"], limits: {} })));
  assert.ok(before.length > left.length, "the pull-up has swaps that need more than a band");
  assert.match(await page.textContent("[data-flag]"), /needs pull up bar/);

  await page.goto(hall.address + "kit-and-limits.html");
  for (const trait of ["strong-grip", "overhead", "balance", "floor-transfer", "breath-hold", "loaded-spinal-flexion"]) {
    await tick(page, "trait", trait);
  }
  await page.click('[data-preset="none"]');
  await page.goto(hall.address + MOVEMENT);
  assert.deepEqual(await shown(page, "[data-swaps]"), []);
  assert.ok(await page.isVisible("[data-none-left]"));
  assert.match(await page.textContent("[data-none-left]"), /Ask your coach/);
}));

test("a situation leaves out by trait and level, as its page says", () => device(async (page) => {
  const asks = await page.getAttribute('input[name="caution"][value="osteoporosis"]', "data-asks");
  const limits = Object.fromEntries(asks.split(" ").map((word) => word.split(":")).map(([t, l]) => [t, Number(l)]));
  assert.ok(Object.keys(limits).length > 0);
  await page.goto(hall.address + "movements/index.html");
  const whole = await shown(page, "[data-filtered]");
  await page.goto(hall.address + "kit-and-limits.html");
  await tick(page, "caution", "osteoporosis");
  await page.goto(hall.address + "movements/index.html");
  const left = await shown(page, "[data-filtered]");
  assert.deepEqual(left, whole.filter((data) => should(data, { kit: null, limits })));
  assert.ok(left.length < whole.length);
}));

test("limits are gone in a new tab and a new session; kit stays", () => device(async (page, context) => {
  await tick(page, "trait", "impact");
  await tick(page, "kit", "chair");
  assert.match(await page.textContent("[data-person]"), /Leaving out: /);
  assert.equal(await kept(page, "localStorage", "rungbook-limits"), null);
  const tab = await context.newPage();
  await tab.goto(hall.address + "movements/index.html");
  assert.equal(await kept(tab, "sessionStorage", "rungbook-limits"), null);
  const strip = await tab.textContent("[data-person]");
  assert.match(strip, /Kit: chair/);
  assert.doesNotMatch(strip, /Leaving out/);
}));

test("limits are kept when the person asks for it", () => device(async (page, context) => {
  await tick(page, "trait", "impact");
  await page.check('input[name="keep"]');
  await page.close();
  const tab = await context.newPage();
  await tab.goto(hall.address + "kit-and-limits.html");
  assert.match(await tab.textContent("[data-person]"), /Leaving out: /);
  assert.ok(await tab.isChecked('input[name="trait"][value="impact"]'));
  await tab.uncheck('input[name="keep"]');
  assert.equal(await kept(tab, "localStorage", "rungbook-limits"), null);
}));

test("what is picked stands in no address, no title, no request", () => device(async (page) => {
  hall.requests.length = 0;
  await tick(page, "caution", "pregnancy");
  await tick(page, "trait", "impact");
  await tick(page, "kit", "sofa");
  for (const name of ["index.html", "floor.html", MOVEMENT, "ladders/row.html"]) {
    await page.goto(hall.address + name);
    const address = await page.evaluate(() => location.href);
    assert.equal(address, hall.address + name);
    assert.doesNotMatch(await page.title(), /pregnan|impact|sofa/i);
  }
  assert.ok(hall.requests.length > 4);
  const telling = hall.requests.filter((url) => url.includes("?") || /impact/.test(url));
  assert.deepEqual(telling, []);
}));

test("the export holds what is kept, and erasing leaves nothing", () => device(async (page) => {
  await tick(page, "kit", "towel");
  await tick(page, "trait", "kneeling");
  const [download] = await Promise.all([page.waitForEvent("download"), page.click('[data-act="export"]')]);
  const exported = JSON.parse(readFileSync(await download.path(), "utf8"));
  assert.deepEqual(exported.kit.kit, ["towel"]);
  assert.deepEqual(exported.limits.traits, ["kneeling"]);

  await page.click('[data-act="erase"]');
  assert.match(await page.textContent("[data-said]"), /Erased/);
  const left = await page.evaluate(() =>
    [...Object.keys(localStorage), ...Object.keys(sessionStorage)].filter((key) => /kit|limits/.test(key)));
  assert.deepEqual(left, []);
  assert.equal(await page.isChecked('input[name="trait"][value="kneeling"]'), false);
}));
