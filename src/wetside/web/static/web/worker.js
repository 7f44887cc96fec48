// Keeps a run's page and the pages on which things are entered, and what they are made of, so that they can be loaded anew
// while the server does not answer. The server always comes first; what is kept serves only where it is silent. No rules, no
// facts, nothing typed is kept here: the pages keep those themselves, and ask for news in vain.

const KEEPING = "wetside-pages-1";
const KEY = "[0-9a-f-]{36}";
const RUN_PAGE = new RegExp(`^/runs/${KEY}/$`);
// Pages whose forms go through the outbox.
const ENTRY_PAGE = new RegExp(
  `^/(?:sheets/(?:new|${KEY})|holders(?:/lots|/${KEY})?|films/${KEY}/lots/(?:new|${KEY})|outbox)/$`,
);
const MOST_RUNS = 12;
const MOST_ENTRY_PAGES = 60;
const ANSWER_WITHIN_MS = 4000;
const MODULES = [
  "keeping", ...["answer", "clock", "cues", "forms", "handover", "page", "schedule", "signals", "track"].map((name) => `run/${name}`),
];

self.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const keeping = await caches.open(KEEPING);
    await Promise.allSettled(MODULES.map((name) => keeping.add(new URL(`static/web/${name}.js`, self.registration.scope))));
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
    const answer = await fetch(bare(address), { cache: "no-cache" });
    if (answer.ok && !answer.redirected) await keeping.put(bare(address), answer);
  }));
  const kept = await keeping.keys();
  for (const [pages, most] of [[RUN_PAGE, MOST_RUNS], [ENTRY_PAGE, MOST_ENTRY_PAGES]]) {
    const these = kept.filter((request) => pages.test(new URL(request.url).pathname));
    for (const request of these.slice(0, -most)) await keeping.delete(request);
  }
}

function isKept(address) {
  const { origin, pathname } = new URL(address);
  return origin === self.location.origin && (isPage(pathname) || pathname.startsWith("/static/"));
}

function isPage(pathname) {
  return RUN_PAGE.test(pathname) || ENTRY_PAGE.test(pathname);
}

function bare(address) {
  const found = new URL(address);
  found.hash = "";
  if (isPage(found.pathname)) found.search = "";
  return found.href;
}

self.addEventListener("fetch", (event) => {
  const { request } = event;
  // Who signs out leaves no page of the archive on the device.
  if (request.method === "POST" && new URL(request.url).pathname === "/sign-out/") event.waitUntil(caches.delete(KEEPING));
  if (request.method !== "GET" || request.headers.has("Range") || !isKept(request.url)) return;
  event.respondWith(serverFirst(request));
});

async function serverFirst(request) {
  const keeping = await caches.open(KEEPING);
  const address = bare(request.url);
  const kept = await keeping.match(address);
  const { pathname, search } = new URL(request.url);
  try {
    const answer = await fetch(request, kept ? { signal: AbortSignal.timeout(ANSWER_WITHIN_MS) } : {});
    // A server whose database is away is as silent as none: a run counts on from what is kept.
    if (kept && answer.status >= 500) return asKept(pathname, kept);
    const whole = !ENTRY_PAGE.test(pathname) || !search;
    if (whole && answer.ok && !answer.redirected && answer.type === "basic") await keeping.put(address, answer.clone());
    return answer;
  } catch (error) {
    if (!kept) throw error;
    return asKept(pathname, kept);
  }
}

function asKept(pathname, kept) {
  return ENTRY_PAGE.test(pathname) ? dated(kept) : kept;
}

/** An entry page says of itself from when it is: nothing else on it would show that the server is silent. */
async function dated(kept) {
  const at = Date.parse(kept.headers.get("date") ?? "") || 0;
  const headers = new Headers(kept.headers);
  for (const name of ["content-length", "content-encoding"]) headers.delete(name);
  const text = await kept.text();
  return new Response(text.replace("<html ", `<html data-kept-at="${at}" `), { status: kept.status, headers });
}
