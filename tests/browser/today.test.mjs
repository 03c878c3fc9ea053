// The page of today: which session is on, picked on the device from days that the build wrote; its timetable
// and its doses, which are the week's and agree with the cycle; nothing that moves under the thumb.
import assert from "node:assert/strict";
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { build, closeHall, HOUSE, kindsOf, openHall, ownFolder, serve } from "./hall.mjs";

const days = createRequire(import.meta.url)(join(HOUSE, "themes/slate/scripts/days.js"));
let site, browser, hall;

before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** A cycle of so many weeks, on Tuesday, Thursday and Saturday from a day on. */
function cycle(id, from, weeks, session = "push-and-pull") {
  const first = Date.parse(`${from}T00:00:00Z`);
  const found = [];
  for (let week = 0; week < weeks; week += 1) {
    for (const [place, after_first] of [0, 2, 4].entries()) {
      const day = new Date(first + (week * 7 + after_first) * 86_400_000).toISOString().slice(0, 10);
      found.push({ day, words: days.words(day), week: week + 1, place, kind: week === 0 ? "test" : "build", session });
    }
  }
  return { id, name: id, days: found };
}

test("reckoned: a session, a rest day, before, after, and no cycle at all", () => {
  const one = cycle("six", "2027-01-05", 6);
  const on = (day, all = [one]) => days.on(all, day);
  assert.deepEqual([on("2027-01-05").kind, on("2027-01-05").found[0].on.week], ["session", 1]);
  assert.deepEqual([on("2027-01-06").kind, on("2027-01-06").next.on.day], ["rest", "2027-01-07"]);
  // From Saturday over Sunday and Monday to the next week; the last day of the cycle is still in it.
  assert.deepEqual([on("2027-01-10").kind, on("2027-01-10").next.on.week], ["rest", 2]);
  assert.deepEqual([on("2027-02-13").kind, on("2027-02-13").found[0].on.week], ["session", 6]);
  assert.equal(on("2027-02-14").kind, "after");
  assert.equal(on("2027-01-04").kind, "before");
  assert.equal(on("2027-01-04", []).kind, "none");
  // Over a change of summer time and a leap day a day stays a day.
  assert.match(days.said(on("2027-01-04"), "2027-01-04").note, /starts on Tuesday 5 January, tomorrow/);
  assert.match(days.said(days.on([cycle("late", "2028-03-07", 2)], "2028-02-28"), "2028-02-28").note, /in 8 days/);
  // Between two cycles: the one that is over and the one that comes.
  const both = days.said(on("2027-02-20", [one, cycle("next", "2027-03-02", 6)]), "2027-02-20");
  assert.match(both.note, /six ended on Saturday 13 February\. next starts on Tuesday 2 March, in 10 days/);
  // Two at once.
  const two = on("2027-01-19", [one, cycle("other", "2027-01-12", 6)]);
  assert.deepEqual(two.found.map(({ cycle: { id }, on: { week } }) => [id, week]), [["six", 3], ["other", 2]]);
  assert.match(days.said(two, "2027-01-19").note, /2 cycles have a session today: take one/);
});

test("reckoned: weeks without a note are weeks missed only for somebody who notes", () => {
  const six = cycle("six", "2027-01-05", 6);
  const found = days.on([six], "2027-02-04").found[0];
  const noted = (day) => ({ day, session: "push-and-pull" });
  assert.equal(days.missed(found, []), null);
  assert.equal(days.missed(found, [noted("2027-01-26")]), null, "last week is not missed");
  assert.equal(days.missed(found, [noted("2026-12-01"), { day: "2027-01-14", session: "else" }]), null);
  const gap = days.missed(found, [noted("2027-01-05"), noted("2027-01-14")]);
  assert.deepEqual([gap.since, gap.missed, gap.again.week, gap.again.place], [2, 2, 3, 1]);
  assert.match(days.missedWords(gap, found.on), /2 weeks went by.*Go on with week 3, not week 5/);
  assert.doesNotMatch(days.missedWords(gap, found.on), /test again/);
  assert.match(days.missedWords(days.missed(found, [noted("2027-01-07")]), found.on), /take the test again first/);
});

/** A device on a day; wide enough for a thumb. */
async function device(day, go, { viewport = { width: 390, height: 844 }, prepare = () => {}, address = hall.address } = {}) {
  const context = await browser.newContext({ serviceWorkers: "block", viewport });
  const page = await context.newPage();
  const troubles = [];
  page.on("pageerror", (error) => troubles.push(error.message));
  await page.clock.install({ time: new Date(day) });
  if (prepare) await context.addInitScript(prepare);
  try {
    await page.goto(`${address}today.html`);
    await page.waitForSelector(".today.ready");
    await go(page);
    assert.deepEqual(troubles, []);
  } finally {
    await context.close();
  }
}

const head = async (page) => [await page.textContent("[data-when]"), await page.textContent("[data-what]"), await page.textContent("[data-note]")];
const times = (page) => page.$$eval(".hour.picked .at", (all) => all.map((one) => one.textContent));

test("the page says the day, and its times count from one Start", async () => {
  await device("2027-01-19T18:30:00", async (page) => {
    assert.deepEqual((await head(page)).slice(0, 2), ["Tuesday 19 January, week 3 of 6, build", "Push and pull"]);
    assert.equal(await page.locator(".hour.picked").count(), 1);
    // It starts at once, and says so, whatever the timetable counts from.
    assert.match(await page.textContent(".go"), /^Start now for the class/);
    await page.waitForFunction(() => document.querySelector("[data-span]")?.textContent === "ends 19:28");
    assert.deepEqual((await times(page)).slice(0, 3), ["18:30", "18:41", "19:00"]);
    // Set once, kept on this device; the other times follow.
    await page.fill(".start-more input[type=time]", "19:00");
    await page.dispatchEvent(".start-more input[type=time]", "change");
    assert.deepEqual((await times(page)).slice(0, 2), ["19:00", "19:11"]);
    await page.reload();
    await page.waitForFunction(() => document.querySelector(".hour.picked .at")?.textContent === "19:00");
    assert.match(await page.textContent(".go"), /^Start now.*ends 19:28$/);
    // Another one, for today and in this tab.
    await page.click(".others > summary");
    await page.click("[data-choose='steady-on-your-feet']");
    assert.equal(await page.textContent("[data-what]"), "Steady on your feet");
    assert.equal(await page.textContent("[data-when]"), "Tuesday 19 January: another session, as it is written");
    await page.click("[data-choose='push-and-pull']");
    assert.equal(await page.textContent("[data-when]"), "Tuesday 19 January, week 3 of 6, build", "back to today's own week");
    await page.click("[data-choose='steady-on-your-feet']");
    await page.reload();
    await page.waitForSelector(".today.ready");
    assert.equal(await page.textContent("[data-what]"), "Steady on your feet");
  });
});

test("a rest day, before and after the cycle are said, and a session can be picked all the same", async () => {
  for (const [day, says] of [["2027-01-20", /rest day.*Next on Thursday 21 January, tomorrow/], ["2026-12-20", /no cycle runs.*starts on Tuesday 5 January, in 16 days/], ["2027-03-20", /the cycle is over.*ended on Saturday 13 February/]]) {
    await device(`${day}T09:00:00`, async (page) => {
      assert.match((await head(page)).join(" | "), says);
      // Before a cycle nobody is sent into its test.
      if (day < "2027") assert.equal(await page.textContent("[data-what]"), "Push and pull");
      assert.ok(await page.isVisible(".go"));
      assert.equal(await page.locator(".hour.picked").count(), 1);
    });
  }
});

test("weeks missed: the week that was left off is one touch away, with its own doses", async () => {
  const prepare = () => localStorage.setItem("rungbook-book", JSON.stringify({
    schema: "rungbook-book-1", stature_cm: null, body_mass_kg: null, heights: {}, rungs: { "push-up": 4 }, results: [], notes: [],
    done: [{ id: "a", day: "2027-01-12", session: "push-and-pull", block: "Whole session", rounds: null, reps: null, note: "" }],
  }));
  await device("2027-02-02T18:30:00", async (page) => {
    assert.match(await page.textContent("[data-note]"), /Go on with week 3, not week 5/);
    await page.evaluate(() => document.dispatchEvent(new CustomEvent("rungbook-no-limits")));
    const push = page.locator(".hour.picked [data-block='1'] [data-line='1'] .dose");
    await push.waitFor({ state: "attached" });
    assert.equal(await push.textContent(), "2 x 6");
    await page.click("[data-note] button:text-is('Week 3: Push and pull')");
    await page.waitForFunction(() => document.querySelector(".hour.picked [data-block='1'] [data-line='1'] .dose")?.textContent === "4 x 10");
  }, { prepare });
});

test("two cycles at once: both are offered, and either is taken with one touch", async () => {
  const library = join(ownFolder(), "content");
  cpSync(join(HOUSE, "content"), library, { recursive: true });
  const written = readFileSync(join(library, "cycles/six-weeks-push-and-pull.yaml"), "utf8");
  const other = written.replace("Six weeks, push and pull", "The other one").replaceAll("push-and-pull, legs-and-trunk, push-and-pull", "legs-and-trunk, push-and-pull, legs-and-trunk");
  assert.notEqual(other, written);
  writeFileSync(join(library, "cycles/the-other-one.yaml"), other);
  const built = join(ownFolder(), "site");
  build(library, built);
  const second = await serve(built);
  await device("2027-01-19T18:30:00", async (page) => {
    assert.match(await page.textContent("[data-note]"), /2 cycles have a session today/);
    await page.click("[data-note] button:has-text('The other one')");
    assert.equal(await page.textContent("[data-what]"), "Legs and trunk");
    await page.click("[data-note] button:has-text('Six weeks')");
    assert.equal(await page.textContent("[data-what]"), "Push and pull");
  }, { address: second.address });
  await second.stop();
});

test("one dose for the day: the timetable, the session's page, the cycle and the clock say the same digits", async () => {
  const prepare = () => {
    localStorage.setItem("rungbook-book", JSON.stringify({ schema: "rungbook-book-1", stature_cm: null, body_mass_kg: null, heights: {}, rungs: { "push-up": 5, row: 4 }, results: [], done: [], notes: [] }));
    sessionStorage.setItem("rungbook-limits", JSON.stringify({ cautions: [], traits: [], asks: {} }));
  };
  for (const [day, week] of [["2027-01-12", 2], ["2027-01-19", 3], ["2027-02-02", 5]]) {
    await device(`${day}T18:30:00`, async (page) => {
      const dose = page.locator(".hour.picked [data-block='1'] [data-line='1'] .dose");
      await dose.waitFor({ state: "attached" });
      const today = await dose.textContent();
      const [sets, reps] = today.split(" x ");
      await page.click(".go");
      await page.waitForSelector("dialog[open] .clock-digits:not(:empty)");
      while (!/Row and push-up/.test(await page.textContent(".clock-name"))) {
        await page.click("dialog summary");
        await page.click("dialog button:text-is('Skip block')");
        await page.click("dialog summary");
        await page.clock.runFor(300);
      }
      while (!/push-up/i.test(await page.textContent(".clock-now")) || !(await page.locator("dialog.at-work").count())) {
        await page.click("dialog button:text-is('Next')");
        await page.clock.runFor(300);
      }
      assert.equal(await page.textContent(".clock-dose"), `${reps} reps`);
      assert.equal(await page.textContent(".clock-count"), `Set 1 of ${sets}`);
      await page.click("dialog button:text-is('Hide')");
      await page.click(".hour.picked [data-whole]");
      await page.waitForSelector("[data-block='1'] [data-item='1'] .own .dose");
      assert.equal(await page.textContent("[data-block='1'] [data-item='1'] .own .dose"), today);
      await page.goto(`${hall.address}cycles/six-weeks-push-and-pull.html`);
      const row = page.locator(`[data-plan="push-up"] details[data-start="5"] tbody tr`).nth(week - 1);
      assert.match(await row.locator(".dose").textContent(), new RegExp(`^${sets} sets of ${reps}$`));
    }, { prepare });
  }
});

/** What moved since the page was opened, as the browser counts it. */
const watchShift = () => {
  window.moved = [];
  new PerformanceObserver((list) => {
    for (const one of list.getEntries()) window.moved.push([one.value, (one.sources || []).map((source) => source.node?.nodeName + "." + source.node?.className).join(", ")]);
  }).observe({ type: "layout-shift", buffered: true });
};

for (const [who, prepare, most] of [
  ["a first visitor", null, 0.001],
  ["somebody with limits, kit and a book", () => {
    localStorage.setItem("rungbook-kit", JSON.stringify({ mode: "picked", kit: ["chair", "towel"], noise: "loud" }));
    localStorage.setItem("rungbook-limits", JSON.stringify({ cautions: ["sore-wrist"], traits: [], asks: {} }));
    localStorage.setItem("rungbook-book", JSON.stringify({ schema: "rungbook-book-1", stature_cm: null, body_mass_kg: null, heights: {}, rungs: { "push-up": 4 }, results: [], done: [], notes: [] }));
  }, 0.02],
]) {
  test(`today does not move under the thumb of ${who}`, async () => {
    for (const viewport of [{ width: 390, height: 844 }, { width: 1280, height: 900 }]) {
      const context = await browser.newContext({ serviceWorkers: "block", viewport });
      await context.addInitScript(watchShift);
      if (prepare) await context.addInitScript(prepare);
      const page = await context.newPage();
      await page.goto(`${hall.address}today.html`);
      await page.waitForSelector(".today.ready");
      await page.waitForTimeout(1500);
      const moved = await page.evaluate(() => window.moved);
      const sum = moved.reduce((all, [value]) => all + value, 0);
      assert.ok(sum <= most, `${viewport.width}: ${sum} ${JSON.stringify(moved)}`);
      await context.close();
    }
  });
}

test("the head takes less than 120 px of a phone on every kind of page, and the menu is one touch", async () => {
  const context = await browser.newContext({ serviceWorkers: "block", viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  for (const name of kindsOf(site).filter((one) => one !== "404.html")) {
    await page.goto(hall.address + name);
    const box = await page.locator("header.top").boundingBox();
    assert.ok(box.height < 120, `${name}: ${box.height}`);
  }
  await page.click(".menu > summary");
  await page.click(".menu a:text-is('Today')");
  assert.match(page.url(), /today\.html$/);
  await context.close();
});

test("without scripts every hour and every day stands there, and what would be is said", async () => {
  const context = await browser.newContext({ javaScriptEnabled: false, viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  await page.goto(`${hall.address}today.html`);
  const text = await page.innerText("main");
  assert.match(text, /With scripts this page opens on what is on today/);
  assert.equal(await page.locator(".hour:visible").count(), 5);
  await page.click(".cycle-days > summary");
  assert.match(await page.innerText(".all-days"), /Tuesday 19 January: Push and pull/);
  await context.close();
});

test("an app that is put on a phone opens here", () => {
  assert.equal(JSON.parse(readFileSync(join(site, "site.webmanifest"), "utf8")).start_url, "./today.html");
});
