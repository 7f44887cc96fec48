// Which sheet hangs where: while the form is open, it says that another page told something of the run.

const form = document.querySelector("[data-hanging]");
const news = document.querySelector("[data-hanging-news]");

if (form && news && "EventSource" in window) {
  const seen = Number(form.elements.seen.value);
  let events = null;
  const watch = () => {
    events?.close();
    events = null;
    if (document.visibilityState === "hidden" || !news.hidden) return;
    events = new EventSource(form.dataset.hanging);
    events.addEventListener("fact", (event) => {
      if (JSON.parse(event.data).seq <= seen) return;
      news.hidden = false;
      events.close();
    });
  };
  document.addEventListener("visibilitychange", watch);
  window.addEventListener("pagehide", () => events?.close());
  watch();
}
