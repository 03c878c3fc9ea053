// Keeps the site on the device, so that it opens without a signal. Asks no other host. Pages are shown of one
// version of the site: a newer one is fetched beside it, by what changed alone, and shown when it is whole and
// a page says that no clock runs. The same content gives the same version.
"use strict";
const VERSION = "{{ version }}";
const SCOPE = self.registration.scope;
/** Every file under its name and what stands in it, the lists of files, and two notes. */
const STORE = `rungbook ${SCOPE}`;
const LIST = "offline-files.json";
/** The version that is shown, and whether everything is wanted. */
const [SHOWN, ALL] = ["?shown", "?all"].map((note) => new URL(note, SCOPE).href);
const AT_ONCE = 8;
/** Of so many files one may fail; the site is not whole without its shell. */
const ONE_OF = 20;
const isShell = (name) => /^(?:scripts|styles|data)\//.test(name) || /^[^/]+\.html$/.test(name);

const address = (name, mark) => `${new URL(name, SCOPE).href}?${mark}`;
const fresh = (name) => fetch(new Request(new URL(name, SCOPE), { cache: "no-cache" }));
const note = async (store, which) => (await store.match(which))?.text();

async function listOf(store, version) {
  const kept = version && await store.match(address(LIST, version));
  return kept ? kept.json() : null;
}

async function published() {
  const list = await (await fresh(LIST)).json();
  if (list.version !== VERSION) throw new Error("the site changed while it was fetched");
  return list;
}

async function hashOf(bytes) {
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(hash.slice(0, 8), (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** Fetches one file. What a host writes into pages makes them others than were built: those count for this version alone. */
async function keep(store, name, hash) {
  const answer = await fresh(name);
  if (!answer.ok) return name;
  const bytes = await answer.arrayBuffer();
  const mark = await hashOf(bytes) === hash ? hash : VERSION;
  const type = answer.headers.get("content-type") || "application/octet-stream";
  await store.put(address(name, mark), new Response(bytes, { headers: { "content-type": type } }));
  return null;
}

/** The files of a list that are not kept yet. */
async function lacking(store, list) {
  const files = { ...list.always, ...(await note(store, ALL) ? list.more : {}) };
  const here = new Set((await store.keys()).map((request) => request.url));
  const isKept = ([name, hash]) => here.has(address(name, hash)) || here.has(address(name, VERSION));
  return Object.entries(files).filter((file) => !isKept(file));
}

/** Fetches what is lacking; the names of what the host refused. Without a signal it fails, and goes on from there next time. */
async function fill(store, list) {
  const wanted = await lacking(store, list);
  const refused = [];
  let next = 0;
  const work = async () => {
    while (next < wanted.length) {
      const [name, hash] = wanted[next++];
      const failed = await keep(store, name, hash);
      if (failed) refused.push(failed);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, work));
  return refused;
}

async function install() {
  const store = await caches.open(STORE);
  const list = await published();
  const refused = await fill(store, list);
  const many = refused.length * ONE_OF > Object.keys(list.always).length;
  if (many || refused.some(isShell)) throw new Error(`not whole without ${refused[0]}`);
  await published();
  await store.put(address(LIST, VERSION), new Response(JSON.stringify(list)));
  if (!await note(store, SHOWN)) await store.put(SHOWN, new Response(VERSION));
  await self.skipWaiting();
}

/** Shows this version from now on, and says so to what is open. What the older one had alone goes. */
async function changeOver() {
  const store = await caches.open(STORE);
  const list = await listOf(store, VERSION);
  if (!list || await note(store, SHOWN) === VERSION) return;
  await store.put(SHOWN, new Response(VERSION));
  shown = null;
  const files = Object.entries({ ...list.always, ...list.more });
  const ours = new Set(files.flatMap(([name, hash]) => [address(name, hash), address(name, VERSION)]));
  for (const one of [SHOWN, ALL, address(LIST, VERSION)]) ours.add(one);
  const old = (await store.keys()).filter((request) => !ours.has(request.url));
  await Promise.all(old.map((request) => store.delete(request)));
  for (const client of await clients.matchAll({ includeUncontrolled: true })) client.postMessage("changed");
}

/** What an earlier program kept under other names. */
async function clear() {
  const old = (await caches.keys()).filter((name) => name.startsWith(`${STORE} `));
  await Promise.all(old.map((name) => caches.delete(name)));
  await clients.claim();
}

/** What is kept here: bytes of what always is, bytes of the rest, whether the rest is wanted, how many files lack. */
async function told() {
  const store = await caches.open(STORE);
  const list = await listOf(store, await note(store, SHOWN));
  return list && { bytes: list.bytes, all: Boolean(await note(store, ALL)), lacking: (await lacking(store, list)).length };
}

async function heard(asked) {
  const store = await caches.open(STORE);
  if (asked === "all") await store.put(ALL, new Response("yes"));
  if (asked === "change over") await changeOver();
  if (asked !== "told") {
    const list = await listOf(store, VERSION);
    // Without a signal it is asked for again, next time.
    if (list && await note(store, SHOWN) === VERSION) await fill(store, list).catch(() => null);
  }
  return told();
}

/** The list that is shown, read once. */
let shown = null;

async function shownList(store) {
  shown ??= await listOf(store, await note(store, SHOWN));
  return shown;
}

async function answer(request) {
  const store = await caches.open(STORE);
  const list = await shownList(store);
  const below = new URL(request.url).pathname.slice(new URL(SCOPE).pathname.length);
  const name = decodeURIComponent(below === "" || below.endsWith("/") ? `${below}index.html` : below);
  const hash = list && (list.always[name] || list.more[name]);
  const kept = async (file, mark) => mark && (await store.match(address(file, mark)) || store.match(address(file, list.version)));
  const found = await kept(name, hash);
  if (found) return found;
  try {
    return await fetch(request);
  } catch (error) {
    // It says so, at an address from which its links are right.
    if (hash && request.mode === "navigate") return Response.redirect(new URL("404.html", SCOPE));
    throw error;
  }
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(clear()));
self.addEventListener("message", (event) => {
  event.waitUntil(heard(event.data).then((told) => event.ports[0]?.postMessage(told)));
});
self.addEventListener("fetch", (event) => {
  if (event.request.method === "GET" && event.request.url.startsWith(SCOPE)) event.respondWith(answer(event.request));
});
