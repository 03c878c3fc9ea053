// What is brought on request, in class and from disk: a card, a session's blocks, and what stands on
// the page when neither comes; and why a movement does not fit, said to a member and to a coach.
import assert from "node:assert/strict";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { closeHall, HOUSE, openHall } from "./hall.mjs";

const { why } = createRequire(import.meta.url)(join(HOUSE, "themes/slate/scripts/fits.js"));
let site, browser, hall;

before(async () => ({ site, hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** A page of its own, without the worker that keeps files for offline. */
async function opened(address) {
  const context = await browser.newContext({ serviceWorkers: "block" });
  const page = await context.newPage();
  await page.goto(address);
  return { page, close: () => context.close() };
}

test("from disk, the floor shows a card, its neighbour and a session's blocks", async () => {
  const { page, close } = await opened(`${pathToFileURL(join(site, "floor.html")).href}#push-up`);
  await page.getByRole("heading", { name: "Push-up", exact: true }).waitFor();
  await page.click(".ways .way-to[href]");
  await page.waitForFunction(() => !/^Push-up$/.test(document.querySelector(".card h1")?.textContent || "Push-up"));
  await page.goto(`${pathToFileURL(join(site, "floor.html")).href}#session/push-and-pull/2`);
  await page.waitForFunction(() => /block 2 of/.test(document.querySelector(".card .over")?.textContent || ""));
  await page.click(".step-to");
  await page.waitForSelector(".big-cue");
  await close();
});

test("a card or a session that does not come leads to its page", async () => {
  for (const [hash, to] of [["push-up", "movements/push-up.html"], ["session/push-and-pull/1", "sessions/push-and-pull.html"]]) {
    const { page, close } = await opened(`${hall.address}floor.html`);
    await page.route("**/cards/**", (route) => route.abort());
    await page.evaluate((to) => (location.hash = to), hash);
    await page.waitForURL(hall.address + to);
    await close();
  }
});

test("a card that comes late is not drawn over what was opened since", async () => {
  const { page, close } = await opened(`${hall.address}floor.html`);
  let release;
  const late = new Promise((done) => (release = done));
  await page.route("**/cards/push-up.js", async (route) => {
    await late;
    await route.continue();
  });
  await page.evaluate(() => (location.hash = "push-up"));
  await page.waitForSelector("[data-lists]", { state: "hidden" });
  await page.evaluate(() => (location.hash = "squat"));
  await page.getByRole("heading", { name: "Squat", exact: true }).waitFor();
  const came = page.waitForResponse(/cards\/push-up\.js$/);
  release();
  await (await came).finished();
  await page.waitForTimeout(100);
  assert.equal(await page.textContent(".card h1"), "Squat");
  await close();
});

test("a file that failed to come once comes at the next touch", async () => {
  const { page, close } = await opened(`${hall.address}movements/push-up.html`);
  await page.route("**/motion/**", (route) => route.abort());
  await page.click(".picture button");
  await page.getByRole("status").filter({ hasText: "did not come" }).waitFor();
  await page.unroute("**/motion/**");
  await page.click(".picture button");
  await page.waitForSelector(".picture .moving path");
  assert.equal(await page.locator("script[src*='motion/push-up']").count(), 1);
  assert.equal(await page.getByRole("status").filter({ hasText: "did not come" }).count(), 0);
  await close();
});

test("one reason, in clauses to a member and after a name to a coach", () => {
  const person = { kit: ["chair"], limits: { "strong-grip": 1, kneeling: 2 }, noise: "quiet" };
  const asks = { kit: "low-bar|straps box", traits: "strong-grip kneeling:1", noise: "loud" };
  assert.equal(why(person, asks, "member"), "you leave out strong grip; it needs low bar or straps, box; it is too loud");
  assert.equal(why(person, asks, "coach"), "has strong grip; needs low bar or straps, box; too loud");
  assert.equal(why({ ...person, kit: null, limits: {}, noise: "loud" }, asks, "member"), "");
});

test("the page says it: beside a rung to a member, on the floor to a coach", async () => {
  const { page, close } = await opened(`${hall.address}ladders/pull-up.html`);
  await page.evaluate(() => {
    localStorage.setItem("rungbook-kit", JSON.stringify({ mode: "picked", kit: [], noise: "loud" }));
    sessionStorage.setItem("rungbook-limits", JSON.stringify({ cautions: [], traits: ["strong-grip"], asks: { "strong-grip": "strong-grip:1" } }));
  });
  const beside = async (name) => {
    await page.goto(hall.address + name);
    await page.waitForSelector(".rail .misfit-why", { state: "attached" });
    return (await page.$$eval(".rail .misfit-why", (notes) => notes.map((note) => note.textContent))).join(" | ");
  };
  const member = await beside("ladders/pull-up.html");
  assert.match(member, /you leave out strong grip; it needs /);
  assert.doesNotMatch(member, /(^|[|;] )(has|needs)/);
  const coach = await beside("floor.html");
  assert.match(coach, /has strong grip; needs /);
  assert.doesNotMatch(coach, /you leave out|it needs/);
  await close();
});
