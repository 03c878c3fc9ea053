// The search box as a control: keyboard, focus, what is announced, an index that is late or lost.
// Never asks whether the answers are good; search.test.mjs does.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { join } from "node:path";
import { builtSite, openBrowser, serve } from "./hall.mjs";

let site, browser, hall;
before(async () => {
  site = builtSite();
  [browser, hall] = await Promise.all([openBrowser(), serve(site)]);
});
after(async () => {
  await browser?.close();
  await hall?.stop();
});

const box = "[data-search] input";
const option = "[data-search] [role=option]";

/** A page with the errors it made. */
async function pageAt(address, { width = 390 } = {}) {
  const page = await browser.newPage({ viewport: { width, height: 800 } });
  const errors = [];
  page.on("pageerror", (error) => errors.push(error.message));
  page.on("console", (message) => message.type() === "error" && errors.push(message.text()));
  await page.goto(address);
  return { page, errors };
}

test("from disk: slash, words, arrow, Enter, and the page stands at the fault", async () => {
  const { page, errors } = await pageAt(pathToFileURL(join(site, "movements/strap-row.html")).href);
  await page.keyboard.press("/");
  assert.equal(await page.evaluate((at) => document.activeElement === document.querySelector(at), box), true);
  await page.keyboard.type("hips sag in plank");
  await page.waitForSelector(option);
  assert.equal(await page.getAttribute(box, "aria-expanded"), "true");
  await page.keyboard.press("ArrowDown");
  const marked = await page.getAttribute(box, "aria-activedescendant");
  assert.equal(await page.getAttribute(`#${marked}`, "aria-selected"), "true");
  assert.match(await page.textContent(`#${marked}`), /Plank.*fault: Hips sag/);
  assert.equal(await page.evaluate((at) => document.activeElement === document.querySelector(at), box), true, "focus kept");
  await page.keyboard.press("Enter");
  await page.waitForURL(/movements\/plank\.html#fault-\d$/);
  assert.deepEqual(errors, []);
  await page.close();
});

test("the index is read on first use, and typing does not wait for it", async () => {
  const { page, errors } = await pageAt(hall.address);
  const asked = () => hall.requests.filter((name) => name.endsWith("data/search-index.js")).length;
  assert.equal(asked(), 0);
  let release = () => {};
  const held = new Promise((done) => (release = done));
  await page.route("**/data/search-index.js", async (route) => {
    await held;
    await route.continue();
  });
  await page.focus(box);
  await page.keyboard.type("goblet");
  assert.equal(await page.inputValue(box), "goblet");
  assert.equal(await page.locator(option).count(), 0);
  release();
  await page.waitForSelector(option);
  assert.match(await page.textContent(`${option} >> nth=0`), /Goblet squat/);
  assert.deepEqual(errors, []);
  await page.close();
});

test("answers are announced; Escape closes, then empties; nothing found is said", async () => {
  const { page } = await pageAt(hall.address);
  const heard = (words) => page.waitForFunction(
    (say) => document.querySelector("[data-search] [role=status]")?.textContent?.includes(say), words);
  await page.fill(box, "sore wrist");
  await heard("First: Sore wrist");
  await page.keyboard.press("Escape");
  assert.equal(await page.isVisible("[data-search] [role=listbox]"), false);
  assert.equal(await page.inputValue(box), "sore wrist");
  await page.keyboard.press("Escape");
  assert.equal(await page.inputValue(box), "");
  await page.fill(box, "zzzzqqqq");
  await heard("Nothing here says \u201czzzzqqqq\u201d, nor anything near it.");
  assert.match(await page.textContent("[data-search] [role=listbox]"), /movements, ladders, faults.*A to Z/, "what there is is said");
  await page.keyboard.press("Enter");
  await page.waitForURL(/a-to-z\.html$/);
  await page.close();
});

test("an index that does not arrive is said, and the next try works", async () => {
  const { page } = await pageAt(hall.address);
  await page.route("**/data/search-index.js", (route) => route.abort());
  await page.fill(box, "plank");
  await page.waitForFunction(() => document.querySelector("[data-search] [role=status]")?.textContent?.includes("A to Z"));
  await page.unroute("**/data/search-index.js");
  await page.fill(box, "plank ");
  await page.waitForSelector(option);
  await page.close();
});

test("no violations with the answers open, light and dark", async () => {
  const { createRequire } = await import("node:module");
  const path = createRequire(import.meta.url).resolve("axe-core/axe.min.js");
  for (const colorScheme of ["light", "dark"]) {
    // The page's own policy forbids other scripts; the checker is let in past it.
    const context = await browser.newContext({ colorScheme, bypassCSP: true, viewport: { width: 390, height: 800 } });
    const page = await context.newPage();
    await page.goto(hall.address);
    await page.fill(box, "row");
    await page.waitForSelector(option);
    await page.keyboard.press("ArrowDown");
    await page.addScriptTag({ path });
    const { violations } = await page.evaluate(() => globalThis.axe.run("[data-search]"));
    assert.deepEqual(violations.map(({ id, nodes }) => [id, nodes.map((node) => node.html)]), []);
    await context.close();
  }
});
