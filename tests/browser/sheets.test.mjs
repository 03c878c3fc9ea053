// Paper: every movement and every ladder is one A4 sheet, with the rungs, cues and stop signs on it.
// Never the screen's layout: the browser prints, pdfinfo and pdftotext (poppler) read what came out.
import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { closeHall, openHall, ownFolder, pagesOf } from "./hall.mjs";

let site, browser, hall, page, file;

before(async () => {
  ({ site, hall, browser } = await openHall());
  page = await browser.newPage();
  file = join(ownFolder(), "sheet.pdf");
});
after(() => closeHall({ hall, browser }));

/** Prints a page as its own style asks: how many sheets, and their size in pdfinfo's words. */
async function print(name, change = () => {}) {
  await page.goto(hall.address + name);
  await page.evaluate(change);
  writeFileSync(file, await page.pdf({ preferCSSPageSize: true }));
  const info = execFileSync("pdfinfo", [file], { encoding: "utf8" });
  return { count: Number(/Pages:\s+(\d+)/.exec(info)[1]), size: /Page size:\s+(.+)/.exec(info)[1] };
}

const entries = () => pagesOf(site).filter((name) => /^(movements|ladders)\/(?!index)/.test(name));

test("every movement and every ladder prints on one A4 sheet", async () => {
  const complaints = [];
  for (const name of entries()) {
    const { count, size } = await print(name);
    if (count !== 1 || !size.endsWith("(A4)")) complaints.push(`${name}: ${count} sheets of ${size}`);
  }
  assert.ok(entries().length > 100);
  assert.equal(complaints.length, 0, complaints.join("\n"));
});

test("a sheet that runs over is seen", async () => {
  const { count } = await print("ladders/row.html", () => {
    document.querySelector(".rail").append(...Array.from({ length: 60 }, () => document.querySelector(".rail li").cloneNode(true)));
  });
  assert.ok(count > 1);
});

test("the sheet holds what a coach needs in the hall", async () => {
  await print("movements/push-up.html");
  const text = execFileSync("pdftotext", ["-layout", file, "-"], { encoding: "utf8" });
  for (const words of ["Push-up", "Standard", "Say", "Faults", "Swaps", "Cautions", "Before you move", "Chest pain"]) {
    assert.ok(text.includes(words), words);
  }
  for (const words of ["Pick kit and limits", "On the floor", "All places"]) {
    assert.ok(!text.includes(words), `${words} is for the screen`);
  }
});
