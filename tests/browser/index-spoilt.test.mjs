// The page's reader of the search index, given a spoilt one: it refuses it by its sum, where it might read on
// for ever. Spoilt from a seed: letters turned, cut, doubled and put in; RUNGBOOK_FUZZ=20000 tries more.
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { test } from "node:test";
import vm from "node:vm";
import { dice } from "./dice.mjs";
import { build, HOUSE, ownFolder } from "./hall.mjs";
import { indexIn } from "./search-scripts.mjs";

const SCRIPTS = ["index-file", "question", "postings", "ranking"];
/** How long the engine lets one try go on, milliseconds; a sound one takes a few. */
const FOR_EVER = 5000;
const TRIES = Number(process.env.RUNGBOOK_FUZZ || 300);
const ASKED = ["row", "no bar", "sore wrist", "push up on a chair", "plnk"];

const read = (name) => readFileSync(join(HOUSE, `themes/slate/scripts/${name}.js`), "utf8");
const context = vm.createContext({});
vm.runInContext(`${SCRIPTS.map(read).join("\n")}
globalThis.asked = (letters, words) => {
  const ranking = rungbookRanking.open(letters);
  return words.map((one) => rungbookRanking.find(ranking, one, 10).length);
};`, context);

/** What comes of an index: counts of answers, or the reason why it is refused. */
function tried(letters) {
  context.letters = letters;
  context.words = ASKED;
  try {
    return { counts: [...vm.runInContext("asked(letters, words)", context, { timeout: FOR_EVER })] };
  } catch (error) {
    if (error.code === "ERR_SCRIPT_EXECUTION_TIMEOUT") return { endless: true };
    return { refused: String(error) };
  }
}

/** An index with a few letters other than they were. */
function spoilt(letters, roll) {
  let text = letters;
  for (let times = 1 + roll(3); times > 0; times -= 1) {
    const at = roll(text.length);
    const part = text.slice(at, at + 1 + roll(40));
    const kinds = [
      () => text.slice(0, at) + String.fromCharCode(roll(0x8000)) + text.slice(at + 1),
      () => text.slice(0, at),
      () => text.slice(0, at) + text.slice(at + part.length),
      () => text.slice(0, at) + part + text.slice(at),
      () => text.slice(0, at) + "#$%\u{3fff}\u{7fff}"[roll(5)] + text.slice(at),
    ];
    text = kinds[roll(kinds.length)]();
  }
  return text;
}

const folder = ownFolder();
build(join(HOUSE, "tests/libraries/hall"), join(folder, "site"));
const sound = indexIn(readFileSync(join(folder, "site/data/search-index.js"), "utf8"));

test("a sound index answers", () => {
  const { counts } = tried(sound);
  assert.ok(counts.slice(0, 4).every((count) => count > 0), `${counts}`);
});

test("a spoilt index is refused, and nobody reads on for ever", (t) => {
  const roll = dice(17);
  let refused = 0;
  let same = 0;
  for (let nth = 0; nth < TRIES; nth += 1) {
    const letters = spoilt(sound, roll);
    if (letters === sound) {
      same += 1;
      continue;
    }
    const found = tried(letters);
    assert.match(found.refused || "", /not a search index/, `try ${nth}: ${JSON.stringify(letters.slice(0, 40))}, ${letters.length} of ${sound.length} letters`);
    refused += 1;
  }
  t.diagnostic(`${TRIES} spoilt: ${refused} refused, ${same} came out as they were, 0 endless`);
  assert.ok(refused > TRIES * 0.9, `${refused}`);
});
