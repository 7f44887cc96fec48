// What every page does: a form is sent once, the theme is kept on this device, and what was told is brought into view.

document.addEventListener("submit", (event) => {
  const form = event.target;
  if (form.dataset.sent === "yes") {
    event.preventDefault();
    return;
  }
  if (form.method === "post" && !form.hasAttribute("hx-post")) {
    form.dataset.sent = "yes";
    window.addEventListener("pageshow", () => delete form.dataset.sent, { once: true });
  }
});

for (const choice of document.querySelectorAll("[data-theme-choice]")) {
  choice.addEventListener("change", () => {
    document.documentElement.dataset.theme = choice.value;
    document.cookie = `theme=${choice.value};path=/;max-age=31536000;samesite=lax`;
  });
}

document.querySelector("[data-told]")?.focus({ preventScroll: false });
