// The device: storage that is full, broken, of an older or a newer site, and two tabs. Never the copy of the
// site itself: offline.test.mjs. Every page here is in a window that forgets at the end, as a private one does.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { closeHall, kindsOf, openHall } from "./hall.mjs";

let site, browser, hall;

before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

const KEPT_LOCALLY = ["book", "book-aside-1", "book-asked", "kit", "limits", "clock", "clock-time", "signals", "floor-last", "start-at"];
const KEPT_IN_A_TAB = ["limits", "front", "chosen", "class-for", "face", "no-limits"];
/** What an older or newer site, another program or a broken disk may have left. */
const BROKEN = ["{broken", "", "null", "[]", "{}", "\"text\"", "7", "{\"run\":{}}", "{\"run\":{\"session\":\"gone\",\"now\":{},\"trail\":[],\"begun\":\"x\"}}",
  "{\"mode\":3,\"kit\":{},\"noise\":[]}", "{\"cautions\":3,\"traits\":[null],\"asks\":7}", "{\"situations\":7,\"traits\":{},\"lacks\":null,\"at\":\"x\"}",
  "{\"schema\":\"rungbook-book-99\",\"results\":{}}", "[[[[]]]]", "9".repeat(400), "\u0000\ufffe<script>"];

/** A page that collects what it complains of. */
async function opened(options = {}) {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  const complaints = [];
  page.on("pageerror", (error) => complaints.push(`${page.url()}: ${error.message}`));
  return { context, page, complaints };
}

test("whatever is kept is broken, older or newer: every kind of page opens whole and complains of nothing", async () => {
  const { context, page, complaints } = await opened({ serviceWorkers: "block" });
  await page.goto(hall.address);
  const names = kindsOf(site).filter((name) => name !== "404.html");
  for (const [nth, broken] of BROKEN.entries()) {
    // Every page meets each of them in turn, and each kind of page several.
    for (const name of names.filter((_, at) => at % 4 === nth % 4)) {
      await page.evaluate(({ locally, inATab, text }) => {
        for (const key of locally) localStorage.setItem(`rungbook-${key}`, text);
        for (const key of inATab) sessionStorage.setItem(`rungbook-${key}`, text);
      }, { locally: KEPT_LOCALLY, inATab: KEPT_IN_A_TAB, text: broken });
      await page.goto(hall.address + name);
      // Never longer than the styles hold it (settle.js).
      await page.waitForSelector("h1", { timeout: 5000 }).catch(() => assert.fail(`${name} with ${broken.slice(0, 30)}`));
      await page.evaluate(() => new Promise((done) => { setTimeout(done, 30); }));
    }
    // What was somebody's book is nowhere lost: it stands, or it was kept aside.
    const kept = await page.evaluate(() => Object.values({ ...localStorage }));
    assert.ok(kept.includes(broken), `${broken.slice(0, 30)} is gone`);
  }
  assert.deepEqual(complaints, []);
  await context.close();
});

const BOOK = {
  schema: "rungbook-book-1", stature_cm: 170, body_mass_kg: null, heights: { counter: 90 }, rungs: {}, results: [
    { id: "a1", day: "2026-10-07", ladder: "push-up", rung: 2, setting: null, counts: "reps", amount: 12, added_kg: 0, note: "" },
  ], done: [], notes: [],
};

async function addResult(page, amount) {
  await page.evaluate(() => (document.querySelector("[data-adding]").open = true));
  const form = '[data-form="result"]';
  await page.selectOption(`${form} [name="ladder"]`, "push-up");
  await page.selectOption(`${form} [name="rung"]`, "2");
  await page.fill(`${form} [name="amount"]`, String(amount));
  await page.fill(`${form} [name="day"]`, "2026-10-14");
  await page.click(`${form} button[type="submit"]`);
}

const amounts = (page) => page.evaluate(() => JSON.parse(localStorage.getItem("rungbook-book")).results.map((one) => one.amount));

test("a full storage is said with what to do, and nothing that was kept is lost", async () => {
  const { context, page, complaints } = await opened({ serviceWorkers: "block" });
  await page.goto(`${hall.address}book.html`);
  await page.evaluate((book) => {
    localStorage.setItem("rungbook-book", JSON.stringify(book));
    for (let size = 1 << 22; size > 0; size >>= 1) {
      for (;;) {
        try {
          localStorage.setItem(`other-${size}-${localStorage.length}`, "x".repeat(size));
        } catch {
          break;
        }
      }
    }
  }, BOOK);
  await page.reload();
  await addResult(page, 15);
  await page.waitForFunction(() => /no room for it.*Export/.test(document.querySelector("main").textContent));
  assert.deepEqual(await amounts(page), [12]);
  await page.goto(`${hall.address}kit-and-limits.html`);
  assert.ok(await page.isVisible("h1"));
  assert.deepEqual(complaints, []);
  await context.close();
});

test("two tabs write into one book: both results are there, and each tab shows them", async () => {
  const { context, page, complaints } = await opened({ serviceWorkers: "block" });
  await page.goto(`${hall.address}book.html`);
  await page.evaluate((book) => localStorage.setItem("rungbook-book", JSON.stringify(book)), BOOK);
  await page.reload();
  const other = await context.newPage();
  await other.goto(`${hall.address}book.html`);
  await addResult(page, 15);
  await page.waitForFunction(() => JSON.parse(localStorage.getItem("rungbook-book")).results.length === 2);
  await addResult(other, 17);
  await page.waitForFunction(() => JSON.parse(localStorage.getItem("rungbook-book")).results.length === 3);
  assert.deepEqual((await amounts(page)).sort(), [12, 15, 17]);
  for (const tab of [page, other]) await tab.waitForFunction(() => /17/.test(document.querySelector(".ladder-results table")?.textContent || ""));
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a book of a newer site is not read as one of this one: it is said, kept aside and comes out as it was", async () => {
  const { context, page } = await opened({ serviceWorkers: "block", acceptDownloads: true });
  await page.goto(`${hall.address}book.html`);
  const newer = JSON.stringify({ ...BOOK, schema: "rungbook-book-2", more: { of: "later" } });
  await page.evaluate((text) => localStorage.setItem("rungbook-book", text), newer);
  await page.reload();
  assert.match(await page.textContent("[data-trouble]"), /could not be read\. Nothing is lost/);
  await addResult(page, 15);
  await page.waitForFunction(() => localStorage.getItem("rungbook-book").includes("rungbook-book-1"));
  const aside = await page.evaluate(() => localStorage.getItem("rungbook-book-aside-1"));
  assert.equal(aside, newer, "to the letter");
  await context.close();
});

test("a window that forgets keeps nothing for the next one", async () => {
  const first = await opened({ serviceWorkers: "block" });
  await first.page.goto(`${hall.address}book.html`);
  await addResult(first.page, 15);
  await first.page.waitForFunction(() => localStorage.getItem("rungbook-book") !== null);
  await first.context.close();
  const second = await opened({ serviceWorkers: "block" });
  await second.page.goto(`${hall.address}book.html`);
  assert.equal(await second.page.evaluate(() => localStorage.length + sessionStorage.length), 0);
  await second.context.close();
});
