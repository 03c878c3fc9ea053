// Accessibility of every kind of page, light and dark, judged by axe-core.
// Reference: axe-core's own rules for WCAG 2.2 A and AA and its best practices; none switched off.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { after, before, test } from "node:test";
import { closeHall, kindsOf, openHall } from "./hall.mjs";
import { endByHold } from "./clocks.mjs";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
let site, browser, hall;

before(async () => ({ site, hall, browser } = await openHall("/")));
after(() => closeHall({ hall, browser }));

/** What axe finds, as lines. */
async function violations(page) {
  // The page of somebody who is known shows once its answer stands in it (settle.js).
  await page.waitForFunction(() => !document.documentElement.classList.contains("settling"));
  await page.evaluate(() => document.querySelectorAll("details").forEach((one) => (one.open = true)));
  const { violations } = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  return violations.map((one) => `${one.id}: ${one.nodes.slice(0, 3).map((node) => node.html.slice(0, 120)).join(" | ")}`);
}

/** A page with axe in it; the page's own policy would not let the script in. */
async function withAxe(colorScheme) {
  const context = await browser.newContext({ colorScheme, bypassCSP: true, serviceWorkers: "block" });
  await context.addInitScript(AXE);
  return context.newPage();
}

for (const scheme of ["light", "dark"]) {
  test(`axe finds nothing on any kind of page, ${scheme}`, async () => {
    const page = await withAxe(scheme);
    const complaints = [];
    for (const name of kindsOf(site)) {
      await page.goto(hall.address + name);
      for (const line of await violations(page)) complaints.push(`${name}: ${line}`);
    }
    await page.context().close();
    assert.deepEqual(complaints, []);
  });
}

test("axe finds nothing with kit and limits picked, and on a card in class", async () => {
  const page = await withAxe("light");
  await page.goto(hall.address + "kit-and-limits.html");
  await page.check('input[name="trait"][value="impact"]');
  await page.check('input[name="kit"][value="chair"]');
  const complaints = [];
  for (const name of ["movements/box-jump.html", "ladders/jump.html", "movements/index.html", "floor.html#pull-up"]) {
    await page.goto(hall.address + name);
    if (name.startsWith("floor")) await page.waitForSelector("[data-card] h1");
    for (const line of await violations(page)) complaints.push(`${name}: ${line}`);
  }
  await page.context().close();
  assert.deepEqual(complaints, []);
});

test("axe finds nothing on a member's own session and on its clock", async () => {
  for (const scheme of ["light", "dark"]) {
    const page = await withAxe(scheme);
    await page.goto(hall.address + "kit-and-limits.html");
    await page.check('input[name="kit"][value="chair"]');
    await page.click('[data-act="none"]');
    await page.goto(hall.address + "sessions/push-and-pull.html");
    await page.waitForSelector(".own .own-name");
    assert.deepEqual(await violations(page), [], "own version");
    await page.click("[data-block='0'] .clock-start");
    await page.waitForSelector("dialog[open]");
    assert.deepEqual(await violations(page), [], "the clock");
    await endByHold(page);
    assert.deepEqual(await violations(page), [], "noting");
    await page.context().close();
  }
});

test("axe finds nothing on today, on the big face, in the strip, and where it is noted", async () => {
  for (const scheme of ["light", "dark"]) {
    const page = await withAxe(scheme);
    await page.clock.install({ time: new Date("2027-01-19T18:30:00") });
    await page.goto(hall.address + "today.html");
    await page.waitForSelector(".today.ready .hour.picked");
    assert.deepEqual(await violations(page), [], "today");
    await page.click(".go");
    await page.waitForSelector("dialog[open] .clock-digits:not(:empty)");
    // Into the second block, so that one is gone and one is on.
    await page.clock.fastForward(700_000);
    await page.clock.runFor(1_000);
    assert.deepEqual(await violations(page), [], "the face");
    await page.click("dialog button:text-is('Hide')");
    assert.deepEqual(await violations(page), [], "today while it runs");
    await page.goto(hall.address + "movements/push-up.html");
    await page.waitForSelector(".run-strip");
    assert.deepEqual(await violations(page), [], "the strip");
    await page.click(".run-strip-open");
    await page.waitForSelector("dialog[open]");
    await endByHold(page, (ms) => page.clock.runFor(ms));
    assert.deepEqual(await violations(page), [], "noting");
    await page.context().close();
  }
});

test("axe sees a picture without words and a pale text", async () => {
  const page = await withAxe("light");
  await page.goto(hall.address);
  await page.evaluate(() => {
    document.querySelector("main").insertAdjacentHTML("beforeend", "<img src='icon.svg'>");
    document.querySelector("h1").style.color = "#ddd";
  });
  const found = (await violations(page)).join("\n");
  assert.match(found, /image-alt/);
  assert.match(found, /color-contrast/);
  await page.context().close();
});
