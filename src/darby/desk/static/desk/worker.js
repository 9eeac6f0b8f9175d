// Keeps the pages of the open job for where there is no signal. It asks the desk first, always; what it kept it shows
// only when the desk does not answer. Each person's pages are kept apart, and forgotten at signing out.

const STATIC = "static";
const PATIENCE = 20000;
const NO_SIGNAL = "/no-signal";

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(STATIC).then((kept) => kept.add(NO_SIGNAL)).then(() => self.skipWaiting()));
});
self.addEventListener("activate", (event) => event.waitUntil(self.clients.claim()));

self.addEventListener("message", (event) => {
  const { keep, files, person, forget } = event.data;
  const answer = (said) => event.ports[0] && event.ports[0].postMessage(said);
  if (forget) event.waitUntil(forgetAll().then(() => answer({ forgotten: true })));
  if (keep) event.waitUntil(keepPages(keep, files, person).then((kept) => answer({ kept })));
});

const pagesOf = (person) => `pages-${person}`;

// Signing out while pages are being kept: what still comes in is kept no more.
let forgotten = 0;

async function forgetAll(but) {
  if (!but) forgotten += 1;
  for (const name of await caches.keys()) if (name.startsWith("pages-") && name !== but) await caches.delete(name);
}

async function keepPages(addresses, files, person) {
  const begun = forgotten;
  await forgetAll(pagesOf(person));
  const kinds = await caches.open(STATIC);
  for (const file of files) await kinds.add(file).catch(() => {}); // one that is missing takes no page with it
  let kept = 0;
  for (const address of addresses) {
    try {
      const page = await fetch(address, { credentials: "same-origin" });
      if (begun !== forgotten) break;
      if (page.ok && !page.redirected) {
        await (await caches.open(pagesOf(person))).put(address, page);
        kept += 1;
      }
    } catch {
      break;
    }
  }
  return kept;
}

self.addEventListener("fetch", (event) => {
  const asked = event.request;
  const address = new URL(asked.url);
  if (asked.method !== "GET" || address.origin !== self.location.origin) return;
  if (address.pathname.startsWith("/static/")) event.respondWith(newestStatic(asked));
  else if (asked.mode === "navigate") event.respondWith(page(asked));
});

async function newestStatic(asked) {
  const kept = await caches.open(STATIC);
  try {
    const fresh = await inTime(fetch(asked));
    if (fresh.ok) await kept.put(asked, fresh.clone()).catch(() => {}); // no room is no reason to show an old one
    return AWAY.includes(fresh.status) ? (await kept.match(asked)) || fresh : fresh;
  } catch {
    return (await kept.match(asked)) || Response.error();
  }
}

// What a web server says in front of a desk that is not there.
const AWAY = [502, 503, 504];

async function page(asked) {
  let answer;
  try {
    answer = await inTime(fetch(asked));
    if (!AWAY.includes(answer.status)) return answer;
  } catch {
    answer = undefined;
  }
  for (const name of await caches.keys()) {
    if (!name.startsWith("pages-")) continue;
    const pages = await caches.open(name);
    const kept = (await pages.match(asked.url)) || (await pages.match(asked.url, { ignoreSearch: true }));
    if (kept) return kept;
  }
  return answer || (await (await caches.open(STATIC)).match(NO_SIGNAL)) || Response.error();
}

function inTime(answer) {
  return Promise.race([answer, new Promise((_, late) => setTimeout(() => late(new Error("late")), PATIENCE))]);
}
