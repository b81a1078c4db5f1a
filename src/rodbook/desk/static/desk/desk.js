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

// The rod is wider than a phone: the page that one is on is moved into sight.
document.addEventListener("DOMContentLoaded", () => {
  const here = document.querySelector(".rod [aria-current]"), rod = here && here.closest(".rod");
  if (!rod) return;
  const at = here.getBoundingClientRect(), all = rod.getBoundingClientRect();
  rod.scrollLeft += at.left + at.width / 2 - all.left - all.width / 2;
});

document.addEventListener("DOMContentLoaded", () => focusFirstFault(document));
document.addEventListener("htmx:afterSettle", (event) => {
  focusFirstFault(event.target);
});

// A file that is too large is told before it is sent.
document.addEventListener("change", (event) => {
  const field = event.target.closest("input[type=file][data-most]");
  if (!field) return;
  const large = [...field.files].some((file) => file.size > Number(field.dataset.most));
  field.setCustomValidity(large ? field.dataset.tooLarge : "");
  if (large) field.reportValidity();
});

// A copied block pasted into a cell of a grid fills the cells to the right and below; rows are added as they are needed.
document.addEventListener("paste", (event) => {
  const cell = event.target.closest("[data-paste] input:not([type=checkbox]), [data-paste] select");
  if (!cell) return;
  const text = event.clipboardData.getData("text/plain").replace(/\r/g, "").replace(/\n$/, "");
  if (!/[\t\n]/.test(text)) return;
  event.preventDefault();
  const body = cell.closest("tbody");
  const cells = (row) => [...row.querySelectorAll("input:not([type=checkbox]):not([type=hidden]), select")].filter((c) => c.offsetParent);
  const rows = () => [...body.querySelectorAll("tr[data-row]")];
  const column = cells(cell.closest("tr")).indexOf(cell);
  let at = rows().indexOf(cell.closest("tr"));
  for (const line of text.split("\n").slice(0, 500)) {
    if (at >= rows().length) addRow(body);
    const targets = cells(rows()[at]);
    line.split("\t").forEach((value, k) => {
      const target = targets[column + k];
      if (!target) return;
      const said = value.trim();
      if (target.tagName === "SELECT" && ![...target.options].some((o) => o.value === said)) target.add(new Option(said, said));
      target.value = said;
    });
    at += 1;
  }
  cell.focus();
});

function addRow(body) {
  const rows = [...body.querySelectorAll("tr[data-row]")];
  const last = rows[rows.length - 1];
  const number = Math.max(...rows.map((row) => Number(row.dataset.row))) + 1;
  const row = last.cloneNode(true);
  row.dataset.row = String(number);
  row.classList.remove("wrong");
  for (const field of row.querySelectorAll("[name]")) {
    field.name = field.name.replace(/^([a-z])\d+-/, `$1${number}-`);
    field.removeAttribute("aria-invalid");
    field.removeAttribute("aria-describedby");
    if (field.hasAttribute("aria-label")) field.setAttribute("aria-label", field.getAttribute("aria-label").replace(/\d+$/, String(rows.length + 1)));
    if (field.type === "checkbox") field.checked = false;
    else if (field.tagName === "SELECT") field.selectedIndex = 0;
    else field.value = "";
  }
  last.after(row);
  return row;
}

// Measuring on site: own keys instead of the phone's keyboard, the cursor in the box.
(function measuring() {
  const coarse = matchMedia("(pointer: coarse)");
  function dress(within) {
    const box = within.querySelector("[data-reading]");
    if (!box) return;
    const keys = document.querySelector("[data-keys]");
    if (keys) {
      keys.hidden = false;
      document.querySelector("[data-plain-next]").hidden = true;
      if (coarse.matches) box.inputMode = "none";
    }
    if (document.activeElement !== box) box.focus();
    if (box.getAttribute("aria-invalid") === "true") box.select();
  }
  document.addEventListener("DOMContentLoaded", () => dress(document));
  document.addEventListener("htmx:afterSettle", () => dress(document));
  document.addEventListener("mousedown", (event) => {
    if (event.target.closest("[data-key]")) event.preventDefault(); // the cursor stays in the box, so Enter goes on
  });
  document.addEventListener("click", (event) => {
    const key = event.target.closest("[data-key]");
    const box = key && key.closest("form").querySelector("[data-reading]");
    if (!box || box.readOnly) return;
    let from = box.selectionStart, to = box.selectionEnd;
    if (key.dataset.key === "sign") {
      box.value = box.value.startsWith("-") ? box.value.slice(1) : `-${box.value}`;
      return;
    }
    const said = key.dataset.key === "back" ? "" : key.dataset.key;
    if (!said && from === to) from = Math.max(0, from - 1);
    box.setRangeText(said, from, to, "end");
  });
})();

// Parts: workings that stand open stay open when margins and gaps are tried out and the sizes are put in anew.
(function workings() {
  let open = [];
  document.addEventListener("htmx:beforeSwap", (event) => {
    if (event.detail.target.id === "set-out") open = [...event.detail.target.querySelectorAll("details[open]")].map((d) => d.id);
  });
  document.addEventListener("htmx:afterSettle", () => {
    for (const id of open) {
      const found = document.getElementById(id);
      if (found) found.open = true;
    }
    open = [];
  });
})();

// Parts: margins and gaps are tried out while they are typed, as soon as they are numbers; a fault waits until one leaves the
// field. What is shown already is not asked for again, so that a click that leaves the field still finds what it was meant for.
(function trying() {
  const WAIT = 100; // after the last key [ms]
  let waiting = 0, typing = false;
  const fields = (form) => [...form.querySelectorAll(".figure-row input")];
  const said = (form, value) => fields(form).map((field) => field[value].trim().replace(",", ".")).join(" ");
  const numbers = (form) => fields(form).every((field) => /^\s*\d+([.,]\d+)?\s*$/.test(field.value));
  function ask(form, whileTyping) {
    if (!form.isConnected) return;
    if (whileTyping && (!numbers(form) || form.querySelector("[name=had_fault]"))) return;
    const shown = form.dataset.shown ?? said(form, "defaultValue");
    if (said(form, "value") === shown) return;
    form.dataset.shown = said(form, "value");
    typing = whileTyping;
    htmx.trigger(form, "figures-asked");
  }
  document.addEventListener("input", (event) => {
    const form = event.target.closest("#figures");
    clearTimeout(waiting);
    if (form) waiting = setTimeout(() => ask(form, true), WAIT);
  });
  document.addEventListener("change", (event) => {
    const form = event.target.closest("#figures");
    if (!form) return;
    clearTimeout(waiting);
    ask(form, false);
  });
  // Enter in a field, and "Try them", show the same without a new page, so that a working stays open.
  document.addEventListener("submit", (event) => {
    if (event.target.id !== "figures" || event.submitter?.hasAttribute("formaction") || !window.htmx) return;
    event.preventDefault();
    clearTimeout(waiting);
    ask(event.target, false);
  });
  document.addEventListener("htmx:beforeSwap", (event) => {
    const form = event.detail.requestConfig?.elt;
    if (form?.id !== "figures" || event.detail.xhr.status !== 422 || !typing) return;
    event.detail.shouldSwap = false;
    form.dataset.shown = "nothing of this";
  });
  document.addEventListener("htmx:sendError", (event) => {
    if (event.detail.elt?.id === "figures") event.detail.elt.dataset.shown = "nothing of this";
  });
})();
