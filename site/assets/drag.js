// Handles in drawings: dragged, or moved by the arrow keys, they change what is
// typed into the form, which then computes as after a keystroke. See
// internal/notebook/drawing, Handle.
"use strict";

(() => {
  const form = document.querySelector("form.readings");
  if (!form) return;

  /** What a handle's direction moves: the field, its box and its scale. */
  function gripOf(handle, way) {
    const name = handle.dataset[way];
    const field = name && form.querySelector(`.field[data-field="${CSS.escape(name)}"]`);
    const box = field && field.querySelector("input");
    if (!box || box.readOnly) return null;
    const data = (what) => handle.dataset[way + what];
    const chosen = field.querySelector("select.unit");
    const symbol = chosen ? chosen.value : (field.querySelector(".unit") || { dataset: {} }).dataset.unit;
    const unit = data("Units").split(";").map((pair) => pair.split("=")).find(([known]) => known === symbol);
    if (!unit) return null;
    return { box, says: data("Says"), symbol, size: Number(unit[1]), per: Number(data("Per")), step: Number(data("Step")) };
  }

  /** The number typed, in SI; NaN when it is none. */
  const read = (grip) => Number(grip.box.value.trim().replace(",", ".").replace("\u2212", "-") || NaN) * grip.size;

  /** Types a value, rounded to a fifth of the handle's step. */
  function type(grip, value) {
    const fine = grip.step / 5 / grip.size;
    const decimals = Math.max(0, Math.ceil(-Math.log10(fine)));
    const number = Math.round(value / grip.size / fine) * fine;
    const text = String(Number(number.toFixed(decimals)));
    if (text === grip.box.value) return;
    grip.box.value = text;
    grip.box.dispatchEvent(new Event("input", { bubbles: true }));
  }

  const ways = ["across", "up"];
  const handles = () => document.querySelectorAll(".handle[aria-label]");
  const nameOf = (handle) => [...handles()].indexOf(handle);
  let focused = -1; // which handle has the focus, also when it is drawn anew
  let held = null; // what is dragged

  /** Makes the handles reachable and says what they stand at. */
  function wake() {
    [...handles()].forEach((handle, i) => {
      const grips = ways.map((way) => gripOf(handle, way)).filter(Boolean);
      if (grips.length === 0) return;
      handle.setAttribute("tabindex", "0");
      handle.setAttribute("role", "slider");
      handle.setAttribute("aria-valuenow", String(read(grips[0]) / grips[0].size || 0));
      handle.setAttribute("aria-valuetext", grips.map((grip) => `${grip.says} ${grip.box.value} ${grip.symbol}`).join(", "));
      handle.classList.toggle("held", Boolean(held) && held.index === i);
      const svg = handle.ownerSVGElement;
      svg.removeAttribute("role"); // an image has no parts to reach
      if (focused === i && document.activeElement === document.body) handle.focus({ preventScroll: true });
    });
  }

  document.addEventListener("figures", wake);
  form.addEventListener("focusin", wake, { once: true });
  form.addEventListener("input", () => setTimeout(wake));
  form.addEventListener("change", () => setTimeout(wake));
  document.addEventListener("focusin", (event) => { focused = nameOf(event.target.closest(".handle")); });

  document.addEventListener("pointerdown", (event) => {
    const handle = event.target.closest && event.target.closest(".handle");
    if (!handle || event.button !== 0) return;
    const matrix = handle.ownerSVGElement.getScreenCTM();
    const grips = ways.map((way) => gripOf(handle, way));
    if (!grips.some(Boolean)) return;
    event.preventDefault();
    held = { index: nameOf(handle), x: event.clientX, y: event.clientY, zoom: matrix.a, grips, from: grips.map((grip) => grip && read(grip)) };
    handle.focus({ preventScroll: true });
    wake();
  });

  document.addEventListener("pointermove", (event) => {
    if (!held) return;
    const moved = [(event.clientX - held.x) / held.zoom, (held.y - event.clientY) / held.zoom];
    held.grips.forEach((grip, i) => {
      if (grip && Number.isFinite(held.from[i])) type(grip, held.from[i] + moved[i] * grip.per);
    });
  });

  for (const end of ["pointerup", "pointercancel"]) {
    document.addEventListener(end, () => {
      if (!held) return;
      held = null;
      wake();
    });
  }

  document.addEventListener("keydown", (event) => {
    const handle = event.target.closest && event.target.closest(".handle");
    const key = { ArrowRight: ["across", 1], ArrowLeft: ["across", -1], ArrowUp: ["up", 1], ArrowDown: ["up", -1] }[event.key];
    if (!handle || !key || event.altKey || event.ctrlKey || event.metaKey) return;
    const grip = gripOf(handle, key[0]);
    if (!grip || !Number.isFinite(read(grip))) return;
    event.preventDefault();
    type(grip, read(grip) + key[1] * Math.sign(grip.per) * grip.step * (event.shiftKey ? 10 : 1));
  });

  wake();
})();
