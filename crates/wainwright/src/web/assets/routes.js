// Picking in drawings, moving corners of trunks, printing. The project changes
// when a corner is let go. Without this script, links and fields do the same.
"use strict";
(() => {
  const $ = (selector, root = document) => root.querySelector(selector);
  const $$ = (selector, root = document) => [...root.querySelectorAll(selector)];
  const AXES = ["from-front", "from-left", "up"], NEAR = 25; // snaps within so many millimetres
  const numbers = (text) => (text || "").match(/-?[\d.]+/g)?.map(Number) || [];
  const KINDS = new Set(["wire", "trunk", "opening"]);
  const keyOf = (g) => `${KINDS.has(g.dataset.kind) ? g.dataset.kind : "item"}.${g.dataset.id}`;
  const thing = (target) => target.closest && target.closest(".route-plan g[data-id], .line-drawing g[data-id]");
  const isCorner = (g) => /^corner-\d+$/.test(g.dataset.id) && g.dataset.drag;
  const plan = () => $("#route-plan");
  let held = null, press = null;

  function pick(g) {
    const link = $$("a[data-key]").find((one) => one.dataset.key === keyOf(g));
    if (link) link.click();
  }

  // ---- corners --------------------------------------------------------------

  function lie(svg) {
    const way = (text) => ({ axis: AXES.indexOf(text.slice(1)), sign: text[0] === "-" ? -1 : 1 });
    return { right: way(svg.dataset.right), down: way(svg.dataset.down), mm: +svg.dataset.mmPerUnit };
  }
  // The place of a corner stands in its field; lengths there are exact enough to begin with.
  function place(number) {
    const at = $(`#corner-field-${number}`);
    if (!at) return null;
    const part = (text) => {
      const [whole, over, under] = (text.match(/-?\d+(?:\.\d+)?/g) || ["0"]).map(Number);
      const unit = /mm/.test(text) ? 1 : 25.4;
      if (!text.includes("/")) return whole * unit;
      // "10-3/8 in" or "3/8 in": the minus within is a joint, not a sign.
      const parts = text.replace(/(\d)-/, "$1 ").match(/-?\d+/g).map(Number);
      const value = parts.length > 2 ? Math.abs(parts[0]) + parts[1] / parts[2] : parts[0] / parts[1];
      return (text.trim().startsWith("-") && value > 0 ? -value : value) * unit;
    };
    return at.defaultValue.split(",").map(part);
  }
  function take(g) {
    const number = +g.dataset.id.slice(7), from = place(number);
    if (!from) return false;
    const svg = g.ownerSVGElement, duct = $("g.trunk.selected .duct", svg);
    held = { g, number, from, at: [...from], moved: false, lie: lie(svg), duct, path: duct && duct.getAttribute("d"),
      lines: (plan().dataset.lines || "").split(";").map(numbers) };
    return true;
  }
  function snap(spot, axes) {
    const step = +plan().dataset.step;
    for (const axis of axes) {
      const line = held.lines[axis].find((at) => Math.abs(at - spot[axis]) < NEAR && Math.abs(at - held.from[axis]) > 1);
      spot[axis] = line !== undefined ? line : Math.round(spot[axis] / step) * step;
    }
    return spot;
  }
  function move(spot) {
    const { right, down, mm } = held.lie;
    held.at = spot;
    held.moved = true;
    const x = right.sign * (spot[right.axis] - held.from[right.axis]) / mm, y = down.sign * (spot[down.axis] - held.from[down.axis]) / mm;
    held.g.setAttribute("transform", `translate(${x.toFixed(2)} ${y.toFixed(2)})`);
    if (!held.path) return;
    let index = -1;
    const bent = held.path.replace(/([ML])(-?[\d.]+) (-?[\d.]+)/g, (all, letter, px, py) =>
      ++index === held.number ? `${letter}${(+px + x).toFixed(2)} ${(+py + y).toFixed(2)}` : all);
    held.duct.setAttribute("d", bent);
  }
  function back() {
    if (!held) return;
    held.g.removeAttribute("transform");
    if (held.path) held.duct.setAttribute("d", held.path);
    held = null;
  }
  function keep() {
    if (!held.moved) { held = null; return; }
    const form = $("#drop-corner"), now = held;
    const says = { trunk: new URL(location.href).searchParams.get("select").slice(6), corner: now.number,
      spot: now.at.map((mm) => `${mm.toFixed(1)} mm`).join(", "), back: location.pathname + location.search };
    for (const [name, value] of Object.entries(says)) form.elements.namedItem(name).value = value;
    held = null;
    form.requestSubmit();
    // When it was refused, the drawing is still the old one: back to the truth.
    setTimeout(() => { if (now.g.isConnected && !held) { held = now; back(); } }, 4000);
  }

  // ---- mouse, finger, keys ----------------------------------------------------

  document.addEventListener("pointerdown", (event) => {
    const g = thing(event.target);
    if (!g || event.button || press) return;
    if (held) back();
    press = { g, x: event.clientX, y: event.clientY, id: event.pointerId, drags: false };
    if (isCorner(g) && event.pointerType === "mouse") { event.preventDefault(); g.focus({ preventScroll: true }); }
  });
  document.addEventListener("pointermove", (event) => {
    if (!press || event.pointerId !== press.id) return;
    const dx = event.clientX - press.x, dy = event.clientY - press.y;
    if (!press.drags) {
      if (Math.hypot(dx, dy) < 4) return;
      if (!isCorner(press.g) || !take(press.g)) { press.strays = true; return; }
      press.drags = true;
      try { press.g.setPointerCapture(event.pointerId); } catch { /* gone already */ }
    }
    if (!held) return;
    const screen = press.g.ownerSVGElement.getScreenCTM().a || 1, { right, down, mm } = held.lie, spot = [...held.from];
    spot[right.axis] += right.sign * dx / screen * mm;
    spot[down.axis] += down.sign * dy / screen * mm;
    move(event.altKey ? spot : snap(spot, [right.axis, down.axis]));
    event.preventDefault();
  });
  document.addEventListener("touchmove", (event) => {
    if (press && isCorner(press.g) && event.cancelable) event.preventDefault();
  }, { passive: false });
  function release(event, keeps) {
    if (!press || event.pointerId !== press.id) return;
    const { g, drags, strays } = press;
    press = null;
    if (drags && held) { if (keeps) keep(); else back(); }
    else if (keeps && !strays && !isCorner(g)) pick(g);
  }
  document.addEventListener("pointerup", (event) => release(event, true));
  document.addEventListener("pointercancel", (event) => release(event, false));
  document.addEventListener("click", (event) => {
    const print = event.target.closest("[data-print]");
    if (print) { window.print(); return; }
    // Only readers of the screen click without a pointer.
    const g = thing(event.target);
    if (g && !event.detail && !isCorner(g)) pick(g);
  });
  const ARROWS = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowDown: [0, 1], ArrowUp: [0, -1] };
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && held) { press = null; back(); event.preventDefault(); return; }
    const g = thing(event.target), arrow = ARROWS[event.key];
    if (!g || event.ctrlKey || event.metaKey) return;
    if (arrow && isCorner(g)) {
      if ((!held || held.g !== g) && !take(g)) return;
      const { right, down } = held.lie, spot = [...held.at], step = +(event.shiftKey ? plan().dataset.far : plan().dataset.step);
      spot[right.axis] += right.sign * arrow[0] * step;
      spot[down.axis] += down.sign * arrow[1] * step;
      move(spot);
    } else if (event.key === "Enter" || event.key === " ") {
      if (held && held.g === g) keep(); else if (!isCorner(g)) pick(g);
    } else return;
    event.preventDefault();
  });
  for (const button of $$("[data-print]")) button.hidden = false;
})();
