// node swap-parity.mjs FITS CASES CARDS: filters each card's swaps with the site's own fits.js and
// compares them with what the command found. Called by tests/swap_parity.rs.
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import assert from "node:assert/strict";
import path from "node:path";

const [fitsFile, casesFile, cardsFolder] = process.argv.slice(2);
const { swapsFor, fit, howWords, asksAt } = createRequire(import.meta.url)(path.resolve(fitsFile));
globalThis.window = globalThis;
new Function(readFileSync(path.join(cardsFolder, "words.js"), "utf8"))();

function cardOf(id) {
  let card;
  new Function("rungbookCard", readFileSync(path.join(cardsFolder, `${id}.js`), "utf8"))((found) => {
    card = found;
  });
  return card;
}

const cases = JSON.parse(readFileSync(casesFile, "utf8"));
/** A rung as its card has it: by ladder and number, or the only one. */
function askedOf(card, rung) {
  if (!rung) return { ladder: null, number: 0, at: 0 };
  return { ...rung, at: card.rungs.findIndex((own) => own.ladder === rung.ladder && own.number === rung.number) };
}

for (const { movement, rung, person, own, swaps } of cases) {
  const card = cardOf(movement);
  const asked = askedOf(card, rung);
  const found = swapsFor(card, asked, person).map(({ swap, rung, startHere, fit, reason }) => ({
    to: swap.id,
    reason,
    rung: rung.ladder ? { ladder: rung.ladder, number: rung.number } : null,
    setting: rung.setting || "",
    start_here: startHere,
    change: howWords(fit),
  }));
  const said = `${movement} ${JSON.stringify(rung)} for ${JSON.stringify(person)}`;
  assert.deepEqual(found, swaps, said);
  const ownRung = card.rungs.find((one) => one.ladder === rung?.ladder && one.number === rung?.number);
  const needs = ownRung ? asksAt(card.needs, ownRung) : card.needs;
  const answer = fit(person, needs);
  assert.deepEqual({ kind: answer.kind, change: howWords(answer) }, own, said);
}
console.log(`${cases.length} people agree`);
