// Has the worker keep the page that is open, so that it can be loaded anew while the server is silent.

/** Not over plain HTTP from afar, and not where the certificate is not trusted: there the browser refuses a worker. */
export async function keepPage(worker) {
  if (!("serviceWorker" in navigator)) return;
  await navigator.serviceWorker.register(worker, { scope: "/" });
  const { active } = await navigator.serviceWorker.ready;
  const made = performance.getEntriesByType("resource").map((one) => one.name).filter((name) => name.includes("/static/"));
  active.postMessage({ keep: [location.href, ...made] });
  document.documentElement.dataset.kept = "asked";
}
