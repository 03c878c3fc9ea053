// How long each touch on the floor takes to settle, with a library of any size, at 390 px.
// A benchmark, not a test: node tests/benches/floor.mjs SITE, where SITE is a built folder.
import { pathToFileURL } from "node:url";
import { resolve } from "node:path";
import { openBrowser } from "../browser/hall.mjs";

const ROUNDS = 40;
const site = resolve(process.argv[2] || "site");
const browser = await openBrowser();
const page = await (await browser.newContext({ viewport: { width: 390, height: 844 } })).newPage();
await page.goto(`${pathToFileURL(site).href}/floor.html`);
await page.focus("#search-words");
await page.waitForFunction(() => typeof window.rungbookSearchIndex === "string");

/** Runs `act` in the page and waits until its work is laid out; milliseconds. */
const settled = (act, argument) =>
  page.evaluate(
    async ([source, given]) => {
      const start = performance.now();
      await new Function("given", `return (${source})(given)`)(given);
      document.body.getBoundingClientRect();
      return performance.now() - start;
    },
    [act.toString(), argument],
  );

const acts = {
  "a keystroke to answers": [(word) => {
    const input = document.querySelector("#search-words");
    input.value = word;
    input.dispatchEvent(new Event("input", { bubbles: true }));
  }, ["p", "pu", "pull", "push", "row", "hips sag", "wrist", "no bar", "squatt", "knees"]],
  "a quick limit": [() => document.querySelector("[data-quick] button").click(), [null]],
  "a card": [async (at) => {
    const links = document.querySelectorAll(".rail a[data-rung]");
    const link = links[(at * 7) % links.length];
    const wanted = link.dataset.rung;
    link.click();
    const drawn = () => document.querySelector(".card .ways") && location.hash.endsWith(wanted);
    while (!drawn()) await new Promise((next) => setTimeout(next));
  }, Array.from({ length: 20 }, (_, at) => at)],
};

for (const [name, [act, given]] of Object.entries(acts)) {
  const times = [];
  for (let round = 0; round < ROUNDS; round += 1) times.push(await settled(act, given[round % given.length]));
  times.sort((a, b) => a - b);
  const at = (share) => times[Math.min(times.length - 1, Math.floor(share * times.length))].toFixed(1);
  console.log(`${name.padEnd(24)} median ${at(0.5)} ms, 95th percentile ${at(0.95)} ms`);
}
await browser.close();
