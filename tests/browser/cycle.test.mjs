// The page of a cycle in the browser: every plan without scripts, one with them, from the rung that
// the member's book holds. Never writes into the book: picking a rung here only shows it.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { join } from "node:path";
import { closeHall, openHall } from "./hall.mjs";
import { allOf } from "./own-room.mjs";

const PAGE = "cycles/six-weeks-push-and-pull.html";
const PUSH_UP = '[data-plan="push-up"]';
let site, browser, hall;

before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** The rungs whose plans are shown, and the number in each shown row of the first of them. */
const shown = (page, plan) => page.locator(`${plan} details[data-start]`).evaluateAll((all) => {
  const seen = all.filter((one) => one.checkVisibility());
  const open = seen.filter((one) => one.open);
  return {
    plans: seen.map((one) => one.dataset.start),
    open: open.map((one) => one.dataset.start),
    rungs: [...open[0].querySelectorAll(".rung-number")].map((one) => Number(one.textContent)),
  };
});

test("without scripts every plan is on the page, the test's rung open", async () => {
  const context = await browser.newContext({ javaScriptEnabled: false });
  const page = await context.newPage();
  await page.goto(hall.address + PAGE);
  const html = await page.content();
  const rungs = allOf(join(site, "cards/ladders"), /^(push-up|row)\.js$/, "rungbookLadder");
  assert.equal((html.match(/data-start="/g) || []).length, rungs["push-up"].rungs.length + rungs.row.rungs.length);
  assert.equal((html.match(/<details data-start="\d+"[^>]* open/g) || []).length, 2);
  assert.match(html, /<details data-start="4"[^>]* open/);
  assert.equal(await page.locator("select").count(), 0);
  await context.close();
});

test("with scripts one plan is shown, and the keyboard picks another", async () => {
  const page = await browser.newPage();
  await page.goto(hall.address + PAGE);
  assert.deepEqual(await shown(page, PUSH_UP), { plans: ["4"], open: ["4"], rungs: [4, 4, 4, 5, 5, 4] });
  await page.getByLabel("You start on rung").first().focus();
  await page.keyboard.press("ArrowUp");
  assert.deepEqual(await shown(page, PUSH_UP), { plans: ["3"], open: ["3"], rungs: [3, 3, 3, 4, 4, 3] });
  assert.deepEqual((await shown(page, '[data-plan="row"]')).plans, ["4"], "the other ladder stays");
  assert.equal(await page.evaluate(() => localStorage.getItem("rungbook-book")), null, "picking keeps nothing");
  await page.close();
});

test("the member's own rung is picked, and follows the book until they pick one", async () => {
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(hall.address + PAGE);
  const pick = (/** @type {number} */ rung, /** @type {{movement: string, settings: object}} */ then) =>
    page.evaluate(([rung, then]) => rungbookBook.change((book) => {
      book.rungs["push-up"] = rung;
      book.rungs_then = { "push-up": then };
    }), [rung, then]);
  await page.evaluate(() => rungbookBook.change((book) => { book.rungs.row = 6; }));
  await pick(8, { movement: "push-up", settings: {} });
  await page.reload();
  assert.deepEqual(await shown(page, PUSH_UP), { plans: ["8"], open: ["8"], rungs: [8, 8, 8, 9, 9, 8] });
  assert.match(await page.locator(`${PUSH_UP} [role=status]`).textContent(), /your book on this device/);
  assert.deepEqual((await shown(page, '[data-plan="row"]')).plans, ["1"], "a number of which nobody knows what it was");
  await pick(2, { movement: "incline-push-up", settings: { hands: 90 } });
  assert.deepEqual((await shown(page, PUSH_UP)).plans, ["2"]);
  await page.locator(`${PUSH_UP} select`).selectOption("6");
  await pick(1, { movement: "wall-push-up", settings: { lean: 10 } });
  assert.deepEqual((await shown(page, PUSH_UP)).plans, ["6"], "what was picked stays");
  assert.equal(await page.locator(`${PUSH_UP} [role=status]`).textContent(), "");
  await context.close();
});

test("with limits each rung says how it is done for whom the page is for, after limits are answered", async () => {
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(hall.address + PAGE);
  assert.equal(await page.locator(".cycle .own, .own-question").count(), 0, "nobody is here");
  await page.evaluate(() => localStorage.setItem("rungbook-kit", JSON.stringify({ mode: "picked", kit: ["chair"], noise: "loud" })));
  await page.reload();
  await page.waitForSelector(".own-question");
  assert.equal(await page.locator(".cycle .own").count(), 0, "nothing before limits are answered");
  await page.click(".own-question button:text-is('None')");
  await page.waitForSelector('[data-plan="row"] .own', { state: "attached" });
  assert.equal(await page.locator(".own-question").count(), 0);
  const rows = await page.locator('[data-plan="row"] .on-rung').count();
  assert.equal(await page.locator('[data-plan="row"] .on-rung > .own').count(), rows, "no row without straps or a bar");
  await page.evaluate(() => {
    rungbookPerson.setFront({ situations: ["sore-wrist"], traits: [], lacks: [] });
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  await page.waitForFunction(() => /fists/.test(document.querySelector('[data-plan="push-up"] .own')?.textContent || ""));
  assert.equal(await page.locator('[data-plan="row"] .own').count(), 0, "the hall has what the row needs");
  await context.close();
});

test("a rung picked by hand goes by what it was, not by its number; the person in front has none", async () => {
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(hall.address + PAGE);
  await page.evaluate(() => rungbookBook.change((book) => {
    book.rungs["push-up"] = 8;
    book.rungs_then = { "push-up": { movement: "incline-push-up", settings: { hands: 90 } } };
  }));
  await page.reload();
  await page.waitForFunction(() => document.querySelector('[data-plan="push-up"] select').value === "2");
  await page.evaluate(() => {
    rungbookPerson.setFront({ situations: ["sore-wrist"], traits: [], lacks: [] });
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  await page.waitForFunction(() => document.querySelector('[data-plan="push-up"] select').value === document.querySelector('[data-plan="push-up"]').dataset.usual);
  await context.close();
});

test("the calendar is one file, served as a calendar", async () => {
  const page = await browser.newPage();
  await page.goto(hall.address + PAGE);
  const file = await page.getByRole("link", { name: "take the file" }).evaluate((link) => link.href);
  const answer = await page.request.get(file);
  assert.match(answer.headers()["content-type"], /^text\/calendar/);
  const text = await answer.text();
  assert.match(text, /^BEGIN:VCALENDAR\r\n/);
  // Unfolded (RFC 5545, 3.1): every event says for whom it is.
  const events = text.replace(/\r\n /g, "").split("BEGIN:VEVENT").slice(1);
  assert.ok(events.length > 5 && events.every((event) => event.includes("For nobody in particular")));
  await page.close();
});

/** Sizes in px of the drawings' words, as laid out. */
const wordSizes = (page) => page.locator(".chart text").evaluateAll((all) => {
  const seen = all.filter((one) => one.checkVisibility());
  return seen.map((one) => {
    const { width } = one.ownerSVGElement.getBoundingClientRect();
    return parseFloat(getComputedStyle(one).fontSize) * (width / one.ownerSVGElement.viewBox.baseVal.width);
  });
});

for (const scheme of ["light", "dark"]) {
  test(`the drawings are readable at 320 px and stay in their frame, ${scheme}`, async () => {
    const context = await browser.newContext({ viewport: { width: 320, height: 800 }, colorScheme: scheme });
    const page = await context.newPage();
    await page.goto(hall.address + PAGE);
    const sizes = await wordSizes(page);
    // Ten px at least; common practice, no source.
    assert.ok(sizes.length > 40 && Math.min(...sizes) >= 10, String(Math.min(...sizes)));
    const outside = await page.locator(".chart text").evaluateAll((all) => {
      const over = all.filter((one) => one.checkVisibility()).filter((one) => {
        const [box, frame] = [one.getBoundingClientRect(), one.ownerSVGElement.getBoundingClientRect()];
        return box.left < frame.left - 1 || box.right > frame.right + 1 || box.bottom > frame.bottom + 1;
      });
      return over.map((one) => one.textContent);
    });
    assert.deepEqual(outside, []);
    await context.close();
  });
}

test("whom nobody starts in the middle is shown the lowest rung, and whom it is for stays in sight", async () => {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  await page.goto(hall.address + PAGE);
  await page.evaluate(() => {
    rungbookPerson.setFront({ situations: ["pregnancy"], traits: [], lacks: [] });
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  await page.waitForFunction(() => document.querySelector('[data-plan="push-up"] select').value === "1");
  await page.evaluate(() => scrollTo(0, 2000));
  await page.waitForTimeout(200);
  const box = await page.locator("[data-person]").boundingBox();
  assert.ok(box.y >= 0 && box.y + box.height < 130, JSON.stringify(box));
  // No dose of another week stands in the box of what is changed.
  assert.equal(await page.locator('[data-plan] .own .dose').count(), 0);
  await context.close();
});

/** A phone of its own on a day of its own. @param {string} day */
async function onDay(day, run) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  await page.clock.install({ time: new Date(`${day}T18:30:00`) });
  await page.goto(`${hall.address}sessions/push-and-pull.html`);
  await run(page);
  await context.close();
}

test("a session's page in a running cycle shows this week's sets, and as written when asked", () => onDay("2027-01-19", async (page) => {
  const [link, over] = ["[data-this-week] a:visible", ".over:has-text('as week 3 asks')"];
  const dose = () => page.textContent('[data-block="1"] [data-item="1"] > .what > .dose');
  await page.waitForSelector(over);
  const asked = await dose();
  assert.match(await page.getAttribute('[data-wall=""]', "href"), /#week\/six-weeks-push-and-pull\/3$/);
  await page.click(link);
  await page.waitForSelector("text=This week asks its own sets: week 3");
  assert.notEqual(await dose(), asked);
  await page.click(link);
  await page.waitForSelector(over);
  assert.equal(await dose(), asked);
  assert.equal(await page.locator(link).count(), 0);
}));

test("in a lighter week the session's page and today's page say the same time, and nothing of the longer one", () => onDay("2027-02-02", async (page) => {
  await page.waitForSelector(".over:has-text('as week 5 asks')");
  const minutes = Number(/about (\d+) min/.exec(await page.textContent("[data-whole]"))?.[1]);
  assert.equal(await page.locator(".arithmetic").count(), 0);
  assert.equal(await page.textContent('[data-block="1"] .times > .computed'), "9:00");
  await page.click('[data-share="1"] summary');
  await page.waitForSelector('[data-share="1"] input');
  assert.match(await page.textContent('[data-share="1"]'), /every 4:30/);
  await page.goto(`${hall.address}today.html`);
  await page.waitForFunction(() => /^ends/.test(document.querySelector("[data-span]")?.textContent || ""));
  const from = await page.textContent(".hour.picked .at");
  const to = (await page.textContent("[data-span]")).replace("ends ", "");
  const at = (time) => Number(time.split(":")[0]) * 60 + Number(time.split(":")[1]);
  assert.ok(Math.abs(at(to) - at(from) - minutes) <= 1, `${from} to ${to}, ${minutes} min`);
}));

test("in a lighter week floor, today's lines and a rung with a dose of its own ask as much as the session's page", () => onDay("2027-02-02", async (page) => {
  await page.waitForSelector(".over:has-text('as week 5 asks')");
  const asked = await page.$$eval('[data-block="1"] [data-item] > .what > .dose', (all) => all.map((one) => one.textContent));
  assert.deepEqual(asked.map((dose) => dose.split(" x ")[0]), ["2", "2"]);
  const ofRung = await page.$$eval('[data-block="1"] .three .dose', (all) => all.map((one) => one.textContent));
  assert.ok(ofRung.length > 0 && ofRung.every((dose) => dose.startsWith("2 x ")), ofRung.join());
  await page.goto(`${hall.address}today.html`);
  const inToday = '#push-and-pull [data-block="1"] [data-line]';
  const ends = (all) => page.waitForFunction(([at, doses]) => [...document.querySelectorAll(at)].every((one, nth) => one.textContent.endsWith(doses[nth])), [inToday, all]);
  await ends(asked);
  // Another session stands as it is written, and the day's own in its week again.
  await page.evaluate(() => document.querySelector('[data-choose="legs-and-trunk"]').click());
  assert.match(await page.textContent("[data-when]"), /another session, as it is written$/);
  await page.evaluate(() => document.querySelector('[data-choose="push-and-pull"]').click());
  await ends(asked);
  await page.goto(`${hall.address}floor.html#session/push-and-pull/2`);
  await page.waitForSelector(".step-items .dose");
  assert.deepEqual(await page.$$eval(".step-items .dose", (all) => all.map((one) => one.textContent)), asked);
  assert.match(await page.textContent(".over"), /week 5/);
  assert.match(await page.textContent(".card .format"), /9 min/);
}));

test("a day outside every cycle: the session's page names no week", () => onDay("2026-12-01", async (page) => {
  assert.equal(await page.locator("[data-this-week]:visible").count(), 0);
  assert.doesNotMatch(await page.textContent(".over"), /week/);
}));
