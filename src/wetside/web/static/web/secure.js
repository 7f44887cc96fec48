// What this connection lets the browser do, told before it is needed.
// A page over plain HTTP is no secure context (loopback apart): no wake lock and no service worker. Over HTTPS with a
// certificate that was clicked through, it is one, and the wake lock works, but a service worker's script is refused.

const ABSENT = "insecure";

export async function whatHolds(scope = window) {
  if (!scope.isSecureContext) return ABSENT;
  const workers = scope.navigator.serviceWorker;
  if (!workers) return "no-worker";
  try {
    // The script controls nothing: its scope is a folder without pages, and it is taken away again at once.
    const kept = await workers.register("/static/web/trust-probe.js", { scope: "/static/web/trust-probe/" });
    await kept.unregister();
    return "trusted";
  } catch {
    return "no-worker";
  }
}

for (const place of document.querySelectorAll("[data-secure-context]")) {
  whatHolds().then((word) => {
    for (const one of place.querySelectorAll("[data-when]")) one.hidden = one.dataset.when !== word;
    place.dataset.holds = word;
  });
}
