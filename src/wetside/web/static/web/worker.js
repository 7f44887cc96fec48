// Keeps a run's page, and what it is made of, so that it can be loaded anew while the server does not answer. The server
// always comes first; what is kept serves only where it is silent. No rules, no facts, no news are kept here: the page
// keeps those itself, and asks for them in vain.

const KEEPING = "wetside-pages-1";
const RUN_PAGE = /^\/runs\/[0-9a-f-]{36}\/$/;
const ANSWER_WITHIN_MS = 4000;
const MODULES = ["answer", "clock", "cues", "forms", "handover", "page", "schedule", "signals", "track"];

self.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const keeping = await caches.open(KEEPING);
    await Promise.allSettled(MODULES.map((name) => keeping.add(new URL(`static/web/run/${name}.js`, self.registration.scope))));
    await self.skipWaiting();
  })());
});

self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

// A page that registered this worker was loaded before it: it says what it is made of.
self.addEventListener("message", (event) => {
  if (event.data?.keep) event.waitUntil(keepAll(event.data.keep));
});

async function keepAll(addresses) {
  const keeping = await caches.open(KEEPING);
  await Promise.allSettled(addresses.filter(isKept).map(async (address) => {
    const answer = await fetch(address, { cache: "no-cache" });
    if (answer.ok) await keeping.put(bare(address), answer);
  }));
  const pages = (await keeping.keys()).filter((request) => RUN_PAGE.test(new URL(request.url).pathname));
  for (const request of pages.slice(0, -12)) await keeping.delete(request);
}

function isKept(address) {
  const { origin, pathname } = new URL(address);
  return origin === self.location.origin && (RUN_PAGE.test(pathname) || pathname.startsWith("/static/"));
}

function bare(address) {
  const found = new URL(address);
  found.hash = "";
  if (RUN_PAGE.test(found.pathname)) found.search = "";
  return found.href;
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || request.headers.has("Range") || !isKept(request.url)) return;
  event.respondWith(serverFirst(request));
});

async function serverFirst(request) {
  const keeping = await caches.open(KEEPING);
  const kept = await keeping.match(bare(request.url));
  try {
    const answer = await fetch(request, kept ? { signal: AbortSignal.timeout(ANSWER_WITHIN_MS) } : {});
    if (answer.ok && !answer.redirected && answer.type === "basic") await keeping.put(bare(request.url), answer.clone());
    return answer;
  } catch (error) {
    if (kept) return kept;
    throw error;
  }
}
