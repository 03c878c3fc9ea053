// Find my rung: the ladder's page, opened from disk, says what `rungbook place` says, to the digit.
// Never compares with an answer written down here: the command is asked each time.
import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { pathToFileURL } from "node:url";
import { HOUSE, builtSite, openBrowser } from "./hall.mjs";

const PROGRAM = process.env.RUNGBOOK || join(HOUSE, "target/debug/rungbook");
let site;
let browser;
let page;

before(async () => {
  site = builtSite();
  browser = await openBrowser();
  page = await browser.newPage({ viewport: { width: 390, height: 844 } });
});
after(() => browser.close());

/** What the command prints to a person, line by line, without the numbers of the list. */
function commandSays(words) {
  const said = execFileSync(PROGRAM, ["place", "--library", join(HOUSE, "content"), ...words], { encoding: "utf8" });
  return said.split("\n").map((line) => line.replace(/^[> ]\s*\d+\s+/, "").trim()).filter((line) => line !== "");
}

async function openLadder(id) {
  await page.goto(pathToFileURL(join(site, `ladders/${id}.html`)).href);
  await page.click(".find-rung > summary");
  await page.waitForSelector(".find-rung [data-answer] p");
}

/** What the page says, line by line. */
async function pageSays(fields) {
  for (const name of ["stature", "mass", "added"]) {
    if (name in fields) await page.$eval(".find-rung .more", (more) => (more.open = true));
  }
  for (const [name, value] of Object.entries(fields)) {
    if (name === "rung") await page.selectOption('.find-rung [name="rung"]', String(value));
    else await page.fill(`.find-rung [name="${name}"]`, String(value));
  }
  const lines = await page.$$eval(".find-rung [data-answer] > p, .find-rung [data-answer] li", (all) => all.map((one) => one.textContent));
  return lines.map((line) => line.trim());
}

const CASES = [
  ["push-up", { rung: 4, amount: 12 }, ["--rung", "4", "--reps", "12"]],
  ["push-up", { rung: 2, amount: 12, own: 88, stature: 163 }, ["--rung", "2", "--set", "hands=88cm", "--reps", "12", "--stature", "163 cm"]],
  ["push-up", { rung: 8, amount: 3 }, ["--rung", "8", "--reps", "3"]],
  ["row", { rung: 3, amount: 14, own: 38 }, ["--rung", "3", "--set", "lean=38deg", "--reps", "14"]],
  ["plank", { rung: 3, amount: 40 }, ["--rung", "3", "--seconds", "40"]],
  ["pull-up", { rung: 9, amount: 5, mass: 70, added: 5 }, ["--rung", "9", "--reps", "5", "--body-mass", "70 kg", "--added", "5 kg"]],
  ["squat", { rung: 3, amount: 15 }, ["--rung", "3", "--reps", "15"]],
];

for (const [ladder, fields, words] of CASES) {
  test(`${ladder} ${words.join(" ")}: page and command say the same`, async () => {
    await openLadder(ladder);
    const said = await pageSays(fields);
    assert.deepEqual([...said].sort(), commandSays([ladder, ...words]).sort());
    assert.equal(said[0], commandSays([ladder, ...words])[0]);
  });
}

/** The member of the device leaves these traits out and has this kit. */
async function leavesOut(traits, kit) {
  await page.evaluate(([ids, has]) => {
    sessionStorage.setItem("rungbook-limits", JSON.stringify({ cautions: [], traits: ids, asks: Object.fromEntries(ids.map((id) => [id, `${id}:1`])) }));
    localStorage.setItem("rungbook-kit", JSON.stringify({ mode: has ? "picked" : "any", kit: has || [], noise: "loud" }));
  }, [traits, kit]);
}

for (const [ladder, fields, words, traits, kit] of [
  ["push-up", { rung: 7, amount: 12 }, ["--rung", "7", "--reps", "12"], ["loaded-wrist-extension"], null],
  ["row", { rung: 4, amount: 9 }, ["--rung", "4", "--reps", "9"], ["strong-grip"], null],
  ["row", { rung: 6, amount: 9 }, ["--rung", "6", "--reps", "9"], ["supine"], null],
  ["row", { rung: 8, amount: 9 }, ["--rung", "8", "--reps", "9"], [], ["straps"]],
]) {
  test(`${ladder} rung ${fields.rung}, without ${traits.join(" ") || "a bar"}: the same sentence on page and command`, async () => {
    await openLadder(ladder);
    await leavesOut(traits, kit);
    await openLadder(ladder);
    const said = await pageSays(fields);
    const asked = [ladder, ...words, ...(traits.length ? ["--avoid", traits.join(",")] : []), ...(kit ? ["--kit", kit.join(",")] : [])];
    assert.equal(said[0], commandSays(asked)[0]);
    assert.notEqual(said[0], commandSays([ladder, ...words])[0], "the limit says something");
    await leavesOut([], null);
  });
}

test("what cannot be is asked again, with the sentence of the command", async () => {
  await openLadder("push-up");
  for (const [fields, words] of [
    [{ rung: 4, amount: 900, stature: "" }, ["--reps", "900"]],
    [{ rung: 4, amount: 12, stature: 500 }, ["--reps", "12", "--stature", "5 m"]],
    [{ rung: 4, amount: 12, stature: "", mass: 900 }, ["--reps", "12", "--body-mass", "900 kg"]],
  ]) {
    const [said] = await pageSays(fields);
    assert.match(said, /cannot be\. Ask again, and write \d+ to \d+/);
    const asked = spawnSync(PROGRAM, ["place", "--library", join(HOUSE, "content"), "push-up", "--rung", "4", ...words], { encoding: "utf8" });
    assert.equal(asked.status, 2);
    assert.ok(asked.stderr.includes(said.replace(/\.$/, "")), `${said} is not in ${asked.stderr}`);
  }
  await pageSays({ mass: "" });
});

test("a result is noted in the book only by a touch, and stays on the device", async () => {
  await openLadder("push-up");
  await pageSays({ rung: 2, own: 90, amount: 12 });
  const book = () => page.evaluate(() => JSON.parse(localStorage.getItem("rungbook-book") || "null"));
  assert.equal(await book(), null);
  await page.click(".find-rung form > p button");
  await page.waitForFunction(() => document.querySelector("[data-noted]").textContent !== "");
  const [result] = (await book()).results;
  assert.deepEqual(
    { ...result, id: "", day: "" },
    { id: "", day: "", ladder: "push-up", rung: 2, setting: { hands: 90 }, counts: "reps", amount: 12, added_kg: 0, note: "" },
  );
  assert.match(result.day, /^\d{4}-\d\d-\d\d$/);
});

test("what makes no sense gets no number", async () => {
  await openLadder("push-up");
  const [said] = await pageSays({ rung: 2, own: 400, amount: 12 });
  assert.match(said, /Say the rung/);
});
