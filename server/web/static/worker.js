// What does a phone without a signal show of a visit? The page as it was kept, and nothing of any other room.
"use strict";
const CACHE = "tundish-visits";
const PATIENCE = 5000;

self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== "GET" || origin !== self.location.origin) return;
  if (pathname.startsWith("/static/")) event.respondWith(keptFirst(request));
  else if (request.mode === "navigate" && /^\/engineer\/visits(\/|$)/.test(pathname)) event.respondWith(freshFirst(request, pathname));
});
async function keptFirst(request) {
  const kept = await caches.match(request.url, { cacheName: CACHE });
  return kept ?? fetch(request);
}
async function freshFirst(request, pathname) {
  const kept = await caches.match(pathname, { cacheName: CACHE });
  if (!kept) return fetch(request);
  try {
    return await fetch(request, { signal: AbortSignal.timeout(PATIENCE) });
  } catch {
    return kept;
  }
}
