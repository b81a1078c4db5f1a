// The desk's one script: theme, first fault, grids that take a paste, and drawings that answer. Nothing here reckons.
"use strict";

(function theme() {
  const root = document.documentElement;
  let kept = null;
  try { kept = localStorage.getItem("rodbook-theme"); } catch { /* private window */ }
  if (kept) root.dataset.theme = kept;
  document.addEventListener("DOMContentLoaded", () => {
    const button = document.querySelector("[data-theme-switch]");
    if (!button) return;
    const dark = () => root.dataset.theme ? root.dataset.theme === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
    const show = () => button.setAttribute("aria-pressed", String(dark()));
    show();
    button.addEventListener("click", () => {
      root.dataset.theme = dark() ? "light" : "dark";
      try { localStorage.setItem("rodbook-theme", root.dataset.theme); } catch { /* private window */ }
      show();
    });
  });
})();

function focusFirstFault(within) {
  const first = within.querySelector("[aria-invalid='true']");
  if (first) first.focus();
}

document.addEventListener("DOMContentLoaded", () => focusFirstFault(document));
document.addEventListener("htmx:afterSettle", (event) => {
  focusFirstFault(event.target);
});
