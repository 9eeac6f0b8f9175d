// A place on the drawing is tapped: it stands in the fields of the form at once, in the words of a tape. Of a line or an
// area every tap adds a point. What is written down without a signal gets its cross here; the desk draws it later.

import { make, onSheet, snapped, written } from "./sketch.js";

function begin() {
  for (const button of document.querySelectorAll("[data-sound]")) button.hidden = false;
  for (const section of document.querySelectorAll("[data-pick]")) {
    if (section.dataset.begun) continue;
    section.dataset.begun = "1";
    const told = JSON.parse(section.dataset.pick);
    for (const name of ["narrow", "wide"]) {
      const svg = section.querySelector(`.${name} svg.drawing`);
      if (svg) listen(section, svg, told[name], told);
    }
  }
}

function listen(section, svg, grid, told) {
  const layer = make(svg, "g", { class: "h-layer", "aria-hidden": "true" });
  const field = (key) => section.ownerDocument.querySelector(section.dataset.into).elements.namedItem(key);
  const x = (u) => u * grid.scale + grid.left;
  const y = (v) => grid.top - v * grid.scale;
  const cross = (u, v, kind) => {
    const [a, b] = [x(u), y(v)];
    return make(layer, "path", { class: kind, d: `M${a - 7} ${b}H${a + 7}M${a} ${b - 7}V${b + 7}` });
  };
  let points = [];
  svg.addEventListener("click", (event) => {
    const [px, py] = onSheet(svg, event);
    if (document.querySelector('[data-sound][aria-pressed="true"]')) {
      heard((px - grid.left) / grid.scale, (grid.top - py) / grid.scale, told.taps, cross);
      return;
    }
    const u = Math.max(0, snapped((px - grid.left) / grid.scale, told.step));
    const v = Math.max(0, snapped((grid.top - py) / grid.scale, told.step));
    const [across, up] = [written(u, told.system), written(v, told.system)];
    if (told.as === "point") {
      for (const old of layer.querySelectorAll(".picked")) old.remove();
      cross(u, v, "h-dot picked");
      field("u").value = across;
      field("v").value = up;
      field("out").focus();
      return;
    }
    const area = field("points");
    if (!area.value.trim()) points = [];
    points.push([u, v]);
    area.value = `${area.value.trim()}\n${across}, ${up}`.trim();
    for (const old of layer.querySelectorAll(".picked")) old.remove();
    cross(u, v, "h-dot picked");
    const closed = field("kind") && field("kind").value !== "crack" && points.length > 2;
    make(layer, closed ? "polygon" : "polyline", { class: "h-ghost picked", points: points.map(([a, b]) => `${x(a)},${y(b)}`).join(" ") });
  });
  section.ownerDocument.addEventListener("desk:kept", (event) => {
    const said = event.detail.said;
    for (const old of layer.querySelectorAll(".picked")) old.setAttribute("class", "h-dot");
    const last = layer.querySelector(".h-dot:last-of-type");
    if (last && said.out) {
      const box = last.getBBox();
      const text = make(layer, "text", { class: "h-said", x: box.x + box.width + 3, y: box.y + 5 });
      text.textContent = said.out;
    }
  });
}

// the next letter of the tap that lies nearest: not tapped, sound, hollow
function heard(u, v, taps, cross) {
  const area = document.querySelector("#s-taps");
  if (!area || !taps.length) return;
  const far = ([a, b]) => Math.hypot(a - u, b - v);
  const near = taps.reduce((best, tap) => (far(tap) < far(best) ? tap : best));
  const columns = taps.map((tap) => tap[2]);
  const rows = taps.map((tap) => tap[3]);
  const [wide, high] = [Math.max(...columns) + 1, Math.max(...rows) + 1];
  const lines = area.value.trim() ? area.value.trim().split(/\s+/) : Array.from({ length: high }, () => ".".repeat(wide));
  const line = high - 1 - near[3];
  if (!lines[line] || near[2] >= lines[line].length) return;
  const next = { ".": "s", s: "h", h: "." }[lines[line][near[2]]] || "s";
  lines[line] = lines[line].slice(0, near[2]) + next + lines[line].slice(near[2] + 1);
  area.value = lines.join("\n");
  cross(near[0], near[1], "h-dot");
}

document.addEventListener("click", (event) => {
  const button = event.target.closest("[data-sound]");
  if (button) button.setAttribute("aria-pressed", String(button.getAttribute("aria-pressed") !== "true"));
});

document.addEventListener("htmx:afterSettle", begin);
begin();
