// Takes the pictures of the README's tour, or with `--all FOLDER` every kind of page at three
// widths, light and dark, and the A4 sheets. Usage: node screenshots.mjs [--all FOLDER]
import { execFileSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { builtSite, HOUSE, kindsOf, openBrowser, serve } from "./hall.mjs";

const WIDTHS = { 390: 844, 820: 1180, 1280: 900 };
/** A class in the third week of the starter's cycle. */
const CLASS = "2027-01-19T18:30:00";
const TOUR = [
  { name: "today", page: "today.html", width: 390, height: 844, scheme: "light", day: CLASS },
  { name: "face", page: "today.html", width: 1180, height: 820, scheme: "dark", day: CLASS, runs: 690_000 },
  { name: "front", page: "index.html", width: 820, height: 540, scheme: "light" },
  { name: "on-the-floor", page: "floor.html#pull-up", width: 390, height: 844, scheme: "light" },
  { name: "movement", page: "movements/strap-row.html", width: 1280, height: 960, scheme: "light" },
  { name: "ladder", page: "ladders/row.html", width: 820, height: 860, scheme: "dark" },
  { name: "session", page: "sessions/push-and-pull.html", width: 390, height: 844, scheme: "light" },
  { name: "cycle", page: "cycles/six-weeks-push-and-pull.html", width: 820, height: 1100, scheme: "light" },
];
const SHEETS = ["movements/strap-row.html", "ladders/row.html", "sessions/push-and-pull.html"];

/** One picture; the whole page when no height is given. */
async function picture(browser, address, file, { width, height, scheme, day, runs }) {
  const context = await browser.newContext({
    viewport: { width, height: height || WIDTHS[width] },
    colorScheme: scheme,
    serviceWorkers: "block",
    reducedMotion: "reduce",
  });
  const page = await context.newPage();
  if (day) await page.clock.install({ time: new Date(day) });
  const response = await page.goto(address, { waitUntil: "load" });
  if (!response.ok() && !address.endsWith("404.html")) throw new Error(`${address}: not there`);
  if (runs) {
    await page.click(".go");
    await page.waitForSelector("dialog[open] .clock-digits:not(:empty)");
    await page.clock.runFor(runs);
  }
  await page.screenshot({ path: file, fullPage: !height });
  await context.close();
}

/** The A4 sheets of a movement and a ladder, as PDF and as pictures. */
async function sheets(browser, address, folder) {
  const page = await browser.newPage();
  for (const name of SHEETS) {
    await page.goto(address + name, { waitUntil: "load" });
    const stem = join(folder, `a4-${flat(name)}`);
    writeFileSync(`${stem}.pdf`, await page.pdf({ preferCSSPageSize: true }));
    execFileSync("pdftoppm", ["-r", "90", "-png", `${stem}.pdf`, stem]);
  }
  await page.close();
}

/** `movements/strap-row.html` -> `movements-strap-row`. */
const flat = (name) => name.replace(/\.html$/, "").replaceAll("/", "-");

const site = builtSite();
const hall = await serve(site);
const browser = await openBrowser();
const [flag, folder] = process.argv.slice(2);
if (flag === "--all" && folder) {
  mkdirSync(folder, { recursive: true });
  for (const page of kindsOf(site)) {
    for (const width of Object.keys(WIDTHS).map(Number)) {
      for (const scheme of ["light", "dark"]) {
        const file = join(folder, `${flat(page)}-${width}-${scheme}.png`);
        await picture(browser, hall.address + page, file, { width, scheme });
      }
    }
  }
  await sheets(browser, hall.address, folder);
} else {
  const tour = join(HOUSE, "tests/screenshots");
  mkdirSync(tour, { recursive: true });
  for (const shot of TOUR) {
    await picture(browser, hall.address + shot.page, join(tour, `${shot.name}.png`), shot);
  }
}
await browser.close();
await hall.stop();
