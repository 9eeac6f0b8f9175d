// What is written without a signal: kept on this phone under an id of its own until the desk says that it has it.
// A line leaves this phone's keeping only after the desk has answered with its id.

const BASE = "darby-desk";
const EVERY = 20000;

let opening;
function base() {
  opening ??= new Promise((done, failed) => {
    const asked = indexedDB.open(BASE, 1);
    asked.onupgradeneeded = () => asked.result.createObjectStore("lines", { keyPath: "id" });
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error);
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
export function send(person) {
  sending ??= (navigator.locks ? navigator.locks.request("send", () => parcel(person)) : parcel(person)).finally(() => {
    sending = null;
  });
  return sending;
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
    for (let n = 0; n < texts.length; n += 200) await sendLines(document, texts.slice(n, n + 200), token);
    for (const line of ours.filter((one) => one.blob)) await sendPhotograph(line, token);
  }
}

async function freshToken(person) {
  try {
    const answer = await fetch("/token", { headers: { Accept: "application/json" }, redirect: "error" });
    if (!answer.ok) return null;
    const said = await answer.json();
    return said.person === person ? said.token : null;
  } catch {
    return null;
  }
}

async function sendLines(document, lines, token) {
  const body = JSON.stringify({ lines: lines.map(({ id, kind, at, said, made }) => ({ id, kind, at, said, made })) });
  const headers = { "Content-Type": "application/json", Accept: "application/json", "X-CSRFToken": token };
  await settle(lines, () => fetch(`/job/${document}/lines`, { method: "POST", headers, body, redirect: "error" }));
}

async function sendPhotograph(line, token) {
  const body = new FormData();
  for (const key of ["id", "at", "made"]) body.set(key, line[key]);
  body.set("text", line.said.text || "");
  body.set("photograph", line.blob, "photograph");
  const headers = { Accept: "application/json", "X-CSRFToken": token };
  const address = `/job/${line.document}/photographs`;
  await settle([line], () => fetch(address, { method: "POST", headers, body, redirect: "error" }));
}

async function settle(lines, ask) {
  let said;
  try {
    const answer = await ask();
    said = await answer.json();
  } catch {
    return;
  }
  for (const line of lines) {
    const refused = (said.refused || []).find((one) => one.id === line.id);
    if ((said.kept || []).includes(line.id)) await put({ ...line, blob: undefined, state: "sent" });
    else if (refused) await put({ ...line, state: "refused", says: refused.says });
  }
}

// --- the page ------------------------------------------------------------------------------------------

const signal = document.querySelector("#signal");
const person = signal ? Number(signal.dataset.person) : 0;

async function show() {
  const lines = await all();
  const waiting = lines.filter((line) => line.state !== "sent");
  const count = document.querySelector("#not-sent");
  if (count) {
    count.hidden = !waiting.length;
    const words = waiting.length === 1 ? signal.dataset.one : signal.dataset.many;
    count.querySelector("[data-count]").textContent = words.replace("%", waiting.length);
  }
  const list = document.querySelector("#kept-lines");
  if (list) fill(list, lines.filter((line) => line.document === list.dataset.document));
  for (const button of document.querySelectorAll("[data-export]")) button.hidden = !waiting.length;
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
      item.append(says, ` ${what} ${line.says || ""}`);
      return item;
    }),
  );
  list.closest("[data-kept]").hidden = !lines.length;
}

async function keepForm(event) {
  const form = event.target.closest("form[data-queue]");
  if (!form || !form.reportValidity()) return;
  event.preventDefault();
  const filled = new FormData(form);
  const said = {};
  let blob;
  for (const [key, value] of filled) {
    if (value instanceof File) blob = value.size ? value : undefined;
    else if (!["csrfmiddlewaretoken", "id", "at"].includes(key)) said[key] = value;
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
  try {
    await put(line);
  } catch {
    form.submit();
    return;
  }
  if (navigator.storage && navigator.storage.persist) navigator.storage.persist();
  const at = filled.get("at");
  form.reset();
  if (form.elements.at) form.elements.at.value = at;
  if (form.elements.id) form.elements.id.value = newId();
  await show();
  await trySend();
  form.dispatchEvent(new CustomEvent("desk:kept", { bubbles: true, detail: line }));
}

async function trySend() {
  await send(person);
  await show();
}

async function exportLines() {
  const lines = await unsent();
  const plain = await Promise.all(
    lines.map(async ({ id, kind, document, at, said, made, blob }) => ({
      id, kind, document, at, said, made, photograph: blob ? await asText(blob) : undefined,
    })),
  );
  const file = new Blob([JSON.stringify({ lines: plain }, null, 1)], { type: "application/json" });
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = `darby-lines-${new Date().toISOString().slice(0, 10)}.json`;
  link.click();
  URL.revokeObjectURL(link.href);
}

const asText = (blob) =>
  new Promise((done) => {
    const reader = new FileReader();
    reader.onload = () => done(reader.result);
    reader.readAsDataURL(blob);
  });

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

// A page that was kept is shown where the desk answers too late; it says so. Clocks may differ by a few minutes.
const isOld = () => performance.timeOrigin / 1000 - Number(signal.dataset.made) > 600;

async function listen() {
  let there = true;
  try {
    there = (await fetch("/here", { cache: "no-store" })).ok;
  } catch {
    there = false;
  }
  const lost = document.querySelector("#no-signal");
  if (lost) lost.hidden = there && !isOld();
  if (there) await trySend();
}

if (signal && person) {
  document.addEventListener("submit", keepForm);
  document.addEventListener("submit", (event) => {
    if (event.target.matches("form[data-forget]") && navigator.serviceWorker && navigator.serviceWorker.controller) {
      navigator.serviceWorker.controller.postMessage({ forget: true });
    }
  });
  document.addEventListener("click", (event) => {
    if (event.target.closest("[data-export]")) exportLines();
  });
  addEventListener("online", listen);
  addEventListener("offline", listen);
  setInterval(listen, EVERY);
  show().then(listen);
  keepPages();
}
