// Marks on a photograph by tapping and dragging. The lists of the form are the only truth: a tap writes a pixel into a
// row, the desk draws and reckons, and its answer is put in place. Without this script the lists are typed.

const shot = document.querySelector("#shot");
const form = document.querySelector("#points");
const moving = document.querySelector("#moving");
const loupe = document.querySelector("#loupe");
const hair = document.querySelector("#hair");
const WIDE = Number(loupe.dataset.wide);
const [, , WIDTH, HEIGHT] = shot.getAttribute("viewBox").split(" ").map(Number);
const CROSS = 10; // half a cross as seen [px]
const CORNERS = { frame2: 2, frame4: 4 };
let here = ""; // the point that is being set: "mark 3", "frame 0 2", "line 1 0"

for (const part of document.querySelectorAll("[data-js]")) part.hidden = false;

const rowsOf = (kind) => [...form.querySelectorAll(`[data-rows="${kind}"] > .pt`)];
const fieldsOf = (row) => [...row.querySelectorAll("input:not([type=hidden])")];
const kindOf = (row) => row.parentElement.dataset.rows;

function fieldsAt(place) {
  const [kind, row, n] = place.split(" ");
  const found = rowsOf(kind)[Number(row)];
  if (!found) return [];
  return kind === "mark" ? fieldsOf(found).slice(0, 2) : [fieldsOf(found)[Number(n)]];
}

function pixelAt(place) {
  const said = fieldsAt(place).map((field) => field.value).join(",").split(",");
  if (said.length < 2 || said.some((text) => !text.trim())) return undefined;
  const [x, y] = said.map(Number);
  return Number.isFinite(x) && Number.isFinite(y) ? { x, y } : undefined;
}

function setPixel(place, { x, y }) {
  const at = [Math.min(Math.max(Math.round(x), 0), WIDTH), Math.min(Math.max(Math.round(y), 0), HEIGHT)];
  const fields = fieldsAt(place);
  if (fields.length === 2) fields.forEach((field, n) => (field.value = at[n]));
  else if (fields.length) fields[0].value = at.join(", ");
  look(place);
}

// a point that was only tapped may miss by two pixels of this screen; in the magnified part it is set to its pixel
function roughly(place, rough) {
  const [kind, row, n = "0"] = place.split(" ");
  const said = rowsOf(kind)[Number(row)]?.querySelector(`[name="${kind}-rough"]`);
  if (!said) return;
  const [was, ...points] = said.value.split(" ").filter(Boolean);
  const left = points.filter((point) => point !== n);
  const missed = Math.ceil((2 * WIDTH) / shot.clientWidth);
  if (rough && missed > 2) said.value = [Math.max(missed, Number(was ?? 0)), ...left, n].join(" ");
  else said.value = left.length ? [was, ...left].join(" ") : "";
}

// the magnified part, with its cross, and a cross on the photograph until the desk has drawn its own
function look(place) {
  here = place;
  for (const row of form.querySelectorAll(".pt.here")) row.classList.remove("here");
  fieldsAt(place)[0]?.closest(".pt").classList.add("here");
  const at = pixelAt(place);
  if (!at) return;
  const half = WIDE / 2;
  loupe.setAttribute("viewBox", `${at.x - half} ${at.y - half} ${WIDE} ${WIDE}`);
  hair.setAttribute("d", `M${at.x - half} ${at.y}h${half - 3}m6 0h${half - 3}M${at.x} ${at.y - half}v${half - 3}m0 6v${half - 3}`);
  const arm = (9 * WIDTH) / shot.clientWidth;
  moving.innerHTML = "";
  const cross = document.createElementNS("http://www.w3.org/2000/svg", "path");
  cross.setAttribute("class", "pt here");
  cross.setAttribute("d", `M${at.x - arm} ${at.y}h${2 * arm}M${at.x} ${at.y - arm}v${2 * arm}`);
  moving.append(cross);
}

function another(kind) {
  const rows = rowsOf(kind);
  const made = rows[0].cloneNode(true);
  for (const field of made.querySelectorAll("input")) field.value = "";
  made.querySelector(".off").textContent = "";
  made.classList.remove("here");
  const was = rows[0].querySelector("[data-n]").textContent;
  const n = rows.length;
  const called = kind === "frame" ? String.fromCharCode(65 + (n % 26)) + (n >= 26 ? Math.floor(n / 26) : "") : String(n + 1);
  made.querySelector("[data-n]").textContent = called;
  for (const field of fieldsOf(made)) {
    const label = field.getAttribute("aria-label");
    field.setAttribute("aria-label", label.replace(` ${was},`, ` ${called},`));
  }
  rows[0].parentElement.append(made);
  return made;
}

// the point that the next tap sets: the first that is missing
function next() {
  const mode = document.querySelector("[name=mode]:checked").value;
  const kind = CORNERS[mode] ? "frame" : mode;
  const wanted = kind === "mark" ? 2 : CORNERS[mode] ?? 2;
  const rows = rowsOf(kind);
  const given = (row) => fieldsOf(row).slice(0, wanted).filter((field) => field.value.trim()).length;
  let n = rows.findIndex((row) => given(row) < wanted && (kind !== "frame" || fieldsOf(row).every((f, m) => m < wanted || !f.value.trim())));
  if (n < 0) {
    another(kind);
    n = rows.length;
  }
  if (kind === "mark") return `mark ${n}`;
  return `${kind} ${n} ${fieldsOf(rowsOf(kind)[n]).findIndex((field) => !field.value.trim())}`;
}

function onShot(event) {
  const at = new DOMPoint(event.clientX, event.clientY).matrixTransform(shot.getScreenCTM().inverse());
  return { x: at.x, y: at.y };
}

let dragged = false;
shot.addEventListener("click", (event) => {
  if (dragged) {
    dragged = false;
    return;
  }
  const at = onShot(event);
  const grab = event.target.closest(".grab");
  const there = grab && pixelAt(grab.dataset.at);
  if (there && Math.hypot(there.x - at.x, there.y - at.y) * shot.clientWidth < CROSS * WIDTH) {
    look(grab.dataset.at); // on the cross itself: that point again; beside it: another one
    return;
  }
  const place = next();
  setPixel(place, at);
  roughly(place, true);
  work();
  const [kind, row] = place.split(" ");
  if (kind === "mark" && matchMedia("(pointer: fine)").matches) fieldsOf(rowsOf("mark")[Number(row)])[2].focus({ preventScroll: true });
});

shot.addEventListener("pointerdown", (event) => {
  const grab = event.target.closest(".grab");
  if (!grab || !event.isPrimary) return;
  const place = grab.dataset.at;
  const from = onShot(event);
  const was = pixelAt(place);
  dragged = false;
  look(place);
  shot.setPointerCapture(event.pointerId);
  const move = (moved) => {
    const to = onShot(moved);
    if (!dragged && Math.hypot(to.x - from.x, to.y - from.y) * shot.clientWidth < 3 * WIDTH) return;
    dragged = true;
    setPixel(place, { x: was.x + to.x - from.x, y: was.y + to.y - from.y });
  };
  const up = () => {
    shot.removeEventListener("pointermove", move);
    shot.removeEventListener("pointerup", up);
    shot.removeEventListener("pointercancel", up);
    if (!dragged) return;
    roughly(place, true);
    work();
  };
  shot.addEventListener("pointermove", move);
  shot.addEventListener("pointerup", up);
  shot.addEventListener("pointercancel", up);
});

// the magnified part is dragged beneath its cross
loupe.addEventListener("pointerdown", (event) => {
  const was = here && pixelAt(here);
  if (!was) return;
  loupe.setPointerCapture(event.pointerId);
  const by = WIDE / loupe.clientWidth;
  const move = (moved) =>
    setPixel(here, { x: was.x - (moved.clientX - event.clientX) * by, y: was.y - (moved.clientY - event.clientY) * by });
  const up = () => {
    loupe.removeEventListener("pointermove", move);
    loupe.removeEventListener("pointerup", up);
    loupe.removeEventListener("pointercancel", up);
    roughly(here, false);
    work();
  };
  loupe.addEventListener("pointermove", move);
  loupe.addEventListener("pointerup", up);
  loupe.addEventListener("pointercancel", up);
});

const WAYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
loupe.addEventListener("keydown", (event) => {
  const way = WAYS[event.key];
  const at = here && pixelAt(here);
  if (!way || !at) return;
  event.preventDefault();
  const by = event.shiftKey ? 10 : 1;
  setPixel(here, { x: at.x + by * way[0], y: at.y + by * way[1] });
  roughly(here, false);
  work();
});

form.addEventListener("focusin", (event) => {
  const row = event.target.closest(".pt");
  if (!row) return;
  const kind = kindOf(row);
  const n = rowsOf(kind).indexOf(row);
  look(kind === "mark" ? `mark ${n}` : `${kind} ${n} ${Math.max(fieldsOf(row).indexOf(event.target), 0)}`);
});
form.addEventListener("input", (event) => {
  if (here && fieldsAt(here).includes(event.target)) roughly(here, false);
});
form.addEventListener("change", (event) => {
  work();
  const row = event.target.closest(".pt");
  if (row) look(here);
  for (const kind of ["mark", "frame", "line"]) {
    const last = rowsOf(kind).at(-1);
    if (fieldsOf(last).some((field) => field.value.trim())) another(kind);
  }
});

if (pixelAt("mark 0")) look("mark 0");
moving.innerHTML = "";

// what the desk says of it; an answer that a later one has overtaken is left
let asked = 0;
let waiting;
function work() {
  clearTimeout(waiting);
  waiting = setTimeout(ask, 200);
}

async function ask() {
  const mine = ++asked;
  const sent = new FormData(form);
  sent.set("act", "work");
  let text;
  try {
    const reply = await fetch(form.action, { method: "POST", body: sent, headers: { Accept: "text/html" } });
    if (!reply.ok) return;
    text = await reply.text();
  } catch {
    const lost = document.querySelector("#lost");
    if (lost) lost.hidden = false;
    return;
  }
  if (mine !== asked) return;
  const page = new DOMParser().parseFromString(text, "text/html");
  for (const id of ["worked", "over"]) {
    const found = page.getElementById(id);
    if (found) document.getElementById(id).innerHTML = found.innerHTML;
  }
  for (const kind of ["mark", "frame", "line"]) {
    const said = [...page.querySelectorAll(`[data-rows="${kind}"] > .pt .off`)];
    rowsOf(kind).forEach((row, n) => {
      const found = row.querySelector(".off");
      found.textContent = said[n]?.textContent ?? "";
      found.className = said[n]?.className ?? found.className;
    });
  }
  form.dataset.asked = String(mine);
}
