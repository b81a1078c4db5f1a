// Working without signal: every reading and picture is put down in this browser first, then sent, in order and once. Nothing here reckons.
"use strict";

(function offline() {
  const words = JSON.parse(document.body.dataset.words);
  const body = document.body, PAGES = "rodbook-pages", inside = body.dataset.inside === "yes", away = body.dataset.inside === "away";
  const canKeep = "serviceWorker" in navigator && "caches" in window;
  const lang = document.documentElement.lang;
  const clock = (at) => {
    const when = new Date(at), today = when.toDateString() === new Date().toDateString();
    return when.toLocaleString(lang, today ? { hour: "2-digit", minute: "2-digit" } : { day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });
  };
  const count = (name, n, more = {}) =>
    Object.entries({ "%n": n, ...more }).reduce((text, [sign, value]) => text.replaceAll(sign, String(value)), words[name + (n === 1 ? "_one" : "_many")]);
  const make = (tag, text, more = {}) => Object.assign(document.createElement(tag), { textContent: text }, more);
  const key = () => crypto.randomUUID ? crypto.randomUUID() : "10000000-1000-4000-8000-100000000000".replace(/[018]/g, (c) =>
    (Number(c) ^ (crypto.getRandomValues(new Uint8Array(1))[0] & (15 >> (Number(c) / 4)))).toString(16));
  const jot = {
    get(name) { try { return localStorage.getItem(name); } catch { return null; } },
    set(name, value) { try { if (value) localStorage.setItem(name, value); else localStorage.removeItem(name); } catch { /* private window */ } },
  };
  let device = jot.get("rodbook-device");
  if (!device) jot.set("rodbook-device", device = key());

  // --- the store: IndexedDB; only this page's memory where the browser has none ---------------------------------------
  let keeps = true, memory = [], last = 0;
  const opened = new Promise((done) => {
    try {
      const asked = indexedDB.open("rodbook", 1);
      asked.onupgradeneeded = () => asked.result.createObjectStore("out", { keyPath: "n", autoIncrement: true });
      asked.onsuccess = () => done(asked.result);
      asked.onerror = () => done(null);
    } catch { done(null); }
  });
  async function work(mode, deed) {
    const db = await opened;
    if (!db) { keeps = false; return deed(null); }
    return new Promise((done, fail) => {
      const turn = db.transaction("out", mode, mode === "readwrite" ? { durability: "strict" } : {});
      const asked = deed(turn.objectStore("out"));
      turn.oncomplete = () => done(asked.result);
      turn.onabort = turn.onerror = () => fail(turn.error);
    });
  }
  const entries = () => work("readonly", (out) => out ? out.getAll() : [...memory]);
  const remove = (n) => work("readwrite", (out) => out ? out.delete(n) : (memory = memory.filter((e) => e.n !== n)));
  async function put(entry) {
    const n = await work("readwrite", (out) => {
      if (out) return out.put(entry);
      memory = [...memory.filter((e) => e.n !== entry.n), { ...entry, n: entry.n || ++last - 1e6 }];
      return memory[memory.length - 1].n;
    });
    return { ...entry, n };
  }

  // What was sent stays beside a kept page until that page is younger than the sending: else it would be asked for again.
  const sent = (entry) => entry.kind === "reading" ? put({ ...entry, state: "sent", went: new Date().toISOString() }) : remove(entry.n);
  async function forget(page, asOf) {
    for (const e of await entries()) if (e.state === "sent" && e.page === page && e.went < asOf) await remove(e.n);
  }

  // --- sending --------------------------------------------------------------------------------------------------------
  let reach = navigator.onLine, signedOut = false, sentAt = null, sending = false, trouble = "", notices = [];
  const flying = new Set();

  async function send() {
    if (sending || !inside) return;
    sending = true;
    let done = 0;
    try {
      done = navigator.locks ? await navigator.locks.request("rodbook-out", run) : await run();
    } finally { sending = false; }
    await say();
    if (done) await afterSending();
  }
  async function run() {
    let done = 0, desk = null;
    for (;;) {
      const next = (await entries()).find((e) => e.state === "waiting" && !flying.has(e.key) && (!desk || e.who === desk.who));
      if (!next && (reach || desk)) return done;
      if (!desk && !(desk = await ask())) return done;
      if (!next || next.who !== desk.who) { if (!next) return done; continue; }
      await say(true);
      const told = await post(next, desk.token);
      if (!told) return done;
      done += 1;
      if (told.said && told.state === "kept") notices.push(told.said);
      if (told.state === "kept") { await sent(next); sentAt = new Date(); }
      else await put({ ...next, state: told.state, said: told.said, offers: told.offers || [] });
    }
  }
  async function ask() {
    try {
      const reply = await fetch(body.dataset.outbox, { cache: "no-store", signal: AbortSignal.timeout(20000) }) /* an answer lost on its way would else hold all that waits */;
      reach = true;
      signedOut = reply.redirected || reply.status === 403;
      return signedOut || !reply.ok ? null : await reply.json();
    } catch { reach = false; return null; }
  }
  async function post(entry, token) {
    const form = new FormData();
    for (const name of ["key", "reading", "value", "base", "at", "choice"]) if (entry[name] !== undefined) form.set(name, entry[name]);
    if (entry.sure) form.set("sure", entry.value);
    if (entry.file) form.set("photo", entry.file, entry.name);
    form.set("device", device);
    let reply;
    try {
      reply = await fetch(entry.url, { method: "POST", body: form, signal: AbortSignal.timeout(entry.file ? 300000 : 30000), headers: { "X-CSRFToken": token, Accept: "application/json" } });
    } catch { reach = false; return null; }
    trouble = "";
    const plain = (reply.headers.get("Content-Type") || "").includes("json");
    if (reply.status >= 500 || reply.status === 403) { trouble = words.refused + ((plain && (await reply.json()).said) || reply.status); return null; }
    return plain && reply.ok ? reply.json() : { state: "refused", said: words.refused + reply.status };
  }
  async function afterSending() {
    const box = document.querySelector("[data-reading]");
    if (document.querySelector("[data-photo-in]") && sawPhoto) { location.reload(); return; }
    if (box && !box.value && box.form.dataset.in) {
      const place = asked(box.form).value;
      htmx.ajax("GET", `${location.pathname}?reading=${place}`, { source: "#measure", target: "#measure", swap: "outerHTML settle:0ms" });
    }
    freshen();
  }
  let sawPhoto = false, soon = 0;
  function freshen() { // the kept pages follow what was sent, each of them
    if (!canKeep || !navigator.serviceWorker.controller) return;
    clearTimeout(soon);
    soon = setTimeout(async () => {
      const gone = (await entries()).filter((e) => e.state === "sent");
      for (const page of new Set(gone.map((e) => e.page))) {
        const asOf = new Date().toISOString();
        try {
          const reply = await fetch(page, { cache: "no-store", signal: AbortSignal.timeout(30000) });
          if (reply.ok && !(await reply.text()).includes("data-kept-at=")) await forget(page, asOf);
        } catch { return; }
      }
    }, 300);
  }

  // --- what is said ---------------------------------------------------------------------------------------------------
  const place = document.querySelector("[data-outbox-words]");
  async function say(now = false) {
    if (!place) return;
    const every = await entries(), all = every.filter((e) => e.state !== "sent"), who = body.dataset.who, own = (e) => away || e.who === who;
    const mine = all.filter((e) => own(e) && e.state === "waiting" && (!flying.has(e.key) || !reach));
    const readings = mine.filter((e) => e.kind === "reading").length, photos = mine.filter((e) => e.kind === "photo").length;
    place.dataset.waiting = all.some(own) ? "yes" : "no";
    const open = all.filter((e) => e.who === who && e.state !== "waiting");
    const said = [];
    if (now) said.push(words.sending);
    else if (!reach && !readings) said.push(words.away);
    else if (readings) said.push(count(reach ? "wait" : "away", readings));
    if (photos && !now) said.push(count("photo", photos));
    if (mine.length && signedOut) said.push(words.sign_in);
    if (open.length && !now) said.push(count("open", open.length));
    if (!said.length && sentAt) said.push(words.sent.replace("%t", clock(sentAt)));
    if (!said.length) said.push(words.idle);
    for (const other of new Set(all.filter((e) => !own(e)).map((e) => e.who)))
      said.push(count("others", all.filter((e) => e.who === other).length, { "%w": other }));
    if (trouble && !now) said.push(trouble);
    if (!keeps) said.push(words.no_store);
    const text = said.join(" ");
    if (place.textContent !== text) place.textContent = text;
    place.parentElement.querySelector("ul").replaceChildren(...notices.map((told) => make("li", told)), ...open.map(question));
    place.parentElement.hidden = !(inside || away) || (!document.querySelector("#measure, [data-measuring]") && reach && !all.length);
    overlay(every);
  }
  function question(entry) {
    const item = make("li", ""), choices = make("div", "", { className: "choices" });
    item.append(make("p", `${entry.mark}, ${entry.words}: ${entry.value} (${words.typed_at.replace("%t", clock(entry.at))}). ${entry.said}`), choices);
    const button = (text, deed) => choices.append(make("button", text, { className: "quiet", type: "button", onclick: async () => { await deed(); await say(); send(); } }));
    const again = (more) => put({ ...entry, said: "", ...more, state: "waiting" });
    for (const offer of entry.offers || []) button(offer, () => again({ value: offer, sure: true }));
    if (entry.state === "clash") {
      button(words.mine, () => again({ choice: "mine" }));
      button(words.theirs, () => again({ choice: "theirs" }));
    } else {
      if (entry.kind === "reading") choices.append(make("a", words.read_again, { className: "button quiet", href: `${entry.page}?reading=${entry.reading}` }));
      button(words.drop, () => remove(entry.n));
    }
    return item;
  }

  // --- measuring ------------------------------------------------------------------------------------------------------
  const form = () => document.querySelector("form.reading[data-in]");
  const asked = (f) => f.querySelector("[name=reading]"); // the box has this word as its id, so form.elements would find both
  const rows = () => [...document.querySelectorAll("[data-place-row]")];
  const shape = (name) => document.querySelector(`.sketch g[data-place="${name}"]`);
  const boxName = (reading) => `rodbook-box ${location.pathname} ${reading}`;

  function overlay(all) { // readings kept on this phone stand in the table and in the sketch
    const stands = (e) => e.state !== "sent" || (body.dataset.keptAt && body.dataset.keptAt < e.went);
    for (const entry of all.filter((e) => e.kind === "reading" && e.page === location.pathname && stands(e))) {
      const row = rows().find((r) => r.dataset.placeRow === entry.reading), drawn = shape(entry.reading);
      if (row) { row.cells[1].textContent = entry.value; row.cells[2].textContent = entry.state === "sent" ? words.was_sent : words.on_phone; }
      if (!drawn || !form()) continue;
      if (asked(form()).value !== entry.reading) { drawn.setAttribute("class", "taken"); drawn.querySelector("text").textContent = entry.value; }
      else form().querySelector("[data-reading]").placeholder = entry.value;
    }
  }
  function go(name) { // to another reading, without the desk
    const f = form(), all = rows(), at = all.findIndex((r) => r.dataset.placeRow === name);
    if (!f || at < 0) return;
    const box = f.querySelector("[data-reading]"), told = (row) => row.cells[1].textContent.trim();
    asked(f).value = name;
    f.querySelector("label").firstChild.textContent = `${all[at].cells[0].textContent.trim()} `;
    const hint = f.querySelector("[data-reading-hint]"), sign = f.querySelector(".key-sign");
    hint.textContent = all[at].dataset.hint || "";
    hint.hidden = !all[at].dataset.hint;
    if (hint.hidden) box.removeAttribute("aria-describedby");
    else box.setAttribute("aria-describedby", "reading-hint");
    if (sign) sign.hidden = hint.hidden;
    box.value = jot.get(boxName(name)) || "";
    box.placeholder = told(all[at]);
    box.removeAttribute("aria-invalid");
    document.querySelectorAll("#measure .doubt, #fault-reading").forEach((old) => old.remove());
    tell("");
    for (const row of all) {
      const drawn = shape(row.dataset.placeRow), here = row === all[at];
      drawn.setAttribute("class", here ? "next" : told(row) ? "taken" : "open");
      drawn.querySelector("text").textContent = told(row) || (here ? "?" : "");
      if (here) drawn.parentElement.append(drawn);
    }
    const step = (row, text) => { const a = make("a", text, { className: "button quiet", href: `?reading=${row.dataset.placeRow}` }); a.dataset.local = row.dataset.placeRow; return a; };
    const steps = [];
    if (at) steps.push(step(all[at - 1], `← ${all[at - 1].cells[0].textContent.trim()}`));
    if (at + 1 < all.length) steps.push(step(all[at + 1], `${all[at + 1].cells[0].textContent.trim()} →`));
    document.querySelector(".measure-steps").replaceChildren(...steps);
    box.focus();
  }
  function next() {
    const all = rows(), at = all.findIndex((r) => r.dataset.placeRow === asked(form()).value);
    const following = all[at + 1], usual = (row) => row.dataset.further === undefined; // further readings are walked to only from each other
    go((following && usual(following) === usual(all[at]) ? following : all[at]).dataset.placeRow);
  }
  function tell(text) {
    const word = document.querySelector("[data-unsent]");
    if (word) { word.hidden = !text; word.textContent = text; }
  }

  let busy = false;
  async function take(f, sure, issue) {
    if (busy) return;
    busy = true;
    try {
      const box = document.querySelector("[data-reading]"), reading = asked(f).value;
      const value = sure || box.value.trim(), waits = (await entries()).some((e) => e.state === "waiting");
      if (!/\d/.test(value)) {
        if (reach && !waits) issue();
        else if (value) tell(words.no_digit);
        else next();
        return;
      }
      const row = rows().find((r) => r.dataset.placeRow === reading);
      const entry = await put({
        kind: "reading", who: body.dataset.who, url: f.dataset.in, page: location.pathname, mark: f.dataset.mark, reading, value, sure: Boolean(sure),
        words: row.cells[0].textContent.trim(), base: f.elements.base.value, key: key(), at: new Date().toISOString(), state: "waiting",
      });
      jot.set(boxName(reading), "");
      if (reach && !waits) {
        for (const name of ["key", "at", "device"]) {
          const field = f.elements[name] || f.appendChild(make("input", "", { type: "hidden", name }));
          field.value = name === "device" ? device : entry[name];
        }
        flying.add(entry.key);
        f.dataset.entry = JSON.stringify({ n: entry.n, key: entry.key, value });
        issue();
      } else {
        overlay([entry]);
        next();
        await say();
        send();
      }
    } finally { busy = false; }
  }
  const onTheWay = new WeakMap();
  document.addEventListener("htmx:confirm", (event) => {
    const { elt, verb, issueRequest, triggeringEvent } = event.detail;
    if (!(elt instanceof Element) || !elt.closest("#measure")) return;
    if (verb === "get" && !reach && elt.tagName === "A") {
      event.preventDefault();
      go(new URL(elt.href).searchParams.get("reading"));
    } else if (verb === "post" && elt.dataset.in) {
      event.preventDefault();
      const button = triggeringEvent && triggeringEvent.submitter, sure = button && button.name === "sure" ? button.value : "";
      if (sure) (elt.elements.sure_kept || elt.appendChild(make("input", "", { type: "hidden", id: "sure_kept" }))).value = sure;
      take(elt, sure, () => issueRequest(true));
    }
  });
  document.addEventListener("htmx:configRequest", (event) => { // the answer to a question, pressed before the reading was put down
    const kept = event.detail.elt.querySelector && event.detail.elt.querySelector("#sure_kept");
    if (kept) event.detail.parameters.sure = kept.value;
  });
  document.addEventListener("htmx:beforeSend", (event) => {
    const { elt, xhr } = event.detail;
    if (!elt.dataset || !elt.dataset.entry) return;
    onTheWay.set(xhr, JSON.parse(elt.dataset.entry));
    delete elt.dataset.entry;
  });
  document.addEventListener("htmx:afterRequest", async (event) => {
    const { xhr, elt } = event.detail, entry = onTheWay.get(xhr), status = xhr.status;
    if (!entry) {
      if (!status && elt instanceof Element && elt.closest("#measure")) { reach = false; say(); if (elt.tagName === "A") go(new URL(elt.href).searchParams.get("reading")); }
      return;
    }
    onTheWay.delete(xhr);
    flying.delete(entry.key);
    if ((status >= 200 && status < 300) || status === 422 || status === 409) {
      reach = true;
      if (status < 300) { await sent((await entries()).find((e) => e.n === entry.n) || { ...entry, kind: "" }); sentAt = new Date(); }
      else await remove(entry.n);
      if (status === 422 && form()) jot.set(boxName(asked(form()).value), entry.value);
      freshen();
    } else {
      if (!status) reach = false;
      signedOut = status === 403;
      if (status >= 500) trouble = words.refused + status;
      overlay(await entries());
      if (form()) next();
    }
    say();
  });
  document.addEventListener("htmx:afterSettle", () => { restore(); say(); });
  document.addEventListener("input", (event) => {
    if (event.target.matches("[data-reading]")) jot.set(boxName(asked(form()).value), event.target.value);
  });
  document.addEventListener("click", (event) => {
    const link = event.target.closest("[data-local]");
    if (link) { event.preventDefault(); go(link.dataset.local); }
    if (event.target.closest("[data-key]") && form()) setTimeout(() => jot.set(boxName(asked(form()).value), document.querySelector("[data-reading]").value));
  });
  function restore() {
    const box = document.querySelector("[data-reading]");
    if (box && !box.value && form()) box.value = jot.get(boxName(asked(form()).value)) || "";
  }

  // --- pictures, other forms, signing out -------------------------------------------------------------------------------
  document.addEventListener("submit", async (event) => {
    const f = event.target;
    if (f.dataset.photoIn && f.elements.photo.files.length) {
      event.preventDefault();
      const file = f.elements.photo.files[0];
      await put({
        kind: "photo", who: body.dataset.who, url: f.dataset.photoIn, page: location.pathname, mark: f.dataset.mark, words: file.name, value: "",
        file: new Blob([await file.arrayBuffer()], { type: file.type }), name: file.name, key: key(), at: new Date().toISOString(), state: "waiting",
      });
      f.reset();
      sawPhoto = true;
      await say();
      send();
    } else if (f.matches("[data-needs-signal]") && !(reach && navigator.onLine)) {
      event.preventDefault();
      let word = f.querySelector("[data-away]");
      if (!word) f.append(word = make("p", "", { className: "fault", role: "alert" })), word.dataset.away = "";
      word.textContent = words.form_away;
    }
  });
  document.addEventListener("submit", (event) => {
    if (!event.target.matches("[data-sign-out]")) return;
    if (place && place.dataset.waiting === "yes" && !confirm(words.leave_warn)) event.preventDefault();
    else if (canKeep) caches.delete(PAGES);
  });

  // --- taking a job along, and what is kept -------------------------------------------------------------------------------
  async function along(part) {
    const button = part.querySelector("button"), told = part.querySelector("p"), name = `rodbook-along ${location.pathname}`;
    part.hidden = false;
    if (!canKeep) { button.disabled = true; told.textContent = words.along_no; return; }
    const kept = await (await caches.open(PAGES)).match(location.pathname), before = JSON.parse(jot.get(name) || "null");
    const done = (d) => [words.along_done.replace("%t", clock(d.when)).replace("%n", d.n), d.left ? words.along_left : "", d.missed ? words.along_part.replace("%n", d.missed) : ""].filter(Boolean).join(" ");
    told.textContent = kept && before ? done(before) : words.along_idle;
    button.addEventListener("click", async () => {
      button.disabled = true;
      try {
        await navigator.serviceWorker.ready;
        const reply = await (await fetch(part.dataset.along, { cache: "no-store", signal: AbortSignal.timeout(60000) })).json();
        const all = [...reply.pages, ...reply.papers, ...reply.pictures];
        let missed = 0;
        for (const [n, address] of all.entries()) {
          told.textContent = words.along_doing.replace("%n", n + 1).replace("%m", all.length);
          try { if (!(await fetch(address, { signal: AbortSignal.timeout(60000) })).ok) missed += 1; } catch { missed += 1; }
        }
        const now = { when: new Date().toISOString(), n: all.length - missed, left: reply.left, missed };
        jot.set(name, JSON.stringify(now));
        told.textContent = done(now);
      } catch { told.textContent = words.away; }
      button.disabled = false;
    });
  }
  async function keptList(part) {
    const list = make("ul", "", { className: "jobs" });
    if (canKeep) {
      const pages = await caches.open(PAGES);
      for (const request of await pages.keys()) {
        const address = new URL(request.url).pathname;
        if (!/^\/jobs\/\d+\/(measure\/)?$/.test(address)) continue;
        const title = new DOMParser().parseFromString(await (await pages.match(request)).text(), "text/html").querySelector(".where a");
        const item = make("li", ""), link = make("a", `${title ? title.textContent : address}${address.endsWith("measure/") ? `: ${words.kept_measure}` : ""}`, { href: address });
        item.append(link);
        list.append(item);
      }
    }
    part.append(list.children.length ? make("h2", words.kept_list) : make("p", words.kept_none), list);
  }

  addEventListener("online", () => { reach = true; send(); });
  addEventListener("offline", () => { reach = false; say(); });
  document.addEventListener("visibilitychange", () => { if (!document.hidden) send(); });
  setInterval(async () => { if (!document.hidden && (!reach || (await entries()).some((e) => e.state === "waiting"))) send(); else if (reach && (await entries()).some((e) => e.state === "sent")) freshen(); }, 15000);

  document.addEventListener("DOMContentLoaded", async () => {
    if (!inside && !away && canKeep) caches.delete(PAGES);
    if (canKeep && inside) navigator.serviceWorker.register(body.dataset.worker).catch(() => {});
    const keptAt = body.dataset.keptAt;
    if (away) reach = false;
    if (!keptAt && inside) await forget(location.pathname, body.dataset.shownAt || new Date(performance.timeOrigin).toISOString());
    if (keptAt) {
      reach = false;
      document.querySelectorAll("main > .said, #measure .said").forEach((old) => old.remove());
      const word = document.querySelector("[data-kept-words]");
      word.hidden = false;
      word.textContent = words.kept_page.replace("%t", clock(keptAt));
      overlay(await entries());
      const wanted = new URLSearchParams(location.search).get("reading"), open = rows().find((r) => !r.cells[1].textContent.trim()) || rows()[0];
      if (form() && open) go(wanted || open.dataset.placeRow);
    }
    restore();
    document.querySelectorAll("[data-along]").forEach(along);
    document.querySelectorAll("[data-kept-list]").forEach(keptList);
    await say();
    send();
  });
})();
