// Too few bars, on a session's block: as the coach types, offline and from disk; what stands in for the kit
// passes the same limits as everything for the person in front.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { createRequire } from "node:module";
import { closeHall, HOUSE, openHall } from "./hall.mjs";

const share = createRequire(import.meta.url)(join(HOUSE, "themes/slate/scripts/share.js"));
let site, browser, hall;
before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

const PLACE = "[data-share='1']";

/** The block's fold opened, with somebody in front whose limits are these ids. */
async function opened(page, cautions) {
  await page.goto(pathToFileURL(join(site, "floor.html")).href);
  if (cautions) {
    await page.click("[data-quick] >> text=More limits");
    for (const one of cautions) await page.locator("[data-quick] button", { hasText: one }).first().click();
  }
  await page.goto(pathToFileURL(join(site, "sessions/push-and-pull.html")).href);
  await page.click(`${PLACE} > summary`);
  await page.waitForSelector(".share-answer li");
}

/** As a coach types it. */
async function say(page, counts) {
  for (const [name, count] of Object.entries(counts)) await page.fill(`${PLACE} [name=${name}]`, String(count));
}

test("without scripts the hall's own answer stands there, and the script says the same", async () => {
  const [plain, page] = await Promise.all([browser.newContext({ javaScriptEnabled: false }), browser.newContext()].map(async (context) => (await context).newPage()));
  await plain.goto(`${hall.address}sessions/push-and-pull.html`);
  const written = await plain.$$eval(`${PLACE} li`, (all) => all.map((one) => one.textContent));
  await opened(page);
  assert.deepEqual(await page.$$eval(`${PLACE} .share-answer li`, (all) => all.map((one) => one.textContent)), written);
  assert.ok(written.length >= 3);
  await Promise.all([plain, page].map((one) => one.context().close()));
});

test("one strap and no bar for nine: a further station does the same work without them", async () => {
  const page = await browser.newPage();
  await opened(page);
  await say(page, { straps: 1, rings: 0, "low-bar": 0, people: 9 });
  await page.waitForSelector(".share-answer p");
  const words = await page.textContent(".share-answer");
  assert.match(words, /3 groups of 3, 3 stations: everybody moves one on every 6:00/);
  assert.match(words, /A\. Row: 1 at once, 3 turns of/);
  assert.match(words, /B\. Row, without the kit that is short/);
  assert.match(words, /Without it: /);
  assert.match(words, /Without it: Band row/);
  const to = await page.getAttribute(".share-answer p a", "href");
  assert.doesNotMatch(to, /strap-row|bar-row/, "what stands in needs none of it");
  await page.close();
});

test("what stands in is nothing that the person in front leaves out", async () => {
  const page = await browser.newPage();
  // For nobody in particular a band row on the floor stands in; this person does not get down there.
  await opened(page, ["get on the floor"]);
  await say(page, { straps: 1, rings: 0, "low-bar": 0, people: 9 });
  await page.waitForSelector(".share-answer p");
  const [movement, answer] = await page.evaluate(async () => {
    const link = document.querySelector(".share-answer p a");
    const card = await rungbookBring.card(/movements\/([a-z0-9-]+)\.html/.exec(link.getAttribute("href"))[1]);
    const who = rungbookSessionPage.person();
    return [card.id, rungbookFits.fit({ ...who, kit: null }, card.needs).kind];
  });
  assert.ok(movement && movement !== "band-row", movement);
  const changed = await page.locator(".share-answer .change-how").count();
  assert.ok(answer === "fine" || (answer === "changed" && changed > 0), `${movement}: ${answer}`);
  await page.close();
});

test("no bar at all: no station of nothing, and what stands in is said at its own station", async () => {
  const page = await browser.newPage();
  await opened(page);
  await say(page, { straps: 0, rings: 0, "low-bar": 0, people: 9 });
  await page.waitForSelector(".share-answer li p");
  const stations = await page.$$eval(".share-answer li", (all) => all.map((one) => one.textContent));
  assert.match(stations[0], /2 groups|Groups of 5, 4, 2 stations/);
  assert.match(stations[1], /^A\. Row, without its kit, of which none is here.*Without it: /);
  assert.match(stations[2], /^B\. Push-up: all at once/);
  assert.equal(await page.locator(".share-answer > p").count(), 0, "nothing below the list");
  await page.close();
});

test("the class's clock calls the groups that were asked for, after a reload too, and nobody's own version does", async () => {
  const context = await browser.newContext({ serviceWorkers: "block" });
  const page = await context.newPage();
  await page.clock.install({ time: new Date("2027-01-19T18:30:00") });
  await page.goto(`${hall.address}sessions/push-and-pull.html`);
  await page.click(`${PLACE} > summary`);
  await page.waitForSelector(".share-answer li");
  await say(page, { straps: 1, rings: 0, "low-bar": 0, people: 9 });
  await page.check(`${PLACE} [name=calls]`);
  await page.reload();
  await page.click("#block-2 .clock-start");
  await page.click("[data-clock-asks] button:text-is(\"Run the class's clock\")");
  await page.waitForSelector("dialog[open]");
  await page.clock.runFor(6_000);
  const now = () => page.textContent(".clock-now");
  assert.equal(await now(), "Group 1: Row; 2: Row without kit; 3: Push-up");
  assert.match(await page.textContent(".clock-digits"), /^5:4\d$/);
  await page.clock.fastForward(345_000);
  await page.clock.runFor(300);
  assert.equal(await now(), "Change: one on");
  await page.clock.fastForward(15_000);
  await page.clock.runFor(300);
  assert.equal(await now(), "Group 1: Row without kit; 2: Push-up; 3: Row");
  await page.reload();
  await page.clock.runFor(300);
  assert.equal(await now(), "Group 1: Row without kit; 2: Push-up; 3: Row");
  await context.close();
});

test("reckoned: the clock of groups lasts as long as the block, and at one station everybody has every set", () => {
  const pull = { name: "Pull-up", ways: [[["bar"]]], set_s: 30, rest_s: 90, sets: 4 };
  const push = { name: "Push-up", ways: [], set_s: 35, rest_s: 90, sets: 4 };
  let seen = 0;
  for (let people = 1; people <= 24; people += 1) {
    for (let bars = 0; bars <= 4; bars += 1) {
      for (const stations of [[pull], [pull, push]]) {
        for (const window of [300, 720, 1080]) {
          const found = share.share(people, window, stations, { bar: bars });
          const slots = share.slots(found, stations, window);
          assert.equal(found.stops.length > 0 && found.stops.some(({ fit }) => fit > 0) ? slots.reduce((sum, [seconds]) => sum + seconds, 0) : window, window);
          assert.ok(slots.every(([seconds]) => seconds > 0));
          if (found.stops.length !== 1 || found.stops[0].turns < 2) continue;
          const last = slots.filter(([, work, what]) => work && new RegExp(`(: | to )${people} of ${people}$`).test(what));
          assert.equal(last.length, found.stops[0].fit, JSON.stringify(slots));
          seen += 1;
        }
      }
    }
  }
  assert.ok(seen > 3, `${seen}`);
});
