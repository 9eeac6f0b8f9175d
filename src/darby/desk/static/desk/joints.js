// Lines of joints are dragged on the drawing; while one is dragged the limits answer for where it lies. Everything here
// goes through the form beside it, which does the same without this.

const FOOT = 0.3048, INCH = FOOT / 12;
const NEAR = 9; // px: a line catches a corner
const TRY = 160; // ms between two questions while a line is dragged
let held = null;
let last = null;
let stood = null;

function settle() {
  for (const section of document.querySelectorAll(".lines-of")) {
    for (const svg of section.querySelectorAll("svg.drawing")) grips(section, svg);
  }
  if (stood !== null) {
    const form = document.getElementById("lines");
    if (form) scrollBy(0, form.getBoundingClientRect().top - stood);
    stood = null;
  }
  if (last && (document.activeElement === document.body || !document.activeElement)) {
    const rows = [...document.querySelectorAll(`li[data-way="${last.way}"][data-place]`)];
    rows.sort((a, b) => Math.abs(a.dataset.place - last.at) - Math.abs(b.dataset.place - last.at));
    const input = rows[0] && rows[0].querySelector("[name^='place.']");
    if (input) input.focus({ preventScroll: true });
  }
  last = null;
}

// where the wall lies on this sheet: the box of its outline is the box of the wall
function frame(section, svg) {
  const outline = svg.querySelector(".d-outline");
  if (!outline || svg.clientWidth === 0) return null;
  const box = outline.getBBox();
  const [left, right, low, high] = JSON.parse(section.dataset.box);
  return {
    x: (u) => box.x + ((u - left) / (right - left)) * box.width,
    y: (v) => box.y + ((high - v) / (high - low)) * box.height,
    u: (x) => left + ((x - box.x) / box.width) * (right - left),
    v: (y) => high - ((y - box.y) / box.height) * (high - low),
    left, right, low, high, scale: box.width / (right - left),
  };
}

function grips(section, svg) {
  for (const old of svg.querySelectorAll(".grip, .dragged")) old.remove();
  const on = frame(section, svg);
  if (!on) return;
  for (const row of document.querySelectorAll("#lines li[data-place]")) {
    if (row.classList.contains("fixed")) continue;
    const grip = document.createElementNS("http://www.w3.org/2000/svg", "line");
    grip.setAttribute("class", `grip ${row.dataset.way}`);
    grip.dataset.of = row.dataset.line;
    lay(grip, on, row.dataset.way, Number(row.dataset.place));
    svg.append(grip);
  }
}

function lay(line, on, way, at) {
  const ends = way === "upright"
    ? [on.x(at), on.y(on.low), on.x(at), on.y(on.high)]
    : [on.x(on.left), on.y(at), on.x(on.right), on.y(at)];
  ["x1", "y1", "x2", "y2"].forEach((name, n) => line.setAttribute(name, ends[n].toFixed(2)));
}

// a place as the file has it: whole inches, or centimetres
function written(metres, system) {
  if (system !== "us") return `${Math.round(metres * 100) * 10} mm`;
  const inches = Math.round(metres / INCH);
  const feet = Math.floor(inches / 12), rest = inches - feet * 12;
  if (!feet) return `${rest}"`;
  return rest ? `${feet}' ${rest}"` : `${feet}'`;
}

// a corner nearby is hit to the sixteenth of an inch, or to the millimetre
function caught(metres, system) {
  if (system !== "us") return `${Math.round(metres * 1000)} mm`;
  let parts = Math.round((metres / INCH) * 16);
  const feet = Math.floor(parts / 192);
  parts -= feet * 192;
  const whole = Math.floor(parts / 16);
  let over = parts - whole * 16, of = 16;
  while (over && over % 2 === 0) [over, of] = [over / 2, of / 2];
  const inches = [whole || !over ? String(whole) : "", over ? `${over}/${of}` : ""].filter(Boolean).join(" ");
  if (!feet) return `${inches}"`;
  return inches === "0" ? `${feet}'` : `${feet}' ${inches}"`;
}

function row(number) {
  return document.querySelector(`#lines li[data-line="${number}"]`);
}

addEventListener("pointerdown", (event) => {
  const grip = event.target.closest ? event.target.closest(".grip") : null;
  if (!grip || event.button > 0) return;
  const section = grip.closest(".lines-of"), svg = grip.ownerSVGElement;
  const line = row(grip.dataset.of), on = frame(section, svg);
  if (!line || !on) return;
  event.preventDefault();
  const shown = document.createElementNS("http://www.w3.org/2000/svg", "line");
  shown.setAttribute("class", "dragged");
  const said = document.createElementNS("http://www.w3.org/2000/svg", "text");
  said.setAttribute("class", "dragged");
  const place = line.querySelector("[name^='place.']"), state = line.querySelector("[name^='state.']");
  held = {
    section, svg, on, grip, line, shown, said, way: line.dataset.way, at: Number(line.dataset.place),
    place, state, was: place.value, had: state.value, moved: false, id: event.pointerId,
    from: event.clientX, down: event.clientY,
  };
  svg.append(shown, said);
  grip.setPointerCapture(event.pointerId);
});

addEventListener("pointermove", (event) => {
  if (!held || event.pointerId !== held.id) return;
  if (!held.moved && Math.hypot(event.clientX - held.from, event.clientY - held.down) < 4) return;
  held.moved = true;
  const point = new DOMPoint(event.clientX, event.clientY).matrixTransform(held.svg.getScreenCTM().inverse());
  const { on, way, section } = held, upright = way === "upright";
  const [low, high] = upright ? [on.left, on.right] : [on.low, on.high];
  let at = Math.min(Math.max(upright ? on.u(point.x) : on.v(point.y), low), high);
  const corners = JSON.parse(section.dataset.catch)[way];
  const near = corners.filter((c) => c > low && c < high).sort((a, b) => Math.abs(a - at) - Math.abs(b - at))[0];
  const hit = near !== undefined && Math.abs(near - at) * on.scale < NEAR;
  if (hit) at = near;
  held.at = at;
  held.place.value = (hit ? caught : written)(at, section.dataset.system);
  if (held.had === "free") held.state.value = "pinned";
  lay(held.shown, on, way, at);
  lay(held.grip, on, way, at);
  held.said.setAttribute("x", (upright ? on.x(at) + 6 : on.x(on.left) + 6).toFixed(2));
  held.said.setAttribute("y", (upright ? on.y((on.low + on.high) / 2) : on.y(at) - 6).toFixed(2));
  held.said.textContent = held.place.value;
  ask();
});

addEventListener("pointerup", (event) => {
  if (!held || event.pointerId !== held.id) return;
  const done = held;
  drop();
  if (!done.moved) return done.place.focus();
  last = { way: done.way, at: done.at };
  keep();
});

addEventListener("pointercancel", undo);
addEventListener("keydown", (event) => {
  if (event.key === "Escape" && held) undo();
});

function drop() {
  held.shown.remove();
  held.said.remove();
  held = null;
}

function undo() {
  if (!held) return;
  held.place.value = held.was;
  held.state.value = held.had;
  lay(held.grip, held.on, held.way, Number(held.line.dataset.place));
  drop();
  ask();
}

function keep() {
  const form = document.getElementById("lines");
  if (!form) return;
  stood = form.getBoundingClientRect().top;
  form.requestSubmit();
}

let asking = 0, waits = false, question = 0;
function ask() {
  const form = document.getElementById("lines");
  if (!form || waits) return;
  waits = true;
  setTimeout(async () => {
    waits = false;
    if (!held && asking === 0) return;
    const mine = ++question;
    asking += 1;
    try {
      const reply = await fetch(form.dataset.try, { method: "POST", body: new FormData(form), headers: { "X-Requested-With": "desk" } });
      const text = await reply.text();
      const now = document.getElementById("limits");
      if (reply.ok && now && held && mine === question) {
        const made = new DOMParser().parseFromString(text, "text/html").getElementById("limits");
        if (made) now.replaceWith(document.adoptNode(made));
      }
    } catch {
      // without an answer the last one stands; what is kept is told by the form
    } finally {
      asking -= 1;
    }
  }, TRY);
}

addEventListener("change", (event) => {
  const line = event.target.closest ? event.target.closest("#lines li") : null;
  if (!line || event.target.closest(".new")) return;
  last = { way: line.dataset.way, at: Number(line.dataset.place) };
  keep();
});

let width = innerWidth;
addEventListener("resize", () => {
  if (innerWidth !== width) settle();
  width = innerWidth;
});
document.addEventListener("htmx:afterSettle", settle);
settle();
