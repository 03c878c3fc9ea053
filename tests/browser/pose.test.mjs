// The page of a pose: a new movement gets its pose by sliders and by drawing along, its traits are confirmed
// and written, and the check is clean; a page of another site writes nothing. Never by a path of our own:
// the real preview, its own page, a real file.
import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { cpSync, readFileSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { HOUSE, openBrowser, ownFolder } from "./hall.mjs";

const PROGRAM = process.env.RUNGBOOK || join(HOUSE, "target/debug/rungbook");
const library = join(ownFolder(), "content");
const FILE = join(library, "movements/brace/long-reach.md");
let browser, context, page, program, list;
const faults = [];

const run = (...words) => execFileSync(PROGRAM, [...words, "--library", library], { encoding: "utf8", stdio: ["ignore", "pipe", "pipe"] });
/** What a check says, fine or not. */
const check = (...words) => {
  try {
    return run("check", ...words);
  } catch (error) {
    return `${error.stdout}${error.stderr}`;
  }
};
const text = () => readFileSync(FILE, "utf8");
const still = () => page.waitForFunction(() => !document.body.hasAttribute("data-asking"));
const said = () => page.textContent("#said");

before(async () => {
  cpSync(join(HOUSE, "content"), library, { recursive: true });
  run("add", "movement", "Long reach", "--like", "bird-dog");
  program = spawn(PROGRAM, ["preview", "--port", "0", "--open", "no", "--library", library], { stdio: ["ignore", "pipe", "ignore"] });
  let words = "";
  for await (const part of program.stdout) {
    words += part;
    if (/poses.*\n/.test(words)) break;
  }
  list = /http:\/\/127\.0\.0\.1:\d+\/pose\/[0-9a-f]{32}\//.exec(words)[0];
  program.stdout.resume();
  browser = await openBrowser();
  context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  page = await context.newPage();
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (one) => one.type() === "error" && !/favicon|404|409/.test(one.text()) && faults.push(one.text()));
});
after(async () => {
  program?.kill();
  await browser?.close();
});

/** Slides a number to a value as a hand does: in steps, the last of which counts. */
const slide = async (label, value) => {
  await page.locator(`[data-pose] input[type=range][aria-label="${label}"]`).last().evaluate((input, to) => {
    input.value = String(to);
    input.dispatchEvent(new Event("input", { bubbles: true }));
  }, value);
  await still();
};

/** Draws a part of the last key pose along. */
const draw = async (part, right, down) => {
  const handle = page.locator(`[data-pose=end] [data-handle="${part}"]`);
  await handle.scrollIntoViewIfNeeded();
  const box = await handle.boundingBox();
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + right / 2, y + down / 2, { steps: 3 });
  await page.mouse.move(x + right, y + down, { steps: 3 });
  await page.mouse.up();
  await still();
};

test("a new movement is posed by sliders and by drawing along, its traits confirmed and written, and the check is clean", async () => {
  // The words of the entry, which no pose knows: written by hand before.
  const words = text()
    .replace('standard: "..."', "standard: Hand and heel reach level with the trunk and stay three counts; the back does not move.")
    .replace('caution: "..."', "caution: Fists or forearms for sore wrists, a pad for the knees.\nfaults: [{fault: back-arches, cause: Leg lifted too high, say: Heel to the wall behind, then: stop}]\nbeside: [{to: bird-dog, because: the reach is too long}]")
    .replace('- {say: "..."}', "- {say: Reach long, when: reaching}")
    .replaceAll("\n...\n", "\nOn all fours, hands below the shoulders, knees below the hips. Reach, hold, return, change sides.\n");
  writeFileSync(FILE, words);
  await page.goto(list);
  await page.click('a[data-id="long-reach"]');
  await still();
  assert.equal(await page.textContent("#name"), "Long reach");
  assert.equal(await page.isVisible("#begin"), true);
  await page.selectOption("#like", "bird-dog");
  await page.click("#begin-now");
  await page.waitForSelector("[data-pose=end] svg");
  const was = await page.innerHTML("[data-pose=end] .drawn");
  await slide("upper-arm, near side", -104);
  assert.notEqual(await page.innerHTML("[data-pose=end] .drawn"), was);
  assert.match(await page.textContent("#text"), /upper-arm: -104/);
  // Drawn up past where the hip goes: it says so, and is drawn as near as it comes.
  await draw("far knee", 0, -30);
  assert.match(await said(), /^hip: -?\d+$/);
  const drawn = Number(/hip: (-?\d+)/.exec(await said())[1]);
  assert.ok(drawn < -4, `drawn up: ${drawn}`);
  assert.match(await page.textContent("#text"), new RegExp(`far: \\{hip: ${drawn},`));
  // Turned, it is not another pose.
  const before = await page.textContent("#text");
  await page.selectOption("#view", "front corner");
  await still();
  assert.equal(await page.textContent("#text"), before);
  await page.selectOption("#view", "side");
  await still();
  // Back to what can be done, by the slider.
  await slide("hip, far side", -4);
  assert.equal(await page.locator("[data-pose] .wrong li").count(), 0);
  assert.equal(text(), words, "nothing is written before it is pressed for");
  const offered = await page.locator("#traits li[data-trait]").count();
  assert.ok(offered >= 4, `${offered} traits`);
  for (let left = offered; left > 0; left -= 1) {
    await page.locator("#traits button").first().click();
    await still();
    await page.waitForFunction((n) => document.querySelectorAll("#traits li[data-trait]").length < n, left);
  }
  await page.click("#write");
  await page.waitForFunction(() => document.getElementById("said").textContent.startsWith("Written"));
  // Every line of before stands as it was; what is new stands behind them.
  const now = text();
  for (const line of words.split("\n")) assert.ok(now.includes(line), line);
  assert.match(now, /\ntraits: \{[^}]*loaded-wrist-extension: 2/);
  const checked = check("movements/brace/long-reach.md", "--quiet");
  assert.doesNotMatch(checked, /error|warning/, checked);
  assert.deepEqual(faults, []);
});

test("a write is undone, a file that changed meanwhile is not written, and the page says so", async () => {
  await page.goto(list);
  await page.click('a[data-id="long-reach"]');
  await page.waitForSelector("[data-pose=end] svg");
  await still();
  const was = text();
  await slide("upper-arm, near side", -96);
  await page.click("#write");
  await page.waitForFunction(() => document.getElementById("said").textContent.startsWith("Written"));
  assert.equal(text(), was.replace("upper-arm: -104", "upper-arm: -96"));
  await page.click("#undo");
  await page.waitForFunction(() => document.getElementById("said").textContent.includes("undone"));
  assert.equal(text(), was);
  await slide("upper-arm, near side", -98);
  const other = was.replace("Reach long", "Reach longer");
  writeFileSync(FILE, other);
  await page.click("#write");
  await page.waitForFunction(() => document.getElementById("said").textContent.includes("nothing was written"));
  assert.equal(text(), other);
  await page.click("#again");
  await page.waitForFunction(() => document.getElementById("said").textContent.startsWith("Read again"));
  assert.doesNotMatch(await page.textContent("#text"), /-98/);
});

test("by keys alone a number is slid, a word is added and taken out", async () => {
  await page.goto(list);
  await page.click('a[data-id="long-reach"]');
  await page.waitForSelector("[data-pose=end] svg");
  await still();
  const slider = page.locator('[data-pose=end] input[aria-label="upper-arm, near side"]');
  await slider.focus();
  for (let press = 0; press < 3; press += 1) await page.keyboard.press("ArrowRight");
  await still();
  await page.waitForFunction(() => /upper-arm: -101/.test(document.getElementById("text").textContent));
  assert.equal(await slider.evaluate((one) => one === document.activeElement), true);
  await page.locator("[data-pose=end] .add select").first().selectOption("neck");
  await page.locator("[data-pose=end] .add button").focus();
  await page.keyboard.press("Enter");
  await page.waitForSelector('[data-pose=end] button[aria-label="Take out neck"]');
  await page.locator('[data-pose=end] button[aria-label="Take out neck"]').focus();
  await page.keyboard.press("Enter");
  await page.waitForFunction(() => !/neck/.test(document.getElementById("text").textContent));
});

test("a page of another site writes nothing and reads no address, though it knows one", async () => {
  const was = text();
  await page.goto(list);
  const address = await page.locator('a[data-id="long-reach"]').evaluate((link) => link.href);
  const body = JSON.stringify({ print: "", edits: [{ what: "word", pose: "end", side: "near", word: "upper-arm", value: "-90" }], view: null, stature: 172, drag: null });
  const hostile = createServer((asked, answer) => {
    answer.setHeader("Content-Type", "text/html");
    answer.end("<!doctype html><title>Other</title><iframe name=\"there\"></iframe>");
  });
  await new Promise((open) => hostile.listen(0, "127.0.0.1", open));
  try {
    const other = await context.newPage();
    await other.goto(`http://127.0.0.1:${hostile.address().port}/`);
    const outcome = await other.evaluate(async ({ address, list, body }) => {
      const found = [];
      const tries = [
        ["json", { method: "POST", headers: { "Content-Type": "application/json" }, body }],
        ["plain", { method: "POST", headers: { "Content-Type": "text/plain" }, body }],
        ["silent", { method: "POST", mode: "no-cors", body }],
      ];
      for (const [name, how] of tries) {
        found.push(await fetch(`${address}write`, how).then((one) => `${name} ${one.type} ${one.status}`, () => `${name} refused`));
      }
      for (const to of [list, address, new URL("/", list).href, new URL("/preview/events", list).href]) {
        found.push(await fetch(to).then(async (one) => `read ${(await one.text()).slice(0, 40)}`, () => "unread"));
      }
      const form = document.createElement("form");
      Object.assign(form, { action: `${address}write`, method: "post", enctype: "text/plain", target: "there" });
      const field = document.createElement("input");
      field.name = body.slice(0, -1);
      field.value = "}";
      form.append(field);
      document.body.append(form);
      form.submit();
      const frame = document.createElement("iframe");
      frame.src = address;
      document.body.append(frame);
      await new Promise((done) => setTimeout(done, 500));
      let inside = "closed";
      try { inside = frame.contentDocument ? frame.contentDocument.body.textContent : "closed"; } catch { /* as it should be */ }
      found.push(`frame ${inside}`, String(localStorage.getItem("rungbook poses")));
      return found;
    }, { address, list, body });
    assert.deepEqual(outcome.slice(0, 2), ["json refused", "plain refused"]);
    assert.match(outcome[2], /silent (refused|opaque 0)/);
    assert.deepEqual(outcome.slice(3), ["unread", "unread", "unread", "unread", "frame closed", "null"]);
    assert.equal(text(), was);
    await other.close();
  } finally {
    hostile.close();
  }
});

test("the page fits a phone, a tablet and a desk, light and dark, and nothing in it is too small to press", async () => {
  for (const scheme of ["light", "dark"]) {
    for (const width of [390, 820, 1280]) {
      const there = await browser.newContext({ viewport: { width, height: 844 }, colorScheme: scheme });
      const own = await there.newPage();
      await own.goto(list);
      await own.click('a[data-id="long-reach"]');
      await own.waitForSelector("[data-pose=end] svg");
      const found = await own.evaluate(() => ({
        wide: document.documentElement.scrollWidth - innerWidth,
        small: [...document.querySelectorAll("button, select, input[type=range], input[type=text], summary")].filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < 43).map((one) => one.outerHTML.slice(0, 80)),
      }));
      assert.ok(found.wide <= 0, `${width}: ${found.wide} px too wide`);
      assert.deepEqual(found.small, [], `${width}`);
      await there.close();
    }
  }
});
