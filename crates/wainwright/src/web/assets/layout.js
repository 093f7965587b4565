// Moving things on the floor by mouse, finger and keys. While a thing is moved
// the server is asked for the figures; the project changes when it is let go.
"use strict";
(() => {
  const $ = (selector, root = document) => root.querySelector(selector);
  const $$ = (selector, root = document) => [...root.querySelectorAll(selector)];
  const NEAR = 20; // snaps within so many millimetres
  const AXES = ["from-front", "from-left", "up"];
  const floor = () => $("#floor-plan");
  const numbers = (text) => (text || "").split(" ").filter(Boolean).map(Number);
  const links = () => $$("#all-things a[data-item]");
  const linkOf = (id) => links().find((link) => link.dataset.item === id);
  let held = null; // what is being moved

  // ---- the drawing ----------------------------------------------------------

  // What moving right and down on this drawing changes, and how much.
  function lie(svg) {
    const way = (text) => ({ axis: AXES.indexOf(text.slice(1)), sign: text[0] === "-" ? -1 : 1 });
    return { right: way(svg.dataset.right), down: way(svg.dataset.down), mm: +svg.dataset.mmPerUnit };
  }
  // Moves every picture of the thing, each in its own drawing.
  function shift(kind, id, by) {
    for (const g of $$(`.plans g[data-kind="${kind}"]`)) {
      if (g.dataset.id !== id) continue;
      const { right, down, mm } = lie(g.ownerSVGElement);
      const x = right.sign * by[right.axis] / mm, y = down.sign * by[down.axis] / mm;
      if (x || y) g.setAttribute("transform", `translate(${x.toFixed(2)} ${y.toFixed(2)})`);
      else g.removeAttribute("transform");
    }
  }

  // ---- snapping ---------------------------------------------------------------

  // Lines along one axis that an edge of the thing may come to lie on.
  function lines(axis, id) {
    const inside = numbers(floor().dataset.inside);
    const all = [0, inside[axis]];
    for (const link of links()) {
      if (link.dataset.item === id || !link.dataset.size) continue;
      const at = numbers(link.dataset.at)[axis];
      all.push(at, at + numbers(link.dataset.size)[axis]);
    }
    return all;
  }
  function snap(spot, size, id, axes) {
    const out = [...spot];
    for (const axis of axes) {
      let best = NEAR, to = spot[axis];
      const look = (line, offset) => {
        const off = Math.abs(spot[axis] + offset - line);
        if (off < best) { best = off; to = line - offset; }
      };
      for (const line of lines(axis, id)) { look(line, 0); look(line, size[axis]); }
      if (axis === 0) for (const rib of numbers(floor().dataset.ribs)) look(rib, size[0] / 2);
      out[axis] = to;
    }
    return out;
  }

  // ---- figures while it moves -------------------------------------------------

  let asking = false, next = null;
  // One question at a time; of those that wait only the newest is asked.
  async function ask(item, spot) {
    next = { item, spot };
    if (asking) return;
    asking = true;
    try {
      while (next) {
        const { item, spot } = next;
        next = null;
        const body = new URLSearchParams({ item, spot: text(spot) });
        const answer = await fetch("/layout/try", { method: "POST", body });
        if (answer.ok && held && held.id === item) show(await answer.text());
      }
    } catch { /* the page says elsewhere when the program is gone */ }
    finally { asking = false; }
  }
  const text = (spot) => spot.map((mm) => `${mm.toFixed(1)} mm`).join(", ");

  function show(piece) {
    const fresh = new DOMParser().parseFromString(piece, "text/html").body.firstElementChild;
    const old = $("#live");
    if (!fresh || !old) return;
    mark(fresh);
    for (const open of $$("details[open]", old)) { const same = $(`#${open.id}`, fresh); if (same) same.open = true; }
    old.replaceWith(document.importNode(fresh, true));
    if (held.keys) $("#announce").textContent = fresh.dataset.say;
    const form = $(`#chosen input[name="item"]`);
    if (form && form.value === held.id && fresh.dataset.typed) {
      const parts = fresh.dataset.typed.split(", ");
      ["from_front", "from_left", "above_floor"].forEach((name, number) => {
        const field = $(`#place-${name}`);
        if (field) field.value = parts[number];
      });
    }
  }
  // Moves the centre of gravity and marks what is in the way.
  function mark(live) {
    const bad = new Set((live.dataset.bad || "").split(" "));
    for (const g of $$('.plans g[data-kind="thing"]')) {
      const is = bad.has(g.dataset.id);
      g.classList.toggle("bad", is);
      if (is) g.classList.remove("calm", "watch"); else if (!g.classList.contains("watch")) g.classList.add("calm");
    }
    const now = numbers(live.dataset.centre), was = held.centre;
    if (now.length === 3 && was.length === 3) shift("point", "centre", now.map((mm, axis) => mm - was[axis]));
  }

  // ---- taking hold, moving, letting go ------------------------------------------

  function take(g, keys) {
    const link = linkOf(g.dataset.id);
    if (!link) return null;
    held = {
      id: g.dataset.id, g, keys, from: numbers(link.dataset.at), at: numbers(link.dataset.at),
      size: link.dataset.size ? numbers(link.dataset.size) : [0, 0, 0],
      live: $("#live").cloneNode(true), centre: numbers($("#live").dataset.centre), moved: false,
      lie: lie(g.ownerSVGElement),
    };
    document.body.classList.add("holding");
    return held;
  }
  function move(spot) {
    held.at = spot;
    held.moved = true;
    for (const g of $$(`.plans g[data-id="${CSS.escape(held.id)}"][data-kind="thing"]`)) g.classList.add("moving");
    shift("thing", held.id, spot.map((mm, axis) => mm - held.from[axis]));
    ask(held.id, spot);
  }
  function back(silent) {
    if (!held) return;
    const { id, live } = held;
    next = null;
    shift("thing", id, [0, 0, 0]);
    for (const g of $$(".plans g.moving")) g.classList.remove("moving");
    mark(live);
    $("#live").replaceWith(live);
    for (const name of ["from_front", "from_left", "above_floor"]) {
      const field = $(`#place-${name}`);
      if (field) field.value = field.defaultValue;
    }
    letGo();
    if (!silent) $("#announce").textContent = "Put back where it was";
  }
  function letGo() {
    held = null;
    document.body.classList.remove("holding");
  }
  function keep() {
    const { id, at, moved, live } = held;
    if (!moved) { letGo(); return; }
    const form = $("#drop"), here = new URL(floor().dataset.here, location.href);
    here.searchParams.set("item", id);
    const says = { item: id, spot: text(at), back: here.pathname + here.search };
    for (const [name, value] of Object.entries(says)) form.elements.namedItem(name).value = value;
    const kept = held;
    letGo();
    next = null;
    form.requestSubmit();
    // When it was refused, the drawing is still the old one: back to the truth.
    setTimeout(() => {
      if (!kept.g.isConnected || held) return;
      held = kept; held.live = live; back(true);
    }, 4000);
  }

  // ---- mouse and finger -----------------------------------------------------------

  const START = 4; // pixels before a touch becomes a drag
  let press = null;
  document.addEventListener("pointerdown", (event) => {
    const g = event.target.closest(".plans g[data-kind=thing]");
    if (!g || event.button || press) return;
    if (held) back(true);
    press = { g, x: event.clientX, y: event.clientY, id: event.pointerId, drags: false };
    if (event.pointerType === "mouse") { event.preventDefault(); g.focus({ preventScroll: true }); }
  });
  document.addEventListener("pointermove", (event) => {
    if (!press || event.pointerId !== press.id) return;
    const dx = event.clientX - press.x, dy = event.clientY - press.y;
    if (!press.drags) {
      if (Math.hypot(dx, dy) < START || !press.g.dataset.drag || !take(press.g, false)) return;
      press.drags = true;
      try { press.g.setPointerCapture(event.pointerId); } catch { /* gone already */ }
    }
    if (!held || !press.g.isConnected) { press = null; return; }
    const screen = press.g.ownerSVGElement.getScreenCTM().a || 1, { right, down, mm } = held.lie;
    const spot = [...held.from];
    spot[right.axis] += right.sign * dx / screen * mm;
    spot[down.axis] += down.sign * dy / screen * mm;
    move(event.altKey ? spot : snap(spot, held.size, held.id, [right.axis, down.axis]));
    event.preventDefault();
  });
  // A finger on a thing moves the thing, not the page.
  document.addEventListener("touchmove", (event) => {
    if (press && press.g.dataset.drag && event.cancelable) event.preventDefault();
  }, { passive: false });
  function release(event, keeps) {
    if (!press || event.pointerId !== press.id) return;
    const { g, drags } = press;
    press = null;
    if (drags && held) { if (keeps) keep(); else back(true); }
    else if (keeps && !drags) pick(g.dataset.id);
  }
  document.addEventListener("pointerup", (event) => release(event, true));
  document.addEventListener("pointercancel", (event) => release(event, false));
  document.addEventListener("click", (event) => {
    // Only readers of the screen click without a pointer.
    const g = event.target.closest(".plans g[data-kind=thing]");
    if (g && !event.detail) pick(g.dataset.id);
  });
  function pick(id) {
    const link = linkOf(id);
    if (link) link.click();
  }

  // ---- keys -------------------------------------------------------------------------

  const ARROWS = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowDown: [0, 1], ArrowUp: [0, -1] };
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && held) { if (press) press = null; back(); event.preventDefault(); return; }
    const g = event.target.closest && event.target.closest(".plans g[data-kind=thing]");
    if (!g || event.ctrlKey || event.metaKey) return;
    const arrow = ARROWS[event.key];
    if (arrow && g.dataset.drag) {
      if ((!held || held.id !== g.dataset.id) && !take(g, true)) return;
      const { right, down } = held.lie, spot = [...held.at];
      const step = +(event.shiftKey ? floor().dataset.far : floor().dataset.step);
      spot[right.axis] += right.sign * arrow[0] * step;
      spot[down.axis] += down.sign * arrow[1] * step;
      move(spot);
    } else if (event.key === "Enter" || event.key === " ") {
      if (held && held.keys && held.id === g.dataset.id) keep(); else pick(g.dataset.id);
    } else return;
    event.preventDefault();
  });
  document.addEventListener("focusout", (event) => {
    if (held && held.keys && event.target === held.g && held.g.isConnected) setTimeout(() => {
      if (held && held.keys && document.activeElement !== held.g) back();
    });
  });
})();
