// After class: what the board's page says was done, kept by the program, and a guest who is on no roster.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { copyFileSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { changed, dealtIn, doingOn, pressOn, PROGRAM, who } from "./board-room.mjs";
import { HOUSE, openBrowser, ownFolder } from "./hall.mjs";

const folder = ownFolder();
let browser;
before(async () => {
  browser = await openBrowser();
});
after(() => browser.close());

test("a guest comes, and what was done is kept as the board says it, touches and all", async () => {
  const context = await browser.newContext({ viewport: { width: 1180, height: 820 }, offline: true });
  const page = await context.newPage();
  const faults = [];
  page.on("pageerror", (error) => faults.push(error.message));
  await page.goto(pathToFileURL(dealtIn(folder, "guest.html")).href);
  const doing = () => doingOn(page);
  const press = (name, words) => pressOn(page, name, words);
  const was = await doing();
  await press("guest", "guest is here");
  assert.match(await page.textContent("#said"), /^guest is here: ask first what hurts\./);
  await press("robin", "robin has gone");
  await press("wren", "Something hurts");
  const now = await doing();
  assert.deepEqual(who(changed(was, now)).sort(), ["guest", "robin", "wren"]);
  await page.click("#note");
  const saved = page.waitForEvent("download");
  await page.click("#choices a");
  const file = join(folder, (await saved).suggestedFilename());
  await (await saved).saveAs(file);
  const noted = JSON.parse(readFileSync(file, "utf8"));
  const of = (name) => noted.people.find((one) => one.name === name);
  assert.equal(of("robin"), undefined, "whoever has gone is left to the coach");
  assert.deepEqual(of("wren").did, []);
  // A guest begins at the bottom, and what is noted is what the card says.
  const cards = Object.entries(now).filter(([key]) => key.startsWith("guest ")).map(([, words]) => words.replace(": ", ", "));
  assert.ok(of("guest").did.length > 1);
  for (const [, what] of of("guest").did) assert.ok(cards.includes(what), `${what} of ${cards}`);
  const roster = join(folder, "roster.yaml");
  copyFileSync(join(HOUSE, "tests/board/roster.yaml"), roster);
  const ask = ["roster", "done", "push-and-pull", "--from", file, "--roster", roster, "--today", "2026-11-30"];
  const said = execFileSync(PROGRAM, [...ask, "--library", join(HOUSE, "content")], { encoding: "utf8" });
  assert.match(said, /not on the roster, nothing is kept: guest\n/);
  assert.match(said, /^done: wren: left out: .*Row.*Push-up/m);
  assert.doesNotMatch(said, /robin/);
  // Who was not touched is kept in the same words as by the board dealt out again.
  const other = join(folder, "other.yaml");
  copyFileSync(join(HOUSE, "tests/board/roster.yaml"), other);
  const again = ["roster", "done", "push-and-pull", "--roster", other, "--today", "2026-11-30", "--library", join(HOUSE, "content")];
  const whole = execFileSync(PROGRAM, again, { encoding: "utf8" });
  const lines = (text) => text.split("\n").filter((one) => /^done: (?!wren|robin)/.test(one));
  assert.equal(lines(said).length, 12);
  assert.deepEqual(lines(said), lines(whole));
  assert.deepEqual(faults, []);
});
