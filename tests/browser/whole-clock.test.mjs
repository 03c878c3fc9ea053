// One clock for a whole session: reckoned over hours of sleeps, reloads, pauses, steps back and added minutes;
// then in the browser, with made time, from Start to the one note at its end, on other pages and in other
// tabs. What it orders has passed the session page's filter: nothing falls back to the words of the library.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { dice } from "./dice.mjs";
import { closeHall, HOUSE, openHall } from "./hall.mjs";
import { endByHold, faceWords, withoutAnswers } from "./clocks.mjs";

const script = (name) => createRequire(import.meta.url)(join(HOUSE, `themes/slate/scripts/${name}.js`));
const clock = (globalThis.rungbookClock = script("clock"));
const own = script("own-clock");
const run = script("run");
let site, browser, hall, session, parts;
const none = () => false;

before(async () => {
  ({ site, hall, browser } = await openHall());
  new Function("rungbookSession", readFileSync(join(site, "cards/sessions/push-and-pull.js"), "utf8"))((found) => (session = found));
  parts = partsOf(session.blocks.map(({ name, clock: plan }) => ({ name, plan })));
});
after(() => closeHall({ hall, browser }));

const partsOf = (blocks) => run.parts(blocks, session.rig_s, 0, blocks.length - 1);
const WANTED = { session: "push-and-pull", week: null, mode: "class", from: 0, to: 5 };
const view = (all, one, own_ms) => run.view(all, one, own_ms, none);
const whole_s = () => parts.reduce((sum, { plan }) => sum + plan.total_s, 0);

test("reckoned: blocks and the changes between them, and the window of sets moves on by itself", () => {
  assert.deepEqual(parts.map(({ rig }) => rig), [false, true, false, true, false, true, false, true, false, true, false]);
  const sets = parts[2].plan;
  assert.equal(sets.by, "slots");
  assert.equal(sets.total_s, 18 * 60);
  assert.equal(sets.slots.reduce((sum, [seconds]) => sum + seconds, 0), 18 * 60);
  // Four sets of two lines, ninety seconds between two of them, and nothing after the last.
  assert.deepEqual(sets.slots.filter(([, work]) => work).map(([, , what]) => what), ["Row", "Push-up", "Row", "Push-up", "Row", "Push-up", "Row", "Push-up"]);
  assert.equal(sets.slots.filter(([seconds, , what]) => seconds === 90 && what === "Rest").length, 7);
  // The timetable of the page and the clock are the same seconds.
  const html = readFileSync(join(site, "today.html"), "utf8");
  assert.ok(html.includes(`data-session="push-and-pull" data-name="Push and pull" data-lasts="${whole_s()}"`));
});

test("reckoned: the end of each part is the start of the next, however late anybody looks", () => {
  for (let seed = 1; seed <= 60; seed += 1) {
    const roll = dice(seed);
    let one = run.begin(WANTED, 1000);
    const start = 1000 + clock.COUNT_IN_MS;
    let at = 1000;
    while (at < start + whole_s() * 1000) {
      at += 1 + roll(roll(5) === 0 ? 900_000 : 4_000);
      one = JSON.parse(JSON.stringify(run.settle(parts, one, at)));
      const passed = at - start;
      let gone = 0;
      const should = parts.findIndex(({ plan }) => passed < (gone += plan.total_s * 1000));
      assert.equal(one.at, should === -1 ? parts.length - 1 : should, `seed ${seed} at ${passed} ms`);
      const seen = view(parts, one, at);
      if (should >= 0 && passed >= 0) assert.ok(Math.abs(seen.left_s - (whole_s() - passed / 1000)) <= 1, `${seen.left_s}`);
    }
    assert.equal(view(parts, one, at).whole, true);
  }
});

test("reckoned: pause, skip, a minute more, a step back, ending and taking it back", () => {
  let one = run.begin(WANTED, 0);
  const s = (seconds) => 5000 + seconds * 1000;
  assert.equal(view(parts, one, 0).digits, "5");
  assert.equal(view(parts, one, s(0)).digits, "0:36");
  // A pause costs the session what it lasts, and nothing else.
  one = run.pause(parts, one, s(10));
  assert.equal(view(parts, one, s(500)).digits, "0:26");
  one = run.goOn(parts, one, s(510));
  assert.equal(view(parts, one, s(520)).digits, "0:16");
  // A minute more for what is on, and for nothing after it.
  const before = view(parts, one, s(520)).left_s;
  one = run.addMinute(parts, one, s(520));
  assert.equal(view(parts, one, s(520)).digits, "1:16");
  assert.equal(view(parts, one, s(520)).left_s, before + 60);
  one = run.next(parts, one, s(520));
  assert.deepEqual([view(parts, one, s(520)).now, view(parts, one, s(520)).digits], ["Change over", "0:05"]);
  one = run.next(parts, one, s(520));
  assert.equal(view(parts, one, s(520)).now, "Cat-camel");
  // Back: to its start when it has run for a while, else to what was before it.
  one = run.back(parts, one, s(530));
  assert.deepEqual([view(parts, one, s(530)).now, view(parts, one, s(530)).digits], ["Cat-camel", "0:25"]);
  one = run.back(parts, one, s(531));
  assert.equal(view(parts, one, s(531)).now, "Change over");
  // The rest of a block is left, and brought back where it was.
  one = run.next(parts, one, s(531));
  one = run.skip(parts, one, s(540));
  assert.deepEqual([view(parts, one, s(540)).rig, view(parts, one, s(540)).digits, view(parts, one, s(540)).next], [true, "1:00", "Row"]);
  one = run.back(parts, one, s(541));
  assert.deepEqual([view(parts, one, s(541)).now, view(parts, one, s(541)).digits], ["Cat-camel", "0:16"]);
  // In a pause too: the change over waits.
  one = run.skip(parts, run.pause(parts, one, s(541)), s(560));
  assert.deepEqual([view(parts, one, s(900)).digits, view(parts, one, s(900)).paused], ["1:00", true]);
  one = run.goOn(parts, one, s(900));
  assert.equal(view(parts, one, s(910)).digits, "0:50");
  const ended = run.end(parts, one, s(910));
  assert.equal(view(parts, ended, s(5000)).whole, true);
  const taken = run.takeBack(parts, ended, s(5000));
  assert.equal(view(parts, taken, s(5010)).digits, "0:40");
});

test("reckoned: which set of how many, and the other side half-way", () => {
  let one = run.begin(WANTED, 0);
  while (view(parts, one, 5000).part < 2) one = run.skip(parts, one, 5000);
  const counts = [];
  while (view(parts, one, 5000).part === 2) {
    const { work, now, count } = view(parts, one, 5000);
    if (work) counts.push(`${now} ${count.word} ${count.n} of ${count.of}`);
    one = run.next(parts, one, 5000);
  }
  assert.deepEqual(counts.slice(0, 3), ["Row Set 1 of 4", "Push-up Set 1 of 4", "Row Set 2 of 4"]);
  assert.equal(counts.at(-1), "Push-up Set 4 of 4");
  const last = parts.length - 1;
  while (view(parts, one, 5000).part < last) one = run.skip(parts, one, 5000);
  const sides = (ms) => run.view(parts, one, ms, () => true);
  const { plan } = parts[last];
  assert.equal(sides(5000).side, "First side");
  assert.equal(sides(5000 + plan.slots[0][0] * 500 + 10).side, "Other side");
  assert.equal(run.signal({ part: last, ms: plan.slots[0][0] * 500 - 100, at: 5000 + plan.slots[0][0] * 500 - 100 }, sides(5000 + plan.slots[0][0] * 500 + 10), 5000 + plan.slots[0][0] * 500 + 10), "change");
});

test("reckoned: a person who is to ask about everything is ordered nothing from first to last", () => {
  const asks = (block) => block.items.map(() => ({ kind: "ask", movement: "x", name: "Never this", why: [], dose: "9", setting: "", brief: "", cue: "Never", each: null }));
  const told = partsOf(session.blocks.map((block) => ({ name: block.name, plan: own.forPerson(block.clock, asks(block)) })));
  const names = new Set(session.blocks.flatMap(({ clock: { slots, turns } }) => [...slots.filter(([, work]) => work === 1).map(([, , what]) => what), ...turns.map(([what]) => what)]));
  let one = run.begin(WANTED, 0);
  let looks = 0;
  for (let at = 0; at < 2 * 3600_000; at += 1000) {
    const seen = view(told, one, at);
    looks += 1;
    assert.equal(seen.work, false, seen.now);
    for (const name of [...names, "Never this"]) assert.ok(seen.now !== name && seen.next !== name, `${seen.now}, then ${seen.next}`);
    if (seen.whole) break;
    if (seen.plan.by !== "slots" && looks % 7 === 0) one = run.next(told, one, at);
  }
  assert.ok(looks > 600, "the session was run to its end");
  for (const block of session.blocks) for (const version of asks(block)) assert.equal(own.line(version), null);
  assert.equal(own.line(undefined), null);
});

/** A device at the time of a class in the cycle's third week. */
async function device(go, { day = "2027-01-19T18:30:00", ...more } = {}) {
  const context = await browser.newContext({ serviceWorkers: "block", viewport: { width: 390, height: 844 }, hasTouch: true, ...more });
  const page = await context.newPage();
  const troubles = [];
  page.on("pageerror", (error) => troubles.push(error.message));
  await page.clock.install({ time: new Date(day) });
  try {
    await go(page, context);
    assert.deepEqual(troubles, []);
  } finally {
    await context.close();
  }
}

const open = async (page) => {
  await page.goto(`${hall.address}today.html`);
  await page.waitForSelector(".today.ready .hour.picked");
};

/** Opens today, starts, and waits for the face. */
async function started(page, which = ".go") {
  await open(page);
  await page.tap(which);
  await page.waitForSelector("dialog[open] .clock-digits:not(:empty)");
}

test("browser: the class of sixty minutes takes two touches, runs from first to last, and is noted once", () => device(async (page) => {
  await started(page);
  await page.clock.runFor(6_000);
  assert.match(await faceWords(page), /nobody in particular \| Step jack/);
  assert.match(await page.textContent(".clock-left"), /58 min left of 60, ends 19:28/);
  const blocks = new Set();
  for (let minute = 0; minute < 62; minute += 1) {
    blocks.add((await page.textContent(".clock-name")).replace("Next block: ", ""));
    await page.clock.fastForward(59_000);
    await page.clock.runFor(1_000);
  }
  assert.deepEqual([...blocks], session.blocks.map(({ name }) => name));
  assert.equal(await page.locator("dialog.over form:visible").count(), 1);
  assert.match(await faceWords(page), /Time\. Session done\./);
  await page.click("dialog button:text-is('Keep it')");
  const done = await page.evaluate(() => JSON.parse(localStorage.getItem("rungbook-book")).done);
  assert.deepEqual(done.map(({ session: of, block, day }) => [of, block, day]), [["push-and-pull", "Whole session", "2027-01-19"]]);
  await page.click("dialog button:text-is('Undo')");
  assert.deepEqual(await page.evaluate(() => JSON.parse(localStorage.getItem("rungbook-book")).done), []);
  await page.click("dialog button:text-is('Close')");
  assert.equal(await page.evaluate(() => localStorage.getItem("rungbook-clock")), null);
  assert.equal(await page.locator(".run-strip").count(), 0);
}));

test("browser: a strip stays on every page, pauses there, and opens the face; a reload keeps it", () => device(async (page, context) => {
  await started(page);
  await page.clock.runFor(6_000);
  await page.click("dialog button:text-is('Hide')");
  for (const name of ["movements/push-up.html", "floor.html", "kit-and-limits.html", "index.html", "book.html", "sessions/push-and-pull.html"]) {
    await page.goto(hall.address + name);
    await page.waitForSelector(".run-strip");
    await page.clock.runFor(300);
    assert.match(await page.textContent(".run-strip"), /0:\d\d.*(Step jack|Change over|Cat-camel|Arm circle|Wall slide|Row|Push-up).*then/, name);
    const box = await page.locator(".run-strip").boundingBox();
    assert.ok(Math.abs(box.y + box.height - 844) < 1 && box.height < 110, `${name}: ${JSON.stringify(box)}`);
  }
  await page.click(".run-strip button:text-is('Pause')");
  const paused = await page.textContent(".run-strip-digits");
  await page.clock.fastForward(90_000);
  await page.reload();
  await page.waitForSelector(".run-strip");
  assert.equal(await page.textContent(".run-strip-digits"), paused);
  // Another tab has it too, and what is done there is done here.
  const other = await context.newPage();
  await other.goto(`${hall.address}ladders/row.html`);
  await other.click(".run-strip button:text-is('Go on')");
  await page.waitForSelector(".run-strip button:text-is('Pause')");
  await page.click(".run-strip-open");
  await page.waitForSelector("dialog[open]");
  await page.reload();
  await page.waitForSelector("dialog[open] .clock-digits:not(:empty)");
  await page.click("dialog button:text-is('Hide')");
  await page.reload();
  await page.waitForSelector(".run-strip");
  assert.equal(await page.locator("dialog[open]").count(), 0);
}));

test("browser: one tap ends nothing; a hold does, and it can be taken back", () => device(async (page) => {
  await started(page);
  await page.clock.runFor(15_000);
  const end = page.locator("dialog .clock-main-controls button:has(.hold)");
  await end.click();
  await page.clock.runFor(2_000);
  assert.equal(await page.locator("dialog.over").count(), 0);
  await end.hover();
  await page.mouse.down();
  await page.clock.runFor(800);
  await page.mouse.up();
  await page.clock.runFor(2_000);
  assert.equal(await page.locator("dialog.over").count(), 0);
  const before = await page.textContent(".clock-digits");
  await endByHold(page, (ms) => page.clock.runFor(ms));
  await page.clock.fastForward(600_000);
  await page.reload();
  await page.waitForSelector("dialog.over");
  await page.click("dialog button:text-is('Take it back')");
  await page.clock.runFor(200);
  const seconds = (digits) => digits.split(":").map(Number).reduce((all, one) => all * 60 + one, 0);
  const now = seconds(await page.textContent(".clock-digits"));
  assert.ok(seconds(before) - now <= 3 && now <= seconds(before), `${before}, then ${now}`);
  // By the keyboard it is held too.
  await end.focus();
  await page.keyboard.press("Enter");
  await page.clock.runFor(100);
  assert.equal(await page.locator("dialog.over").count(), 0);
  await page.keyboard.down("Enter");
  await page.clock.runFor(1_300);
  await page.keyboard.up("Enter");
  await page.waitForSelector("dialog.over");
}));

/** What a member with a chair, a towel and a sore wrist is given, line by line, on the session's page. */
async function ownLines(page) {
  await page.goto(`${hall.address}sessions/push-and-pull.html`);
  await page.waitForSelector("[data-block='5'] [data-item='1'] .own");
  return page.$$eval("[data-block]", (blocks) => blocks.map((block) => [...block.querySelectorAll("[data-item]")].map((item) => ({
    ask: item.querySelector(".own.ask") !== null, name: (item.querySelector(".own-name")?.textContent || "").split(",")[0],
  }))));
}

async function member(page) {
  await page.goto(`${hall.address}kit-and-limits.html`);
  for (const kit of ["chair", "towel"]) await page.check(`[name="kit"][value="${kit}"]`);
  await page.check('[name="caution"][value="sore-wrist"]');
}

test("browser: from first to last the clock says what the session's page orders for this person, and nothing else", () => device(async (page) => {
  await member(page);
  const lines = await ownLines(page);
  await started(page);
  const said = new Set();
  for (let look = 0; look < 400 && (await page.locator("dialog.over").count()) === 0; look += 1) {
    await page.clock.runFor(300);
    const [whose, now, ...rest] = (await faceWords(page)).split(" | ");
    assert.match(whose, /In your own version/);
    said.add(now);
    said.add(rest.join(" | "));
    await page.click("dialog button:text-is('Next')", { timeout: 2000 }).catch(() => {});
  }
  const all = [...said].join("\n");
  const ordered = new Set(lines.flat().filter(({ ask }) => !ask).map(({ name }) => name));
  for (const name of ordered) assert.ok(all.includes(name), `${name} is never said`);
  // The words of the library that are nobody's own here.
  const written = session.blocks.flatMap(({ clock: { slots, turns } }) => [...slots.filter(([, work]) => work).map(([, , what]) => what), ...turns.map(([what]) => what)]);
  for (const name of new Set(written.map((what) => what.replace(/, [\d:+]+$/, "")))) {
    if (![...ordered].some((own_name) => own_name.includes(name))) assert.ok(!said.has(name) && !all.includes(`${name},`), `${name} is ordered`);
  }
}));

test("browser: somebody who leaves out everything is ordered nothing, on the face, in the strip and aloud", () => device(async (page) => {
  // Nothing is changed and nothing stands for anything: what does not fit is asked about.
  await withoutAnswers(page);
  await page.goto(`${hall.address}kit-and-limits.html`);
  await page.evaluate(() => {
    rungbookPerson.keepLimits([], Object.keys(window.rungbookWords.traits), false);
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  const lines = await ownLines(page);
  const ordered = lines.flat().filter(({ ask }) => !ask).map(({ name }) => name);
  const named = (item) => [item.movement?.text, ...item.rungs.map((rung) => rung.movement.text), ...item.options.flatMap(named)].filter(Boolean);
  const asked = session.blocks.flatMap((block, at) => block.items.flatMap((item, line) => (lines[at][line].ask ? named(item) : [])));
  const forbidden = [...new Set(asked)].filter((name) => !ordered.some((one) => one.includes(name)));
  assert.ok(forbidden.length > 8, `${forbidden}`);
  await open(page);
  await page.waitForFunction(() => !/…|Say your/.test(document.querySelector(".hour.picked")?.textContent || ""));
  const shown = (await page.$$eval(".hour.picked [data-line]", (all) => all.map((one) => one.textContent))).join("\n");
  for (const name of forbidden) assert.ok(!shown.includes(name), shown);
  const pictures = (await page.$$eval(".hour.picked .pics img:not(.away)", (all) => all.map((one) => one.getAttribute("src")))).join();
  for (const name of forbidden) assert.ok(!pictures.includes(`${name.toLowerCase().replaceAll(" ", "-")}.svg`), pictures);
  await started(page);
  let asks = 0;
  for (let look = 0; look < 400 && (await page.locator("dialog.over").count()) === 0; look += 1) {
    await page.clock.runFor(300);
    const words = `${await faceWords(page)} | ${await page.textContent(".run-strip")}`;
    for (const name of forbidden) assert.ok(!words.includes(name), words);
    asks += words.includes("Ask your coach: rest") ? 1 : 0;
    const image = await page.getAttribute(".clock-figure img", "src");
    if (/Ask your coach/.test(words.split(" | ")[1])) assert.ok(!forbidden.some((name) => image?.includes(name.toLowerCase().replaceAll(" ", "-"))), image);
    await page.click("dialog button:text-is('Next')", { timeout: 2000 }).catch(() => {});
  }
  assert.ok(asks > 3, `${asks}`);
}));

test("browser: who comes before the coach is never shown the class's words, and the timetable asks first", () => device(async (page) => {
  await started(page);
  await page.clock.runFor(6_000);
  await page.evaluate(() => {
    rungbookPerson.setFront({ situations: [], traits: Object.keys(window.rungbookWords.traits), lacks: [] });
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  assert.doesNotMatch(await faceWords(page), /Step jack|nobody in particular/);
  await page.waitForFunction(() => /For this person/.test(document.querySelector(".clock-whose")?.textContent || ""));
  await page.evaluate(() => {
    rungbookPerson.setFront(null);
    document.dispatchEvent(new CustomEvent("rungbook-who"));
  });
  await page.waitForFunction(() => /nobody in particular/.test(document.querySelector(".clock-whose")?.textContent || ""));
  // Kit alone says nothing of limits: own lines wait for an answer, and Start asks for it.
  await page.evaluate(() => {
    localStorage.clear();
    localStorage.setItem("rungbook-kit", JSON.stringify({ mode: "picked", kit: ["chair"], noise: "loud" }));
  });
  await open(page);
  const lines = await page.$$eval(".hour.picked [data-line]", (all) => all.map((one) => one.textContent));
  assert.ok(lines.every((line) => /Say your limits first/.test(line)), lines.join());
  await page.tap(".go");
  await page.waitForSelector("[data-clock-asks]");
  assert.equal(await page.locator("dialog[open]").count(), 0);
  await page.tap("[data-clock-asks] button:text-is('None')");
  await page.waitForSelector("dialog[open] .clock-digits:not(:empty)");
  assert.match(await faceWords(page), /In your own version/);
}));

test("browser: a test's count becomes a result of the rung that was ordered", () => device(async (page) => {
  await page.goto(`${hall.address}kit-and-limits.html`);
  await page.click('[data-act="none"]');
  await page.goto(hall.address);
  await page.evaluate(() => localStorage.setItem("rungbook-book", JSON.stringify({ schema: "rungbook-book-1", stature_cm: null, body_mass_kg: null, heights: {}, rungs: {}, results: [], done: [], notes: [] })));
  await started(page);
  assert.match(await page.textContent(".today h1"), /Test day/);
  await page.clock.runFor(1_000);
  await endByHold(page, (ms) => page.clock.runFor(ms));
  const label = page.locator("dialog form label", { hasText: /push-up.*repetitions/i });
  await label.locator("input").fill("12");
  await page.click("dialog button:text-is('Keep it')");
  await page.waitForSelector("dialog button:text-is('Undo')");
  const book = await page.evaluate(() => JSON.parse(localStorage.getItem("rungbook-book")));
  assert.equal(book.results.length, 1);
  const [{ ladder, rung, counts, amount, day, movement }] = book.results;
  assert.deepEqual([ladder, counts, amount, day], ["push-up", "reps", 12, "2027-01-05"]);
  assert.ok(rung >= 1 && /push-up/.test(movement), `${rung} ${movement}`);
  assert.equal(book.done.length, 1);
}, { day: "2027-01-05T18:30:00" }));

for (const when of ["while they are", "nor once they are cleared"]) {
  test(`browser: what the person in front did is never written into the member's book, ${when}`, () => device(async (page) => {
    await page.goto(hall.address);
    await page.evaluate(() => rungbookPerson.setFront({ situations: [], traits: ["impact"], lacks: [] }));
    await started(page);
    await page.clock.runFor(6_000);
    await endByHold(page, (ms) => page.clock.runFor(ms));
    if (when !== "while they are") await page.evaluate(() => { rungbookPerson.setFront(null); document.dispatchEvent(new CustomEvent("rungbook-who")); });
    await page.clock.runFor(2_000);
    await page.click("dialog button:text-is('Keep it')");
    assert.match(await page.locator("dialog form .flag").textContent(), /Not kept: this was for the person in front/);
    assert.equal(await page.evaluate(() => localStorage.getItem("rungbook-book")), null);
  }));
}
