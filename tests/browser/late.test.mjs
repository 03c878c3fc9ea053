// An answer that comes late: what was worked out for whoever stood there before is never drawn over the
// next one. The first answer is held back until the second stands; everybody here leaves everything out.
import assert from "node:assert/strict";
import { after, before, test } from "node:test";
import { withoutAnswers } from "./clocks.mjs";
import { builtSite, openBrowser, serve } from "./hall.mjs";

let hall, browser;
before(async () => {
  hall = await serve(builtSite());
  browser = await openBrowser();
});
after(async () => {
  await browser?.close();
  await hall?.stop();
});

/** Longer than any answer takes that is not held back, ms. */
const HELD = 2500;

/** Holds back the first answer of a room's function, and only that. */
const holdBack = {
  versions: () => { const real = rungbookOwnBring.versions; let held = 0; rungbookOwnBring.versions = async (...asked) => { const first = !held++; const found = await real(...asked); if (first) await new Promise((go) => setTimeout(go, 2500)); return found; }; },
  tools: () => { const real = rungbookOwnBring.tools; let held = 0; rungbookOwnBring.tools = async (...asked) => { const first = !held++; const found = await real(...asked); if (first) await new Promise((go) => setTimeout(go, 2500)); return found; }; },
  card: () => { const real = rungbookBring.card; let held = 0; rungbookBring.card = async (...asked) => { const first = !held++; const found = await real(...asked); if (first) await new Promise((go) => setTimeout(go, 2500)); return found; }; },
  files: () => { const real = rungbookBring.files; let held = 0; rungbookBring.files = async (...asked) => { const first = !held++; const found = await real(...asked); if (first) await new Promise((go) => setTimeout(go, 2500)); return found; }; },
};

/** A page on which the person with a sore wrist is replaced, before the answer for them is there, by one who leaves out everything. */
async function replaced(name, room, look, before = async () => {}) {
  const context = await browser.newContext({ serviceWorkers: "block" });
  const page = await context.newPage();
  try {
    // The one who leaves out everything has no changes and no swaps to take; the other needs none.
    await withoutAnswers(page);
    await page.goto(hall.address + name);
    await page.waitForTimeout(400);
    await before(page);
    await page.evaluate(holdBack[room]);
    const front = (person) => page.evaluate((one) => {
      const traits = one === "all" ? Object.keys(rungbookWords.traits) : [];
      rungbookPerson.setFront({ situations: one === "all" ? [] : [one], traits, lacks: [] });
      document.dispatchEvent(new CustomEvent("rungbook-who"));
    }, person);
    await front("pregnancy");
    await page.waitForTimeout(50);
    await front("all");
    await page.waitForTimeout(HELD + 1500);
    await look(page);
  } finally {
    await context.close();
  }
}

test("a session's lines", () => replaced("sessions/push-and-pull.html", "versions", async (page) => {
  const rows = await page.$$eval("[data-block] .own", (all) => all.map((one) => [one.className, one.querySelector(".own-what").textContent, one.querySelectorAll("a").length]));
  const asks = rows.filter(([kind]) => kind === "own ask");
  assert.ok(asks.length > 5);
  for (const [, words, links] of asks) assert.deepEqual([words, links], ["Nothing fits: you decide", 0]);
  // What has no trait at all is everybody's; nothing else is ordered.
  const plain = await page.evaluate(async () => Promise.all([...document.querySelectorAll("[data-block] .own:not(.ask) .own-name")].map(async (one) => (await rungbookBring.card(/movements\/(.*)\.html/.exec(one.getAttribute("href"))[1])).needs.traits)));
  assert.deepEqual(plain.filter(Boolean), []);
}, (page) => page.click("[data-your-version] button")));

test("today's lines", () => replaced("today.html", "versions", async (page) => {
  const said = await page.$$eval(".hour [data-line]", (all) => all.filter((one) => one.closest(".hour").checkVisibility()).map((one) => one.textContent));
  assert.ok(said.filter((words) => /Nothing fits/.test(words)).length > 5 && !said.some((words) => /push-up|row/i.test(words)), said.join("\n"));
}, async (page) => {
  await page.evaluate(() => document.querySelector("[data-choose]").click());
  await page.waitForTimeout(800);
}));

test("a cycle's rungs", () => replaced("cycles/six-weeks-push-and-pull.html", "tools", async (page) => {
  const kinds = await page.$$eval(".cycle .own", (all) => all.map((one) => one.className));
  assert.ok(kinds.length > 5 && kinds.every((kind) => kind === "own ask"), kinds.join("\n"));
}));

test("a movement's swaps", () => replaced("movements/push-up.html", "card", async (page) => {
  assert.equal(await page.locator("[data-swaps] li, .swaps li").count(), 0);
}));

test("the signs of a situation", () => replaced("today.html", "files", async (page) => {
  const shown = await page.$$eval("[data-signs]", (all) => all.map((one) => one.textContent).join(" "));
  assert.doesNotMatch(shown, /Pregnancy/);
}));
