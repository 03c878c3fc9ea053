// The search scripts as a page runs them: classic scripts, one after the other.
import { readFileSync } from "node:fs";
import vm from "node:vm";

const SCRIPTS = ["index-file", "question", "postings", "ranking", "answers"];

/** @returns {{rungbookRanking: any, rungbookQuestion: any, rungbookIndexFile: any, rungbookAnswers: any}} */
export function searchScripts() {
  const read = (/** @type {string} */ name) =>
    readFileSync(new URL(`../../themes/slate/scripts/${name}.js`, import.meta.url), "utf8");
  const all = "{ rungbookRanking, rungbookQuestion, rungbookIndexFile, rungbookAnswers }";
  return vm.runInThisContext(`(() => {${SCRIPTS.map(read).join("\n")}\nreturn ${all};})()`);
}

/** The exported index in the script that a page fetches. @param {string} script */
export const indexIn = (script) => JSON.parse(script.slice(script.indexOf("=") + 1, script.lastIndexOf(";")));
