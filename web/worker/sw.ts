// The worker: keeps the files of this version, the walk of each job that was opened and the last copy of Now, and
// answers with them where nobody else does. What is written never passes through here: the queue of notes is in the
// phone's database, and goes out from there.

import { send } from "../src/walk/send";

declare const self: ServiceWorkerGlobalScope & { grounds: { stamp: string; files: string[] } };

/** Background Sync is not in the types of the platform yet. */
type SyncEvent = ExtendableEvent & { tag: string };

const { stamp, files } = self.grounds;
const FILES = `files-${stamp}`;
const PAGES = "pages";
const SYNC = "grounds-send";
/** A signal that brings nothing within this time counts as none. */
const PATIENCE = 4000;
/** What was kept within this time is new enough. */
const AGAIN = 60_000;

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches.open(FILES).then(async (cache) => {
      await cache.addAll(files);
      await self.skipWaiting();
    }),
  );
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys()) if (name !== FILES && name !== PAGES) await caches.delete(name);
      await self.clients.claim();
      // Pages that were kept name the files of the version before.
      const kept = await (await caches.open(PAGES)).keys();
      const jobs = new Set(kept.flatMap(({ url }) => /^\/j\/[^/]+\//.exec(new URL(url).pathname)?.[0] ?? []));
      await Promise.all([...jobs].map((job) => keepWalk(job, 0)));
    })(),
  );
});

self.addEventListener("message", (event) => {
  const { keep } = (event.data ?? {}) as { keep?: unknown };
  if (typeof keep === "string" && /^\/j\/[^/]+\/$/.test(keep)) event.waitUntil(keepWalk(keep));
});

self.addEventListener("sync", (event) => {
  const sync = event as SyncEvent;
  if (sync.tag !== SYNC) return;
  sync.waitUntil(
    send().then((went) => {
      if (went === "no-answer") throw new Error("no answer: the browser tries again");
    }),
  );
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin) return;
  const page = /^\/j\/[^/]+\/(walk|walk\.json|now)$/.exec(url.pathname)?.[1];
  if (url.pathname.startsWith("/assets/")) event.respondWith(file(request, url.pathname));
  else if (page === "walk.json") event.respondWith(known(event, url.pathname));
  else if (request.mode !== "navigate") return;
  else if (page === "walk") event.respondWith(walk(event, url));
  else if (page === "now") event.respondWith(now(event, url.pathname));
  else event.respondWith(fetch(request).catch(() => lost()));
});

/** Keeps the walk of a job, before anybody needs it; not again at once. */
async function keepWalk(job: string, unless = AGAIN): Promise<void> {
  for (const address of [`${job}walk`, `${job}walk.json`]) {
    try {
      const here = await caches.match(address);
      if (here && Date.now() - Number(here.headers.get("x-kept")) < unless) continue;
      await keep(address, await fetch(address));
    } catch {
      // No signal: what was kept before stays.
    }
  }
}

/** A file of ours is kept for good; one of another version is taken from this one where there is no signal. */
async function file(request: Request, path: string): Promise<Response> {
  const here = await caches.match(request);
  if (here) return here;
  try {
    return await fetch(request);
  } catch (error) {
    const name = path.split("/").slice(3).join("/");
    const instead = await caches.match(`/assets/${stamp}/${name}`);
    if (instead) return instead;
    throw error;
  }
}

async function known(event: FetchEvent, path: string): Promise<Response> {
  return (await inTime(fresh(event, path))) ?? (await caches.match(path)) ?? Response.error();
}

async function walk(event: FetchEvent, url: URL): Promise<Response> {
  // A place has an address of its own for those without script; the script finds it in the page of all.
  const asked = url.search === "" ? fresh(event, url.pathname) : fetch(event.request);
  return (await inTime(asked)) ?? (await caches.match(url.pathname)) ?? lost();
}

async function now(event: FetchEvent, path: string): Promise<Response> {
  try {
    return await fresh(event, path);
  } catch {
    const copy = await caches.match(path);
    if (!copy) return lost();
    const at = new Date(Number(copy.headers.get("x-kept")));
    const said = `No signal: this is Now as this phone last saw it, ${clock(at)}. Walk goes on without one.`;
    const text = (await copy.text()).replace(/<main [^>]*>/, (main) => `${main}<p class="notice" role="status">${said}</p>`);
    return new Response(text, { headers: copy.headers });
  }
}

/** An answer from the server, which is kept while it is read. */
async function fresh(event: FetchEvent, path: string): Promise<Response> {
  const answer = await fetch(event.request);
  event.waitUntil(keep(path, answer.clone()));
  return answer;
}

/** An answer that came in time; nothing where none did, or the server itself is at a loss. */
async function inTime(asked: Promise<Response>): Promise<Response | undefined> {
  try {
    const late = new Promise<undefined>((pass) => setTimeout(pass, PATIENCE));
    const answer = await Promise.race([asked, late]);
    return answer && answer.status < 500 ? answer : undefined;
  } catch {
    return undefined;
  }
}

/** Keeps a good answer with the moment it came. */
async function keep(path: string, answer: Response): Promise<void> {
  if (answer.status !== 200 || answer.redirected) return;
  const headers = new Headers(answer.headers);
  headers.set("x-kept", String(Date.now()));
  // The copy is kept as it is read, not as it was packed for the way.
  for (const packed of ["content-encoding", "content-length"]) headers.delete(packed);
  try {
    await (await caches.open(PAGES)).put(path, new Response(await answer.blob(), { headers }));
  } catch {
    // No room on the phone, or the signal broke off: what was kept before stays.
  }
}

/** A page that says what can be done. */
async function lost(): Promise<Response> {
  const kept = await (await caches.open(PAGES)).keys();
  const paths = kept.map(({ url }) => new URL(url).pathname).filter((path) => /\/(walk|now)$/.test(path));
  const links = paths.map((path) => {
    const [, , job = "", page] = path.split("/");
    const words = page === "walk" ? `Walk ${plain(job)}` : `Now, as last seen, of ${plain(job)}`;
    return `<li><a class="can" href="${encodeURI(path)}">${words}</a></li>`;
  });
  const body = `<!doctype html><html lang="en"><head><meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark">
<title>No signal · Grounds</title><link rel="stylesheet" href="/assets/${stamp}/app.css"></head>
<body><main class="page" id="main"><header class="opening"><h1>No signal here.</h1>
<p class="lead">${links.length ? "This page needs one. The walk does not: what you note there is kept and sent later." : "Nothing of a job is on this phone yet. Open Walk once where there is a signal; from then on it opens anywhere."}</p></header>
<ul class="kept-pages">${links.join("")}</ul></main></body></html>`;
  return new Response(body, { headers: { "Content-Type": "text/html; charset=utf-8", "Content-Security-Policy": "default-src 'self'" } });
}

function plain(job: string): string {
  return decodeURIComponent(job).replace(/[^\p{L}\p{N}-]/gu, "").replace(/-/g, " ");
}

function clock(at: Date): string {
  const said = new Intl.DateTimeFormat("en-GB", { weekday: "short", hour: "numeric", minute: "2-digit" });
  return Number.isNaN(at.getTime()) ? "some time ago" : said.format(at);
}
