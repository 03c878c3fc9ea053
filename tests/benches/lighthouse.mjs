// Six kinds of page as Lighthouse scores them on a slowed-down phone: performance, accessibility, good
// practice, being found. A benchmark, not a test: performance falls with the machine's load, so look at it
// on a quiet one. Lighthouse is fetched from the registry for the run and kept nowhere.
//   cargo build && node tests/benches/lighthouse.mjs
import { execFile } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { promisify } from "node:util";
import { builtSite, ownFolder, serve, SUB_PATH } from "../browser/hall.mjs";

const LIGHTHOUSE = "lighthouse@12.2.3";
const PAGES = [
  "index.html", "today.html", "floor.html", "movements/strap-row.html", "ladders/row.html", "sessions/push-and-pull.html",
];
/** What costs a point of a score, the worst first: shown so that the number can be mended. */
const SHOWN = 3;

const folder = ownFolder();
const hall = await serve(builtSite(), SUB_PATH, { packed: true });

/** @param {string} page */
async function report(page) {
  const file = join(folder, "report.json");
  const flags = ["--output=json", `--output-path=${file}`, "--quiet", "--chrome-flags=--headless=new --no-sandbox --disable-gpu"];
  await promisify(execFile)("npx", ["--yes", LIGHTHOUSE, hall.address + page, ...flags], {
    env: { ...process.env, CHROME_PATH: "/usr/bin/chromium" },
  });
  return JSON.parse(readFileSync(file, "utf8"));
}

for (const page of PAGES) {
  const { categories, audits } = await report(page);
  const scores = Object.values(categories).map((one) => `${one.title.toLowerCase()} ${Math.round(one.score * 100)}`);
  console.log(`${page}: ${scores.join(", ")}`);
  const lacking = Object.values(categories).flatMap((one) => one.auditRefs)
    .filter(({ id, weight }) => weight > 0 && audits[id].score !== null && audits[id].score < 0.98)
    .sort((one, other) => audits[one.id].score - audits[other.id].score);
  for (const { id } of lacking.slice(0, SHOWN)) console.log(`  ${audits[id].title}: ${audits[id].displayValue || "failed"}`);
}
await hall.stop();
