// node swap-parity.mjs FITS CASES CARDS: filters each card's swaps with the site's own fits.js and
// compares them with what the command found. Called by tests/swap_parity.rs.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import assert from "node:assert/strict";
import path from "node:path";

const [fitsFile, casesFile, cardsFolder] = process.argv.slice(2);
const { needs, fits } = createRequire(import.meta.url)(path.resolve(fitsFile));

function cardOf(id) {
  let card;
  new Function("rungbookCard", readFileSync(path.join(cardsFolder, `${id}.js`), "utf8"))((found) => {
    card = found;
  });
  return card;
}

const cases = JSON.parse(readFileSync(casesFile, "utf8"));
for (const { movement, person, swaps } of cases) {
  const found = cardOf(movement)
    .swaps.filter((swap) => fits(person, needs(swap.needs)))
    .map((swap) => ({ to: swap.id, reason: swap.reason }));
  assert.deepEqual(found, swaps, `${movement} for ${JSON.stringify(person)}`);
}
console.log(`${cases.length} people agree`);
