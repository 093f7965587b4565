// Moving devices on the face of a cabinet. The project changes when a device is let go. Without this script, fields and
// buttons do the same.
"use strict";
(() => {
  const plan = () => document.querySelector("#face-plan");
  const device = (target) => target.closest && target.closest("#face-plan g.face-device");
  let held = null, press = null;

  function take(g) {
    const svg = g.ownerSVGElement, mm = +svg.dataset.mmPerUnit, from = [+g.dataset.x, +g.dataset.y];
    if (!(mm > 0) || !from.every(Number.isFinite)) return false;
    held = { g, mm, from, at: [...from], moved: false };
    g.classList.add("held");
    return true;
  }
  function move(x, y) {
    held.at = [x, y];
    held.moved = true;
    held.g.setAttribute("transform", `translate(${((x - held.from[0]) / held.mm).toFixed(2)} ${((held.from[1] - y) / held.mm).toFixed(2)})`);
  }
  function back() {
    if (!held) return;
    held.g.removeAttribute("transform");
    held.g.classList.remove("held");
    held = null;
  }
  function keep() {
    if (!held.moved) { back(); return; }
    const form = document.querySelector("#drop-device"), now = held, id = now.g.dataset.id;
    const there = new URL(location.href);
    there.searchParams.set("id", form.elements.namedItem("cabinet").value);
    there.searchParams.set("item", id);
    const says = { item: id, x: `${now.at[0].toFixed(1)} mm`, y: `${now.at[1].toFixed(1)} mm`, back: there.pathname + there.search };
    for (const [name, value] of Object.entries(says)) form.elements.namedItem(name).value = value;
    held = null;
    form.requestSubmit();
    // When it was refused, the drawing is still the old one: back to the truth.
    setTimeout(() => { if (now.g.isConnected && !held) { held = now; back(); } }, 4000);
  }
  function pick(g) {
    const link = [...document.querySelectorAll("a[data-key]")].find((one) => one.dataset.key === `item.${g.dataset.id}`);
    if (link) link.click();
  }
  const snapped = (mm) => Math.round(mm / +plan().dataset.step) * +plan().dataset.step;

  document.addEventListener("pointerdown", (event) => {
    const g = device(event.target);
    if (!g || event.button || press) return;
    if (held) back();
    press = { g, x: event.clientX, y: event.clientY, id: event.pointerId, drags: false };
    if (event.pointerType === "mouse") { event.preventDefault(); g.focus({ preventScroll: true }); }
  });
  document.addEventListener("pointermove", (event) => {
    if (!press || event.pointerId !== press.id) return;
    const dx = event.clientX - press.x, dy = event.clientY - press.y;
    if (!press.drags) {
      if (Math.hypot(dx, dy) < 4 || !take(press.g)) return;
      press.drags = true;
      try { press.g.setPointerCapture(event.pointerId); } catch { /* gone already */ }
    }
    if (!held) return;
    const screen = press.g.ownerSVGElement.getScreenCTM().a || 1;
    const x = held.from[0] + dx / screen * held.mm, y = held.from[1] - dy / screen * held.mm;
    if (event.altKey) move(x, y); else move(snapped(x), snapped(y));
    event.preventDefault();
  });
  document.addEventListener("touchmove", (event) => {
    if (press && event.cancelable) event.preventDefault();
  }, { passive: false });
  function release(event, keeps) {
    if (!press || event.pointerId !== press.id) return;
    const { g, drags } = press;
    press = null;
    if (drags && held) { if (keeps) keep(); else back(); } else if (keeps) pick(g);
  }
  document.addEventListener("pointerup", (event) => release(event, true));
  document.addEventListener("pointercancel", (event) => release(event, false));
  document.addEventListener("click", (event) => {
    // Only readers of the screen click without a pointer.
    const g = device(event.target);
    if (g && !event.detail) pick(g);
  });
  const ARROWS = { ArrowRight: [1, 0], ArrowLeft: [-1, 0], ArrowDown: [0, -1], ArrowUp: [0, 1] };
  document.addEventListener("keydown", (event) => {
    if (event.key === "Escape" && held) { press = null; back(); event.preventDefault(); return; }
    const g = device(event.target), arrow = ARROWS[event.key];
    if (!g || event.ctrlKey || event.metaKey) return;
    if (arrow) {
      if ((!held || held.g !== g) && !take(g)) return;
      const step = +(event.shiftKey ? plan().dataset.far : plan().dataset.step);
      move(held.at[0] + arrow[0] * step, held.at[1] + arrow[1] * step);
    } else if (event.key === "Enter" || event.key === " ") {
      if (held && held.g === g) keep(); else pick(g);
    } else return;
    event.preventDefault();
  });
})();
