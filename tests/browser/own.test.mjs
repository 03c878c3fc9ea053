// A member's own version: on random people what is chosen always fits kit and limits, a swap is the
// one that the command says first, and doses and heights are the member's own. The functions run on the
// very files that a build writes; the last tests look at the page in the browser, offline.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { dice } from "./dice.mjs";
import { builtSite, HOUSE, openBrowser, serve } from "./hall.mjs";

const require = createRequire(import.meta.url);
const script = (name) => require(join(HOUSE, `themes/slate/scripts/${name}.js`));
globalThis.rungbookHeight = script("height");
globalThis.rungbookFits = script("fits");
globalThis.rungbookDose = script("dose");
globalThis.rungbookDemands = script("demands");
const own = script("own");
const bookOf = script("book");
const { needs, fits } = globalThis.rungbookFits;
const PROGRAM = process.env.RUNGBOOK || join(HOUSE, "target/debug/rungbook");
const PEOPLE = 300;

let site, sessions, ladders, cards, placing, kitIds, traits;

/** What a data script hands over. */
function handed(file, name) {
  let found;
  const window = {};
  new Function("window", name, readFileSync(join(site, file), "utf8"))(window, (data) => (found = data));
  return found ?? window;
}

before(() => {
  site = builtSite();
  const files = readdirSync(join(site, "cards"));
  const of = (start, name) => files.filter((file) => file.startsWith(start)).map((file) => handed(`cards/${file}`, name));
  sessions = of("session-", "rungbookSession");
  ladders = Object.fromEntries(of("ladder-", "rungbookLadder").map((ladder) => [ladder.id, ladder]));
  const movements = files.filter((file) => !/^(session|ladder)-/.test(file));
  cards = Object.fromEntries(movements.map((file) => handed(`cards/${file}`, "rungbookCard")).map((card) => [card.id, card]));
  placing = script("placing")(handed("data/placing.js", "rungbookNobody").rungbookPlacingTables);
  const all = Object.values(cards).map((card) => needs(card.needs));
  kitIds = [...new Set(all.flatMap((one) => one.kit.flat()))].sort();
  traits = [...new Set(all.flatMap((one) => Object.keys(one.traits)))].sort();
});

/** Somebody with kit, limits, heights, rungs and results. */
function somebody(roll) {
  const share = 1 + roll(4);
  const kit = kitIds.filter(() => roll(4) < share);
  const limits = Object.fromEntries(traits.filter(() => roll(9) === 0).map((one) => [one, 1 + (roll(3) === 0)]));
  const person = { kit: roll(6) === 0 ? null : kit, limits, noise: ["quiet", "some", "loud"][roll(3)] };
  const book = bookOf.empty();
  if (roll(2)) book.stature_cm = 150 + roll(48);
  for (const id of ["counter", "chair", "table", "box", "bench", "sofa", "low-bar"]) if (roll(2)) book.heights[id] = 20 + roll(90);
  for (const ladder of Object.values(ladders)) {
    if (roll(4) === 0) book.rungs[ladder.id] = 1 + roll(ladder.rungs.length);
    if (roll(3)) {
      const rung = 1 + roll(ladder.rungs.length);
      const target = ladder.sheet.rungs[rung - 1];
      const counts = target?.counts === "seconds" ? "seconds" : "reps";
      const table = ladder.tables[ladder.rungs[rung - 1].movement];
      const setting = table && roll(2) ? { [table.setting]: table.values[0] + roll(table.values.at(-1) - table.values[0]) } : null;
      book.results.push({ id: `r${ladder.id}`, day: "2026-11-20", ladder: ladder.id, rung, setting, counts, amount: 1 + roll(25), added_kg: 0, note: "" });
    }
  }
  assert.deepEqual(bookOf.check(book).wrong, []);
  return { person, book, ladders, cards, placing };
}

const lines = () => sessions.flatMap((session) => session.blocks.flatMap((block) => block.items));

test("what is chosen fits kit, limits and noise, and is a rung, an option, the movement, or the first swap", (t) => {
  const roll = dice(20261125);
  const seen = { as: 0, lower: 0, height: 0, swap: 0, ask: 0 };
  for (let at = 0; at < PEOPLE; at += 1) {
    const who = somebody(roll);
    for (const item of lines()) {
      const version = own.version(item, who);
      assert.notEqual(version.kind, "missing");
      if (version.kind === "ask") {
        seen.ask += 1;
        const first = version.movement;
        assert.ok(!cards[first].swaps.some((swap) => fits(who.person, needs(swap.needs))), first);
        continue;
      }
      const card = cards[version.movement];
      assert.ok(fits(who.person, needs(card.needs)), `${version.movement} for ${JSON.stringify(who.person)}`);
      assert.ok(version.dose !== "" && !/undefined|NaN|null/.test(version.dose + version.why.join()), JSON.stringify(version));
      if (version.swapped) seen.swap += 1;
      else if (version.why.some((why) => why.startsWith("The nearest rung below"))) seen.lower += 1;
      else seen.as += 1;
      seen.height += version.why.some((why) => /^Your .+ is \d+ cm/.test(why));
      if (version.rung !== null && item.ladder_id) {
        const top = ladders[item.ladder_id].rungs.length - item.below;
        assert.ok(version.rung >= 1 && version.rung <= Math.max(1, top) && !version.swapped);
      }
    }
  }
  t.diagnostic(JSON.stringify(seen));
  for (const [kind, count] of Object.entries(seen)) assert.ok(count > 10, `too few: ${kind} ${count}`);
});

test("a swap is the one that `rungbook swap` says first", (t) => {
  const roll = dice(5);
  let asked = 0;
  let nothing = 0;
  while (asked < 24) {
    const who = somebody(roll);
    const items = lines();
    const version = own.version(items[roll(items.length)], { ...who, person: { ...who.person, kit: who.person.kit || [] } });
    if (!version.swapped) continue;
    const card = Object.values(cards).find((one) => version.why.some((why) => why.startsWith(`Not ${one.name}`) && /^[:,]/.test(why.slice(4 + one.name.length))));
    const limits = Object.entries(who.person.limits).map(([name, level]) => `${name}=${level}`).join(",");
    const kit = (who.person.kit || []).join(",") || "none";
    const args = ["swap", card.id, "--kit", kit, "--noise", who.person.noise, "--format", "json", "--library", join(HOUSE, "content")];
    if (limits) args.push("--avoid", limits);
    let said;
    try {
      said = execFileSync(PROGRAM, args, { encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
    } catch (error) {
      said = error.stdout;
    }
    const first = JSON.parse(said).swaps?.[0]?.to ?? null;
    assert.equal(version.kind === "ask" ? null : version.movement, first, `${card.id}: ${args.join(" ")}`);
    asked += 1;
    nothing += first === null;
  }
  t.diagnostic(`${asked} asked, ${nothing} of them with nothing left`);
});

const line = (session, block, item) => sessions.find((one) => one.id === session).blocks[block].items[item];
const nobody = () => ({ person: { kit: null, limits: {}, noise: "loud" }, book: bookOf.empty(), ladders, cards, placing });
const pushUps = (rung, amount, setting = null) => ({ id: "a", day: "2026-11-20", ladder: "push-up", rung, setting, counts: "reps", amount, added_kg: 0, note: "" });

test("the own rung comes from the book, then the latest result, then the middle; below goes down from it", () => {
  const [work, warm] = [line("push-and-pull", 1, 1), line("push-and-pull", 0, 5)];
  assert.equal(warm.below, 2);
  const who = nobody();
  assert.match(own.version(work, who).why[0], /^No result yet: the middle one/);
  assert.equal(own.version(work, who).rung, work.rungs[1].number);
  who.book.results = [pushUps(8, 9)];
  assert.equal(own.version(work, who).rung, 8);
  assert.equal(own.version(work, who).dose, "4 x 6-8");
  assert.equal(own.version(warm, who).rung, 6);
  who.book.results.push({ ...pushUps(4, 9), id: "b", day: "2026-11-24" });
  assert.equal(own.version(work, who).rung, 4);
  who.book.rungs["push-up"] = 1;
  assert.deepEqual([own.version(work, who).rung, own.version(warm, who).rung], [1, 1]);
});

test("a counter of one's own: its height, and the dose predicted there", () => {
  const work = line("push-and-pull", 1, 1);
  const who = nobody();
  who.person.kit = ["counter"];
  who.book.heights = { counter: 90 };
  who.book.results = [pushUps(2, 12, { hands: 90 })];
  const same = own.version(work, who);
  assert.deepEqual([same.setting, same.dose], ["counter 90 cm", "4 x 9-10"]);
  // A rung at 60 cm and a counter of 70: less is asked than by the rung, and so the dose is no smaller.
  who.book.rungs["push-up"] = 4;
  who.book.heights = { counter: 70 };
  who.book.results = [pushUps(4, 9)];
  const higher = own.version(work, who);
  assert.equal(higher.setting, "counter 70 cm");
  assert.match(higher.why.join(" "), /Your counter is 70 cm, where the rung says 60 cm, and asks less/);
  assert.equal(higher.dose, "4 x 10");
  // A chair of 45 asks more than the rung: with a result there is a smaller dose, without one a rung below.
  who.person.kit = ["chair"];
  who.book.heights = { chair: 45 };
  const lower = own.version(work, who);
  assert.equal(lower.setting, "chair 45 cm");
  assert.match(lower.why.join(" "), /asks more/);
  const most = (dose) => Number(/(\d+)$/.exec(dose)[1]);
  assert.ok(most(lower.dose) < 8, lower.dose);
  who.book.results = [];
  const unknown = own.version(work, who);
  assert.ok(unknown.rung < 4, JSON.stringify(unknown));
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
  who.book.rungs.row = 8;
  who.person.kit = ["straps"];
  const lower = own.version(row, who);
  assert.equal(lower.movement, "strap-row");
  assert.equal(lower.rung, 6);
  assert.match(lower.why.join(" "), /Not Bar row.*needs low bar.*The nearest rung below that fits: 6/);
  who.person.kit = ["backpack", "chair"];
  const swapped = own.version(row, who);
  assert.deepEqual([swapped.swapped, swapped.movement], [true, own.firstSwap(cards["bar-row"], who.person).id]);
  who.person.kit = [];
  who.person.limits = Object.fromEntries(traits.map((one) => [one, 1]));
  const none = own.version(row, who);
  assert.equal(none.kind, "ask");
  assert.match(none.why.join(" "), /Ask your coach/);
});

let browser, hall;
after(async () => {
  await browser?.close();
  await hall?.stop();
});

test("in the browser, offline: no bar, a sore wrist, twelve at the counter", async () => {
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
    sessionStorage.setItem("rungbook-limits", JSON.stringify({ cautions: ["sore-wrist"], traits: [], names: ["sore wrist"], asks: ["loaded-wrist-extension:2"] }));
  }, pushUps(2, 12, { hands: 90 }));
  await context.setOffline(true);
  await page.reload();
  await page.waitForSelector("[data-block='1'] .own");
  const text = await page.textContent("[data-block='1'] [data-item='1'] .own");
  assert.match(text, /counter 90 cm/);
  assert.match(text, /4 x 9-10/);
  const versions = await page.$$eval(".own-name", (links) => links.map((link) => /movements\/(.+)\.html/.exec(link.href)[1]));
  assert.equal(versions.length, sessions.find((one) => one.id === "push-and-pull").blocks.flatMap((block) => block.items).length);
  const person = { kit: ["counter", "chair", "band", "backpack"], limits: { "loaded-wrist-extension": 2 }, noise: "loud" };
  for (const id of versions) assert.ok(fits(person, needs(cards[id].needs)), id);
  assert.ok(!/wrist/i.test(page.url()) && !/wrist/i.test(await page.title()));
  // Cues one touch away.
  await page.click("[data-block='1'] [data-item='1'] .own summary");
  await page.waitForSelector("[data-block='1'] .see-say dt");
  // On paper the session is everybody's: nothing of the member.
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.locator(".own:visible, .person:visible, .misfit-why:visible").count(), 0);
  await page.emulateMedia({ media: "screen" });
  // Limits picked away come off at once.
  await page.click(".person button");
  await page.waitForFunction(() => /Your rung is 2/.test(document.querySelector("[data-block='1'] [data-item='1'] .own")?.textContent || ""));
  await context.close();
});
