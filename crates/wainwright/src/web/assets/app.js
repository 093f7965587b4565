// What the pages do in place. Everything works without this script as well:
// forms are sent, links lead on. Here they are fetched instead, and the
// regions of the page that changed are put in the place of the old ones.
"use strict";
(() => {
  const $ = (selector, root = document) => root.querySelector(selector);
  const $$ = (selector, root = document) => [...root.querySelectorAll(selector)];
  let turn = 0;
  document.documentElement.classList.add("js");

  // ---- regions ------------------------------------------------------------

  const isDirty = (root) =>
    $$("input, select, textarea", root).some((field) => {
      if (field.type === "hidden" || field.closest("[data-auto]")) return false;
      if (field.type === "checkbox") return field.checked !== field.defaultChecked;
      if (field.tagName === "SELECT") return field.selectedIndex !== Math.max(0, [...field.options].findIndex((o) => o.defaultSelected));
      return field.value !== field.defaultValue;
    });

  // Puts the regions of a fetched page in the place of ours. `gentle` leaves
  // alone what somebody is typing in.
  function take(page, gentle) {
    const focus = document.activeElement;
    const focusId = focus && focus.id;
    const caret = focus && "selectionStart" in focus ? focus.selectionStart : null;
    const open = new Map($$("details[id]").map((d) => [d.id, d.open]));
    let held = false, missing = false;
    // Inner regions first: an outer one is then often the same already.
    for (const fresh of $$("[data-region]", page).reverse()) {
      const old = document.getElementById(fresh.id);
      if (!old) { missing = missing || !fresh.parentElement.closest("[data-region]"); continue; }
      if (old.innerHTML === fresh.innerHTML) continue;
      if (gentle && isDirty(old)) { held = true; continue; }
      const scroll = old.scrollTop;
      old.replaceWith(document.importNode(fresh, true));
      document.getElementById(fresh.id).scrollTop = gentle ? scroll : 0;
    }
    for (const [id, was] of open) {
      const now = document.getElementById(id);
      if (now && now.tagName === "DETAILS") now.open = was;
    }
    if (missing && !held) { location.reload(); return; }
    document.body.dataset.revision = page.body.dataset.revision;
    if (!held) for (const field of $$('input[name="revision"]')) field.value = page.body.dataset.revision;
    document.title = page.title;
    sheet.dress();
    if (focusId && document.activeElement === document.body) {
      const again = document.getElementById(focusId);
      if (again) {
        again.focus({ preventScroll: true });
        if (caret !== null && again.setSelectionRange) try { again.setSelectionRange(caret, caret); } catch { /* no text */ }
      }
    }
    if (held) say("The project was changed elsewhere. What you are typing is kept; save it or load the page again.");
  }

  async function fetchPage(address, options) {
    const mine = ++turn;
    const answer = await fetch(address, options);
    const page = new DOMParser().parseFromString(await answer.text(), "text/html");
    return { answer, page, stale: mine !== turn };
  }

  const hereOf = (page) => ($("#main h1", page) || {}).textContent === ($("#main h1") || {}).textContent;

  async function go(address, push) {
    try {
      const { answer, page, stale } = await fetchPage(address);
      if (stale) return;
      if (!answer.ok || !hereOf(page)) { location.href = address; return; }
      take(page, false);
      if (push) history.pushState(null, "", address); else history.replaceState(null, "", address);
    } catch { location.href = address; }
  }

  async function refresh() {
    try {
      const { answer, page, stale } = await fetchPage(location.href);
      if (stale) return;
      if (answer.ok && hereOf(page)) take(page, true);
    } catch { /* the stream tells when the program is back */ }
  }

  // ---- messages -----------------------------------------------------------

  function say(text, keep) {
    $("#announce").textContent = text;
    $$(".toast").forEach((old) => old.remove());
    const toast = document.createElement("div");
    toast.className = "toast";
    const words = document.createElement("span");
    words.textContent = text;
    const close = document.createElement("button");
    close.type = "button";
    close.textContent = "Close";
    close.onclick = () => toast.remove();
    toast.append(words, close);
    document.body.append(toast);
    if (!keep) setTimeout(() => toast.remove(), 7000);
  }

  // ---- forms and links ----------------------------------------------------

  const fields = (form, button) => {
    const data = new URLSearchParams(new FormData(form));
    if (button && button.name) data.append(button.name, button.value);
    return data;
  };

  async function send(form, button) {
    if (form.dataset.busy) return;
    form.dataset.busy = "1";
    const before = ($("#undo") || {}).title;
    try {
      const { answer, page } = await fetchPage(form.action, { method: "POST", body: fields(form, button) });
      const trouble = $("#main [role=alert]", page);
      if (!answer.ok && answer.redirected) { location.href = "/"; return; }
      if (!answer.ok) {
        const again = $("form[data-form]", page);
        if (again && form.dataset.form !== undefined) {
          form.replaceWith(document.importNode(again, true));
          const wrong = $("[aria-invalid], [role=alert]");
          if (wrong) { wrong.scrollIntoView({ block: "center" }); if (wrong.focus) wrong.focus(); }
          say("Not saved: see what is marked.");
        } else say(trouble ? trouble.textContent : "Not changed.", true);
        return;
      }
      if (hereOf(page)) {
        take(page, false);
        history.replaceState(null, "", answer.url + (new URL(answer.url).hash || location.hash));
        const now = ($("#undo") || {}).title;
        say(form.action.endsWith("/undo") ? `Taken back: ${before || "the last change"}` : `Saved${now ? ": " + now : ""}`);
      } else location.href = answer.url;
    } catch { say("The program does not answer. Is it still running?", true); }
    finally { delete form.dataset.busy; }
  }

  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (form.id === "theme") { event.preventDefault(); theme(form); return; }
    if (!form.matches("form[data-live]")) return;
    event.preventDefault();
    if (form.method === "post") send(form, event.submitter);
    else look(form, event.submitter);
  });

  function look(form, button) {
    const data = new URLSearchParams(location.search);
    for (const field of form.elements) if (field.name) data.delete(field.name);
    for (const [name, value] of fields(form, button)) data.append(name, value);
    const state = data.getAll("state").pop();
    if (state !== undefined) data.set("state", state);
    if (state !== "what-if") { data.delete("on"); data.delete("battery"); }
    for (const [name, value] of [...data]) if (value === "" && name !== "air") data.delete(name);
    go(`${form.getAttribute("action")}?${data}`, false);
  }

  let wait;
  document.addEventListener("input", (event) => {
    const form = event.target.closest("form[data-auto]");
    if (!form) return;
    const state = $("select[name=state]", form);
    if (event.target.dataset.try !== undefined && state) state.value = "what-if";
    clearTimeout(wait);
    wait = setTimeout(() => look(form), event.target.matches("input:not([type=checkbox])") ? 350 : 0);
  });

  document.addEventListener("click", (event) => {
    const link = event.target.closest("a[data-live], a[data-select]");
    if (!link || event.ctrlKey || event.metaKey || event.shiftKey || event.button) return;
    event.preventDefault();
    if (link.dataset.select) sheet.select(link.dataset.select);
    else go(link.getAttribute("href"), false);
  });

  addEventListener("popstate", () => refresh());

  // The open page is in sight.
  const here = $("#top nav [aria-current]");
  if (here) here.closest("ul").scrollLeft = here.offsetLeft - 40;

  // What an address leads to is opened when it is folded away.
  function reveal() {
    const goal = location.hash && document.getElementById(decodeURIComponent(location.hash.slice(1)));
    if (!goal) return;
    const inner = goal.matches(".row-finding") && $("details", goal);
    if (inner) inner.open = true;
    for (let up = goal.closest("details"); up; up = up.parentElement.closest("details")) up.open = true;
    goal.scrollIntoView();
  }
  addEventListener("hashchange", reveal);
  reveal();

  // Another kind has other fields.
  document.addEventListener("change", (event) => {
    if (!event.target.matches("form.edit select[name=kind]") || !event.target.value) return;
    const form = event.target.form, data = fields(form);
    data.delete("revision");
    location.href = `${form.getAttribute("action")}?${data}`;
  });

  function theme(form) {
    const root = document.documentElement;
    const system = matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light";
    const next = (root.dataset.theme || system) === "dark" ? "light" : "dark";
    root.dataset.theme = next;
    const data = new URLSearchParams({ theme: next, back: "/" });
    fetch(form.action, { method: "POST", body: data, redirect: "manual" }).catch(() => {});
  }

  document.addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.key.toLowerCase() !== "z") return;
    if (event.target.matches("input, textarea, select")) return;
    const button = $(event.shiftKey ? "#redo" : "#undo");
    if (button && !button.disabled) { event.preventDefault(); button.form.requestSubmit(button); }
  });

  // ---- the schematic ------------------------------------------------------

  const sheet = (() => {
    const frame = $("#frame");
    const none = { dress() {}, select() {} };
    if (!frame) return none;
    const LEAST = 9 / 11; // screen pixels per drawing unit at which the small print can be read
    let box = null, wide = 0; // what is shown: x, y, width, height in drawing units; frame width then
    const svg = () => $("svg.drawing", frame), map = $("svg.map");
    const whole = () => { const d = svg(); return { w: +d.getAttribute("width"), h: +d.getAttribute("height") }; };
    const things = () => $$("g[data-id]", frame);
    const keyOf = (g) => `${g.dataset.kind === "wire" ? "wire" : "item"}.${g.dataset.id}`;
    const chosen = () => { const key = new URL(location.href).searchParams.get("select"); return things().find((g) => keyOf(g) === key); };

    function apply() {
      svg().setAttribute("viewBox", `${box.x} ${box.y} ${box.w} ${box.h}`);
      const all = whole();
      map.toggleAttribute("hidden", box.w >= all.w && box.h >= all.h);
      for (const name of ["x", "y"]) $("rect", map).setAttribute(name, box[name]);
      $("rect", map).setAttribute("width", box.w); $("rect", map).setAttribute("height", box.h);
    }
    function scaleTo(scale) {
      wide = frame.clientWidth;
      const c = box && { x: box.x + box.w / 2, y: box.y + box.h / 2 };
      box = { x: 0, y: 0, w: wide / scale, h: frame.clientHeight / scale };
      if (c) look(c);
    }
    // Puts a point in the middle, as far as no empty margin comes in.
    function look(c) {
      const all = whole(), within = (at, size, full) => size > full + 24 ? (full - size) / 2 : Math.min(Math.max(at - size / 2, -12), full + 12 - size);
      box.x = within(c.x, box.w, all.w); box.y = within(c.y, box.h, all.h);
    }
    function fit() {
      const all = whole();
      scaleTo(Math.min(frame.clientWidth / (all.w + 24), frame.clientHeight / (all.h + 24)));
      look({ x: all.w / 2, y: all.h / 2 });
      apply();
    }
    // Starts with the whole height, but never too small to read; there at what
    // is selected, else at the battery, else at what is wrong.
    function begin() {
      const all = whole(), g = chosen() || $("g[data-kind=battery]", frame) || $("g.bad", frame);
      scaleTo(Math.min(1.3, Math.max(frame.clientHeight / (all.h + 24), LEAST)));
      look(g ? centre(g) : { x: 0, y: 0 });
      apply();
    }
    function chart() {
      const all = whole();
      map.setAttribute("viewBox", `-12 -12 ${all.w + 24} ${all.h + 24}`);
      const boxes = things().filter((g) => g.dataset.kind !== "wire").map((g) => g.getBBox());
      $("path", map).setAttribute("d", boxes.map((b) => `M${b.x} ${b.y}h${b.width}v${b.height}h${-b.width}z`).join(""));
    }
    function zoom(by, px = 0.5, py = 0.5) {
      const w = Math.min(Math.max(box.w / by, 120), 40 * whole().w), h = w * box.h / box.w;
      box.x += (box.w - w) * px; box.y += (box.h - h) * py; box.w = w; box.h = h;
      apply();
    }
    function move(dx, dy) {
      const scale = box.w / frame.clientWidth;
      box.x -= dx * scale; box.y -= dy * scale;
      apply();
    }
    function place(event) {
      const r = frame.getBoundingClientRect();
      return { px: (event.clientX - r.left) / r.width, py: (event.clientY - r.top) / r.height };
    }
    function centre(g) {
      const wire = $(".wire", g);
      if (wire) { const p = wire.getPointAtLength(wire.getTotalLength() / 2); return { x: p.x, y: p.y }; }
      const b = g.getBBox();
      return { x: b.x + b.width / 2, y: b.y + b.height / 2 };
    }
    function show(g) {
      const c = centre(g), m = 0.08;
      if (c.x < box.x + box.w * m || c.x > box.x + box.w * (1 - m)) box.x = c.x - box.w / 2;
      if (c.y < box.y + box.h * m || c.y > box.y + box.h * (1 - m)) box.y = c.y - box.h / 2;
      apply();
    }
    function neighbour(from, key) {
      const a = centre(from), across = key === "ArrowLeft" || key === "ArrowRight";
      const sign = key === "ArrowRight" || key === "ArrowDown" ? 1 : -1;
      let best = null, least = Infinity;
      for (const g of things()) {
        if (g === from) continue;
        const b = centre(g), along = sign * (across ? b.x - a.x : b.y - a.y), aside = Math.abs(across ? b.y - a.y : b.x - a.x);
        const far = along + 2.5 * aside;
        if (along > 1 && far < least) { least = far; best = g; }
      }
      return best;
    }
    function address(key) {
      const place = new URL(location.href);
      place.searchParams.set("select", key);
      place.hash = "";
      return place.pathname + place.search;
    }
    async function select(key) {
      await go(address(key), true);
      const g = things().find((other) => keyOf(other) === key);
      if (g) show(g);
      const panel = $("#panel");
      if (panel && panel.getBoundingClientRect().top > innerHeight * 0.9) panel.scrollIntoView({ block: "start" });
    }
    function dress() {
      // A window that is still being opened has no size; it is told when it has.
      if (!svg() || !frame.clientWidth || !frame.clientHeight) return;
      chart();
      if (!box) begin();
      else if (wide !== frame.clientWidth) { scaleTo(wide / box.w); const g = chosen(); if (g) show(g); }
      apply();
      const now = chosen();
      for (const g of things()) {
        g.classList.toggle("selected", g === now);
        g.setAttribute("aria-pressed", String(g === now));
      }
    }

    frame.classList.add("live");
    $(".zoom").hidden = false;
    $$("[data-zoom]").forEach((button) => button.addEventListener("click", () => {
      if (button.dataset.zoom === "fit") fit(); else zoom(button.dataset.zoom === "in" ? 1.35 : 1 / 1.35);
    }));
    frame.addEventListener("wheel", (event) => {
      event.preventDefault();
      const { px, py } = place(event);
      zoom(Math.exp(-event.deltaY * (event.deltaMode ? 0.05 : 0.0016)), px, py);
    }, { passive: false });

    const fingers = new Map();
    let moved = 0;
    frame.addEventListener("pointerdown", (event) => {
      if (event.button) return;
      if (fingers.size === 0) moved = 0;
      fingers.set(event.pointerId, event);
    });
    frame.addEventListener("pointermove", (event) => {
      const old = fingers.get(event.pointerId);
      if (!old) return;
      const dx = event.clientX - old.clientX, dy = event.clientY - old.clientY;
      moved += Math.abs(dx) + Math.abs(dy);
      if (moved > 6 && !frame.hasPointerCapture(event.pointerId)) { frame.setPointerCapture(event.pointerId); frame.classList.add("moving"); }
      if (fingers.size === 2) {
        const [a, b] = [...fingers.values()], other = a.pointerId === event.pointerId ? b : a;
        const span = (p) => Math.hypot(p.clientX - other.clientX, p.clientY - other.clientY) || 1;
        const middle = { clientX: (event.clientX + other.clientX) / 2, clientY: (event.clientY + other.clientY) / 2 };
        const { px, py } = place(middle);
        zoom(span(event) / span(old), px, py);
        move(dx / 2, dy / 2);
      } else if (moved > 6) move(dx, dy);
      fingers.set(event.pointerId, event);
    });
    const lift = (event) => { fingers.delete(event.pointerId); if (!fingers.size) frame.classList.remove("moving"); };
    frame.addEventListener("pointerup", lift);
    frame.addEventListener("pointercancel", lift);
    frame.addEventListener("click", (event) => {
      const g = event.target.closest("g[data-id]");
      if (g && moved <= 6) select(keyOf(g));
    });
    frame.addEventListener("focusin", (event) => {
      const g = event.target.closest("g[data-id]");
      if (g && g.matches(":focus-visible")) { frame.scrollTop = frame.scrollLeft = 0; show(g); }
    });
    frame.addEventListener("keydown", (event) => {
      if (event.ctrlKey || event.metaKey || event.altKey) return;
      const g = event.target.closest("g[data-id]"), step = 60;
      const arrows = { ArrowLeft: [step, 0], ArrowRight: [-step, 0], ArrowUp: [0, step], ArrowDown: [0, -step] };
      if (g && (event.key === "Enter" || event.key === " ")) select(keyOf(g));
      else if (g && arrows[event.key]) { const next = neighbour(g, event.key); if (next) { next.focus(); show(next); } }
      else if (arrows[event.key]) move(...arrows[event.key]);
      else if (event.key === "+" || event.key === "=") zoom(1.25);
      else if (event.key === "-") zoom(0.8);
      else if (event.key === "0") fit();
      else return;
      event.preventDefault();
    });
    new ResizeObserver(() => { if (wide !== frame.clientWidth || Math.abs(box.h / box.w * wide - frame.clientHeight) > 2) dress(); }).observe(frame);
    const aim = (event) => {
      if (event.type === "pointermove" && !event.buttons) return;
      const p = new DOMPoint(event.clientX, event.clientY).matrixTransform(map.getScreenCTM().inverse());
      look(p); apply();
    };
    map.addEventListener("pointerdown", aim);
    map.addEventListener("pointermove", aim);
    addEventListener("beforeprint", () => { const all = whole(); svg().setAttribute("viewBox", `0 0 ${all.w} ${all.h}`); });
    addEventListener("afterprint", () => dress());
    return { dress, select };
  })();
  sheet.dress();

  // ---- news ---------------------------------------------------------------

  let soon;
  const later = (wait) => { clearTimeout(soon); soon = setTimeout(refresh, wait); };
  let news = null, lost = false;
  function listen() {
    news = new EventSource("/live");
    news.addEventListener("project", () => later(60));
    news.addEventListener("fixes", () => { if ($(".waiting")) later(500); });
    news.addEventListener("odds", () => { if ($(".waiting")) later(60); });
    news.onopen = () => { if (lost) { lost = false; refresh(); } };
    news.onerror = () => {
      if (lost) return;
      lost = true;
      setTimeout(() => { if (lost && news) say("The program does not answer. Is it still running?", true); }, 4000);
    };
  }
  // A hidden page does not listen: a browser keeps few connections open.
  function wake() {
    if (document.hidden) { if (news) news.close(); news = null; lost = false; }
    else if (!news) { listen(); refresh(); }
  }
  document.addEventListener("visibilitychange", wake);
  if (!document.hidden) listen();
})();
