// A member's own version: own rung, own heights, own dose, by hand-reckoned cases, on the very files that a
// build writes; that page and command agree for random people is tests/own_parity.rs's business. The last
// tests look at the page in the browser, offline.
import assert from "node:assert/strict";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { builtSite, HOUSE, openBrowser, serve } from "./hall.mjs";
import { allOf, handed, ownRoom } from "./own-room.mjs";
import { createRequire } from "node:module";

const { own, ownRung, placing: placingOf } = ownRoom(join(HOUSE, "themes/slate/scripts"));
const bookOf = createRequire(import.meta.url)(join(HOUSE, "themes/slate/scripts/book.js"));
const { fit, together } = globalThis.rungbookFits;
let site, sessions, ladders, cards, placing, traits;

before(() => {
  site = builtSite();
  const folder = join(site, "cards");
  globalThis.rungbookWords = handed(join(site, "data/words.js")).rungbookWords;
  sessions = Object.values(allOf(join(folder, "sessions"), /\.js$/, "rungbookSession"));
  ladders = allOf(join(folder, "ladders"), /\.js$/, "rungbookLadder");
  cards = allOf(folder, /\.js$/, "rungbookCard");
  placing = placingOf(handed(join(site, "data/placing.js")).rungbookPlacingTables);
  traits = Object.keys(globalThis.rungbookWords.traits);
});

const line = (session, block, item) => sessions.find((one) => one.id === session).blocks[block].items[item];
const nobody = () => ({ person: { kit: null, limits: {}, noise: "loud" }, book: bookOf.empty(), ladders, cards, placing });
/** What a rung is today, as the book keeps it. */
const thenOf = (ladder, rung) => {
  const { movement, settings } = ladders[ladder].rungs[rung - 1];
  return { movement, settings };
};
/** Picks a rung by hand, as My book does. */
const pick = (book, ladder, rung) => {
  book.rungs[ladder] = rung;
  book.rungs_then = { ...book.rungs_then, [ladder]: thenOf(ladder, rung) };
};
const pushUps = (rung, amount, setting = null) => ({ ...thenOf("push-up", rung), id: "a", day: "2026-11-20", ladder: "push-up", rung, setting, counts: "reps", amount, added_kg: 0, note: "" });

test("the own rung comes from the book, then the latest result, then the middle; below goes down from it", () => {
  const [work, warm] = [line("push-and-pull", 1, 1), line("push-and-pull", 0, 5)];
  assert.equal(warm.below, 2);
  const who = nobody();
  assert.match(own.version(work, who).why[0], /^No result on the .* ladder yet: its middle rung/);
  assert.equal(own.version(work, who).rung, work.rungs[1].number);
  who.book.results = [pushUps(8, 9)];
  assert.equal(own.version(work, who).rung, 8);
  assert.equal(own.version(work, who).dose, "4 x 6-8");
  assert.equal(own.version(warm, who).rung, 6);
  who.book.results.push({ ...pushUps(4, 9), id: "b", day: "2026-11-24" });
  assert.equal(own.version(work, who).rung, 4);
  pick(who.book, "push-up", 1);
  assert.deepEqual([own.version(work, who).rung, own.version(warm, who).rung], [1, 1]);
});

test("a rewritten ladder moves nobody to something harder: the rung goes by what it was", () => {
  const work = line("push-and-pull", 1, 1);
  const who = nobody();
  const at60 = { movement: "incline-push-up", settings: { hands: 60 } };
  // Recorded as rung 2, when hands on 60 cm were the second: it is rung 4 today.
  who.book.results = [{ ...pushUps(2, 9), ...at60 }];
  assert.deepEqual(ownRung.now(ladders["push-up"], who.book.results[0]), { kind: "same", at: 3 });
  assert.match(own.version(work, who).why[0], /from 9 at hands 60 cm/);
  // Recorded as rung 8, when that was hands on 50 cm, which no rung has: never rung 8.
  who.book.results = [{ ...pushUps(8, 9), movement: "incline-push-up", settings: { hands: 50 } }];
  const nearest = own.version(work, who);
  assert.match(nearest.why[0], /ladder has changed since your result; rung 4 asks no more/);
  assert.equal(nearest.rung, 4);
  assert.equal(nearest.dose, "4 x 6-10", "a result on another ladder foretells nothing");
  // What is gone from the ladder says nothing of its rungs.
  who.book.results = [{ ...pushUps(8, 9), movement: "gone-push-up", settings: {} }];
  assert.deepEqual([own.version(work, who).rung, /start at its lowest/.test(own.version(work, who).why[0])], [1, true]);
  // A rung picked by hand is kept as what it was too.
  who.book.rungs["push-up"] = 9;
  who.book.rungs_then = { "push-up": at60 };
  assert.equal(own.version(work, who).rung, 4);
});

test("of which only the number is known counts for nothing: a ladder may have been rewritten", () => {
  const work = line("push-and-pull", 1, 1);
  const who = nobody();
  who.book.rungs["push-up"] = 8;
  assert.equal(own.version(work, who).rung, 1);
  assert.match(own.version(work, who).why[0], /Only a number is written down.*or pick yours again/);
  // What was counted, and is known, comes before such a number; what is not known does not.
  who.book.results = [pushUps(4, 9)];
  assert.equal(own.version(work, who).rung, 4);
  const { movement: _, settings: __, ...bare } = pushUps(8, 9);
  who.book.results = [bare];
  who.book.rungs = {};
  assert.equal(own.version(work, who).rung, 1);
  assert.match(own.version(work, who).why[0], /Only a number is written down.*or test again/);
});

test("on a ladder that has changed nothing above the first rung that asks more is given", () => {
  const ladder = ladders["push-up"];
  const asks = [18, 30, 50, 20, 25];
  const rungs = ladder.rungs.slice(0, 5).map((rung, at) => ({ ...rung, axis: { value: asks[at], band: 1, shown: "" } }));
  const table = { ...ladder.tables["incline-push-up"], values: [40, 50, 60], demands: [[40, 40, 40], [40, 40, 40], [40, 40, 40]] };
  const changed = { ...ladder, rungs, tables: { "incline-push-up": table } };
  const result = { ...pushUps(3, 9), movement: "incline-push-up", settings: { hands: 55 } };
  assert.deepEqual(ownRung.now(changed, result), { kind: "no-more", at: 1 });
});

test("a line some rungs below the own one asks a swap so far below its own too", () => {
  const warm = line("push-and-pull", 0, 4);
  assert.deepEqual([warm.ladder_id, warm.below], ["row", 2]);
  for (const kit of Object.keys(globalThis.rungbookWords.kit)) {
    const who = nobody();
    who.person.kit = [kit];
    for (const ladder of Object.values(ladders)) pick(who.book, ladder.id, ladder.rungs.length);
    const found = own.version(warm, who);
    if (found.kind !== "swap" || !found.ladder || found.ladder === "row") continue;
    const top = ladders[found.ladder].rungs.length;
    assert.ok(found.rung <= Math.max(1, top - 2), `${kit}: ${JSON.stringify(found)}`);
  }
  const { standings } = ownRung;
  const who = nobody();
  for (const ladder of Object.values(ladders)) pick(who.book, ladder.id, ladder.rungs.length);
  const [none, two] = [standings(who, 0), standings(who, 2)];
  for (const id of Object.keys(ladders)) assert.equal(two[id], Math.max(1, none[id] - 2), id);
});

test("a counter of one's own: its height, and the dose predicted there", () => {
  const work = line("push-and-pull", 1, 1);
  const who = nobody();
  who.person.kit = ["counter"];
  who.book.heights = { counter: 90 };
  who.book.results = [pushUps(2, 12, { hands: 90 })];
  const same = own.version(work, who);
  assert.deepEqual([same.setting, same.dose], ["kitchen counter 90 cm", "4 x 9-10"]);
  // A rung at 60 cm and a counter of 70: less is asked than by the rung, and so the dose is no smaller.
  pick(who.book, "push-up", 4);
  who.book.heights = { counter: 70 };
  who.book.results = [pushUps(4, 9)];
  const higher = own.version(work, who);
  assert.equal(higher.setting, "kitchen counter 70 cm");
  assert.match(higher.why.join(" "), /Your kitchen counter is 70 cm, where the rung says 60 cm, and asks less/);
  assert.equal(higher.dose, "4 x 9-10");
  // A chair of 45 asks more than the rung: nobody asked for more, so it is a rung below, result or not.
  who.person.kit = ["chair"];
  who.book.heights = { chair: 45 };
  who.book.results = [pushUps(4, 14)];
  const lower = own.version(work, who);
  assert.ok(lower.rung < 4 && lower.setting !== "chair 45 cm", JSON.stringify(lower));
  who.book.results = [];
  const unknown = own.version(work, who);
  assert.ok(unknown.rung < 4, JSON.stringify(unknown));
});

test("only a thing that the rung can use serves it, and of two the nearer in demand", () => {
  const work = line("push-and-pull", 1, 1);
  const who = nobody();
  pick(who.book, "push-up", 4);
  who.book.results = [pushUps(4, 9)];
  who.person.kit = ["counter", "table"];
  who.book.heights = { counter: 95, table: 72 };
  assert.equal(own.version(work, who).setting, "table 72 cm");
  who.book.heights = { counter: 72, table: 95 };
  assert.equal(own.version(work, who).setting, "kitchen counter 72 cm");
  // A low bar of 60 cm is no box: its height decides nothing for a push-up.
  who.person.kit = ["table", "low-bar"];
  who.book.heights = { table: 72, "low-bar": 60 };
  assert.equal(own.version(work, who).setting, "table 72 cm");
  // Within a shoe's worth it is the written height; beyond it is one's own.
  who.person.kit = ["table"];
  for (const [cm, said] of [[62.5, /^(?!.*Your table)/], [63, /Your table is 63 cm/]]) {
    who.book.heights = { table: cm };
    assert.match(own.version(work, who).why.join(" "), said, String(cm));
  }
});

test("a height of one's own that asks for what is left out is no way", () => {
  const ladder = ladders["push-up"];
  const rung = ladder.rungs[3];
  const { tables } = ladder;
  const before = tables[rung.movement].levels;
  try {
    // Hands below 65 cm ask a lot of the wrist, at 65 and above some.
    tables[rung.movement].levels = { ends: [65], traits: ["loaded-wrist-extension:2", "loaded-wrist-extension:1", "loaded-wrist-extension:1"] };
    const who = nobody();
    who.person = { kit: ["chair"], limits: { "loaded-wrist-extension": 2 }, noise: "loud" };
    const stood = (cm) => {
      who.book.heights = { chair: cm };
      return ownRung.stand({ ...ladder, rungs: ladder.rungs.map((one) => ({ ...one, needs: { ...one.needs, changes: "" } })) }, 3, who);
    };
    assert.equal(stood(64).out.traits, "loaded-wrist-extension:2");
    for (const cm of [65, 66]) assert.equal(stood(cm).setting, `chair ${cm} cm`);
  } finally {
    tables[rung.movement].levels = before;
  }
});

test("a dose by one's result is never less than one", () => {
  const work = line("push-and-pull", 1, 1);
  const who = nobody();
  pick(who.book, "push-up", 8);
  for (const [amount, dose] of [[2, "4 x 1"], [3, "4 x 1-2"], [4, "4 x 1-3"]]) {
    who.book.results = [pushUps(8, amount)];
    assert.equal(own.version(work, who).dose, dose);
  }
  who.book.results = [pushUps(8, 1)];
  assert.ok(own.version(work, who).rung < 8);
});

test("limits of several situations: the lower level of a trait holds, whichever comes first", () => {
  assert.deepEqual(together(["a:2 b:1", "a:1 c:2"]), { a: 1, b: 1, c: 2 });
  assert.deepEqual(together(["a:1", "a:2"]), { a: 1 });
  assert.equal(fit({ kit: null, limits: together(["kneeling:1", "kneeling:2"]), noise: "loud" }, { traits: "kneeling:1" }).kind, "out");
});

test("a test asks the rung of the last test, whole and without reserve", () => {
  const item = line("test-day", 4, 0);
  assert.ok(item.tests);
  const who = nobody();
  assert.equal(own.version(item, who).rung, ladders["push-up"].test.rung);
  who.book.results = [pushUps(6, 12)];
  assert.deepEqual([own.version(item, who).rung, own.version(item, who).dose], [6, item.dose]);
});

test("kit and limits go before rungs: the nearest lower rung that fits, else the first swap, else the coach", () => {
  const row = line("push-and-pull", 1, 0);
  const who = nobody();
  const movements = ladders.row.rungs.map((rung) => rung.movement);
  pick(who.book, "row", movements.length);
  who.person.kit = ["straps"];
  const lower = own.version(row, who);
  const highest = movements.lastIndexOf("strap-row") + 1;
  assert.ok(highest > 0 && highest < movements.length);
  assert.deepEqual([lower.kind, lower.movement, lower.rung], ["fine", "strap-row", highest]);
  assert.match(lower.why.join(" "), new RegExp(`Not Bar row.*needs low bar.*The nearest rung below that fits: ${highest}`));
  who.person.kit = ["backpack", "chair"];
  const swapped = own.version(row, who);
  assert.equal(swapped.kind, "swap");
  assert.ok(swapped.dose !== "" && !/coach says/.test(swapped.dose), swapped.dose);
  who.person.kit = [];
  who.person.limits = Object.fromEntries(traits.map((one) => [one, 1]));
  const alone = Object.fromEntries(Object.entries(cards).map(([id, card]) => [id, { ...card, swaps: [] }]));
  const none = own.version(row, { ...who, cards: alone });
  assert.deepEqual([none.kind, none.dose, none.name], ["ask", "", ""]);
  assert.match(none.why.join(" "), /Ask your coach/);
});

test("a swap stands at the own rung of its own ladder, or at its lowest to start with", () => {
  const row = line("push-and-pull", 1, 0);
  for (let kit of [["chair"], ["towel"], ["band"], ["doorframe-bar"], ["pull-up-bar"], ["backpack", "chair"]]) {
    const who = nobody();
    who.person.kit = kit;
    const found = own.version(row, who);
    if (found.kind !== "swap" || !found.ladder) continue;
    if (found.ladder !== "row") assert.ok(found.why.some((why) => why.startsWith("Start here")), JSON.stringify(found));
    const lowest = cards["strap-row"].swaps.find((one) => one.id === found.movement)?.rungs.find((one) => one.ladder === found.ladder);
    if (found.ladder !== "row" && lowest) assert.equal(found.rung, lowest.number);
  }
});

let browser, hall;
after(async () => {
  await browser?.close();
  await hall?.stop();
});

test("in the browser, offline: a counter and a chair, twelve at the counter, and then a limit", async () => {
  hall = await serve(site);
  browser = await openBrowser();
  const context = await browser.newContext();
  const page = await context.newPage();
  await page.goto(`${hall.address}sessions/push-and-pull.html`);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await page.evaluate((result) => {
    const book = { schema: "rungbook-book-1", stature_cm: 170, body_mass_kg: null, heights: { counter: 90 }, rungs: {}, results: [result], done: [], notes: [] };
    localStorage.setItem("rungbook-book", JSON.stringify(book));
    localStorage.setItem("rungbook-kit", JSON.stringify({ mode: "picked", kit: ["counter", "chair", "band", "backpack"], noise: "loud" }));
    sessionStorage.setItem("rungbook-limits", JSON.stringify({ cautions: [], traits: ["impact"], asks: { impact: "impact:1" } }));
  }, pushUps(2, 12, { hands: 90 }));
  await context.setOffline(true);
  await page.reload();
  await page.waitForSelector("[data-block='1'] .own");
  const text = await page.textContent("[data-block='1'] [data-item='1'] .own");
  assert.match(text, /counter 90 cm/);
  assert.match(text, /4 x 9-10/);
  const items = sessions.find((one) => one.id === "push-and-pull").blocks.flatMap((block) => block.items);
  assert.equal(await page.locator(".own").count(), items.length, "all lines or none");
  const versions = await page.$$eval(".own-name", (links) => links.map((link) => /movements\/(.+)\.html/.exec(link.href)[1]));
  for (const id of versions) assert.ok(!/\bimpact:/.test(cards[id].needs.traits) || cards[id].needs.changes, id);
  assert.ok(!/impact/i.test(page.url()) && !/impact/i.test(await page.title()));
  // Cues one touch away.
  await page.click("[data-block='1'] [data-item='1'] .own summary");
  await page.waitForSelector("[data-block='1'] .see-say dt");
  // On paper the session is everybody's: nothing of the member.
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.locator(".own:visible, .person:visible, .misfit-why:visible").count(), 0);
  await page.emulateMedia({ media: "screen" });
  // The person in front has no book: the member's own rung, height and dose are suspended, not merged.
  await page.evaluate(() => {
    rungbookPerson.setFront({ situations: [], traits: ["impact"], lacks: [] });
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  await page.waitForFunction(() => /No result on the/.test(document.querySelector("[data-block='1'] [data-item='1'] .own")?.textContent || ""));
  assert.ok(!/counter 90|Your rung is/.test(await page.textContent("main")));
  await page.evaluate(() => {
    rungbookPerson.setFront(null);
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  await page.waitForFunction(() => /Your rung is 2/.test(document.querySelector("[data-block='1'] [data-item='1'] .own")?.textContent || ""));
  await context.close();
});
