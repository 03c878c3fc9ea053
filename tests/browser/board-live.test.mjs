// A board that is served, in the browser: a touch deals it out anew, only those who must change do, and when
// the program is gone the page goes on alone and says so. Then its clock, with made time, from disk.
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { HOUSE, openBrowser, ownFolder } from "./hall.mjs";

const PROGRAM = process.env.RUNGBOOK || join(HOUSE, "target/debug/rungbook");
const ASKED = ["board", "push-and-pull", "--roster", join(HOUSE, "tests/board/roster.yaml"), "--today", "2026-11-30", "--library", join(HOUSE, "content")];
const folder = ownFolder();
let browser, page, asked, faults, programs = [];

before(async () => {
  browser = await openBrowser();
});
after(async () => {
  for (const one of programs) one.kill();
  await browser.close();
});

async function served(...more) {
  const program = spawn(PROGRAM, [...ASKED, "--live", ...more], { stdio: ["ignore", "pipe", "ignore"] });
  programs.push(program);
  let words = "";
  for await (const part of program.stdout) {
    words += part;
    if (words.includes("Ctrl-C")) break;
  }
  return { program, address: /http:\/\/127\.0\.0\.1:\d+\/[0-9a-f]{32}\//.exec(words)[0] };
}

async function open(address, more = {}) {
  const context = await browser.newContext({ viewport: { width: 1180, height: 820 }, ...more });
  page = await context.newPage();
  asked = [];
  faults = [];
  page.on("request", (one) => asked.push(`${one.method()} ${one.url()}`));
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (said) => said.type() === "error" && !/favicon|404/.test(said.text()) && faults.push(said.text()));
}

const doing = () =>
  page.$$eval(".doing .who li", (all) =>
    Object.fromEntries(
      all.map((li) => {
        const card = li.closest(".card");
        return [`${li.textContent} ${li.closest(".doing").dataset.line}`, `${card.querySelector(".what").textContent}: ${li.closest(".much").querySelector(".dose").textContent}`];
      }),
    ),
  );
const changed = (was, now) => Object.keys({ ...was, ...now }).filter((key) => was[key] !== now[key]);
const who = (keys) => [...new Set(keys.map((key) => key.split(" ")[0]))];
const press = async (name, words) => {
  await page.click(`#strip button:has-text("${name}")`);
  await page.click(`#choices button:has-text("${words}")`);
  await page.waitForFunction(() => !document.querySelector("#strip[aria-busy]"));
};
const said = () => page.textContent("#said");

test("a touch deals out anew, names who changes, can be taken back, and stays when the page is read again", async () => {
  const { address } = await served("--away", "siskin");
  await open(address);
  await page.goto(address);
  const was = await doing();
  await press("Something broke", "straps:");
  await press("Something broke", "straps:");
  const broke = await doing();
  assert.match(await page.textContent("#hall"), /2 × straps/);
  const names = who(changed(was, broke));
  for (const name of names) assert.match(await page.textContent("body"), new RegExp(name));
  for (const key of changed(was, broke)) assert.match(was[key], /Strap row|Suspended/, `${key}: ${was[key]}`);
  await press("siskin", "is here");
  assert.match(await said(), /^siskin is here\. New for siskin\. .*obody else changes\.$/);
  const lines = await page.$$eval(".doing", (all) => all.length);
  const here = await doing();
  assert.equal(Object.keys(here).filter((key) => key.startsWith("siskin ")).length, lines);
  await page.reload();
  await page.waitForFunction(() => document.querySelector('[data-line] [data-who]') && !document.getElementById("undo").hidden);
  assert.deepEqual(await doing(), here);
  await page.click("#undo");
  await page.waitForFunction(() => document.getElementById("said").textContent === "Taken back.");
  assert.deepEqual(await doing(), broke);
  // Only its own address, and nothing but looks and touches.
  for (const one of asked) assert.ok(one.includes(address) || one.endsWith("/favicon.ico"), one);
  assert.deepEqual(faults, []);
});

test("what comes late from the address closes no menu and takes nothing back", async () => {
  const { address } = await served();
  await open(address);
  let release;
  const gate = new Promise((done) => (release = done));
  await page.route("**/now", async (route) => {
    const response = await route.fetch();
    await gate;
    await route.fulfill({ response });
  });
  await page.goto(address);
  await press("dunnock", "has gone");
  await page.click('#strip button:has-text("wren")');
  const late = page.waitForResponse("**/now");
  release();
  await late;
  await page.waitForTimeout(200);
  assert.equal(await page.isVisible('#choices button:has-text("wren has gone")'), true);
  assert.ok(!who(Object.keys(await doing())).includes("dunnock"));
  await page.click('#choices button:has-text("wren has gone")');
  await page.waitForFunction(() => document.getElementById("said").textContent.startsWith("wren has gone."));
  assert.ok(!who(Object.keys(await doing())).includes("dunnock"));
  assert.deepEqual(faults, []);
});

test("on the coach's copy who is sore changes alone, the reason is in the coach's list and never in what is said", async () => {
  const { address } = await served("--why");
  await open(address);
  await page.goto(address);
  const was = await doing();
  const why = () => page.textContent(".why");
  const before = await why();
  await press("goldcrest", "Painful shoulder");
  assert.deepEqual(who(changed(was, await doing())), ["goldcrest"]);
  assert.match(await said(), /goldcrest told the coach what hurts\. New for goldcrest\. Nobody else changes\./);
  assert.doesNotMatch(await said(), /shoulder/i);
  assert.notEqual(await why(), before);
  assert.deepEqual(faults, []);
});

test("when the program is gone the page goes on alone, says so, and asks it no more", async () => {
  const { address, program } = await served("--why");
  await open(address);
  await page.goto(address);
  await press("dunnock", "has gone");
  assert.doesNotMatch(await said(), /table/);
  // What situations leave has come after the board.
  await page.waitForTimeout(0);
  await page.waitForLoadState("networkidle");
  program.kill();
  await new Promise((done) => program.once("exit", done));
  const was = await doing();
  await press("goldcrest", "Painful shoulder");
  const now = await doing();
  assert.deepEqual(who(changed(was, now)), ["goldcrest"]);
  for (const key of changed(was, now)) assert.doesNotMatch(now[key], /^Ask your coach/);
  assert.match(await said(), /The next best from a table made before class, not dealt out anew\./);
  assert.match(await page.textContent("#how"), /is gone/);
  const count = asked.length;
  await press("wren", "has gone");
  assert.equal(asked.length, count);
  assert.ok(!who(Object.keys(await doing())).includes("wren"));
  // Both touches of its own can be taken back; what the program did cannot.
  await page.click("#undo");
  await page.click("#undo");
  assert.deepEqual(await doing(), was);
  assert.equal(await page.isVisible("#undo"), false);
});

test("whom something hurts asks the coach also after going, coming and the program's end", async () => {
  const { address, program } = await served();
  await open(address);
  await page.goto(address);
  await press("wren", "Something hurts");
  program.kill();
  await new Promise((done) => program.once("exit", done));
  await press("wren", "has gone");
  await press("wren", "is here");
  const its = Object.entries(await doing()).filter(([key]) => key.startsWith("wren "));
  assert.ok(its.length > 5);
  for (const [key, words] of its) assert.equal(words, "Ask your coach: ", key);
});

test("the clock runs the whole class from disk: what is on, what is next, pause, skip and the end", async () => {
  const file = join(folder, "board.html");
  execFileSync(PROGRAM, [...ASKED, "--out", file], { stdio: "pipe" });
  await open(null, { offline: true });
  await page.clock.install({ time: new Date("2026-11-30T18:00:00") });
  await page.goto(pathToFileURL(file).href);
  const of = (name) => page.$eval(`#clock ${name}`, (one) => (one.hidden ? "" : one.textContent));
  const table = await page.evaluate(() => JSON.parse(document.getElementById("table").textContent).clock);
  await page.click('#clock button:has-text("Start the clock")');
  assert.equal(await of(".digits"), "5 s");
  // Who begins where is shown before they begin, with everybody's half beside their name.
  assert.equal(await page.locator(".who li.now").count(), 14);
  const halves = await page.$$eval('[data-line="0-0"] .who li', (all) => Object.fromEntries(all.map((li) => [li.textContent, li.dataset.group])));
  assert.deepEqual([halves.dunnock, halves.linnet, halves.finch], ["A", "B", "\u2302"]);
  assert.match(await of(".next"), /^Next: /);
  await page.clock.runFor(5_200);
  assert.match(await of(".block-now"), new RegExp(table.blocks[0][0]));
  assert.equal(await page.$$eval(".block.on", (all) => all.map((one) => one.id).join()), "block-1");
  // In halves each name stands out where its half is now, and nowhere else: at home with the first.
  assert.match(await of(".now"), /^A: Step jack, B: Wall slide/);
  const marked = await page.$$eval(".who li.now", (all) => all.map((li) => `${li.textContent} ${li.closest(".doing").dataset.line}`));
  const groups = await page.$$eval("#block-1 .groups span", (all) => all.map((one) => one.textContent.split(", ")));
  const lineOf = (name) => marked.filter((one) => one.startsWith(`${name} `)).map((one) => one.split(" ")[1]);
  for (const name of groups[0]) assert.deepEqual(lineOf(name), ["0-0"], name);
  for (const name of groups[1]) assert.deepEqual(lineOf(name), ["0-3"], name);
  assert.deepEqual(lineOf("finch"), ["0-0"]);
  assert.equal(marked.length, 14);
  await page.click('#clock button:has-text("Pause")');
  const digits = await of(".digits");
  await page.clock.runFor(60_000);
  assert.equal(await of(".digits"), digits);
  await page.click('#clock button:has-text("Go on")');
  await page.clock.runFor(3_000);
  assert.notEqual(await of(".digits"), digits);
  // From block to block; where groups go round, the clock says who is where.
  const seen = [];
  for (let block = 1; block < table.blocks.length; block += 1) {
    await page.click('#clock button:has-text("Skip block")');
    assert.equal(await of(".block-now"), `Next block: ${table.blocks[block][0]}`);
    await page.click('#clock button:has-text("Next")');
    assert.equal(await of(".block-now"), table.blocks[block][0]);
    assert.equal(await page.$$eval(".block.on", (all) => all.map((one) => one.id).join()), `block-${block + 1}`);
    seen.push(await of(".now"));
    const top = await page.$eval(`#block-${block + 1} h2`, (one) => one.getBoundingClientRect().top);
    const bar = await page.$eval("#top", (one) => one.getBoundingClientRect().bottom);
    assert.ok(top > bar - 4 && top < 820, `block ${block + 1} stands at ${top}, below ${bar}`);
  }
  assert.ok(seen.some((words) => /\bA: .*, B: /.test(words)), seen.join("\n"));
  // A page that is read again in the middle goes on.
  const before = await of(".block-now");
  await page.reload();
  assert.equal(await of(".block-now"), before);
  await page.click('#clock button:has-text("Skip block")');
  assert.equal(await of(".now"), "Done");
  assert.equal(await page.$$eval(".block.on", (all) => all.length), 0);
  assert.equal(asked.filter((one) => !one.includes("board.html")).length, 0, asked.join("\n"));
  assert.deepEqual(faults, []);
});

test("left alone, the clock comes to its end when the blocks and the changes between them are over", async () => {
  await open(null, { offline: true });
  await page.clock.install({ time: new Date("2026-11-30T18:00:00") });
  await page.goto(pathToFileURL(join(folder, "board.html")).href);
  const { blocks, rig_s } = await page.evaluate(() => JSON.parse(document.getElementById("table").textContent).clock);
  const counted = blocks.some(([, plan]) => plan.by !== "slots" && plan.sets_s.length === 0);
  assert.equal(counted, false);
  await page.click('#clock button:has-text("Start the clock")');
  const whole = blocks.reduce((sum, [, plan]) => sum + plan.total_s, 0) + rig_s * (blocks.length - 1);
  await page.clock.fastForward((5 + whole - 20) * 1000);
  await page.clock.runFor(400);
  assert.equal(await page.$$eval(".block.on", (all) => all.map((one) => one.id).join()), `block-${blocks.length}`);
  await page.clock.runFor(25_000);
  assert.equal(await page.textContent("#clock .now"), "Done");
});
