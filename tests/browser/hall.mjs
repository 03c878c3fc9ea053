// The hall where the site is tried: builds it, serves it under a sub-path, opens the browser.
// Never asks another machine for anything: only files and the loopback address.
import { execFileSync } from "node:child_process";
import { cpSync, createReadStream, existsSync, mkdtempSync, readdirSync, rmSync, statSync } from "node:fs";
import { createServer } from "node:http";
import { tmpdir } from "node:os";
import { extname, join, resolve, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { createGzip } from "node:zlib";
import { chromium } from "playwright-core";

export const HOUSE = resolve(fileURLToPath(import.meta.url), "../../..");
const PROGRAM = process.env.RUNGBOOK || join(HOUSE, "target/debug/rungbook");

/** Where every test serves the site: links that start at the host's root would fail here. */
export const SUB_PATH = "/a/b/";

/** What Chromium is told: no calls home, no sandbox (tests run as root in containers). */
const FLAGS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

const TYPES = {
  ".html": "text/html; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json",
  ".svg": "image/svg+xml",
  ".webmanifest": "application/manifest+json",
  ".xml": "application/xml",
  ".ics": "text/calendar; charset=utf-8",
};

/** A folder of one's own that goes when the program ends. */
export function ownFolder() {
  const folder = mkdtempSync(join(tmpdir(), "rungbook-"));
  process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** Builds a library into a folder; what it says is shown only when it fails. */
export function build(library, out) {
  if (!existsSync(PROGRAM)) {
    throw new Error("the program is not built yet: run `cargo build` first");
  }
  try {
    execFileSync(PROGRAM, ["build", "--library", library, "--out", out], { stdio: "pipe" });
  } catch (error) {
    // 1: findings. Warnings do not stop a build; errors write no site.
    if (error.status !== 1 || !existsSync(join(out, "index.html"))) throw error;
  }
}

/**
 * The starter library built into a folder of its own; the folder. Where every test runs, one build is
 * made for all and handed over as RUNGBOOK_SITE: each takes a copy of it.
 */
export function builtSite() {
  const out = join(ownFolder(), "site");
  const made = process.env.RUNGBOOK_SITE;
  if (made) cpSync(made, out, { recursive: true });
  else build(join(HOUSE, "content"), out);
  return out;
}

/** Every file below a folder, by its name with slashes, in order. */
export function filesBelow(folder, below = "") {
  const entries = readdirSync(join(folder, below), { withFileTypes: true });
  const names = entries.flatMap((entry) => {
    const name = below + entry.name;
    return entry.isDirectory() ? filesBelow(folder, `${name}/`) : [name];
  });
  return names.sort();
}

/** Every page of a site. */
export const pagesOf = (site) => filesBelow(site).filter((name) => name.endsWith(".html"));

/** One page of every kind: each page at the top, each list, and `each` entries of every folder. */
export function kindsOf(site, each = 1) {
  const taken = new Map();
  return pagesOf(site).filter((name) => {
    const [folder, file] = name.includes("/") ? name.split("/") : ["", name];
    if (folder === "" || file === "index.html") return true;
    const count = (taken.get(folder) || 0) + 1;
    taken.set(folder, count);
    return count <= each;
  });
}

/**
 * Serves a folder below a path; resolves to {address, requests, stop}. At a host's root a missing
 * address shows the site's own page for it, as hosts do; `packed` sends the files as most hosts do.
 */
export async function serve(site, below = SUB_PATH, { packed = false } = {}) {
  const requests = [];
  const server = createServer((request, response) => {
    const path = decodeURIComponent(new URL(request.url, "http://hall").pathname);
    requests.push(request.url);
    const name = path.startsWith(below) ? path.slice(below.length) || "index.html" : null;
    const file = name === null ? null : resolve(site, name.endsWith("/") ? `${name}index.html` : name);
    if (file === null || !file.startsWith(site + sep) || !existsSync(file) || !statSync(file).isFile()) {
      response.writeHead(404, { "content-type": TYPES[".html"] });
      if (below === "/") createReadStream(join(site, "404.html")).pipe(response);
      else response.end("not here");
      return;
    }
    const type = { "content-type": TYPES[extname(file)] || "application/octet-stream" };
    response.writeHead(200, packed ? { ...type, "content-encoding": "gzip" } : type);
    if (packed) createReadStream(file).pipe(createGzip()).pipe(response);
    else createReadStream(file).pipe(response);
  });
  await new Promise((done) => server.listen(0, "127.0.0.1", done));
  const address = `http://127.0.0.1:${server.address().port}${below}`;
  const stop = () => new Promise((done) => {
    server.close(done);
    server.closeAllConnections();
  });
  return { address, requests, stop };
}

/** Debian's Chromium with a fresh profile. */
export function openBrowser() {
  const executablePath = process.env.CHROMIUM || "/usr/bin/chromium";
  return chromium.launch({ executablePath, headless: true, args: FLAGS });
}

/**
 * The starter site built, served below a path and with a browser before it; let it go with `closeHall`.
 */
export async function openHall(below = SUB_PATH) {
  const site = builtSite();
  return { site, hall: await serve(site, below), browser: await openBrowser() };
}

/** Closes what opened, also where opening failed half-way. */
export async function closeHall({ hall, browser }) {
  await browser?.close();
  await hall?.stop();
}
