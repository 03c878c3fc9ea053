// Reads people from standard input, places each with the browser's scripts, writes the answers. A
// person stands on a sheet with its demands, or on a ladder's file as the site has it.
"use strict";

const scripts = "../../themes/slate/scripts/";
const { tables, people } = JSON.parse(require("node:fs").readFileSync(0, "utf8"));
globalThis.rungbookEstimate = require(`${scripts}estimate.js`);
const placing = require(`${scripts}placing.js`)(tables);
const { compare } = require(`${scripts}retest.js`)(placing);
const { norms } = require(`${scripts}norms.js`)(tables.norms);
globalThis.rungbookDose = require(`${scripts}dose.js`);
globalThis.rungbookHeight = require(`${scripts}height.js`);
const demandsOf = require(`${scripts}demands.js`);

const onASheet = ({ sheet, demands, test, retest, norm, sets, results, running }) => ({
  place: placing.place(sheet, demands, test),
  compare: compare(sheet, demands, test, retest),
  after: placing.place(sheet, demands, test, running),
  ask_again: placing.askAgain(test),
  sessions: placing.sessions(results.map(([day, amount]) => ({ day, amount }))),
  move_up: placing.moveUp(sheet, test.rung, sets),
  norms: norms(norm.test, norm.sex, norm.age, norm.value),
});

const onALadder = ({ ladder, stature, own_at, test }) => {
  const own = own_at === null ? null : demandsOf.own(ladder, test.rung - 1, own_at, stature);
  return { place: placing.place(ladder.sheet, demandsOf.of(ladder, stature), { ...test, own }) };
};

const answers = people.map((person) => (person.ladder ? onALadder(person) : onASheet(person)));
process.stdout.write(JSON.stringify(answers));
