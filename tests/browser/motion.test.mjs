// The moving figure in a real browser: still until asked, stopped by a touch, never against the
// wish for less motion. Never takes the script's word: what is compared is what stands in the page.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { closeHall, filesBelow, HOUSE, openHall } from "./hall.mjs";

const script = createRequire(import.meta.url)(join(HOUSE, "themes/slate/scripts/motion.js"));
let site, browser, hall;

before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** A movement's page: {page, button, drawn, moves, close}; `drawn` is every path of the picture. */
async function opened(movement, options = {}, address = hall.address) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, ...options });
  const page = await context.newPage();
  await page.goto(`${address}movements/${movement}.html`);
  const drawn = () => page.evaluate(() =>
    [...document.querySelectorAll(".picture svg")].filter((svg) => svg.checkVisibility())
      .map((svg) => svg.innerHTML).join());
  const moves = async () => {
    const seen = new Set();
    for (let look = 0; look < 5; look += 1) {
      seen.add(await drawn());
      await page.waitForTimeout(120);
    }
    return seen.size > 1;
  };
  return { page, button: page.locator(".picture button"), drawn, moves, close: () => context.close() };
}

const moving = (one) => one.page.waitForSelector(".picture .moving path");

test("nothing moves before the touch; a touch starts it, a second stops it", async () => {
  // Without the worker that keeps every file for offline: it would ask for the motions as well.
  const one = await opened("push-up", { serviceWorkers: "block" });
  const still = await one.drawn();
  const before = hall.requests.length;
  assert.equal(await one.moves(), false);
  assert.ok(!hall.requests.slice(before).some((url) => url.includes("/motion/")), "fetched unasked");
  assert.equal(await one.button.getAttribute("aria-pressed"), "false");
  await one.button.click();
  await moving(one);
  assert.equal(await one.moves(), true);
  assert.equal(await one.button.getAttribute("aria-pressed"), "true");
  await one.button.click();
  assert.equal(await one.moves(), false);
  assert.equal(await one.drawn(), still);
  assert.equal(await one.button.getAttribute("aria-pressed"), "false");
  await one.close();
});

test("the button stays where the finger is", async () => {
  for (const width of [320, 390, 820]) {
    const one = await opened("squat", { viewport: { width, height: 844 } });
    await one.button.scrollIntoViewIfNeeded();
    const place = await one.button.boundingBox();
    await one.button.click();
    await moving(one);
    assert.deepEqual(await one.button.boundingBox(), place);
    await one.close();
  }
});

test("it stops at Escape, when the tab is hidden and when less motion is wished for", async () => {
  const ways = {
    Escape: (page) => page.keyboard.press("Escape"),
    hidden: (page) => page.evaluate(() => {
      Object.defineProperty(document, "hidden", { get: () => true });
      document.dispatchEvent(new Event("visibilitychange"));
    }),
    less: (page) => page.emulateMedia({ reducedMotion: "reduce" }),
  };
  for (const [way, stop] of Object.entries(ways)) {
    const one = await opened("push-up");
    await one.button.click();
    await moving(one);
    assert.equal(await one.moves(), true, way);
    await stop(one.page);
    await one.page.locator(".moving").waitFor({ state: "detached", timeout: 1000 });
    assert.equal(await one.moves(), false, way);
    await one.close();
  }
});

test("under less motion a touch shows one step and then stands still", async () => {
  const one = await opened("push-up", { reducedMotion: "reduce" });
  const still = await one.drawn();
  assert.equal(await one.button.getAttribute("aria-pressed"), null);
  const seen = [];
  await one.button.click();
  await moving(one);
  while ((await one.drawn()) !== still) {
    assert.equal(await one.moves(), false);
    seen.push(await one.drawn());
    assert.ok(seen.length < 20, "the steps never end");
    await one.button.click();
  }
  assert.equal(new Set(seen).size, seen.length);
  assert.ok(seen.length >= 5, `${seen.length} steps`);
  await one.close();
});

test("it plays from a file on disk", async () => {
  const one = await opened("pull-up", {}, `${pathToFileURL(site).href}/`);
  await one.button.click();
  await moving(one);
  assert.equal(await one.moves(), true);
  await one.close();
});

test("a motion that does not come is said", async () => {
  const one = await opened("push-up");
  await one.page.route("**/motion/**", (route) => route.abort());
  await one.button.click();
  await one.page.getByRole("status").filter({ hasText: "did not come" }).waitFor();
  assert.equal(await one.button.getAttribute("aria-pressed"), "false");
  await one.close();
});

test("it keeps the entry's pace: half a repetition is the end, a whole one the start", () => {
  let motion;
  const keep = { keep: (_, data) => { motion = data; } };
  new Function("rungbookMotion", readFileSync(join(site, "motion/push-up.js"), "utf8"))(keep);
  const { timeline, keys } = script.film(motion, 4);
  assert.equal(script.frameAt(timeline, 0), 0);
  assert.ok(Math.abs(script.frameAt(timeline, 1.9) - keys.at(-1)) < 1e-9);
  assert.ok(script.frameAt(timeline, 3.99) < 1e-9);
  assert.ok(script.frameAt(timeline, 0.2) < script.frameAt(timeline, 0.8));
});

/** The numbers of path data. */
const numbers = (d) => (d.match(/-?(?:\d+\.?\d*|\.\d+)/g) || []).map(Number);

test("the script draws each key pose as the build drew it", () => {
  const files = filesBelow(site, "motion/");
  assert.ok(files.length > 70);
  for (const name of files) {
    let motion;
    const keep = { keep: (_, data) => { motion = data; } };
    new Function("rungbookMotion", readFileSync(join(site, name), "utf8"))(keep);
    const film = script.film(motion, 3);
    const page = readFileSync(join(site, name.replace("motion/", "movements/").replace(".js", ".html")), "utf8");
    const poses = page.match(/<svg class="fig(?: lies| beside)?" .*?<\/svg>/gs);
    // A motion that goes round ends on a pose of its own, which leads to the first and stands on no page.
    const closes = ["motion/arm-circle.js", "motion/walking-lunge.js"].includes(name) && motion.keys.length === poses.length + 1;
    assert.ok(closes || poses.length === motion.keys.length, `${name}: ${poses.length} of ${motion.keys.length}`);
    motion.keys.slice(0, poses.length).forEach((frame, at) => {
      const there = [...poses[at].matchAll(/ d="([^"]+)"/g)].map((match) => numbers(match[1]).join());
      // Skin and shirt: all but the floor (longer here) and halos (made of what they go round).
      const skin = script.picture(film, frame).filter(({ which }) => /^[nf][sthlf]$/.test(film.looks[which].class));
      assert.ok(skin.length > 8, name);
      for (const { which, d } of skin) {
        const own = numbers(d).join();
        assert.ok(there.includes(own), `${name}: path ${which} (${film.looks[which].class}) at frame ${frame}`);
      }
    });
  }
});

test("a hold has no button", async () => {
  const one = await opened("plank");
  assert.equal(await one.page.locator(".picture .fig").count(), 1);
  assert.equal(await one.button.count(), 0);
  await one.close();
});

test("two standing key poses stand side by side on a phone too", async () => {
  const one = await opened("squat", { viewport: { width: 360, height: 800 } });
  const boxes = await one.page.evaluate(() =>
    [...document.querySelectorAll(".poses .fig:not(.then)")].map((svg) => svg.getBoundingClientRect().toJSON()));
  assert.ok(boxes[0].right <= boxes[1].left);
  for (const box of boxes) assert.ok(box.left >= 0 && box.right <= 360 && box.height > 180, `${box.height}`);
  await one.close();
});

test("key poses of who lies stand side by side from 480 px on and one under the other below", async () => {
  for (const [width, beside] of [[320, false], [479, false], [480, true], [820, true]]) {
    const one = await opened("push-up", { viewport: { width, height: 844 } });
    const boxes = await one.page.evaluate(() =>
      [...document.querySelectorAll(".poses .fig:not(.then)")].map((svg) => svg.getBoundingClientRect().toJSON()));
    assert.equal(boxes[0].right <= boxes[1].left, beside, `${width} px`);
    assert.equal(boxes[0].bottom <= boxes[1].top, !beside, `${width} px`);
    for (const box of boxes) assert.ok(box.left >= 0 && box.right <= width && box.width > 180, `${width} px`);
    await one.close();
  }
});
