// Drawings that answer: touch a figure, and the working that its link leads to appears under the drawing. Without this
// script the same link leads to the working itself, further down the page.
"use strict";

(function touch() {
  let open = null;
  let kept = "";
  const answerOf = (link) => link.closest("[data-touch]").querySelector("[data-answer]");

  function dress() {
    for (const link of document.querySelectorAll("a.dim:not([role])")) {
      link.setAttribute("role", "button");
      link.setAttribute("aria-expanded", "false");
    }
  }

  function close() {
    if (!open) return;
    const box = answerOf(open), inside = box.contains(document.activeElement);
    box.replaceChildren();
    open.setAttribute("aria-expanded", "false");
    if (inside) open.focus();
    open = null;
  }

  function element(name, words = "", look = "") {
    const made = document.createElement(name);
    made.textContent = words;
    if (look) made.className = look;
    return made;
  }

  function show(link) {
    const working = document.getElementById(link.getAttribute("href").slice(1));
    if (!working) return;
    close();
    const box = answerOf(link), head = element("div"), what = element("p", working.dataset.words + " ");
    what.append(element("strong", working.dataset.value));
    const away = element("button", box.dataset.close, "quiet");
    away.type = "button";
    away.addEventListener("click", close);
    head.append(what, away);
    // What was touched comes first here, and then what it comes from, back to what was measured.
    const lines = element("ol", "", "working");
    const copies = [...working.children].map((line) => line.cloneNode(true));
    lines.append(...(working.dataset.value ? copies.reverse() : copies));
    box.append(head, lines);
    link.setAttribute("aria-expanded", "true");
    open = link;
    uncover(link);
  }

  // The answer sticks to the foot of the screen; what is touched must not lie under it.
  function uncover(link) {
    if (!open) return;
    const ring = link.querySelector(".ring").getBoundingClientRect(), box = answerOf(open).getBoundingClientRect();
    if (ring.bottom > box.top - 8 && ring.top < box.bottom) scrollBy(0, ring.bottom - box.top + 16);
  }

  document.addEventListener("click", (event) => {
    const link = event.target.closest("a.dim");
    if (!link) return;
    event.preventDefault();
    if (link === open) close(); else show(link);
  });
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape") close();
    const link = event.key === " " && event.target.closest("a.dim");
    if (!link) return;
    event.preventDefault();
    if (link === open) close(); else show(link);
  });
  document.addEventListener("focusin", (event) => {
    const link = event.target.closest("a.dim");
    if (link) uncover(link);
  });

  document.addEventListener("DOMContentLoaded", dress);
  // Margins tried out put the drawings in anew: what stood open is opened again.
  document.addEventListener("htmx:beforeSwap", (event) => {
    kept = open && event.detail.target.contains(open) ? open.getAttribute("href") : "";
    if (kept) open = null;
  });
  document.addEventListener("htmx:afterSettle", () => {
    dress();
    const link = kept && document.querySelector(`a.dim[href="${kept}"]`);
    if (link) show(link);
    kept = "";
  });
})();
