// The right height: the page's script and the command print the same digit.
// Never compares the script with its own table: the number comes from `rungbook demand`.
import assert from "node:assert/strict";
import { execFileSync, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { after, before, test } from "node:test";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../..", import.meta.url));
const program = process.env.RUNGBOOK || join(root, "target/debug/rungbook");
const script = createRequire(import.meta.url)(join(root, "themes/slate/scripts/height.js"));

let folder = "";
let site = "";
before(() => {
  folder = mkdtempSync(join(tmpdir(), "rungbook-height-"));
  site = join(folder, "site");
  // Exit code 1 is a site with warnings; 2 is no site.
  const { status } = spawnSync(program, ["build", "--out", site], { cwd: root, stdio: "ignore" });
  assert.ok(status === 0 || status === 1, `the build ended with ${status}`);
});
after(() => rmSync(folder, { recursive: true }));

/** The data attributes of the section on a movement's page. @param {string} movement */
function attributes(movement) {
  const page = readFileSync(join(site, "movements", `${movement}.html`), "utf8");
  const section = page.match(/<details class="fold height"[^>]*>/);
  assert.ok(section, `${movement} has no section on its height`);
  return Object.fromEntries([...section[0].matchAll(/data-([a-z]+)="([^"]*)"/g)].map(([, key, value]) => [key, value]));
}

/** @param {string} movement @param {string} set @param {number} stature */
function command(movement, set, stature) {
  const words = ["demand", movement, "--set", set, "--stature", `${stature}cm`, "--format", "json"];
  const { demand, of_usual: ofUsual } = JSON.parse(execFileSync(program, words, { cwd: root, encoding: "utf8" }));
  return ofUsual || demand;
}

const asked = [
  ["incline-push-up", [30, 45, 61, 88.5, 100]],
  ["strap-row", [15, 38, 75]],
  ["squat-to-box", [31, 43, 64]],
];
for (const [movement, values] of asked) {
  test(`${movement}: the page and the command print the same digit`, () => {
    const data = attributes(movement);
    const table = script.read(data);
    for (const value of values) {
      for (const stature of [150, 163.5, 198]) {
        const page = script.shown(script.at(table, value, stature));
        assert.equal(page, command(movement, `${data.setting}=${value}${data.unit}`, stature), `${value}, ${stature}`);
      }
    }
  });
}

test("outside the table the page says nothing", () => {
  const table = script.read(attributes("incline-push-up"));
  assert.equal(script.at(table, 29, 172), null);
  assert.equal(script.at(table, 60, 149), null);
  // Higher, the doubts of a short person's number are greater than the number.
  assert.equal(script.at(table, 105, 172), null);
});

test("the nearest rung is one of the ladder's", () => {
  const table = script.read(attributes("incline-push-up"));
  assert.equal(script.nearest(table, 64), 60);
  assert.equal(script.nearest(table, 200), 90);
});
