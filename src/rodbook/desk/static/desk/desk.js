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

// What is typed or ticked and not saved yet: an answer that comes meanwhile is offered, it does not take the page away.
let typing = false;
for (const kind of ["input", "change"]) {
  document.addEventListener(kind, (event) => { typing ||= Boolean(event.target.closest("form")); });
}
document.addEventListener("htmx:configRequest", (event) => {
  if (typing && event.detail.verb === "get") event.detail.headers["X-Rodbook-Typing"] = "yes";
});
document.addEventListener("htmx:beforeOnLoad", (event) => { // asked before the first sign was typed
  const { xhr, requestConfig } = event.detail;
  if (typing && requestConfig.verb === "get" && xhr.getResponseHeader("HX-Redirect")) event.preventDefault();
});

// A file that is too large is told before it is sent.
document.addEventListener("change", (event) => {
  const field = event.target.closest("input[type=file][data-most]");
  if (!field) return;
  const large = [...field.files].some((file) => file.size > Number(field.dataset.most));
  field.setCustomValidity(large ? field.dataset.tooLarge : "");
  if (large) field.reportValidity();
});

// A copied block pasted into a cell of a grid: of openings it is looked at first, as a list is that is brought in; elsewhere it fills
// the cells to the right and below. Rows are added as they are needed; what is no choice of a list is left out and said.
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
  const lines = text.split("\n").slice(0, 2000).map((line) => line.split("\t").map((value) => value.trim()));
  let at = rows().indexOf(cell.closest("tr"));
  const table = cell.closest("table"), name = (field) => field.name.replace(/^[a-z]\d+-/, "");
  if (table.dataset.blockTo) { // as the block would fill the rows that show; the desk reads it by its headings, if it has any
    const first = cells(rows()[0]), filled = [first.map(name)];
    lines.forEach((line, n) => {
      const row = rows()[at + n], there = row ? cells(row).map((field) => field.value) : first.map(() => "");
      line.forEach((value, k) => { if (column + k < there.length) there[column + k] = value; });
      filled.push(there);
    });
    look(table, text, JSON.stringify(filled));
    return;
  }
  const left = [];
  for (const line of lines.slice(0, 500)) {
    if (at >= rows().length) addRow(body);
    const targets = cells(rows()[at]);
    line.forEach((said, k) => {
      const target = targets[column + k];
      if (!target) return;
      if (target.tagName !== "SELECT") { target.value = said; return; }
      const meant = [...target.options].find((o) => o.value.toLowerCase() === said.toLowerCase());
      if (meant) target.value = meant.value;
      else left.push(`${target.getAttribute("aria-label")}: ${said}`);
    });
    at += 1;
  }
  let word = table.parentElement.querySelector("[data-left-out]");
  if (!word) {
    word = document.createElement("p");
    word.className = "fault";
    word.setAttribute("role", "alert");
    word.dataset.leftOut = "";
    table.after(word);
  }
  word.hidden = !left.length;
  word.textContent = left.length ? `${JSON.parse(document.body.dataset.words).no_choice} ${left.join("; ")}` : "";
  body.dispatchEvent(new Event("change", { bubbles: true }));
  cell.focus();
});

function look(table, text, filled) {
  const form = document.createElement("form"), token = table.closest("form").querySelector("[name=csrfmiddlewaretoken]");
  form.method = "post";
  form.action = table.dataset.blockTo;
  for (const [key, value] of [["csrfmiddlewaretoken", token.value], ["pasted", text], ["filled", filled]]) {
    const field = document.createElement("textarea"); // keeps line breaks as they are
    field.name = key;
    field.value = value;
    form.append(field);
  }
  form.hidden = true;
  document.body.append(form);
  form.submit();
}

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

// Rows that are typed and not saved are kept in this browser, and offered again when the page is opened the next time.
(function drafts() {
  const NAME = `rodbook-draft ${location.pathname}`;
  const jot = {
    get() { try { return JSON.parse(localStorage.getItem(NAME)); } catch { return null; } },
    set(value) { try { if (value) localStorage.setItem(NAME, JSON.stringify(value)); else localStorage.removeItem(NAME); } catch { /* private window */ } },
  };
  const fields = (row) => [...row.querySelectorAll("[name]")].filter((f) => f.type !== "hidden");
  const name = (field) => field.name.replace(/^[a-z]\d+-/, "");
  const told = (field) => field.type === "checkbox" ? (field.checked ? "on" : "") : field.value;
  const began = (field) => field.type === "checkbox" ? (field.defaultChecked ? "on" : "")
    : field.tagName === "SELECT" ? ([...field.options].find((o) => o.defaultSelected) || field.options[0] || { value: "" }).value : field.defaultValue;
  const put = (field, value) => { if (field.type === "checkbox") field.checked = value === "on"; else field.value = value; };
  const was = (row) => row.querySelector("[name$='-was']")?.value || "";
  const plain = (text) => /^-?\d+([.,]\d+)?$/.test(text.trim()) ? String(Number(text.trim().replace(",", "."))) : text.trim();
  const tables = (form) => [...form.querySelectorAll("table.grid")];
  const rows = (table) => [...table.querySelectorAll("tr[data-row]")];

  function gather(form) { // every row that is not as the page brought it
    const found = [];
    for (const table of tables(form)) for (const row of rows(table)) {
      const changed = fields(row).filter((f) => told(f) !== began(f));
      if (changed.length) found.push({ id: form.elements.draft.value, table: table.id, was: was(row), cells: Object.fromEntries(changed.map((f) => [name(f), told(f)])) });
    }
    return found;
  }
  const same = (a, b) => a.table === b.table && (a.was || a.cells.mark || "") === (b.was || b.cells.mark || "");
  function keep(form, before) {
    const now = gather(form), left = before.filter((old) => !now.some((one) => same(old, one)));
    const all = [...left, ...now];
    jot.set(all.length ? { who: document.body.dataset.who, rows: all } : null);
  }
  function place(table, entry) { // the row of its mark; for a new one the first that is blank, else one more
    const known = rows(table).find((row) => was(row) && was(row) === (entry.was || entry.cells.mark));
    if (known || entry.was) return known;
    const blank = rows(table).find((row) => !was(row) && fields(row).every((f) => f.tagName === "SELECT" || !told(f)));
    return blank || addRow(table.querySelector("tbody"));
  }
  function stands(form, entry) { // whether all of it is in the page already
    const table = document.getElementById(entry.table), mark = entry.was || entry.cells.mark;
    const row = table && rows(table).find((r) => was(r) && was(r) === (entry.cells.mark || mark)) || (table && rows(table).find((r) => was(r) === mark && mark));
    if (!row) return Boolean(entry.was); // taken out meanwhile: there is nowhere to put it
    return fields(row).every((f) => !(name(f) in entry.cells) || !entry.cells[name(f)] || plain(entry.cells[name(f)]) === plain(told(f)));
  }
  document.addEventListener("DOMContentLoaded", () => {
    const form = document.querySelector("form[data-draft]"), offer = document.querySelector("[data-draft-offer]");
    if (!form || !offer) return;
    const id = [...crypto.getRandomValues(new Uint8Array(12))].map((n) => n.toString(36)).join("").slice(0, 20);
    form.append(Object.assign(document.createElement("input"), { type: "hidden", name: "draft", value: id }));
    const kept = jot.get();
    const saved = new URLSearchParams(location.search).get("saved");
    if (saved) history.replaceState(null, "", location.pathname);
    const unsaved = form.dataset.draft === "stands"; // the page shows what was sent and could not be saved: all of it is this form's
    const own = kept && kept.who === document.body.dataset.who ? kept.rows : [];
    const waiting = own.filter((entry) => entry.id !== saved && (unsaved || !stands(form, entry))).map((entry) => unsaved ? { ...entry, id } : entry);
    let old = waiting;
    jot.set(waiting.length ? { who: document.body.dataset.who, rows: waiting } : null);
    if (waiting.length && !unsaved) {
      offer.hidden = false;
      offer.querySelector("[data-draft-what]").textContent = [...new Set(waiting.map((entry) => entry.was || entry.cells.mark || "?"))].join(", ");
    }
    const follow = () => keep(form, old);
    form.addEventListener("input", follow);
    form.addEventListener("change", follow);
    form.addEventListener("submit", follow);
    offer.querySelector("[data-draft-back]").addEventListener("click", () => {
      for (const entry of waiting) {
        const table = document.getElementById(entry.table), row = table && place(table, entry);
        if (!row) continue;
        for (const field of fields(row)) if (name(field) in entry.cells) put(field, entry.cells[name(field)]);
        row.closest("details")?.setAttribute("open", "");
        row.classList.add("put-back");
      }
      old = [];
      offer.hidden = true;
      follow();
    });
    offer.querySelector("[data-draft-away]").addEventListener("click", () => { old = []; offer.hidden = true; follow(); });
  });
})();

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
