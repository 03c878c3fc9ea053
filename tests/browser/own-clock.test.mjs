// The clock never orders what the page forbids: the same times, in the words of whom the page is for; what
// is not theirs to do is a rest; somebody else on the page, and the running clock says something else.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { closeHall, HOUSE, openHall } from "./hall.mjs";
import { endByHold, faceWords as shown, withoutAnswers } from "./clocks.mjs";

const script = (name) => createRequire(import.meta.url)(join(HOUSE, `themes/slate/scripts/${name}.js`));
const clock = script("clock");
const own = script("own-clock");
const PAGE = "sessions/push-and-pull.html";
const FORBIDDEN = /push-up|half-kneeling press|farmer carry/i;
let site, browser, hall, blocks;

before(async () => {
  ({ site, hall, browser } = await openHall());
  new Function("rungbookSession", readFileSync(join(site, "cards/sessions/push-and-pull.js"), "utf8"))((session) => {
    blocks = session.blocks;
  });
});
after(() => closeHall({ hall, browser }));

const version = (kind, name, more = {}) => ({
  kind, movement: "x", name, ladder: null, rung: null, setting: "", change: "", brief: "", dose: "8", each: null, cue: "", why: [], ...more,
});

/** Everything that a clock shows or says from its start to its end, moving on where it waits for that. */
function allSaid(plan) {
  let run = clock.begin("x", 0, 0);
  const said = [];
  for (let at = 0, turn = 0; at <= plan.total_s * 1000 + 6000 && turn < 4000; at += 1000, turn += 1) {
    const seen = clock.view(plan, run, at);
    said.push(seen.now, seen.next, clock.said(plan, seen));
    if (plan.by !== "slots" && at > 5000 && turn % 3 === 0) run = clock.next(plan, run, at);
  }
  return said.join(" | ");
}

test("reckoned: what is to be asked about is a rest of the same length, on every block", () => {
  for (const block of blocks) {
    const plan = own.forPerson(block.clock, block.items.map(() => version("ask", "Never this")));
    assert.equal(plan.total_s, block.clock.total_s);
    assert.deepEqual(plan.slots.map(([seconds]) => seconds), block.clock.slots.map(([seconds]) => seconds));
    assert.deepEqual(plan.turns.map(([, rest, line]) => [rest, line]), block.clock.turns.map(([, rest, line]) => [rest, line]));
    assert.ok(plan.slots.every(([, work]) => work === 0));
    const said = allSaid(plan);
    assert.ok(said.includes("Ask your coach: rest"), block.name);
    for (const name of ["Never this", ...names(block)]) assert.ok(!said.includes(name), `${block.name} orders ${name}`);
    assert.equal(own.done(block.items.map(() => version("ask", "Never this"))), "");
  }
});

/** What a block's own clock names. */
const names = ({ clock: { slots, turns } }) => {
  const what = [...slots.filter(([, work]) => work === 1).map(([, , name]) => name), ...turns.map(([name]) => name)];
  return [...new Set(what.map((name) => name.replace(/, [\d:+]+$/, "")))];
};

test("reckoned: a line without a version is a rest too, and one that is not read says so", () => {
  const block = blocks[1];
  assert.ok(!allSaid(own.forPerson(block.clock, [])).includes("Row"));
  const toCoach = allSaid(own.forPerson(block.clock, [], true));
  assert.ok(!toCoach.includes("Row") && toCoach.includes("Nothing fits: rest, you decide") && !toCoach.includes("Ask your coach"), toCoach);
  const said = allSaid(own.unread(block.clock));
  assert.match(said, /Not read on this device: rest, and ask your coach/);
  for (const name of names(block)) assert.ok(!said.includes(name), name);
});

test("reckoned: own words, own counts, and what is held instead of counted", () => {
  assert.equal(own.words(version("fine", "Strap row", { setting: "lean 45 deg" }), "Row, 6"), "Strap row, lean 45 deg, 6");
  assert.equal(own.words(version("changed", "Push-up", { brief: "on fists or handles" }), "Push-up"), "Push-up, on fists or handles: 8");
  const held = version("swap", "Towel row", { each: { per: 3, unit: "s" } });
  assert.equal(own.words(held, "Row, 6"), "Towel row, 18 s");
  assert.equal(own.words(held, "Row, 20+20"), "Towel row, 60+60 s");
  assert.equal(own.done([version("fine", "Squat"), version("ask", "Plank"), version("changed", "Push-up", { brief: "on fists" })]), "As: Squat; Push-up, on fists");
});

test("reckoned: a hold that is longer than its slot lasts as long as the slot; a shorter one keeps its seconds", () => {
  const held = (dose) => version("swap", "Plank", { dose });
  assert.equal(own.words(held("45 s"), "Row", 40), "Plank: as long as the slot lasts");
  assert.equal(own.words(held("40 s"), "Row", 40), "Plank: 40 s");
  assert.equal(own.words(held("30-60 s"), "Row", 40), "Plank: 30-60 s");
  assert.equal(own.words(held("25 s, each side"), "Row", 40), "Plank: as long as the slot lasts, half for each side");
  assert.equal(own.words(held("45 repetitions"), "Row", 40), "Plank: 45 repetitions");
  assert.equal(own.words(held("45 s"), "Row"), "Plank: 45 s");
  const plan = { by: "slots", total_s: 90, slots: [[40, 1, "Row", 0], [20, 0, "Rest", null], [60, 1, "Row", 0]], turns: [], round: 0 };
  const slots = own.forPerson(plan, [held("45 s")]).slots.map(([, , what]) => what);
  assert.deepEqual(slots, ["Plank: as long as the slot lasts", "Rest", "Plank: 45 s"]);
});

test("reckoned: counts that go down stand there as one for a class, where no clock knows whose count it is", () => {
  const turns = [["Row, 6", 15, 0], ["Push-up, 6", 15, 1], ["Row, 5", 15, 0], ["Push-up, 5", 0, 1]];
  const plan = { by: "up", total_s: 360, slots: [], turns, round: 2 };
  assert.deepEqual(own.forClass(plan).turns, [["Row, Push-up: 6 to 5, each at their own pace", 0, null]]);
  assert.equal(own.forClass(plan).total_s, 360);
  // What is not counted down stays as it is.
  const sets = { ...plan, by: "window", turns: [["Row", 90, 0], ["Row", 0, 0]] };
  assert.deepEqual(own.forClass(sets), sets);
});

/** A device whose member has a chair and a towel, and says in this tab what they leave out. */
async function device(run, { situations = ["sore-wrist"], traits = ["loaded-wrist-extension"], kit = ["chair", "towel"], bare = true } = {}) {
  const context = await browser.newContext({ serviceWorkers: "block" });
  const page = await context.newPage();
  if (bare) await withoutAnswers(page);
  await page.goto(`${hall.address}kit-and-limits.html`);
  await page.check('[name="kit-mode"][value="picked"]');
  for (const one of kit) await page.check(`[name="kit"][value="${one}"]`);
  for (const one of situations) await page.check(`[name="caution"][value="${one}"]`);
  for (const one of traits) await page.check(`[name="trait"][value="${one}"]`);
  if (situations.length + traits.length === 0) await page.evaluate(() => document.dispatchEvent(new CustomEvent("rungbook-no-limits")));
  await page.goto(hall.address + PAGE);
  try {
    await run(page, context);
  } finally {
    await context.close();
  }
}

/** Runs a block's clock through all of its turns by Next; all that was shown and said. */
async function throughout(page, block) {
  await page.click(`[data-block="${block}"] .clock-start`);
  await page.waitForSelector("dialog[open] .clock-digits");
  const said = [];
  for (let turn = 0; turn < 60 && await page.isVisible("dialog button:text-is('Next')"); turn += 1) {
    said.push(await shown(page));
    const before = said.at(-1);
    await page.click("dialog button:text-is('Next')");
    if (turn > 12 && (await shown(page)) === before) break;
  }
  if (await page.isVisible("dialog .clock-main-controls button:has(.hold)")) await endByHold(page);
  const note = await page.inputValue("dialog input[name=note]");
  await page.click("dialog button:text-is('Keep nothing')");
  return { said: said.join("\n"), note };
}

/** The names of lines that the page leaves to the coach, and what it orders, of a block. */
const linesOf = (page, block) => page.$$eval(`[data-block="${block}"] [data-item]`, (items) => items.map((item) => ({
  ask: item.querySelector(":scope > .own.ask") !== null,
  name: item.querySelector(":scope > .own .own-name")?.textContent || "",
})));

test("chair, towel, sore wrist: the clock of Push and pull orders nothing that the page forbids", () => device(async (page) => {
  await page.waitForSelector(".own");
  for (const [block, name] of [[1, "Push-up"], [2, "Half-kneeling press"], [3, "Farmer carry"]]) {
    const { said } = await throughout(page, block);
    assert.ok(!said.includes(name) && /Ask your coach: rest/.test(said), `${name}:\n${said}`);
  }
  let asks = 0;
  for (let block = 0; block < blocks.length; block += 1) {
    const lines = await linesOf(page, block);
    const { said, note } = await throughout(page, block);
    assert.match(said, /In your own version/);
    const ordered = lines.filter((line) => !line.ask).map((line) => line.name);
    asks += lines.length - ordered.length;
    if (ordered.length < lines.length) assert.match(said, /Ask your coach: rest/);
    for (const name of names(blocks[block])) {
      if (!ordered.some((own) => own.includes(name))) assert.ok(!said.includes(name), `block ${block} orders ${name}:\n${said}`);
    }
    for (const name of ordered) assert.ok(block === 1 || said.includes(name) || blocks[block].clock.by !== "slots", `${name} is not said`);
    if (ordered.length) assert.ok(ordered.some((name) => note.includes(name)), note);
    else assert.equal(note, "");
  }
  assert.ok(asks > 5, `${asks} to ask about`);
}));

test("the same with all that the library offers: what the page orders is what the clock says", () => device(async (page) => {
  await page.waitForSelector(".own");
  for (let block = 1; block < 5; block += 1) {
    const lines = await linesOf(page, block);
    const { said } = await throughout(page, block);
    const ordered = lines.filter((line) => !line.ask).map((line) => line.name);
    for (const name of names(blocks[block])) {
      if (!ordered.some((own) => own.includes(name))) assert.ok(!said.includes(name), `block ${block} orders ${name}:\n${said}`);
    }
  }
}, { bare: false }));

test("somebody who leaves out everything is ordered nothing at all", () => device(async (page) => {
  await page.evaluate(() => {
    const traits = Object.keys(window.rungbookWords.traits);
    rungbookPerson.keepLimits([], traits, false);
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  await page.waitForSelector(".own.ask");
  for (let block = 0; block < blocks.length; block += 1) {
    const lines = await linesOf(page, block);
    const { said } = await throughout(page, block);
    if (lines.every((line) => line.ask)) assert.ok(!FORBIDDEN.test(said) && /Ask your coach: rest/.test(said), said);
  }
}));

test("a running clock is redrawn when somebody else is in front, and when limits change", () => device(async (page) => {
  await page.waitForSelector(".own");
  const block = 1;
  await page.click(`[data-block="${block}"] .clock-start`);
  await page.waitForSelector("dialog[open] .clock-digits");
  await page.click("dialog button:text-is('Next')");
  const before = await shown(page);
  await page.evaluate(() => {
    rungbookPerson.setFront({ situations: [], traits: Object.keys(window.rungbookWords.traits), lacks: [] });
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  // At once nothing of before stands there; a moment later what is this person's.
  const at = await shown(page);
  assert.notEqual(at, before);
  await page.waitForFunction(() => /For this person/.test(document.querySelector(".clock-whose")?.textContent || ""));
  await page.waitForFunction(() => /Nothing fits: rest, you decide/.test(document.querySelector(".clock-now")?.textContent || ""));
  await page.evaluate(() => {
    rungbookPerson.setFront(null);
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  await page.waitForFunction((words) => document.querySelector(".clock-now")?.textContent === words, before.split(" | ")[1]);
}, { situations: [], traits: [], kit: ["straps", "low-bar", "box"] }));

test("before limits are answered there is no version and no clock in anybody's words", async () => {
  const context = await browser.newContext({ serviceWorkers: "block" });
  const page = await context.newPage();
  await page.goto(hall.address + PAGE);
  await page.evaluate(() => localStorage.setItem("rungbook-kit", JSON.stringify({ mode: "picked", kit: ["chair"], noise: "loud" })));
  await page.reload();
  await page.waitForSelector("[data-limits-asked]");
  assert.equal(await page.locator(".own").count(), 0);
  await page.click("[data-block='1'] .clock-start");
  await page.waitForSelector("[data-clock-asks]");
  assert.equal(await page.locator("dialog[open]").count(), 0);
  await page.click("[data-clock-asks] button:text-is('None')");
  await page.waitForSelector("dialog[open] .clock-digits");
  assert.match(await shown(page), /In your own version/);
  await page.click("dialog button:text-is('Hide')");
  assert.ok(await page.locator(".own").count() > 10);
  await context.close();
});

test("the class's clock is asked for by its name, and says that it is for nobody in particular", async () => {
  const context = await browser.newContext({ serviceWorkers: "block" });
  const page = await context.newPage();
  await page.goto(hall.address + PAGE);
  await page.click("[data-block='1'] .clock-start");
  await page.click("[data-clock-asks] button:text-is(\"Run the class's clock\")");
  await page.waitForSelector("dialog[open] .clock-digits");
  assert.match(await shown(page), /The class's clock, for nobody in particular/);
  await page.reload();
  await page.waitForSelector("dialog[open] .clock-digits");
  assert.match(await shown(page), /for nobody in particular/);
  // Somebody with limits comes: the class's words go.
  await page.evaluate(() => {
    rungbookPerson.keepLimits([], Object.keys(window.rungbookWords.traits), false);
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  await page.waitForFunction(() => !/nobody in particular/.test(document.querySelector(".clock-whose")?.textContent || ""));
  assert.ok(!/Row|Push-up/.test(await shown(page)), await shown(page));
  await context.close();
});

test("where the versions do not come the clock says so, and runs only the class's clock, by its name", () => device(async (page) => {
  await page.waitForSelector(".own");
  await page.route("**/cards/ladders/push-up.js", (route) => route.abort());
  await page.reload();
  await page.waitForFunction(() => /could not be read/.test(document.querySelector("[data-your-version]")?.textContent || ""));
  assert.equal(await page.locator(".own").count(), 0);
  await page.click("[data-block='1'] .clock-start");
  const asks = page.locator("[data-clock-asks]");
  await asks.waitFor();
  assert.match(await asks.textContent(), /cannot say what you do.*nobody in particular/);
  assert.equal(await page.locator("dialog[open]").count(), 0);
  await asks.getByRole("button").click();
  await page.waitForSelector("dialog[open] .clock-digits");
  assert.match(await shown(page), /for nobody in particular/);
}));
