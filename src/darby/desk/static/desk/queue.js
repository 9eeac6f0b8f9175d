// What is written without a signal: kept on this phone under an id of its own until the desk says that it has it.
// A line leaves this phone's keeping only after the desk has answered with its id.

const BASE = "darby-desk";
const EVERY = 20000;
const SOON = 60000;
const LONG = 600000;
const REMEMBERED = 30 * 24 * 3600 * 1000;

let opening;
function base() {
  opening ??= new Promise((done, failed) => {
    const asked = indexedDB.open(BASE, 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore("lines", { keyPath: "id" });
    asked.onsuccess = () => {
      asked.result.onclose = () => (opening = undefined);
      asked.result.onversionchange = () => {
        asked.result.close();
        opening = undefined;
      };
      done(asked.result);
    };
    asked.onerror = () => failed(asked.error);
  }).catch((error) => {
    opening = undefined; // the next line asks again
    throw error;
  });
  return opening;
}

async function withLines(mode, work) {
  const store = await base();
  return new Promise((done, failed) => {
    const going = store.transaction("lines", mode, { durability: "strict" });
    const asked = work(going.objectStore("lines"));
    going.oncomplete = () => done(asked && asked.result);
    going.onerror = going.onabort = () => failed(going.error);
  });
}

const there = (id) => withLines("readonly", (lines) => lines.getKey(id));
// A new line never takes the place of another: a page that was kept on the phone hands out its id again and again.
const add = (line) => withLines("readwrite", (lines) => lines.add(line));
export const put = (line) => withLines("readwrite", (lines) => lines.put(line));
export const drop = (id) => withLines("readwrite", (lines) => lines.delete(id));
export const all = async () =>
  (await withLines("readonly", (lines) => lines.getAll())).sort((a, b) => (a.made < b.made ? -1 : 1));
export const unsent = async () => (await all()).filter((line) => line.state !== "sent");

export function newId() {
  if (crypto.randomUUID) return crypto.randomUUID();
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  bytes[6] = (bytes[6] & 0x0f) | 0x40;
  bytes[8] = (bytes[8] & 0x3f) | 0x80;
  const hex = [...bytes].map((b) => b.toString(16).padStart(2, "0")).join("");
  return hex.replace(/^(.{8})(.{4})(.{4})(.{4})(.{12})$/, "$1-$2-$3-$4-$5");
}

// --- sending -------------------------------------------------------------------------------------------

let sending = null;
let more = false;
let signedOut = false;
// By how much this phone's clock is ahead of the desk's [ms]; behind is less than nothing.
let ahead = 0;
function byTheDesk(answer) {
  const says = Date.parse(answer.headers.get("Date"));
  if (says) ahead = Date.now() - says;
}

// When a line was written, by the desk's clock; of a phone that had lost its mind about the year the desk knows better.
function madeAt(line) {
  const off = Math.abs(ahead) > 300000 ? ahead : 0;
  const made = Date.parse(line.made) - off;
  return made > Date.UTC(2020, 0) && made < Date.now() - off + 86400000 ? new Date(made).toISOString() : undefined;
}

export function send(person) {
  more = sending !== null;
  const all = () => parcels(person);
  sending ??= (navigator.locks ? navigator.locks.request("send", all) : all()).finally(() => {
    sending = null;
  });
  return sending;
}

// What is written while a parcel is on its way goes with the next one.
async function parcels(person) {
  do {
    more = false;
    await parcel(person);
  } while (more);
}

async function parcel(person) {
  const mine = (await unsent()).filter((line) => line.person === person && line.state !== "refused");
  if (!mine.length) return;
  const token = await freshToken(person);
  if (!token) return;
  const documents = [...new Set(mine.map((line) => line.document))];
  for (const document of documents) {
    const ours = mine.filter((line) => line.document === document);
    const texts = ours.filter((line) => !line.blob);
    for (let n = 0; n < texts.length; n += 200) await sendLines(texts.slice(n, n + 200), token);
    for (const line of ours.filter((one) => one.blob)) await settle([line], token);
  }
}

async function freshToken(person) {
  try {
    const headers = { Accept: "application/json" };
    const answer = await fetch("/token", { headers, redirect: "manual", signal: AbortSignal.timeout(SOON) });
    byTheDesk(answer);
    signedOut = answer.type === "opaqueredirect";
    if (!answer.ok) return null;
    const said = await answer.json();
    return said.person === person ? said.token : null;
  } catch {
    return null;
  }
}

// One line that the desk cannot read, or fails at, must not hold up the others: then each goes by itself.
async function sendLines(lines, token) {
  const status = await settle(lines, token);
  if (status >= 400 && lines.length > 1) for (const line of lines) await settle([line], token);
}

const plain = (line) => ({ id: line.id, kind: line.kind, at: line.at, said: line.said, made: madeAt(line) });

function ask(lines, token) {
  const headers = { Accept: "application/json", "X-CSRFToken": token };
  const [first] = lines;
  if (!first.blob) {
    const body = JSON.stringify({ lines: lines.map(plain) });
    headers["Content-Type"] = "application/json";
    const signal = AbortSignal.timeout(SOON);
    return fetch(`/job/${first.document}/lines`, { method: "POST", headers, body, redirect: "error", signal });
  }
  const body = new FormData();
  for (const key of ["id", "at"]) body.set(key, first[key]);
  if (madeAt(first)) body.set("made", madeAt(first));
  body.set("text", first.said.text || "");
  body.set("photograph", first.blob, "photograph");
  const signal = AbortSignal.timeout(LONG);
  return fetch(`/job/${first.document}/photographs`, { method: "POST", headers, body, redirect: "error", signal });
}

// Gives the status of an answer that settled nothing, else 0. What is not settled stays as it is.
async function settle(lines, token) {
  let answer, said;
  try {
    answer = await ask(lines, token);
    said = await answer.json();
  } catch {
    return answer ? answer.status : 0;
  }
  let settled = 0;
  for (const line of lines) {
    const refused = whyNot(said, line, lines.length === 1);
    if ((said.kept || []).includes(line.id)) await put({ ...line, blob: undefined, state: "sent", sent: Date.now() });
    else if (refused) await put({ ...line, state: "refused", says: refused });
    else continue;
    settled += 1;
  }
  return settled ? 0 : answer.status;
}

function whyNot(said, line, alone) {
  const refused = (said.refused || []).find((one) => one.id === line.id);
  return refused ? refused.says : alone ? said.says : undefined;
}

// Where the browser keeps nothing, a line goes straight to the desk or stays in its form.
async function straight(line) {
  const token = await freshToken(line.person);
  if (!token) return false;
  try {
    const answer = await ask([line], token);
    return ((await answer.json()).kept || []).includes(line.id);
  } catch {
    return false;
  }
}

// --- the page ------------------------------------------------------------------------------------------

const signal = document.querySelector("#signal");
const person = signal ? Number(signal.dataset.person) : 0;

async function show() {
  const lines = await all().catch(() => []);
  const waiting = lines.filter((line) => line.state !== "sent");
  const count = document.querySelector("#not-sent");
  if (count) {
    count.hidden = !waiting.length;
    const words = waiting.length === 1 ? signal.dataset.one : signal.dataset.many;
    count.querySelector("[data-count]").textContent = words.replace("%", waiting.length);
    count.querySelector("[data-loose]").hidden = await promised();
  }
  const out = document.querySelector("#signed-out");
  if (out) out.hidden = !(signedOut && waiting.length);
  const list = document.querySelector("#kept-lines");
  if (list) fill(list, lines.filter((line) => line.document === list.dataset.document));
  for (const button of document.querySelectorAll("[data-export]")) button.hidden = !waiting.length;
}

// Whether the browser promised not to throw away what is kept here when it wants room.
async function promised() {
  return Boolean(navigator.storage && navigator.storage.persisted && (await navigator.storage.persisted()));
}

function fill(list, lines) {
  list.replaceChildren(
    ...lines.map((line) => {
      const item = document.createElement("li");
      const what = line.kind === "reading" ? `${line.said.u} , ${line.said.v}: ${line.said.out}` : line.said.text || "";
      const state = { sent: "sent", refused: "refused" }[line.state] || "kept";
      const says = document.createElement("strong");
      says.textContent = signal.dataset[state];
      item.dataset.state = state;
      item.append(says, ` ${what}${line.state === "refused" && line.says ? `: ${line.says}` : ""}`);
      if (line.state === "refused") {
        for (const [word, does] of [["again", sendAgain], ["off", takeOff]]) {
          const button = document.createElement("button");
          button.type = "button";
          button.textContent = signal.dataset[word];
          button.addEventListener("click", () => does(line));
          item.append(" ", button);
        }
      }
      return item;
    }),
  );
  list.closest("[data-kept]").hidden = !lines.length;
}

async function sendAgain(line) {
  await put({ ...line, state: "here" });
  await trySend();
}

async function takeOff(line) {
  await drop(line.id);
  await show();
}

const busy = new WeakSet();
async function keepForm(event) {
  const form = event.target.closest("form[data-queue]");
  if (!form || !form.reportValidity()) return;
  event.preventDefault();
  if (busy.has(form)) return;
  busy.add(form);
  let line;
  try {
    line = await keep(form);
  } finally {
    busy.delete(form); // the next line need not wait until this one is sent
  }
  if (line) await afterwards(form, line);
}

async function keep(form) {
  const filled = new FormData(form);
  const said = {};
  let blob;
  for (const [key, value] of filled) {
    if (value instanceof File) blob = value.size ? value : undefined;
    else if (!["csrfmiddlewaretoken", "id", "at"].includes(key)) said[key] = value.replace(/\r\n/g, "\n");
  }
  const line = {
    id: filled.get("id") || newId(),
    document: form.dataset.document,
    kind: form.dataset.queue,
    at: filled.get("at") || "job",
    made: new Date().toISOString(),
    state: "here",
    said,
    person,
    blob,
  };
  const lost = document.querySelector("#not-stored");
  try {
    if (await there(line.id)) line.id = newId();
    await add(line);
  } catch {
    const sent = await straight(line);
    if (lost) lost.hidden = sent;
    if (!sent) return undefined; // it still stands in its form
    line.state = "sent";
  }
  if (lost) lost.hidden = true;
  if (navigator.storage && navigator.storage.persist) navigator.storage.persist();
  const at = filled.get("at");
  form.reset();
  if (form.elements.at) form.elements.at.value = at;
  if (form.elements.id) form.elements.id.value = newId();
  await show();
  return line;
}

async function afterwards(form, line) {
  await trySend();
  form.dispatchEvent(new CustomEvent("desk:kept", { bubbles: true, detail: line }));
}

async function trySend() {
  await send(person).catch(() => {}); // a browser that keeps nothing has nothing to send
  await show();
}

// The lines as one file that can be handed in, and each photograph as a file of its own, to be taken in like any other.
async function exportLines() {
  const lines = await unsent();
  const texts = lines.filter((line) => !line.blob);
  const written = texts.map((line) => ({ ...plain(line), document: line.document }));
  const day = new Date().toISOString().slice(0, 10);
  if (written.length) {
    const file = new Blob([JSON.stringify({ lines: written }, null, 1)], { type: "application/json" });
    save(file, `darby-lines-${day}.json`);
  }
  for (const line of lines.filter((one) => one.blob)) {
    const kind = (line.blob.type.split("/")[1] || "jpg").replace("jpeg", "jpg");
    save(line.blob, `darby-photograph-${day}-${line.id.slice(0, 8)}.${kind}`);
  }
}

function save(blob, name) {
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), SOON);
}

async function tidy() {
  for (const line of await all()) {
    if (line.state === "sent" && Date.now() - (line.sent || 0) > REMEMBERED) await drop(line.id);
  }
}

// --- signing out ---------------------------------------------------------------------------------------

let told = false;
async function leave(event) {
  const form = event.target.closest("form[data-forget]");
  if (!form) return;
  event.preventDefault();
  await trySend();
  const mine = (await unsent().catch(() => [])).filter((line) => line.person === person);
  const leaving = document.querySelector("#leaving");
  if (mine.length && leaving && !told) {
    told = true;
    leaving.hidden = false;
    leaving.scrollIntoView({ block: "nearest" });
    return;
  }
  await forget();
  form.submit();
}

// The worker may be keeping pages just now: it is told, and what is there goes at once.
async function forget() {
  const worker = navigator.serviceWorker && (await navigator.serviceWorker.getRegistration());
  if (worker && worker.active) worker.active.postMessage({ forget: true });
  if (!("caches" in window)) return;
  for (const name of await caches.keys()) if (name.startsWith("pages-")) await caches.delete(name);
}

// --- keeping pages -------------------------------------------------------------------------------------

async function keepPages() {
  const none = document.querySelector("#not-kept");
  if (!("serviceWorker" in navigator)) {
    if (none) none.hidden = false;
    return;
  }
  try {
    await navigator.serviceWorker.register("/worker.js");
    const ready = await navigator.serviceWorker.ready;
    const marks = [...document.querySelectorAll(".rod a, .stages a")].map((mark) => new URL(mark.href).pathname);
    const pages = [...new Set([location.pathname, ...marks])];
    const files = [...document.querySelectorAll("script[src], link[href]")].map((one) => one.src || one.href);
    const keep = pages.filter((address) => address.startsWith("/job/") || address === "/");
    ready.active.postMessage({ keep, files, person });
  } catch {
    if (none) none.hidden = false;
  }
}

// A page that was kept is shown where the desk answers too late; it says so. The phone's clock may be wrong by anything:
// what the desk's own says counts.
const isOld = () => (performance.timeOrigin - ahead) / 1000 - Number(signal.dataset.made) > 600;

async function listen() {
  let answered = true;
  try {
    const answer = await fetch("/here", { cache: "no-store", signal: AbortSignal.timeout(SOON) });
    answered = answer.ok;
    byTheDesk(answer);
  } catch {
    answered = false;
  }
  const lost = document.querySelector("#no-signal");
  if (lost) lost.hidden = answered && !isOld();
  if (answered) await trySend();
}

if (signal && person) {
  document.addEventListener("submit", keepForm);
  document.addEventListener("submit", leave);
  document.addEventListener("click", (event) => {
    if (event.target.closest("[data-export]")) exportLines();
  });
  addEventListener("online", listen);
  addEventListener("offline", listen);
  setInterval(listen, EVERY);
  tidy().catch(() => {});
  show().then(listen);
  keepPages();
}
