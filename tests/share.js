// Answers questions about sharing little kit with the page's own script: a list of questions in, words out.
"use strict";
const { readFileSync } = require("node:fs");
const { runInNewContext } = require("node:vm");

const script = readFileSync(`${__dirname}/../themes/slate/scripts/share.js`, "utf8");
const share = runInNewContext(`${script}; rungbookShare`);
const questions = JSON.parse(readFileSync(0, "utf8"));
const answers = questions.map(({ people, window, stations, counts }) => {
  const found = share.share(people, window, stations, counts);
  return { ...found, said: share.said(found, stations) };
});
process.stdout.write(JSON.stringify(answers));
