// The search scripts as a page runs them: classic scripts, one after the other.
import { readFileSync } from "node:fs";
import vm from "node:vm";

const SCRIPTS = ["index-file", "question", "ranking"];

/** @returns {{rungbookRanking: any, rungbookQuestion: any, rungbookIndexFile: any}} */
export function searchScripts() {
  const read = (/** @type {string} */ name) =>
    readFileSync(new URL(`../../themes/slate/scripts/${name}.js`, import.meta.url), "utf8");
  const all = "{ rungbookRanking, rungbookQuestion, rungbookIndexFile }";
  return vm.runInThisContext(`(() => {${SCRIPTS.map(read).join("\n")}\nreturn ${all};})()`);
}
