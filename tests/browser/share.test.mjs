// Too few bars, on a session's block: as the coach types, offline and from disk; what stands in for the kit
// passes the same limits as everything for the person in front.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { closeHall, openHall } from "./hall.mjs";

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
