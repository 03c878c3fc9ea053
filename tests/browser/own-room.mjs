// The own room of the scripts, in node, on files of data: what a page has when own.js has come.
import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";

/** The scripts in the order in which a page brings them. @param {string} folder */
export function ownRoom(folder) {
  const script = (name) => createRequire(import.meta.url)(path.resolve(folder, `${name}.js`));
  globalThis.rungbookHeight = script("height");
  globalThis.rungbookFits = script("fits");
  globalThis.rungbookDose = script("dose");
  globalThis.rungbookDemands = script("demands");
  globalThis.rungbookEstimate = script("estimate");
  globalThis.rungbookOwnRung = script("own-rung");
  globalThis.rungbookOwnDose = script("own-dose");
  return { own: script("own"), ownRung: globalThis.rungbookOwnRung, placing: script("placing") };
}

/** What a data script hands over, or puts on the window. @param {string} file @param {string} [name] */
export function handed(file, name = "rungbookNobody") {
  let found;
  const window = {};
  new Function("window", name, readFileSync(file, "utf8"))(window, (data) => (found = data));
  return found ?? window;
}

/** Every file of a folder with such a name, by the ids in them. @param {string} folder @param {RegExp} named @param {string} name */
export function allOf(folder, named, name) {
  const files = readdirSync(folder).filter((file) => named.test(file));
  return Object.fromEntries(files.map((file) => handed(path.join(folder, file), name)).map((data) => [data.id, data]));
}
