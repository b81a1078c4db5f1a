// The service worker: keeps the desk's static files, and the pages of a job to measure on and its papers, for a phone without signal.
// It never keeps what was posted, streams, redirects, pages to sign in on, or what the desk marks as not to be kept.
"use strict";
const PAGES = "rodbook-pages", FILES = "rodbook-files", MARK = "/kept-mark", PATIENCE = 5000;
const OF_A_JOB = /^\/jobs\/\d+\/(measure\/([^?]+)?|papers\/([^/]+\/)?|photos\/[0-9a-f]{64}\/)?$/;

self.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const files = await caches.open(FILES);
    await Promise.all([...KEPT.files, KEPT.away].map(async (address) => {
      const reply = await fetch(address, { cache: "no-cache", credentials: address === KEPT.away ? "omit" : "same-origin" });
      if (reply.ok && !reply.redirected) await files.put(address, reply);
    }));
    await self.skipWaiting();
  })());
});
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("fetch", (event) => {
  const request = event.request, address = new URL(request.url);
  if (request.method !== "GET" || address.origin !== self.location.origin) return;
  if (request.headers.has("HX-Request") || (request.headers.get("accept") || "").includes("text/event-stream")) return;
  if (address.pathname.startsWith(KEPT.static)) event.respondWith(file(request));
  else if (request.mode === "navigate" || OF_A_JOB.test(address.pathname)) event.respondWith(page(event, request, address));
});

async function file(request) {
  const files = await caches.open(FILES), kept = await files.match(request);
  if (kept) return kept;
  const reply = await fetch(request);
  if (reply.ok) await files.put(request, reply.clone());
  return reply;
}

async function page(event, request, address) {
  const kept = OF_A_JOB.test(address.pathname) ? await (await caches.open(PAGES)).match(address.pathname) : undefined;
  const asked = fetch(request).then(async (reply) => { await look(reply, address); return reply; });
  asked.catch(() => {});
  event.waitUntil(asked.catch(() => {}));
  try {
    if (!kept) return await asked;
    const late = new Promise((done) => setTimeout(done, PATIENCE));
    return await Promise.race([asked, late]) || await shown(kept);
  } catch {
    if (kept) return shown(kept);
    if (request.mode !== "navigate") return Response.error();
    return (await (await caches.open(FILES)).match(KEPT.away)) || Response.error();
  }
}

// Keep what may be kept. Where the desk now gives another mark - other person, other role, signed out - all that was kept goes first.
async function look(reply, address) {
  const mark = reply.headers.get("X-Rodbook-Keep");
  if (!mark) return;
  let pages = await caches.open(PAGES);
  const before = await pages.match(MARK);
  if (!before || (await before.text()) !== mark) {
    await caches.delete(PAGES);
    if (mark === "none") return;
    pages = await caches.open(PAGES);
    await pages.put(MARK, new Response(mark));
  }
  const kind = reply.headers.get("Content-Type") || "";
  const barred = reply.headers.has("X-Rodbook-Barred");
  if (reply.status !== 200 || reply.redirected || reply.type !== "basic" || barred || !OF_A_JOB.test(address.pathname)) return;
  if (kind.includes("event-stream")) return;
  const copy = reply.clone(), headers = new Headers(copy.headers);
  headers.set("X-Kept-At", new Date().toISOString());
  await pages.put(address.pathname, new Response(await copy.blob(), { status: 200, headers }));
}

// A kept page says so itself: its body carries the time.
async function shown(kept) {
  if (!(kept.headers.get("Content-Type") || "").startsWith("text/html")) return kept;
  const text = (await kept.text()).replace("<body ", `<body data-kept-at="${kept.headers.get("X-Kept-At")}" `);
  return new Response(text, { status: 200, headers: kept.headers });
}
