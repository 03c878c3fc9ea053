// The clock: exact to 100 ms over 20 minutes, over a reload, a pause, a frozen tab and a wall clock
// that is set. Says of each test what is real time and what is not:
// - "reckoned": the functions alone, in Node, with clocks of our own making;
// - "browser, made time": the page in Chromium with Playwright's clock in place of the device's;
// - "browser, real time": the page in Chromium and the device's own clocks, for some seconds.
import assert from "node:assert/strict";
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { dice } from "./dice.mjs";
import { build, HOUSE, openBrowser, ownFolder, serve } from "./hall.mjs";
import { endByHold } from "./clocks.mjs";

const clock = createRequire(import.meta.url)(join(HOUSE, "themes/slate/scripts/clock.js"));
const PAGE = "sessions/every-format.html";
/** Every format once; the numbers are the trade's worked ones (common practice, no source). */
const SESSION = `
name: Every format
length: 120 min
blocks:
  - {name: Long, format: most-rounds, window: 20 min, items: [{movement: bridge, dose: {reps: 8}}, {movement: bird-dog, dose: {reps: 6}}]}
  - {name: Windows, format: intervals, rounds: 4, work: 90 s, rest: 0 s, items: [{movement: squat, dose: {reps: 8}}, {movement: push-up, dose: {reps: 8}}, {movement: bridge, dose: {reps: 8}}]}
  - {name: Minutes, format: every-minute, window: 8 min, items: [{movement: squat, dose: {reps: 8}}, {movement: push-up, dose: {reps: 8}}]}
  - {name: Rounds, format: rounds, rounds: 3, items: [{movement: squat, dose: {reps: 8}}, {movement: push-up, dose: {reps: 8}}]}
  - {name: Sets, format: timed-sets, window: 6 min, items: [{movement: squat, dose: 3 x 8, rest: 60 s}]}
  - {name: Down, format: descending, from: 4, to: 2, cap: 5 min, items: [{movement: one-arm-row}, {movement: squat}]}
  - {name: Race, format: for-time, rounds: 3, cap: 6 min, items: [{movement: squat, dose: {reps: 8}}, {movement: push-up, dose: {reps: 8}}]}
  - {name: Holds, format: holds, rounds: 2, items: [{movement: plank, dose: {seconds: 20 s}}, {movement: hollow-hold, dose: {seconds: 10 s}}]}
sources: [common-practice]
`;
const WINDOWS = { Long: 1200, Windows: 1080, Minutes: 480, Sets: 360, Down: 300, Race: 360 };
let site, hall, browser, blocks;

before(async () => {
  const library = join(ownFolder(), "content");
  cpSync(join(HOUSE, "content"), library, { recursive: true });
  writeFileSync(join(library, "sessions/every-format.yaml"), SESSION);
  site = join(ownFolder(), "site");
  build(library, site);
  new Function("rungbookSession", readFileSync(join(site, "cards/sessions/every-format.js"), "utf8"))((session) => {
    blocks = session.blocks;
  });
  hall = await serve(site);
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await hall?.stop();
});

const plan = (name) => blocks.find((block) => block.name === name).clock;
const sum = (numbers) => numbers.reduce((all, one) => all + one, 0);

test("reckoned: the slots of every format add up to its window, and the trade's numbers come out", () => {
  assert.equal(new Set(blocks.map((block) => block.format)).size, 8);
  for (const { name, clock: { by, total_s, slots, turns } } of blocks) {
    if (by === "slots") assert.equal(sum(slots.map(([seconds]) => seconds)), total_s, name);
    else assert.ok(slots.length === 0 && turns.length > 0, name);
    if (WINDOWS[name]) assert.equal(total_s, WINDOWS[name], name);
  }
  // Three windows of 90 s are 4:30; four such sets 18:00.
  assert.equal(sum(plan("Windows").slots.slice(0, 3).map(([seconds]) => seconds)), 270);
  // A count goes down by one, a side at a time where the movement has sides.
  assert.deepEqual(plan("Down").turns.map(([what]) => what.replace(/^.*, /, "")), ["4+4", "4", "3+3", "3", "2+2", "2"]);
  assert.equal(plan("Sets").turns.length, 3);
});

test("reckoned: 20 minutes of ragged ticks, sleeps and set clocks end within 100 ms", () => {
  for (let seed = 1; seed <= 200; seed += 1) {
    const roll = dice(seed);
    let real = 0;
    let [wall, mono] = [1_700_000_000_000, 5_000];
    let reading = clock.readAgain(null, wall, mono);
    const run = clock.begin("x", 0, reading.own);
    const start = reading.own;
    while (real < 1_200_000) {
      const passed = 1 + roll(roll(4) === 0 ? 60_000 : 1_000);
      real += passed;
      [wall, mono] = [wall + passed, mono + passed];
      let hidden = false;
      if (roll(10) === 0) {
        // The device sleeps: its wall clock goes on, the page's stands still; the page was hidden.
        const slept = 1_000 + roll(90_000);
        [real, wall, hidden] = [real + slept, wall + slept, true];
      } else if (roll(10) === 0) {
        // Somebody or the network sets the wall clock while the page is seen.
        wall += roll(7_200_000) - 3_600_000;
      }
      reading = clock.read(reading, wall, mono, hidden);
      if (roll(10) === 0) {
        // A reload: the page's clock starts anew.
        const gone = 200 + roll(20_000);
        [real, wall, mono] = [real + gone, wall + gone, roll(500)];
        reading = clock.readAgain({ own: reading.own, wall: reading.wall }, wall, mono);
      }
      assert.ok(Math.abs(reading.own - start - real) <= 100, `seed ${seed}: ${reading.own - start - real} ms off`);
      assert.ok(Math.abs(clock.elapsed(run, reading.own) + clock.COUNT_IN_MS - real) <= 100);
    }
  }
});

test("reckoned: a wall clock set back while the page is gone never runs own time back", () => {
  const reading = clock.readAgain({ own: 50_000, wall: 40_000 }, 10_000, 3);
  assert.equal(reading.own, 50_000);
});

test("reckoned: pause, next and end", () => {
  const minutes = plan("Minutes");
  let run = clock.begin("x", 0, 0);
  assert.equal(clock.view(minutes, run, 0).digits, "5");
  assert.equal(clock.view(minutes, run, 5_000).digits, "1:00");
  run = clock.pause(run, 15_000);
  assert.equal(clock.view(minutes, run, 900_000).digits, "0:50");
  run = clock.goOn(run, 900_000);
  assert.equal(clock.view(minutes, run, 910_000).digits, "0:40");
  run = clock.next(minutes, run, 910_000);
  const seen = clock.view(minutes, run, 910_000);
  assert.deepEqual([seen.digits, seen.part, seen.ms], ["1:00", 1, 60_000]);
  assert.equal(clock.view(minutes, clock.end(run, 910_000), 9e9).phase, "over");
  // As many rounds as possible: two lines are a round.
  let rounds = clock.begin("x", 0, 0);
  for (const at of [20_000, 40_000, 60_000, 80_000, 100_000]) rounds = clock.next(plan("Long"), rounds, at);
  assert.equal(clock.view(plan("Long"), rounds, 101_000).rounds, 2);
  // For time: the last turn stops the clock.
  let race = clock.begin("x", 0, 0);
  for (let turn = 0; turn < 6; turn += 1) race = clock.next(plan("Race"), race, 10_000 + turn * 20_000);
  assert.deepEqual([clock.view(plan("Race"), race, 9e9).digits, clock.view(plan("Race"), race, 9e9).rounds], ["1:45", 3]);
  // A set's rest counts down from the moment it was done.
  let sets = clock.next(plan("Sets"), clock.begin("x", 0, 0), 5_000 + 24_000);
  assert.equal(clock.view(plan("Sets"), sets, 5_000 + 34_000).rest_s, 50);
  assert.equal(clock.signal(plan("Sets"), sets, 83_900, 84_100), "change");
  sets = clock.next(plan("Sets"), sets, 100_000);
  assert.equal(clock.view(plan("Sets"), sets, 100_000).now, "Squat");
});

test("reckoned: a second pause forgets nothing of the first, and pausing twice is pausing once", () => {
  const plan_s = plan("Long");
  let run = clock.begin("x", 0, 0);
  run = clock.goOn(clock.pause(run, 65_000), 100_000);
  run = clock.goOn(clock.pause(run, 110_000), 130_000);
  run = clock.goOn(clock.pause(clock.pause(run, 140_000), 150_000), 160_000);
  // 175 s have passed since the start; 35, 20 and 20 of them were paused, 5 were the count-in.
  assert.equal(clock.elapsed(run, 175_000), 95_000);
  assert.equal(clock.view(plan_s, run, 175_000).digits, "18:25");
});

/** Opens the session, starts a block's clock for the class, and watches digits and announcements. */
async function started(page, name) {
  await page.goto(hall.address + PAGE);
  await page.click(`[data-block="${blocks.findIndex((block) => block.name === name)}"] .clock-start`);
  await page.click("[data-clock-asks] button:text-is(\"Run the class's clock\")");
  await page.waitForSelector("dialog[open] .clock-digits");
  await watch(page);
}

const watch = (page) => page.evaluate(() => {
  window.changes = [];
  window.told = [];
  const digits = document.querySelector(".clock-digits");
  const aloud = document.querySelector("dialog [aria-live]");
  new MutationObserver(() => window.changes.push([digits.textContent, Date.now(), performance.now()]))
    .observe(digits, { childList: true, characterData: true, subtree: true });
  new MutationObserver(() => window.told.push(aloud.textContent)).observe(aloud, { childList: true, characterData: true, subtree: true });
});

const kept = (page) => page.evaluate(() => JSON.parse(localStorage.getItem("rungbook-clock")));
const seconds = (digits) => digits.split(":").map(Number).reduce((all, one) => all * 60 + one, 0);

async function device(run) {
  const context = await browser.newContext({ serviceWorkers: "block" });
  const page = await context.newPage();
  try {
    await run(page, context);
  } finally {
    await context.close();
  }
}

test("browser, made time: 20 minutes, every second shown within 100 ms, few words aloud", (t) => device(async (page) => {
  await page.clock.install({ time: new Date("2026-11-25T10:00:00Z") });
  await started(page, "Long");
  const { run } = await kept(page);
  await page.clock.runFor(1_210_000);
  const { changes, told } = await page.evaluate(() => ({ changes: window.changes, told: window.told }));
  const counted = changes.filter(([digits]) => digits.includes(":"));
  let worst = 0;
  for (const [digits, wall] of counted) {
    const due = run.now.started + (1200 - seconds(digits)) * 1000;
    worst = Math.max(worst, Math.abs(wall - due));
  }
  assert.ok(counted.length >= 1199, `${counted.length} seconds shown`);
  assert.equal(counted.at(-1)[0], "0:00");
  t.diagnostic(`${counted.length} seconds shown, the worst ${worst} ms from its time; ${told.length} announcements`);
  assert.ok(worst <= 100, `${worst} ms off`);
  assert.ok(told.length >= 4 && told.length <= 8, told.join(" | "));
}));

test("browser, made time: a wall clock set by an hour moves nothing while the page is seen", () => device(async (page) => {
  await page.clock.install({ time: new Date("2026-11-25T10:00:00Z") });
  await started(page, "Long");
  await page.clock.runFor(65_000);
  assert.equal(await page.textContent(".clock-digits"), "19:00");
  await page.clock.setSystemTime(new Date("2026-11-25T11:01:05Z"));
  await page.clock.runFor(10_000);
  assert.equal(await page.textContent(".clock-digits"), "18:50");
  await page.clock.setSystemTime(new Date("2026-11-25T09:00:00Z"));
  await page.clock.runFor(10_000);
  assert.equal(await page.textContent(".clock-digits"), "18:40");
  // And not over a reload after it.
  await page.reload();
  await page.waitForSelector("dialog[open] .clock-digits");
  assert.ok(["18:40", "18:39"].includes(await page.textContent(".clock-digits")), await page.textContent(".clock-digits"));
}));

test("browser, made time: timers that stood still for 200 seconds cost nothing", () => device(async (page) => {
  await page.clock.install({ time: new Date("2026-11-25T10:00:00Z") });
  await started(page, "Minutes");
  await page.clock.runFor(5_000);
  await page.clock.fastForward(200_000);
  await page.clock.runFor(1_000);
  assert.equal(await page.textContent(".clock-digits"), "0:39");
  const told = await page.evaluate(() => window.told);
  assert.ok(told.length < 5, told.join(" | "));
}));

test("browser, real time: a frozen tab, another tab in front, then each second within 100 ms", (t) => device(async (page, context) => {
  await started(page, "Long");
  await page.click("dialog button:text-is('Next')");
  const { run } = await kept(page);
  const begin = run.now.started - run.now.skipped_ms;
  const session = await context.newCDPSession(page);
  await page.waitForTimeout(1_500);
  await session.send("Page.setWebLifecycleState", { state: "frozen" });
  await new Promise((done) => setTimeout(done, 3_000));
  await session.send("Page.setWebLifecycleState", { state: "active" });
  const other = await context.newPage();
  await other.goto(hall.address + "index.html");
  await other.bringToFront();
  await other.waitForTimeout(2_500);
  await page.bringToFront();
  await page.waitForTimeout(3_000);
  const changes = await page.evaluate(() => window.changes);
  const last = changes.slice(-2);
  for (const [digits, wall] of last) {
    const due = begin + (1200 - seconds(digits)) * 1000;
    t.diagnostic(`${digits} shown ${wall - due} ms from its time`);
    assert.ok(Math.abs(wall - due) <= 100, `${digits} shown ${wall - due} ms from its time`);
  }
  const left = await page.evaluate(() => [document.querySelector(".clock-digits").textContent, Date.now()]);
  assert.equal(seconds(left[0]), Math.ceil(1200 - (left[1] - begin) / 1000));
}));

test("browser, real time: a reload in the middle, and a pause that lasts over one", () => device(async (page) => {
  await started(page, "Long");
  await page.click("dialog button:text-is('Next')");
  const { run } = await kept(page);
  const begin = run.now.started - run.now.skipped_ms;
  await page.waitForTimeout(1_200);
  await page.reload();
  await page.waitForSelector("dialog[open] .clock-digits");
  const [digits, wall] = await page.evaluate(() => [document.querySelector(".clock-digits").textContent, Date.now()]);
  const should = Math.ceil(1200 - (wall - begin) / 1000);
  assert.ok(Math.abs(seconds(digits) - should) <= 1, `${digits} where ${should} s are left`);
  await watch(page);
  await page.waitForTimeout(1_500);
  for (const [shown, at] of await page.evaluate(() => window.changes)) {
    const due = begin + (1200 - seconds(shown)) * 1000;
    assert.ok(Math.abs(at - due) <= 100, `${shown} shown ${at - due} ms from its time`);
  }
  await page.click("dialog button:text-is('Pause')");
  const paused = await page.textContent(".clock-digits");
  await page.waitForTimeout(1_200);
  await page.reload();
  await page.waitForSelector("dialog[open] .clock-digits");
  assert.equal(await page.textContent(".clock-digits"), paused);
  assert.match(await page.textContent(".clock-now"), /Paused/);
}));

test("browser, real time: the digits fill the screen, and what was done goes into the book", () => device(async (page) => {
  await page.setViewportSize({ width: 390, height: 844 });
  await started(page, "Long");
  await page.click("dialog button:text-is('Next')");
  const wide = await page.evaluate(() => {
    const range = document.createRange();
    range.selectNodeContents(document.querySelector(".clock-digits"));
    return range.getBoundingClientRect().width / innerWidth;
  });
  assert.ok(wide > 0.8 && wide <= 1, `${wide} of the width`);
  for (const one of await page.$$("dialog button:visible")) assert.ok((await one.boundingBox()).height >= 44);
  for (let turn = 0; turn < 4; turn += 1) await page.click("dialog button:text-is('Next')");
  await endByHold(page);
  assert.equal(await page.inputValue("dialog input[name=rounds]"), "2");
  await page.fill("dialog input[name=reps]", "5");
  await page.click("dialog button:text-is('Keep it')");
  const done = await page.evaluate(() => JSON.parse(localStorage.getItem("rungbook-book")).done);
  assert.deepEqual(done.map(({ session, block, rounds, reps }) => ({ session, block, rounds, reps })), [
    { session: "every-format", block: "Long", rounds: 2, reps: 5 },
  ]);
  assert.equal(await kept(page), null);
}));
