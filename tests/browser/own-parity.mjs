// node own-parity.mjs SCRIPTS CASES DATA: the session page's own version of lines and rungs, by the
// site's own scripts, compared with what the command's room found. Called by tests/own_parity.rs.
import { readFileSync } from "node:fs";
import assert from "node:assert/strict";
import path from "node:path";
import { allOf, handed, ownRoom } from "./own-room.mjs";

const [scripts, casesFile, data] = process.argv.slice(2);
const { own, placing } = ownRoom(scripts);
globalThis.rungbookWords = handed(path.join(data, "words.js")).rungbookWords;
const cards = allOf(data, /^card-/, "rungbookCard");
const ladders = allOf(data, /^ladder-/, "rungbookLadder");
const sessions = allOf(data, /^session-/, "rungbookSession");
const weeks = allOf(data, /^weeks-/, "rungbookWeeks");
const known = placing(handed(path.join(data, "placing.js")).rungbookPlacingTables);
const cases = JSON.parse(readFileSync(casesFile, "utf8"));

/** A line of a session, as the week of a cycle asks for it where one is named. */
function line({ session, block, line: at, week: [cycle, number] = [] }) {
  const changes = weeks[cycle]?.weeks[number]?.[session] || [];
  const instead = changes.filter(([b, l]) => b === block && l === at).map(([, , fields]) => fields);
  return Object.assign({}, sessions[session].blocks[block].items[at], ...instead);
}

for (const { who, answers } of cases) {
  const tools = { ...who, ladders, cards, placing: known };
  for (const { at, own: expected } of answers) {
    const found = at.ladder
      ? own.ofRung(ladders[at.ladder], at.rung, tools)
      : own.version(line(at), tools);
    assert.deepEqual(found, expected, `${JSON.stringify(at)} for ${JSON.stringify(who)}`);
  }
}
console.log(`${cases.length} people agree`);
