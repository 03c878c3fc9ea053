// The floor on a phone, light and dark, in each state that a coach meets: a card, a session's block,
// quick limits pressed, nothing left to swap. axe finds nothing, targets are large, all is in view.
// Reference: axe-core's own rules, none switched off; targets of 44 CSS px (WCAG 2.2, 2.5.5).
import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { closeHall, openHall } from "./hall.mjs";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");
const PHONE = { width: 390, height: 844 };
let site, browser, hall;

before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** Presses quick limits by their words. */
const press = (...words) => async (page) => {
  for (const word of words) await page.click(`[data-quick] button:text-is("${word}")`);
};

const STATES = {
  "the list": ["floor.html", async () => {}],
  "the list with limits": ["floor.html", press("No bar", "Can't get on the floor")],
  "a card": ["floor.html#pull-up", async () => {}],
  "a card of several rungs": ["floor.html#incline-push-up", async () => {}],
  "a card that does not fit now": ["floor.html#pull-up", press("No bar", "Sore wrist")],
  "a card with every limit": ["floor.html#push-up", async (page) => {
    for (const one of await page.$$("[data-quick] > button:not([data-clear])")) await one.click();
  }],
  "a card at a fault": ["floor.html#push-up/fault/2", async () => {}],
  "a card at a fault, with limits": ["floor.html#push-up/fault/2", press("Sore wrist", "Can't get on the floor")],
  "a fault": ["floor.html#fault/knees-fall-in", async () => {}],
  "a fault with limits": ["floor.html#fault/hips-sag", press("No bar", "Sore wrist")],
  "a block of a session": ["floor.html#session/push-and-pull/2", async () => {}],
  "a block with limits": ["floor.html#session/push-and-pull/2", press("Can't get on the floor", "Sore wrist")],
};

/** The floor in a state, with axe in it; the page's own policy would not let the script in. */
async function floorIn(state, colorScheme) {
  const [name, act] = STATES[state];
  const context = await browser.newContext({ colorScheme, viewport: PHONE, hasTouch: true, bypassCSP: true, serviceWorkers: "block" });
  await context.addInitScript(AXE);
  const page = await context.newPage();
  await page.goto(hall.address + name);
  if (name.includes("#")) await page.waitForSelector("[data-card] h1");
  await act(page);
  return page;
}

for (const scheme of ["light", "dark"]) {
  test(`axe finds nothing on the floor in any state, ${scheme}`, async () => {
    const complaints = [];
    for (const state of Object.keys(STATES)) {
      const page = await floorIn(state, scheme);
      const { violations } = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
      for (const one of violations) complaints.push(`${state}: ${one.id}: ${one.nodes.map((node) => node.html.slice(0, 120)).join(" | ")}`);
      await page.context().close();
    }
    assert.deepEqual(complaints, []);
  });
}

test("every target of the floor is 44 px high and nothing is wider than the screen", async () => {
  const small = [];
  for (const state of Object.keys(STATES)) {
    const page = await floorIn(state, "light");
    const found = await page.evaluate(() => {
      const targets = document.querySelectorAll("[data-quick] button, [data-card] a, [data-card] button, [data-lists] .rail a");
      const seen = Array.from(targets).filter((one) => one.checkVisibility());
      const low = seen.filter((one) => one.getBoundingClientRect().height < 44);
      const wide = document.documentElement.scrollWidth > innerWidth ? ["wider than the screen"] : [];
      return [...low.map((one) => `${one.className} ${one.textContent}`.slice(0, 60)), ...wide];
    });
    small.push(...found.map((line) => `${state}: ${line}`));
    await page.context().close();
  }
  assert.deepEqual(small, []);
});

test("one phone screen holds the cue, the standard and both rungs, with limits pressed too", async () => {
  for (const state of ["a card", "a card of several rungs", "a card that does not fit now", "a card with every limit"]) {
    const page = await floorIn(state, "light");
    const [ways, cue, standard] = await Promise.all([".ways", ".big-cue, .flag", ".card-standard"].map((one) => page.locator(one).first().boundingBox()));
    assert.ok(ways.y >= 0 && ways.y + ways.height <= PHONE.height, `${state}: the rungs end at ${ways.y + ways.height}`);
    assert.ok(cue.y >= 0 && standard.y >= 0, state);
    const size = (at) => page.$eval(at, (one) => parseFloat(getComputedStyle(one).fontSize));
    // Where the movement is changed or left out, that stands in the cue's place.
    const changed = await page.locator(".flag").count();
    assert.ok(changed || await size(".big-cue q") >= 1.5 * await size(".card-standard"), `${state}: the cue is large`);
    await page.context().close();
  }
});

/** Where the lowest of the things that a first glance needs ends, in px: the two rungs, where it is on
 *  a ladder, and 44 px of the first swap that fits or the words that none does. */
const glanceEnds = (page) => page.evaluate(() => {
  const rungs = document.querySelector(".card .ways");
  const swap = document.querySelector(".card .swap-to, .card .ask");
  return Math.max(rungs ? rungs.getBoundingClientRect().bottom : 0, swap.getBoundingClientRect().top + 44);
});

test("every movement's rungs and first swap are on the first screen, with none, one and two limits", async () => {
  const movements = readdirSync(join(site, "movements")).filter((name) => name !== "index.html").map((name) => name.replace(".html", ""));
  const over = [];
  for (const limits of [[], ["No bar"], ["No bar", "Sore wrist"]]) {
    const page = await browser.newPage({ viewport: PHONE });
    await page.goto(`${hall.address}floor.html`);
    await press(...limits)(page);
    for (const id of movements) {
      await page.evaluate((to) => (location.hash = to), id);
      await page.waitForFunction((to) => document.querySelector(".card .whole-page")?.getAttribute("href")?.endsWith(`/${to}.html`), id);
      const ends = await glanceEnds(page);
      if (ends > PHONE.height) over.push(`${id} with ${limits.join(", ") || "no limit"}: ${Math.round(ends)}`);
    }
    await page.close();
  }
  assert.ok(movements.length >= 97, `${movements.length} movements`);
  assert.deepEqual(over, []);
});
