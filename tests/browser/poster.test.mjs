// What hangs on the wall: one A4 a block that is read at two metres, and cards for stations. It says what
// to do and never why; nothing of whoever prints it, and nothing of anybody's limits, is on it.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { closeHall, kindsOf, openHall, ownFolder, pagesOf } from "./hall.mjs";

/** A capital is this high at the least, in millimetres: 0.3 % of two metres. */
const LEAST_MM = 6;
/** Names, in points. */
const NAMES_PT = 28;
const PT_MM = 25.4 / 72;
let site, browser, hall, page, file;

before(async () => {
  ({ site, hall, browser } = await openHall());
  page = await (await browser.newContext({ viewport: { width: 718, height: 1050 } })).newPage();
  file = join(ownFolder(), "wall.pdf");
});
after(() => closeHall({ hall, browser }));

const walls = () => pagesOf(site).filter((name) => name.startsWith("posters/"));
const pages = () => Number(/Pages:\s+(\d+)/.exec(execFileSync("pdfinfo", [file], { encoding: "utf8" }))[1]);
const words = () => execFileSync("pdftotext", ["-raw", file, "-"], { encoding: "utf8" }).replace(/-\n/g, "-").replace(/\s+/g, " ");

async function print(name) {
  await page.goto("about:blank");
  await page.goto(hall.address + name);
  await page.waitForTimeout(100);
  writeFileSync(file, await page.pdf({ preferCSSPageSize: true }));
}

/** A session's blocks as its file has them. */
function blocksOf(id) {
  const text = readFileSync(join(site, `cards/sessions/${id}.js`), "utf8");
  return JSON.parse(text.slice(text.indexOf("(") + 1, text.lastIndexOf(")"))).blocks;
}

/** The sheets as paper lays them out: heights of capitals, sizes of names, and what stands over something else. */
const measured = () => page.evaluate(() => {
  const canvas = document.createElement("canvas").getContext("2d");
  const capital = (element) => {
    const style = getComputedStyle(element);
    canvas.font = `${style.fontWeight} 100px ${style.fontFamily}`;
    return (canvas.measureText("H").actualBoundingBoxAscent / 100) * parseFloat(style.fontSize) * (25.4 / 96);
  };
  return [...document.querySelectorAll(".sheet")].map((sheet) => {
    const seen = (one) => one.getClientRects().length > 0;
    const said = [...sheet.querySelectorAll(".of-sheet *, .line *")].filter((one) => seen(one) && [...one.childNodes].some((node) => node.nodeType === 3 && node.textContent.trim()));
    const lines = [...sheet.querySelectorAll(".line")];
    const foot = sheet.querySelector(":scope > .stop").getBoundingClientRect();
    const over = lines.flatMap((line, at) => {
      const end = at + 1 < lines.length ? lines[at + 1].getBoundingClientRect().top : foot.top;
      return said.filter((one) => line.contains(one) && one.getBoundingClientRect().bottom > end + 1).map((one) => one.textContent);
    });
    const wide = said.filter((one) => one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).display !== "inline").map((one) => one.textContent);
    return {
      name: sheet.querySelector("h2").textContent,
      small: said.filter((one) => !one.closest(".stop")).map((one) => [capital(one), one.textContent]).sort((a, b) => a[0] - b[0])[0],
      names: Math.min(...[...sheet.querySelectorAll("h2, h3")].map((one) => parseFloat(getComputedStyle(one).fontSize) * 0.75)),
      figures: [...sheet.querySelectorAll("img")].filter((one) => one.getBoundingClientRect().height > 30).length,
      over, wide, ends: foot.bottom - sheet.getBoundingClientRect().bottom,
    };
  });
});

test("a session's posters are one A4 a block, read at two metres, and nothing stands over anything", async (t) => {
  assert.ok(walls().length >= 3);
  for (const name of walls()) {
    await print(name);
    assert.equal(pages(), blocksOf(name.slice(8, -5)).length, name);
    await page.emulateMedia({ media: "print" });
    const sheets = await measured();
    await page.emulateMedia({ media: null });
    for (const sheet of sheets) {
      const at = `${name}, ${sheet.name}`;
      assert.ok(sheet.small[0] >= LEAST_MM, `${at}: ${sheet.small[0].toFixed(2)} mm, ${sheet.small[1]}`);
      assert.ok(sheet.names >= NAMES_PT, `${at}: names of ${sheet.names} points`);
      assert.deepEqual([sheet.over, sheet.wide], [[], []], at);
      assert.ok(sheet.ends <= 1, at);
      assert.ok(sheet.figures > 0, `${at}: no figure`);
    }
    t.diagnostic(`${name}: ${sheets.length} sheets, capitals from ${Math.min(...sheets.map((one) => one.small[0])).toFixed(2)} mm`);
  }
});

test("a poster says what, with which object, how much and when; and never why", async () => {
  await print("posters/push-and-pull.html");
  const said = words();
  for (const wanted of ["Row and push-up", "Sets inside 18 min", "11:18 to 29:18", "4 x 6-10, rest 90 s", "easier", "usual", "harder", "straps, heels 125 cm out", "box 45 cm", "Incline push-up", "two rungs below your own", "chest pain", "ask your clinician"]) {
    assert.ok(said.includes(wanted), wanted);
  }
  for (const block of blocksOf("push-and-pull")) {
    assert.ok(!said.includes(block.purpose), block.purpose);
    for (const item of block.items) if (item.note) assert.ok(!said.includes(item.note), item.note);
  }
});

test("nothing of whoever prints it is on the wall: kit, limits, the person in front, their book", async () => {
  const texts = [];
  for (const somebody of [false, true]) {
    await page.goto(`${hall.address}kit-and-limits.html`);
    if (somebody) await page.evaluate(() => {
      localStorage.setItem("rungbook-kit", JSON.stringify({ mode: "picked", kit: ["chair"], noise: "quiet" }));
      sessionStorage.setItem("rungbook-limits", JSON.stringify({ cautions: ["sore-wrist"], traits: [], asks: {} }));
    });
    for (const name of ["posters/push-and-pull.html", "posters/push-and-pull.html#cards"]) {
      await print(name);
      texts.push(words());
    }
  }
  assert.equal(texts[0], texts[2]);
  assert.equal(texts[1], texts[3]);
  await page.evaluate(() => { localStorage.clear(); sessionStorage.clear(); });
  const situations = pagesOf(site).filter((name) => /^cautions\/(?!index)/.test(name));
  const names = situations.map((name) => /<h1[^>]*>([^<]*)</.exec(readFileSync(join(site, name), "utf8"))[1].toLowerCase());
  assert.ok(names.length > 10);
  for (const text of texts) for (const name of names) assert.ok(!text.toLowerCase().includes(name), name);
});

test("a card a line, two a sheet, each with its figure and the stop signs", async () => {
  for (const name of walls()) {
    await print(`${name}#cards`);
    const lines = blocksOf(name.slice(8, -5)).flatMap((block) => block.items).length;
    assert.equal(pages(), Math.ceil(lines / 2), name);
    assert.equal([...words().matchAll(/Stop, and tell the coach/g)].length, lines, name);
  }
});

test("the class's start and the week of the cycle are on the sheets", async () => {
  await page.goto("about:blank");
  await page.goto(`${hall.address}posters/push-and-pull.html`);
  const asked = (week) => page.evaluate(async (number) => {
    const { blocks } = await rungbookBring.inWeek("push-and-pull", number && { cycle: "six-weeks-push-and-pull", week: number });
    return blocks[1].items[0].dose;
  }, week);
  const written = await asked(null);
  const doses = await Promise.all([1, 2, 3, 4, 5, 6].map(asked));
  const week = doses.findIndex((dose) => dose !== written) + 1;
  assert.ok(week > 0, "a week asks for something else");
  await page.goto("about:blank");
  await page.goto(`${hall.address}posters/push-and-pull.html#week/six-weeks-push-and-pull/${week}`);
  await page.waitForFunction(() => document.querySelector("[data-week]").textContent !== "");
  await page.fill("[data-starts]", "18:30");
  const times = await page.$$eval(".of-sheet [data-times]", (all) => all.map((one) => one.textContent));
  assert.match(times[0], /^18:30 to 18:4\d$/);
  assert.equal(await page.textContent('[data-sheet="1"] [data-line="0"] [data-dose]'), doses[week - 1]);
});

test("each way to print stands behind a button that is seen, and a block may be left out", async () => {
  await page.goto(`${hall.address}sessions/push-and-pull.html`);
  await page.evaluate(() => { window.print = () => { document.title = "printed"; }; });
  await page.getByRole("button", { name: "Coach's sheet" }).click();
  await page.waitForFunction(() => document.title === "printed");
  await page.getByRole("link", { name: "Station cards" }).click();
  assert.ok(await page.isChecked("#cards"));
  await page.getByText("Posters, one sheet").click();
  await page.getByLabel("Print Warm-up").uncheck();
  await page.evaluate(() => { window.print = () => { document.title = "printed"; }; });
  await page.getByRole("button", { name: "Print", exact: true }).click();
  await page.waitForFunction(() => document.title === "printed");
  writeFileSync(file, await page.pdf({ preferCSSPageSize: true }));
  assert.equal(pages(), blocksOf("push-and-pull").length - 1);
  assert.ok(!words().includes("Step jack"));
});

/** What each kind of page must have on paper, beside its heading: words from deep inside it. */
const DEEP = {
  "floor.html": ["Wall push-up, lean 10 deg", "more of the body carried"],
  "learning.html": ["Cause", "Say", "Wall push-up, lean 10 deg"],
  "today.html": ["Warm-up", "Step jack", "24 repetitions"],
  "kit-and-limits.html": ["never printed"],
};

test("every kind of page prints something whole", async () => {
  for (const name of kindsOf(site)) {
    await print(name);
    const said = words();
    const heading = (await page.textContent(name.startsWith("posters/") ? "main h2" : "main h1")).replace(/\s+/g, " ").trim();
    assert.ok(said.includes(heading.split(" ")[0]), `${name}: its heading`);
    assert.ok(said.split(" ").length > 60, `${name}: ${said.split(" ").length} words`);
    for (const deep of DEEP[name] || []) assert.ok(said.includes(deep), `${name}: ${deep}`);
  }
});

test("a week on the poster's page is a whole sentence, and a clock that runs the session tells when it started", async () => {
  const context = await browser.newContext();
  const other = await context.newPage();
  await other.clock.install({ time: new Date("2027-01-19T18:30:00") });
  await other.goto(`${hall.address}today.html`);
  await other.waitForSelector(".today.ready .hour.picked");
  await other.click(".go");
  await other.waitForSelector("dialog[open] .clock-digits:not(:empty)");
  await other.goto(`${hall.address}posters/push-and-pull.html#week/six-weeks-push-and-pull/2`);
  await other.waitForFunction(() => document.querySelector("h1 [data-week]").textContent !== "");
  assert.equal(await other.textContent("h1"), "For the wall, week 2");
  assert.doesNotMatch(await other.textContent(".to-print"), /\. ?,|\s,/);
  assert.match(await other.textContent(".of-sheet [data-times]"), /^18:30 to 18:4\d$/);
  // Another session's clock says nothing of this one.
  await other.goto(`${hall.address}posters/legs-and-trunk.html`);
  assert.match(await other.textContent(".of-sheet [data-times]"), /^0:00 to/);
  await context.close();
});
