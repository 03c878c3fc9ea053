// A member's evening, by hand and without a signal: no bar, a sore wrist, twelve at the kitchen counter.
// Everything is typed and touched as a person would; nothing is put into the device's storage from here.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { HOUSE, builtSite, openBrowser, serve } from "./hall.mjs";

const PROGRAM = process.env.RUNGBOOK || join(HOUSE, "target/debug/rungbook");
const KIT = ["counter", "chair", "towel", "backpack"];
let site, hall, browser, context, page;

before(async () => {
  site = builtSite();
  hall = await serve(site);
  browser = await openBrowser();
  context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true });
  page = await context.newPage();
  await page.goto(hall.address);
  await page.evaluate(() => navigator.serviceWorker.ready.then(() => undefined));
  await context.setOffline(true);
});
after(async () => {
  await context?.close();
  await browser?.close();
  await hall?.stop();
});

/** What the command says, also where it ends with something to ask the coach about. */
function toldAnyway(words) {
  try {
    return told(words);
  } catch (error) {
    return error.stdout;
  }
}
const told = (words) => execFileSync(PROGRAM, [...words, "--library", join(HOUSE, "content")], { encoding: "utf8" });

test("at home: kit and a sore wrist are picked", async () => {
  await page.goto(`${hall.address}home.html`);
  await page.click('main a.button[href*="kit-and-limits"]');
  await page.check('[name="kit-mode"][value="picked"]');
  for (const kit of KIT) await page.check(`[name="kit"][value="${kit}"]`);
  await page.check('[name="caution"][value="sore-wrist"]');
});

test("my book: the counter's height and the result, with the answer of the command", async () => {
  await page.goto(`${hall.address}book.html`);
  await page.fill('[name="height-counter"]', "92");
  await page.fill('[name="stature"]', "168");
  await page.click("[data-adding] > summary");
  await page.selectOption('[data-form="result"] [name="ladder"]', "push-up");
  await page.selectOption('[data-form="result"] [name="rung"]', "2");
  await page.fill('[data-form="result"] [name="own"]', "92");
  await page.fill('[data-form="result"] [name="amount"]', "12");
  await page.click('[data-form="result"] [type="submit"]');
  await page.waitForFunction(() => /today/.test(document.querySelector("[data-results]")?.textContent || ""));
  const said = await page.textContent("[data-results]");
  const [today, own] = told(["place", "push-up", "--rung", "2", "--set", "hands=92cm", "--reps", "12", "--stature", "168 cm"]).split("\n");
  assert.ok(said.includes(today), `${today}\nis not in\n${said}`);
  assert.ok(said.includes(own), `${own}\nis not in\n${said}`);
});

test("this week's session, from the cycle's page: every line is hers, with its reason", async () => {
  await page.goto(`${hall.address}sessions/index.html`);
  await page.click('main a[href$="cycles/six-weeks-push-and-pull.html"]');
  await page.waitForURL(/cycles/);
  await page.locator('main a[href$="sessions/push-and-pull.html"]').first().click();
  await page.waitForURL(/push-and-pull/);
  await page.waitForSelector(".own");
  const lines = await page.$$eval("[data-block] [data-item]", (items) => items.map((item) => ({
    ladder: item.querySelector(".what a")?.getAttribute("href") || "",
    own: item.querySelector(".own")?.textContent?.replace(/\s+/g, " ").trim() || "",
    to: item.querySelector(".own-name")?.getAttribute("href")?.replace(/^.*movements\/|\.html.*$/g, "") || "",
  })));
  assert.ok(lines.length > 10 && lines.every((line) => line.own !== ""), JSON.stringify(lines));
  // Line by line the page and the command say the same: movement, dose and kind.
  const said = JSON.parse(toldAnyway(["own", "push-and-pull", "--kit", KIT.join(","), "--avoid", "sore-wrist", "--height", "counter=92cm",
    "--stature", "168 cm", "--result", "push-up rung 2 12 reps hands 92 cm", "--format", "json"]));
  const expected = said.flatMap((block) => block.lines);
  assert.deepEqual(lines.map((line) => line.to), expected.map((line) => (line.kind === "ask" ? "" : line.movement)));
  expected.forEach((line, at) => assert.ok(lines[at].own.includes(line.dose) && lines[at].own.includes(line.change), `${lines[at].own} and ${JSON.stringify(line)}`));
  // A sore wrist takes the bend out before it takes the push away: on fists.
  const push = lines.find((line) => line.ladder.includes("ladders/push-up"));
  assert.match(push.own, /push-up.*fists/);
  // No bar and no straps: the row is another one, and nothing that she does needs either.
  const row = lines.find((line) => line.ladder.includes("ladders/row"));
  assert.match(row.own, /needs/);
  for (const { to, own } of lines.filter((line) => line.to !== "")) {
    const { needs } = cardOf(to);
    const straight = /^You, changed.*(fist|forearm|handle|wrists? straight|hands on the thighs)/i.test(own);
    assert.ok(straight || !needs.traits.includes("loaded-wrist-extension"), `${to} bends the wrist: ${own}`);
    const lacking = kitOf(to).filter((need) => !need.some((kit) => [...KIT, ...ANYWHERE].includes(kit)));
    assert.deepEqual(lacking, [], `${to} needs what she lacks`);
  }
  assert.ok(!/wrist/.test(page.url()) && !/wrist/i.test(await page.title()));
  // What is changed holds over every cue, and no cue of it is said by itself.
  const changed = page.locator(".own.changed").first();
  assert.equal(await changed.locator("summary").textContent(), "Cues and what to watch");
  await changed.locator("summary").click();
  await changed.locator(".caution-line").first().waitFor();
  assert.match(await changed.locator(".caution-line").first().textContent(), /It holds over every cue here/);
  await changed.locator("summary").click();
  // Figure and cues are one touch away, without a signal.
  await page.locator(".own summary").first().click();
  const figure = page.locator(".own-figure").first();
  await figure.waitFor();
  assert.ok(await figure.evaluate((image) => image.decode().then(() => image.naturalWidth > 0)));
  assert.ok((await figure.getAttribute("alt")).length > 20);
});

/** What the site's own file says that a movement asks for. */
function cardOf(movement) {
  const text = readFileSync(join(site, `cards/${movement}.js`), "utf8");
  return JSON.parse(text.slice("rungbookCard(".length, text.lastIndexOf(")")));
}

/** What is anywhere, as the library's words say: nobody lacks it. */
const ANYWHERE = [...readFileSync(join(HOUSE, "content/words/kit.yaml"), "utf8").matchAll(/^([a-z-]+):\n(?:  .*\n)*?  kind: anywhere$/gm)].map(([, id]) => id);

/** Each need of a movement for kit, as its entry lists what serves; her counter's height is her own. */
function kitOf(movement) {
  const movements = join(HOUSE, "content/movements");
  const file = readdirSync(movements).map((pattern) => join(movements, pattern, `${movement}.md`)).find((path) => existsSync(path));
  const [, list] = /^kit: (\[.*\])/m.exec(readFileSync(file, "utf8"));
  const needs = JSON.parse(list.replace(/[a-z][a-z-]*/g, '"$&"'));
  return needs.map((need) => [need].flat());
}

test("with the wrist well again the counter is hers: own height, own dose", async () => {
  const session = page.url();
  await page.click('.person a[href$="kit-and-limits.html"]');
  await page.uncheck('[name="caution"][value="sore-wrist"]');
  await page.goto(session);
  await page.waitForFunction(() => /kitchen counter 92 cm/.test(document.querySelector("main").textContent || ""));
  const lines = await page.$$eval(".own", (all) => all.map((one) => one.textContent.replace(/\s+/g, " ")));
  assert.ok(lines.some((line) => /Your rung is 2, .*as low as the ladder goes/.test(line)), "two below rung 2 is the lowest");
  const counter = lines.filter((line) => line.includes("kitchen counter 92 cm"));
  assert.ok(counter.some((line) => /4 x \d/.test(line) && /12 at hands 92 cm/.test(line)), counter.join("\n"));
});
