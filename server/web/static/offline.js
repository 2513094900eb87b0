// Which pages does a phone keep at hand for a place without a signal?
// Those of open visits: each is fetched once more and kept when one of them was opened, and whenever something was sent.
"use strict";
(() => {
  const CACHE = "tundish-visits";
  const root = document.getElementById("record");
  const wanted = (root?.dataset.offline ?? "").split(" ").filter(Boolean);
  if (!("serviceWorker" in navigator) || !("caches" in globalThis)) return;

  async function keep() {
    const kept = await caches.open(CACHE);
    const fonts = performance.getEntriesByType("resource").map((each) => new URL(each.name).pathname);
    const parts = new Set(fonts.filter((path) => path.startsWith("/static/")));
    for (const address of new Set([location.pathname, ...wanted])) {
      const answer = await fetch(address, { cache: "no-store" });
      if (answer.ok && !answer.redirected) {
        for (const [, path] of (await answer.clone().text()).matchAll(/"(\/static\/[^"]+)"/g)) parts.add(path);
        await kept.put(address, answer);
      } else if (answer.redirected || answer.status === 404) await kept.delete(address);
    }
    for (const path of parts) if (!await kept.match(path)) await kept.add(path);
    if (location.pathname.endsWith("/visits")) await forget(kept, new Set([location.pathname, ...wanted]));
    root.dataset.atHand = "yes";
  }
  async function forget(kept, but) {
    for (const request of await kept.keys()) {
      const path = new URL(request.url).pathname;
      if (path.startsWith("/engineer/visits") && !but.has(path)) await kept.delete(request);
    }
  }
  const tryToKeep = () => keep().catch(() => { /* no signal: what was kept stays */ });

  navigator.serviceWorker.register("/engineer/worker.js").then(tryToKeep, () => { /* then without */ });
  addEventListener("tundish-sent", tryToKeep);
  // Who signs out leaves nothing about anybody's home on the phone.
  document.querySelector('form[action="/staff/sign-out"]')?.addEventListener("submit", () => { caches.delete(CACHE); });
})();
