// Keeps the whole site on the device, so that it opens without a signal. Asks no other host.
// The version changes with any byte of the site; the same content gives the same version.
"use strict";
const VERSION = "{{ version }}";
const PREFIX = "rungbook " + self.registration.scope + " ";
const CACHE = PREFIX + VERSION;
const FILES = [
{% for file in files %}"{{ file }}",
{% endfor -%}
];

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches.open(CACHE)
      .then((cache) => cache.addAll(FILES.map((file) => new Request(file, { cache: "no-cache" }))))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener("activate", (event) => {
  const isOld = (name) => name.startsWith(PREFIX) && name !== CACHE;
  event.waitUntil(
    caches.keys()
      .then((names) => Promise.all(names.filter(isOld).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || !url.href.startsWith(self.registration.scope)) return;
  const page = url.pathname.endsWith("/") ? url.pathname + "index.html" : url.pathname;
  event.respondWith(
    caches.open(CACHE)
      .then((cache) => cache.match(new URL(page, url).href))
      .then((kept) => kept || fetch(event.request)),
  );
});
