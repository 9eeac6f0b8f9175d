// The wall changed by hand: corners, sides and openings are dragged over the drawing, a size is tapped and typed on the
// spot. Everything goes through the list beside it: what is dragged is written into its fields and sent as they are.

const NS = "http://www.w3.org/2000/svg";
const NEAR = 9; // px within which a place catches on another
const WAKE = 3; // px a finger may tremble
const IN = 0.0254;
let stop = () => {};

// --- lengths as they are typed -------------------------------------------------------------------------

export function written(metres, system) {
  if (system === "metric") return `${Math.round(metres * 1000)} mm`;
  const parts = Math.round((metres / IN) * 16);
  const feet = Math.floor(parts / 192);
  const whole = Math.floor((parts % 192) / 16);
  let over = parts % 16;
  let of = 16;
  while (over && over % 2 === 0) [over, of] = [over / 2, of / 2];
  const inches = [whole || (!over && !feet) ? String(whole) : "", over ? `${over}/${of}` : ""].filter(Boolean).join(" ");
  const text = [feet ? `${feet}'` : "", inches && !(feet && inches === "0") ? `${inches}"` : ""];
  return text.filter(Boolean).join(" ");
}

export const snapped = (metres, step) => Math.round(metres / step) * step;

export function caught(metres, places, step, reach) {
  let best = snapped(metres, step);
  let far = reach;
  for (const place of places) {
    if (Math.abs(place - metres) < far) [best, far] = [place, Math.abs(place - metres)];
  }
  return Math.max(0, best);
}

export function make(parent, kind, attributes) {
  const made = document.createElementNS(NS, kind);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  parent.append(made);
  return made;
}

// where the pointer is, in the drawing's own px
export function onSheet(svg, event) {
  const box = svg.getBoundingClientRect();
  const [, , wide, high] = svg.getAttribute("viewBox").split(" ").map(Number);
  return [((event.clientX - box.left) / box.width) * wide, ((event.clientY - box.top) / box.height) * high];
}

// --- one sheet -----------------------------------------------------------------------------------------

class Hand {
  constructor(section, svg, grid, told) {
    Object.assign(this, { section, svg, grid, told });
    this.form = document.querySelector("#sketch-list");
    this.layer = make(svg, "g", { class: "h-layer", "aria-hidden": "true" });
    this.read();
    this.draw();
  }

  field(name) {
    return this.form.elements.namedItem(name);
  }

  value(name) {
    const field = this.field(name);
    return field ? Number(field.dataset.metres) : 0;
  }

  x(u) {
    return u * this.grid.scale + this.grid.left;
  }

  y(v) {
    return this.grid.top - v * this.grid.scale;
  }

  read() {
    this.corners = [];
    for (let n = 0; this.field(`c.${n}.u`); n += 1) this.corners.push([this.value(`c.${n}.u`), this.value(`c.${n}.v`)]);
    this.openings = [];
    for (let n = 0; this.field(`o.${n}.at`); n += 1) {
      this.openings.push(["at", "up", "width", "height"].map((key) => this.value(`o.${n}.${key}`)));
    }
    this.length = this.value("length");
    this.height = this.value("height");
  }

  draw() {
    for (const tap of this.grid.taps) this.tap(tap);
    this.openings.forEach((opening, n) => this.opening(opening, n));
    this.sides();
    this.corners.forEach((corner, n) => this.corner(corner, n));
  }

  // handles: a mark to see, and room for a finger around it
  grip(name, u, v, size, drag) {
    const [x, y] = [this.x(u), this.y(v)];
    const mark = make(this.layer, "rect", { class: "h-mark", x: x - 4.5, y: y - 4.5, width: 9, height: 9 });
    const grip = make(this.layer, "circle", { class: "h-grip", cx: x, cy: y, r: size, "data-grip": name });
    this.drags(grip, drag, mark);
  }

  drags(grip, drag) {
    grip.addEventListener("pointerdown", (event) => {
      if (event.button) return;
      event.preventDefault();
      const [x0, y0] = onSheet(this.svg, event);
      let moved = false;
      let last = null;
      grip.setPointerCapture(event.pointerId);
      const move = (now) => {
        const [x, y] = onSheet(this.svg, now);
        if (!moved && Math.hypot(x - x0, y - y0) < WAKE) return;
        moved = true;
        last = drag((x - x0) / this.grid.scale, -(y - y0) / this.grid.scale);
        this.ghost(last.outline, last.says, x, y);
      };
      const end = (now) => {
        grip.removeEventListener("pointermove", move);
        grip.removeEventListener("pointerup", end);
        grip.removeEventListener("pointercancel", end);
        this.ghost();
        if (now.type === "pointerup" && last) this.send(last.fields);
      };
      grip.addEventListener("pointermove", move);
      grip.addEventListener("pointerup", end);
      grip.addEventListener("pointercancel", end);
    });
  }

  ghost(outline, says, x, y) {
    for (const old of this.layer.querySelectorAll(".h-ghost, .h-said")) old.remove();
    if (!outline) return;
    const points = outline.map(([u, v]) => `${this.x(u)},${this.y(v)}`).join(" ");
    make(this.layer, "polygon", { class: "h-ghost", points });
    const right = x > this.svg.viewBox.baseVal.width / 2;
    const text = make(this.layer, "text", { class: "h-said", x: right ? x - 16 : x + 16, y: Math.max(16, y - 18) });
    text.setAttribute("text-anchor", right ? "end" : "start");
    text.textContent = says;
  }

  // --- what is dragged

  corner([u, v], n) {
    const others = this.corners.filter((_, k) => k !== n);
    const us = [...others.map((c) => c[0]), this.length / 2, u];
    const vs = [...others.map((c) => c[1]), v];
    this.grip(`c.${n}`, u, v, 22, (du, dv) => {
      const nu = this.caught(u + du, us);
      const nv = this.caught(v + dv, vs);
      const outline = this.corners.map((c, k) => (k === n ? [nu, nv] : c));
      return { outline, says: this.both(nu, nv), fields: { [`c.${n}.u`]: [nu, u], [`c.${n}.v`]: [nv, v] } };
    });
  }

  sides() {
    const right = this.length;
    const eaves = this.height;
    const ends = this.openings.map(([at, , width]) => at + width);
    const heads = this.openings.map(([, up, , height]) => up + height);
    const low = this.corners.filter(([u]) => u === right).map(([, v]) => v);
    const middle = low.length > 1 ? (Math.min(...low) + Math.max(...low)) / 2 : eaves / 2;
    this.grip("length", right, middle, 18, (du) => {
      const long = Math.max(this.told.step, this.caught(right + du, [right, ...ends]));
      return { outline: this.stretched(long, eaves), says: this.text(long), fields: { length: [long, right] } };
    });
    const at = this.told.straight || !this.corners.length ? right / 4 : this.top();
    this.grip("height", at, eaves, 18, (_, dv) => {
      const high = Math.max(this.told.step, this.caught(eaves + dv, [eaves, ...heads]));
      return { outline: this.stretched(right, high), says: this.text(high), fields: { height: [high, eaves] } };
    });
  }

  top() {
    const over = this.corners.filter(([, v]) => v === Math.max(...this.corners.map((c) => c[1]))).map(([u]) => u);
    return (Math.min(...over) + Math.max(...over)) / 2;
  }

  stretched(long, high) {
    if (!this.corners.length) return [[0, 0], [long, 0], [long, high], [0, high]];
    const rise = high - this.height;
    return this.corners.map(([u, v]) => [
      u === this.length ? long : this.told.straight && u && u < this.length ? long / 2 : u,
      v === this.height ? high : v > this.height ? v + rise : v,
    ]);
  }

  opening([at, up, width, height], n) {
    const box = { x: this.x(at), y: this.y(up + height), width: width * this.grid.scale, height: height * this.grid.scale };
    const grip = make(this.layer, "rect", { class: "h-grip", ...box, "data-grip": `o.${n}` });
    const others = this.openings.filter((_, k) => k !== n);
    const us = [0, this.length, ...others.flatMap((o) => [o[0], o[0] + o[2]])];
    const vs = [0, ...others.flatMap((o) => [o[1], o[1] + o[3]])];
    const frame = (a, b, c, d) => [[a, b], [a + c, b], [a + c, b + d], [a, b + d]];
    this.drags(grip, (du, dv) => {
      const na = this.caught(at + du, [at, ...us, ...us.map((u) => u - width)]);
      const nb = this.caught(up + dv, [up, ...vs, ...vs.map((v) => v - height)]);
      const fields = { [`o.${n}.at`]: [na, at], [`o.${n}.up`]: [nb, up] };
      return { outline: frame(na, nb, width, height), says: this.both(na, nb), fields };
    });
    this.grip(`o.${n}.width`, at + width, up + height / 2, 14, (du) => {
      const nw = Math.max(this.told.step, this.caught(at + width + du, [at + width, ...us]) - at);
      return { outline: frame(at, up, nw, height), says: this.text(nw), fields: { [`o.${n}.width`]: [nw, width] } };
    });
    this.grip(`o.${n}.height`, at + width / 2, up + height, 14, (_, dv) => {
      const nh = Math.max(this.told.step, this.caught(up + height + dv, [up + height, ...vs]) - up);
      return { outline: frame(at, up, width, nh), says: this.text(nh), fields: { [`o.${n}.height`]: [nh, height] } };
    });
  }

  caught(metres, places) {
    return caught(metres, places, this.told.step, NEAR / this.grid.scale);
  }

  text(metres) {
    return written(metres, this.told.system);
  }

  both(u, v) {
    return `${this.text(u)}, ${this.text(v)}`;
  }

  // --- a size typed on the spot

  tap(tap) {
    const [x, y] = [tap.x + tap.w, tap.y + tap.h];
    const line = tap.upright ? { x1: x, x2: x, y1: tap.y, y2: y } : { x1: tap.x, x2: x, y1: y, y2: y };
    make(this.layer, "line", { class: "h-tap-line", ...line });
    const area = make(this.layer, "rect", { class: "h-tap", x: tap.x, y: tap.y, width: tap.w, height: tap.h });
    area.dataset.tap = tap.what;
    area.addEventListener("click", () => this.type(tap));
  }

  type(tap) {
    document.querySelector(".on-the-spot")?.remove();
    const box = document.createElement("form");
    box.className = "on-the-spot";
    const label = document.createElement("label");
    const input = document.createElement("input");
    input.id = "on-the-spot";
    label.htmlFor = input.id;
    label.textContent = this.section.dataset.type || tap.text;
    input.value = tap.text.replaceAll("\u2032-", "' ").replaceAll("\u2032", "'").replaceAll("\u2033", '"').replace(/' 0"$/, "'");
    if (this.told.system === "metric") input.value += " mm";
    input.autocomplete = "off";
    box.append(label, input);
    this.section.append(box);
    const [svg, page] = [this.svg.getBoundingClientRect(), this.section.getBoundingClientRect()];
    const part = svg.width / this.svg.viewBox.baseVal.width;
    const left = svg.left - page.left + (tap.x + tap.w / 2) * part - 66;
    box.style.left = `${Math.max(0, Math.min(left, page.width - 136))}px`;
    box.style.top = `${svg.top - page.top + (tap.y + tap.h / 2) * part - 23}px`;
    input.focus();
    input.select();
    let done = false;
    const close = () => {
      done = true;
      box.remove();
    };
    box.addEventListener("submit", (event) => {
      event.preventDefault();
      const text = input.value.trim();
      close();
      if (text) this.send({}, { what: tap.what, typed: text });
    });
    input.addEventListener("keydown", (event) => {
      if (event.key === "Escape") close();
    });
    input.addEventListener("blur", () => setTimeout(() => !done && close(), 0));
  }

  // --- sent as the list

  send(fields, more = {}) {
    let any = Object.keys(more).length;
    for (const [name, [now, before]] of Object.entries(fields)) {
      if (Math.abs(now - before) < 1e-6) continue;
      this.field(name).value = this.text(now);
      any = true;
    }
    for (const old of this.form.querySelectorAll("[data-once]")) old.remove();
    for (const [name, value] of Object.entries(more)) {
      const hidden = document.createElement("input");
      Object.assign(hidden, { type: "hidden", name, value });
      hidden.dataset.once = "1";
      this.form.append(hidden);
    }
    if (any) this.form.requestSubmit();
  }
}

// --- the page ------------------------------------------------------------------------------------------

const KEY = "darby-by-hand";

function on() {
  return sessionStorage.getItem(KEY) === "1";
}

function show(section) {
  stop();
  for (const old of section.querySelectorAll(".h-layer")) old.remove();
  const told = JSON.parse(section.dataset.sketch);
  const button = section.querySelector("[data-by-hand]");
  button.setAttribute("aria-pressed", String(on()));
  const hint = section.querySelector(".by-hand");
  if (hint) hint.hidden = !on();
  if (!on()) return;
  for (const name of ["narrow", "wide"]) {
    const svg = section.querySelector(`.${name} svg.drawing`);
    if (svg) new Hand(section, svg, told[name], told);
  }
}

function begin() {
  const section = document.querySelector("[data-sketch]");
  if (!section || section.dataset.begun) return;
  section.dataset.begun = "1";
  const button = section.querySelector("[data-by-hand]");
  if (!button || !document.querySelector("#sketch-list")) return;
  button.hidden = false;
  button.addEventListener("click", () => {
    sessionStorage.setItem(KEY, on() ? "0" : "1");
    show(section);
  });
  show(section);
}

document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  if (event.target.closest("input, textarea, select") && event.target.value !== event.target.defaultValue) return;
  const key = event.key.toLowerCase();
  const way = key === "z" && !event.shiftKey ? "back" : key === "y" || (key === "z" && event.shiftKey) ? "forward" : "";
  const form = way && document.querySelector(`[data-step="${way}"]`);
  if (!form || form.querySelector("button").disabled) return;
  event.preventDefault();
  form.requestSubmit();
});
document.addEventListener("htmx:afterSettle", begin);
begin();
