// node own-dose.mjs SCRIPTS CASES: what the session page's own-dose.js makes of a dose of one movement for
// another, and how dose.js says the first, compared with what the command found. Called by
// tests/own_dose.rs.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import assert from "node:assert/strict";
import path from "node:path";

const [scripts, casesFile] = process.argv.slice(2);
const script = (name) => createRequire(import.meta.url)(path.resolve(scripts, `${name}.js`));
const { counted } = script("own-dose");
const { words } = script("dose");
const cases = JSON.parse(readFileSync(casesFile, "utf8"));
for (const { named, from, to, asked, expected, said, words: written } of cases) {
  assert.deepEqual(counted(from, to, asked), expected, `${named}: ${JSON.stringify(asked)}`);
  assert.equal(words(said), written);
}
console.log(`${cases.length} doses agree`);
