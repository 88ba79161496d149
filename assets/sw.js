// Service worker: keeps whole builds of the app and answers every request of a page from one of them.
// It never mixes two builds, never swaps under an open page, and knows nothing about cards or readings.
// `cargo xtask precache` puts the build's id and its list of files (path, hash) into the two constants.
//
// Page -> worker (navigator.serviceWorker.controller.postMessage):
//   {say: "up"}       the app is on screen and its store is open: this build is proven (boot.js says it)
//   {say: "down"}     the app could not start: go back to the proven build (boot.js says it)
//   {say: "use-new"}  a person pressed: serve the newest build from the next load on; answered by "now"
//   {ask: "builds"}   answered by "builds"
// Worker -> page (navigator.serviceWorker, "message"):
//   {say: "new-build", id}  a newer build lies whole in the cache; the page goes on as it is
//   {say: "now", id}        loads from here on get build `id`; the page reloads when it is ready to
//   {say: "builds", mine, served, newest, failed: [id], whole: [id]}
//                           mine: this page's build; served: what the next load gets
// A new build is also taken at a cold start (no page open). Until it has said "up" it is on trial: if it
// says "down", or the next start comes without an "up", the proven build is served again and the failed
// one waits for a press. The proven build's files are kept until the new one has said "up".

const BUILD = "BUILD_ID";
const FILES = [/* FILES */];

const SCOPE = self.registration.scope; // Another copy in another folder of this host has other caches.
const url = (path) => new URL(path, SCOPE).href;
const cacheOf = (id) => `${SCOPE} build ${id}`;
const STATE = `${SCOPE} state`;
const STATE_AT = url("?state");
const MARK = url("?whole"); // Written last: a cache without it, or with fewer files than it says, is no build.
const SLOW_START_MS = 30_000;
const SAME_START_MS = 5_000; // Two tabs restored together are one cold start.

/** Whole builds, oldest first. */
async function wholeBuilds() {
  const found = [];
  for (const name of await caches.keys()) {
    if (!name.startsWith(cacheOf(""))) continue;
    const cache = await caches.open(name);
    const mark = await (await cache.match(MARK))?.json();
    if (mark && (await cache.keys()).length > mark.files) found.push(mark);
  }
  return found.sort((a, b) => a.turn - b.turn);
}

/** Fills this build's cache: all files, each matching its hash, or none. */
async function fill() {
  const whole = await wholeBuilds();
  for (const name of await caches.keys()) {
    const known = whole.some(({ id }) => name === cacheOf(id));
    if (name.startsWith(cacheOf("")) && !known) await caches.delete(name);
  }
  const cache = await caches.open(cacheOf(BUILD));
  try {
    if (!whole.some(({ id }) => id === BUILD)) {
      await cache.addAll(FILES.map(([path, integrity]) => new Request(url(path), { cache: "reload", integrity })));
    }
    const mark = { id: BUILD, files: FILES.length, turn: 1 + (whole.at(-1)?.turn ?? 0) };
    await cache.put(MARK, new Response(JSON.stringify(mark)));
  } catch (error) {
    await caches.delete(cacheOf(BUILD));
    throw error;
  }
  const served = (await keptState())?.served;
  if (served && served !== BUILD) for (const page of await pages()) page.postMessage({ say: "new-build", id: BUILD });
}

async function pages() {
  const all = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  return all.filter((page) => page.url.startsWith(SCOPE));
}

const keptState = async () => (await (await caches.open(STATE)).match(STATE_AT))?.json();

let turn = Promise.resolve();
/** Reads the pointer, lets `work` change it, writes it back; one at a time. */
function withState(work) {
  const mine = turn.then(async () => {
    const kept = await keptState();
    const builds = (await wholeBuilds()).map(({ id }) => id);
    const state = kept ?? { served: BUILD, proven: null, trial: null, failed: [], pages: {} };
    if (!builds.includes(state.served)) Object.assign(state, { served: builds.at(-1) ?? BUILD, trial: null });
    const answer = await work(state, builds);
    await (await caches.open(STATE)).put(STATE_AT, new Response(JSON.stringify(state)));
    return answer;
  });
  turn = mine.catch(() => {});
  return mine;
}

function moveTo(state, id) {
  const proven = state.trial ? state.proven : state.served;
  Object.assign(state, { served: id, proven, trial: { since: 0 }, failed: state.failed.filter((f) => f !== id) });
}

function moveBack(state, builds) {
  state.failed.push(state.served);
  if (builds.includes(state.proven)) state.served = state.proven;
  state.trial = null;
}

/** Which build a page that is being loaded gets. */
const buildForLoad = (event) => withState(async (state, builds) => {
  const cold = (await pages()).length === 0;
  const age = state.trial?.since ? Math.abs(Date.now() - state.trial.since) : 0;
  if (age > SLOW_START_MS || (cold && age > SAME_START_MS)) moveBack(state, builds);
  const newest = builds.at(-1);
  if (cold && newest && newest !== state.served && !state.failed.includes(newest)) moveTo(state, newest);
  if (state.trial && !state.trial.since) state.trial.since = Date.now();
  const recent = Object.entries(state.pages).slice(-19);
  state.pages = Object.fromEntries([...recent, [event.resultingClientId, state.served]]);
  return state.served;
});

async function buildOfPage(id) {
  const state = await keptState();
  return state?.pages[id] ?? state?.served ?? BUILD;
}

async function answer(event) {
  const load = event.request.mode === "navigate";
  const id = load ? await buildForLoad(event) : await buildOfPage(event.clientId);
  const path = event.request.url.replace(/[?#].*/, "").replace(/\/index\.html$/, "/");
  const cached = await (await caches.open(cacheOf(id))).match(path, { ignoreVary: true });
  return cached ?? fetch(event.request);
}

/** Drops builds that no page runs and nothing can go back to. */
async function prune(state, builds) {
  const open = (await pages()).map((page) => state.pages[page.id]);
  const keep = [state.served, builds.at(-1), ...open];
  for (const id of builds) if (!keep.includes(id)) await caches.delete(cacheOf(id));
  state.failed = state.failed.filter((id) => keep.includes(id));
}

async function hear(page, { say, ask }) {
  await withState(async (state, builds) => {
    const mine = state.pages[page.id] ?? state.served;
    if (say === "up" && mine === state.served) {
      state.trial = null;
      await prune(state, builds);
      if (builds.length === 0) await fill().catch(() => {}); // The browser threw the files away: fetch them again.
    } else if (say === "down" && mine === state.served && state.trial) {
      moveBack(state, builds);
    } else if (say === "use-new") {
      const newest = builds.at(-1);
      if (newest && newest !== state.served) moveTo(state, newest);
      page.postMessage({ say: "now", id: state.served });
    } else if (ask === "builds") {
      const { served, failed } = state;
      page.postMessage({ say: "builds", mine, served, newest: builds.at(-1) ?? null, failed, whole: builds });
    }
  });
}

/** The very first page was loaded without a worker: from here on it is answered from this build too. */
async function takeIn() {
  if (await keptState()) return;
  await withState(async (state) => {
    for (const page of await pages()) state.pages[page.id] = BUILD;
  });
  await self.clients.claim();
}

self.addEventListener("install", (event) => event.waitUntil(fill()));
self.addEventListener("activate", (event) => event.waitUntil(takeIn()));
self.addEventListener("message", (event) => event.waitUntil(hear(event.source, event.data ?? {})));
self.addEventListener("fetch", (event) => {
  const { method, url: wanted } = event.request;
  if (method === "GET" && wanted.startsWith(SCOPE)) event.respondWith(answer(event));
});
