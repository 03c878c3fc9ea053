// The coach's sheet: every session prints on one leaf, both sides at the most, in 11 points and more, with rungs by object, times,
// cues, the caution line and the stop signs, and with nothing of whoever prints it.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { closeHall, openHall, ownFolder, pagesOf } from "./hall.mjs";

/** The least that a coach reads at arm's length in a hall while nine people wait. */
const LEAST_PT = 11;
/** A leaf has two sides. */
const SIDES = 2;
let site, browser, hall, page, file;

before(async () => {
  ({ site, hall, browser } = await openHall());
  page = await browser.newPage();
  file = join(ownFolder(), "sheet.pdf");
});
after(() => closeHall({ hall, browser }));

const sessions = () => pagesOf(site).filter((name) => /^sessions\/(?!index)/.test(name));

/** Prints what is open: sheets, size, text, and the smallest letters in points as they stand on paper. */
async function print() {
  writeFileSync(file, await page.pdf({ preferCSSPageSize: true }));
  const info = execFileSync("pdfinfo", [file], { encoding: "utf8" });
  const text = execFileSync("pdftotext", ["-raw", file, "-"], { encoding: "utf8" });
  await page.emulateMedia({ media: "print" });
  const smallest = await page.evaluate(() => {
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    let least = Infinity;
    while (walker.nextNode()) {
      const parent = walker.currentNode.parentElement;
      if (!walker.currentNode.textContent.trim() || !parent.getClientRects().length) continue;
      least = Math.min(least, parseFloat(getComputedStyle(parent).fontSize) * 0.75);
    }
    return least;
  });
  await page.emulateMedia({ media: null });
  return { count: Number(/Pages:\s+(\d+)/.exec(info)[1]), size: /Page size:\s+(.+)/.exec(info)[1], text, smallest };
}

test("every session is one leaf of A4 with letters of 11 points and more", async (t) => {
  assert.ok(sessions().length >= 3);
  for (const name of sessions()) {
    await page.goto(hall.address + name);
    const { count, size, smallest } = await print();
    t.diagnostic(`${name}: ${count} sides, ${smallest.toFixed(1)} points at the least`);
    assert.ok(count <= SIDES, `${name}: ${count} sides`);
    assert.ok(size.endsWith("(A4)"), `${name}: ${size}`);
    assert.ok(smallest >= LEAST_PT, `${name}: ${smallest} points`);
  }
});

test("the sheet holds what the coach needs, and nothing of the member who prints it", async () => {
  await page.goto(`${hall.address}sessions/push-and-pull.html`);
  await page.evaluate(() => {
    localStorage.setItem("rungbook-kit", JSON.stringify({ mode: "picked", kit: ["chair"], noise: "quiet" }));
    sessionStorage.setItem("rungbook-limits", JSON.stringify({ cautions: ["sore-wrist"], traits: [], asks: {} }));
  });
  await page.reload();
  await page.waitForSelector(".own");
  const { count, text } = await print();
  assert.ok(count <= SIDES);
  const words = text.replace(/\s+/g, " ");
  for (const wanted of ["Push and pull", "for nobody in particular", "wall 10 deg", "box 60 cm", "4 x 6-10", "18:00", "two rungs below your own", "Elbows to back pockets", "Before you move", "Chest pain", "Palpitations"]) {
    assert.ok(words.includes(wanted), wanted);
  }
  for (const unwanted of ["wrist", "My version", "Run the clock", "Not for you", "Your swap", "Kit: chair"]) {
    assert.ok(!words.toLowerCase().includes(unwanted.toLowerCase()), unwanted);
  }
});

/** Where every word stands: its page, and whether it is left of the middle. */
function places() {
  const marked = execFileSync("pdftotext", ["-bbox", file, "-"], { encoding: "utf8" });
  const found = new Map();
  for (const [at, page] of marked.split("<page ").slice(1).entries()) {
    for (const [, x, word] of page.matchAll(/<word xMin="([\d.]+)"[^>]*>([^<]*)<\/word>/g)) found.set(word, `${at} ${Number(x) < 290}`);
  }
  return found;
}

/** A mark before and after each block, so that paper tells where it begins and ends. */
async function markBlocks() {
  return page.evaluate(() => {
    const blocks = [...document.querySelectorAll(".session .block")];
    for (const [at, block] of blocks.entries()) {
      block.querySelector("h2").prepend(`qz${at}a `);
      block.append(`qz${at}z`);
    }
    return blocks.length;
  });
}

test("each week's own sheet is one leaf too, and no block of it stands in two parts", async () => {
  let weeks = 0;
  for (const name of sessions()) {
    await page.goto(hall.address + name);
    const hashes = await page.$$eval("[data-this-week] a", (all) => all.map((one) => one.getAttribute("href")).filter((to) => to.startsWith("#week/")));
    for (const hash of hashes) {
      await page.goto("about:blank");
      await page.goto(hall.address + name + hash);
      await page.waitForFunction(() => /, as week/.test(document.querySelector(".over")?.textContent || ""));
      const blocks = await markBlocks();
      assert.ok((await print()).count <= SIDES, `${name}${hash}`);
      const at = places();
      for (let block = 0; block < blocks; block += 1) assert.equal(at.get(`qz${block}a`), at.get(`qz${block}z`), `${name}${hash}: block ${block}`);
      weeks += 1;
    }
  }
  assert.ok(weeks > 6, `${weeks}`);
});

test("no block stands in two parts", async () => {
  for (const name of sessions()) {
    await page.goto(hall.address + name);
    const blocks = await markBlocks();
    await print();
    const at = places();
    for (let block = 0; block < blocks; block += 1) {
      assert.ok(at.has(`qz${block}a`), `${name}: block ${block} is printed`);
      assert.equal(at.get(`qz${block}a`), at.get(`qz${block}z`), `${name}: block ${block}`);
    }
  }
});

test("a block in two parts, a sheet that runs over and letters too small are seen", async () => {
  await page.goto(`${hall.address}sessions/push-and-pull.html`);
  await page.evaluate(() => {
    const block = document.querySelector(".block");
    for (let more = 0; more < 20; more += 1) block.after(block.cloneNode(true));
    document.querySelector(".times").style.setProperty("font-size", "8pt", "important");
    document.querySelectorAll(".session .block").forEach((one) => (one.style.breakInside = "auto"));
  });
  const blocks = await markBlocks();
  const { count, smallest } = await print();
  assert.ok(count > SIDES && smallest < LEAST_PT, `${count} sheets, ${smallest} points`);
  const at = places();
  assert.ok([...Array(blocks).keys()].some((block) => at.get(`qz${block}a`) !== at.get(`qz${block}z`)));
});
