// The own signs of a situation stand wherever somebody is told to move: on the card, in the session, today.
// Never compared with the page's own words: with the file that the coach wrote.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { HOUSE, closeHall, openHall } from "./hall.mjs";

let hall, browser;

before(async () => ({ hall, browser } = await openHall()));
after(() => closeHall({ hall, browser }));

/** Some of the signs of `pregnancy`, as they stand in the file of cautions. */
const written = () => {
  const text = readFileSync(join(HOUSE, "content/words/cautions.yaml"), "utf8");
  const own = text.slice(text.indexOf("pregnancy:"), text.indexOf("after-birth:"));
  const signs = [...own.matchAll(/\{sign: "([^"]+)", do: "([^"]+)"/g)].flatMap(([, sign, act]) => [sign, act.replace(/\.$/, "")]);
  assert.ok(signs.length > 6);
  return signs;
};

/** A page with somebody in front. */
async function pageFor(situations, act) {
  const context = await browser.newContext({ viewport: { width: 390, height: 844 } });
  const page = await context.newPage();
  await page.goto(`${hall.address}floor.html`);
  await page.evaluate((situations) => rungbookPerson.setFront({ situations, traits: [], lacks: [] }), situations);
  try {
    await act(page);
  } finally {
    await context.close();
  }
}

/** What stands in the places for signs that can be seen. */
const shown = (page) => page.$$eval("main [data-signs]", (places) =>
  places.filter((one) => one.checkVisibility()).map((one) => one.textContent || "").join(" "));

for (const name of ["floor.html#push-up", "sessions/push-and-pull.html", "today.html"]) {
  test(`${name} says the signs of a pregnancy, and none once nobody is in front`, () => pageFor(["pregnancy"], async (page) => {
    await page.goto("about:blank");
    await page.goto(hall.address + name);
    await page.waitForFunction(() => [...document.querySelectorAll("main [data-signs]")].some((one) => one.checkVisibility()));
    const said = await shown(page);
    for (const sign of written()) assert.ok(said.includes(sign), sign);
    await page.click("button:text-is('Clear'):visible");
    await page.waitForFunction(() => ![...document.querySelectorAll("[data-signs]")].some((one) => one.checkVisibility()));
  }));
}

test("where the signs do not come, the page leads to the caution", () => pageFor(["pregnancy"], async (page) => {
  await page.route("**/data/signs.js", (route) => route.abort());
  await page.goto("about:blank");
  await page.goto(`${hall.address}today.html`);
  await page.waitForFunction(() => /see the caution of Pregnancy/.test(document.querySelector("main [data-signs]")?.textContent || ""));
}));

test("each sign is said once: what cannot wait first, as a list, and not again among what ends the session", () => pageFor(["high-blood-pressure", "heart-disease"], async (page) => {
  await page.goto("about:blank");
  await page.goto(`${hall.address}floor.html#push-up`);
  await page.waitForSelector(".card [data-signs] li");
  const lines = await page.$$eval(".card [data-signs] li", (all) => all.map((one) => one.textContent));
  const end = lines.findIndex((line) => line.startsWith("End the session at: "));
  assert.equal(end, lines.length - 1, "what ends the session comes last");
  assert.match(lines[0], /^Ring the emergency number now: Chest pain, or sudden weakness of face/);
  // By hand: chest pain is an emergency sign of the one, unusual breathlessness of the other; dizziness is both ones'.
  assert.equal(lines[end], "End the session at: Headache; Dizziness; Blurred sight; Palpitations.");
  const acts = lines.map((line) => line.split(": ")[0]);
  assert.equal(new Set(acts).size, acts.length, "an act is said once");
}));

test("a sign that is an emergency of one situation does not merely end the session for another", () => pageFor(["after-illness", "heart-disease"], async (page) => {
  await page.goto("about:blank");
  await page.goto(`${hall.address}floor.html#push-up`);
  await page.waitForSelector(".card [data-signs] li");
  const lines = await page.$$eval(".card [data-signs] li", (all) => all.map((one) => one.textContent));
  assert.ok(lines.some((line) => /^Stop\. Ring .*unusual breathlessness/.test(line)));
  const end = lines.at(-1);
  assert.match(end, /^End the session at: /);
  assert.doesNotMatch(end, /breathlessness/i);
}));
