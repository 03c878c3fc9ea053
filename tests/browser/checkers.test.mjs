// Outside checkers over the finished site: HTML and CSS, schema.org facts, types of the scripts.
// Never our own opinion: the Nu HTML checker (vnu), schema-dts's types of schema.org, TypeScript.
import assert from "node:assert/strict";
import { execFile } from "node:child_process";
import { readdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { before, test } from "node:test";
import { builtSite, filesBelow, HOUSE, ownFolder, pagesOf } from "./hall.mjs";

const require = createRequire(import.meta.url);
const MODULES = join(HOUSE, "tests/browser/node_modules");
const SCRIPTS = join(HOUSE, "themes/slate/scripts");
let site;

before(() => {
  site = builtSite();
});

/** Runs a program to its end: {code, said}. */
const run = (program, args) => new Promise((done) => {
  execFile(program, args, { maxBuffer: 1 << 26 }, (error, out, err) => done({ code: error ? error.code : 0, said: out + err }));
});

/** What vnu finds in files, warnings too. */
async function vnu(files, ...options) {
  const jar = join(dirname(require.resolve("vnu-jar/package.json")), "build/dist/vnu.jar");
  const { said } = await run("java", ["-Xss2m", "-jar", jar, "--format", "json", "--exit-zero-always", ...options, ...files]);
  return JSON.parse(said.slice(said.indexOf("{"))).messages;
}

/**
 * A file on disk has no host, so the checker takes `'self'` for nobody, and facts for search engines
 * for a script; what the policy lets in is tried in the browser itself (ways-in.test.mjs).
 */
const isAboutPolicy = (message) => message.message.includes("violates Content Security Policy");

/** Fails with the first twenty lines. */
function none(lines) {
  assert.equal(lines.length, 0, `${lines.length} complaints\n${lines.slice(0, 20).join("\n")}`);
}

const asLines = (messages) =>
  messages.map((one) => `${one.url?.split("/site/").pop()}:${one.lastLine ?? ""} ${one.type}: ${one.message}`);

test("the Nu HTML checker finds nothing on any page", async () => {
  const pages = pagesOf(site).map((name) => join(site, name));
  const messages = await vnu(pages);
  none(asLines(messages.filter((one) => !isAboutPolicy(one))));
});

test("the Nu HTML checker finds no error in any style sheet", async () => {
  const sheets = filesBelow(site).filter((name) => name.endsWith(".css")).map((name) => join(site, name));
  assert.ok(sheets.length > 0);
  const messages = await vnu(sheets, "--css");
  none(asLines(messages.filter((one) => one.type === "error")));
});

test("the Nu HTML checker sees a bad page and a bad sheet", async () => {
  const folder = ownFolder();
  writeFileSync(join(folder, "bad.html"), "<!doctype html><html lang=en><title>x</title><p><ul><li id=a><li id=a></p>");
  writeFileSync(join(folder, "bad.css"), "main { colour: red }");
  assert.ok((await vnu([join(folder, "bad.html")])).length > 0);
  const sheet = await vnu([join(folder, "bad.css")], "--css");
  assert.ok(sheet.some((one) => one.type === "error"));
});

/** The JSON-LD blocks of a page. */
const factsOf = (html) =>
  [...html.matchAll(/<script type="application\/ld\+json">(.*?)<\/script>/gs)].map((match) => match[1]);

/** A folder in which TypeScript finds the packages. */
function typeFolder() {
  const folder = ownFolder();
  symlinkSync(MODULES, join(folder, "node_modules"));
  return folder;
}

const tsc = (args) => run(process.execPath, [require.resolve("typescript/package.json").replace("package.json", "bin/tsc"), ...args]);

/** Types every block as the schema.org thing that it says it is; returns what TypeScript says. */
async function typed(blocks) {
  const folder = typeFolder();
  const kinds = [...new Set(blocks.map((block) => JSON.parse(block)["@type"]))];
  const lines = [`import type { ${["WithContext", ...kinds].join(", ")} } from "schema-dts";`];
  blocks.forEach((block, at) => {
    lines.push(`export const facts${at}: WithContext<${JSON.parse(block)["@type"]}> = ${block};`);
  });
  writeFileSync(join(folder, "facts.ts"), lines.join("\n"));
  return tsc(["--noEmit", "--strict", "--skipLibCheck", "--types", "", "--module", "nodenext", join(folder, "facts.ts")]);
}

test("schema.org facts have the types of schema.org", async () => {
  const blocks = pagesOf(site).flatMap((name) => factsOf(readFileSync(join(site, name), "utf8")));
  assert.ok(blocks.length > 100, `${blocks.length} blocks`);
  const { code, said } = await typed(blocks);
  assert.equal(code, 0, said);
});

test("the only inline scripts are facts, which no browser runs", () => {
  const inline = (html) => [...html.matchAll(/<script(?![^>]*\bsrc=)([^>]*)>/g)].map((match) => match[1].trim());
  const found = pagesOf(site).flatMap((name) => inline(readFileSync(join(site, name), "utf8")));
  assert.deepEqual([...new Set(found)], ['type="application/ld+json"']);
  assert.deepEqual(inline("<script>alert(1)</script><script src='x.js'></script>"), [""]);
});

test("facts of a wrong shape are seen", async () => {
  const wrong = JSON.stringify({ "@context": "https://schema.org", "@type": "HowTo", steps: [], name: 3 });
  const { code, said } = await typed([wrong]);
  assert.notEqual(code, 0);
  assert.match(said, /steps|name/);
});

/**
 * Checks scripts together, as the classic scripts of one page that they are. The line that hands a
 * script to Node's tests would make it a module with names of its own; it is left out here.
 */
async function scriptTypes(sources) {
  const folder = typeFolder();
  const files = Object.entries(sources).map(([name, text]) => {
    writeFileSync(join(folder, name), text.replace(/^if \(typeof module .*$/m, ""));
    return join(folder, name);
  });
  writeFileSync(join(folder, "globals.d.ts"), readFileSync(join(HOUSE, "tests/browser/globals.d.ts")));
  return tsc([
    "--noEmit", "--allowJs", "--checkJs", "--strict", "--skipLibCheck", "--types", "", "--target", "es2022",
    "--lib", "es2022,dom,dom.iterable", join(folder, "globals.d.ts"), ...files,
  ]);
}

test("the scripts pass TypeScript's strict checks", async () => {
  const names = readdirSync(SCRIPTS).filter((name) => name.endsWith(".js"));
  assert.ok(names.includes("picker.js"));
  const sources = Object.fromEntries(names.map((name) => [name, readFileSync(join(SCRIPTS, name), "utf8")]));
  const { code, said } = await scriptTypes(sources);
  assert.equal(code, 0, said);
});

test("so do the scripts of the preview, each a page of its own", async () => {
  for (const name of ["preview.js", "pose.js"]) {
    const { code, said } = await scriptTypes({ [name]: readFileSync(join(HOUSE, "src/preview/page", name), "utf8") });
    assert.equal(code, 0, said);
  }
});

test("a script with a wrong type is seen", async () => {
  const bad = '/** @param {number} n */ function twice(n) { return n * 2; }\ntwice("two");\n';
  assert.notEqual((await scriptTypes({ "bad.js": bad })).code, 0);
});
