// A preview is never kept for use without a signal: this worker clears what an earlier one kept at
// this address, takes itself away, and lets pages that came from the old one come again.
"use strict";

self.addEventListener("install", () => self.skipWaiting());

self.addEventListener("activate", (event) => {
  event.waitUntil(clear());
});

async function clear() {
  const names = (await caches.keys()).filter((name) => name.startsWith("rungbook "));
  await Promise.all(names.map((name) => caches.delete(name)));
  // Only pages out of a cache are asked again: every page asks for this worker, and one that was
  // sent back each time would never come to rest.
  const pages = names.length === 0 ? [] : await keptPages();
  await self.registration.unregister();
  await Promise.all(pages.map((page) => page.navigate(page.url).catch(() => null)));
}

async function keptPages() {
  await self.clients.claim();
  return self.clients.matchAll({ type: "window" });
}
