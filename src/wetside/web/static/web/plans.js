// Plans: walk the bars of the chart by keyboard, open a reckoning in place, keep what was open when a choice changes.

const phone = window.matchMedia("(max-width: 640px)");

function bars(chart) {
  return [...chart.querySelectorAll("a.bar")];
}

function say(text) {
  const output = document.querySelector("[data-bar-said]");
  if (output) output.textContent = text;
}

// One stop for the tab key; arrows, Home and End move between the bars.
document.addEventListener("keydown", (event) => {
  const bar = event.target.closest?.("a.bar");
  if (!bar) return;
  const all = bars(bar.closest("[data-bars]"));
  const here = all.indexOf(bar);
  const step = { ArrowDown: here + 1, ArrowRight: here + 1, ArrowUp: here - 1, ArrowLeft: here - 1, Home: 0, End: all.length - 1 }[event.key];
  if (step === undefined) return;
  event.preventDefault();
  const next = all[Math.min(Math.max(step, 0), all.length - 1)];
  for (const one of all) one.setAttribute("tabindex", one === next ? "0" : "-1");
  next.focus();
});

document.addEventListener("focusin", (event) => {
  const bar = event.target.closest?.("a.bar");
  if (bar) say(bar.getAttribute("aria-label"));
});

// A reckoning opens beside the chart; without this script the link leads to a page of its own.
document.addEventListener("click", (event) => {
  const link = event.target.closest?.("[data-why]");
  const why = document.getElementById("why");
  if (!link || !why || event.ctrlKey || event.metaKey || event.shiftKey) return;
  event.preventDefault();
  for (const one of document.querySelectorAll("a.bar[aria-current]")) one.removeAttribute("aria-current");
  if (link.matches("a.bar")) link.setAttribute("aria-current", "true");
  window.htmx.ajax("GET", link.getAttribute("href"), { target: "#why", swap: "innerHTML" }).then(() => {
    document.getElementById("why-title")?.focus({ preventScroll: !phone.matches });
    if (phone.matches || link.closest("table")) why.scrollIntoView({ block: "nearest" });
  });
});

// The form comes back with its mistakes beside the fields.
document.addEventListener("htmx:beforeSwap", (event) => {
  if (event.detail.xhr.status === 422 && event.detail.requestConfig?.verb === "post") {
    event.detail.shouldSwap = true;
    event.detail.isError = false;
  }
});

let open = [];
document.addEventListener("htmx:beforeSwap", () => {
  open = [...document.querySelectorAll("details[data-keeps-open][open]")].map((one) => one.id);
});
document.addEventListener("htmx:afterSwap", () => {
  for (const id of open) document.getElementById(id)?.setAttribute("open", "");
});

// At most so many can be compared; the others wait until one is given back.
function limit() {
  for (const group of document.querySelectorAll("[data-most]")) {
    const boxes = [...group.querySelectorAll("input[type=checkbox]")];
    const full = boxes.filter((box) => box.checked).length >= Number(group.dataset.most);
    for (const box of boxes) box.disabled = full && !box.checked;
  }
}
document.addEventListener("change", limit);
document.addEventListener("htmx:afterSwap", limit);
limit();

for (const button of document.querySelectorAll("[data-pick-all]")) {
  button.hidden = false;
  button.addEventListener("click", () => {
    const boxes = [...button.closest("[data-pick]").querySelectorAll("input[type=checkbox]")];
    const all = boxes.every((box) => box.checked);
    for (const box of boxes) box.checked = !all;
  });
}
