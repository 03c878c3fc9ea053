// Reads people from standard input, places each with the browser's scripts, writes the answers.
"use strict";

const scripts = "../../themes/slate/scripts/";
const { tables, people } = JSON.parse(require("node:fs").readFileSync(0, "utf8"));
const placing = require(`${scripts}placing.js`)(tables);
const { compare } = require(`${scripts}retest.js`)(placing);
const { norms } = require(`${scripts}norms.js`)(tables.norms);

const answers = people.map(({ sheet, demands, test, retest, norm, sets }) => ({
  place: placing.place(sheet, demands, test),
  compare: compare(sheet, demands, test, retest),
  move_up: placing.moveUp(sheet, test.rung, sets),
  norms: norms(norm.test, norm.sex, norm.age, norm.value),
}));
process.stdout.write(JSON.stringify(answers));
