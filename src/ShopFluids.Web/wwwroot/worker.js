// Keeps the round and its entry pages for when the server cannot be reached. The server's page is always tried first.

const PAGES = 'pages-2';
const FILES = 'files-2';
const PATIENCE_MS = 4_000;
const KEEP_FOR_MS = 600_000;
const base = new URL(self.registration.scope).pathname;
const isPage = path => /^(round|round\/finish|enter\/[^/]+|slides\/[^/]+)$/.test(path);
const isMarked = address => /\.[0-9a-z]{10}\.\w+$/.test(address);
const isFile = path => /^(css|fonts|images|js)\//.test(path);

self.addEventListener('install', () => self.skipWaiting());
self.addEventListener('activate', event => event.waitUntil((async () => {
  const old = (await caches.keys()).filter(name => ![PAGES, FILES].includes(name));
  await Promise.all(old.map(name => caches.delete(name)));
  await self.clients.claim();
})()));

// All sumps are another page than those that are due.
const keyOf = url => url.pathname + (url.searchParams.has('all') ? '?all=1' : '');

self.addEventListener('message', event => {
  if (Array.isArray(event.data?.renew)) {
    event.waitUntil(renew(event.data.renew));
  }

  if (Array.isArray(event.data?.keep)) {
    event.waitUntil(Promise.all([keepAll(event.data.keep), keepFiles(event.data.files ?? [])]));
  }
});

self.addEventListener('fetch', event => {
  const url = new URL(event.request.url);
  if (url.origin !== self.location.origin || !url.pathname.startsWith(base)) {
    return;
  }

  const path = url.pathname.slice(base.length);

  // Whoever signs in next sees no page of whoever signed out. A tablet that could not be locked is still the same person's.
  if (event.request.method === 'POST' && path === 'account/station/lock') {
    event.respondWith(lock(event.request));
    return;
  }

  if (event.request.method === 'POST' && path.startsWith('account/')) {
    event.waitUntil(caches.delete(PAGES));
  }

  if (event.request.method !== 'GET') {
    return;
  }

  // One sump is passed by on the page of all that are left; the script leaves only that one on it.
  if (event.request.mode === 'navigate' && path === 'round/skip') {
    event.respondWith(page(event.request, `${base}round/finish`, false));
  } else if (event.request.mode === 'navigate' && isPage(path) && !url.searchParams.has('paper')) {
    event.respondWith(page(event.request, keyOf(url)));
  } else if (isFile(path)) {
    event.respondWith(file(event.request));
  }
});

async function lock(request) {
  const answer = await fetch(request);

  // A form without script is led on to the door, whose address a worker is not told.
  if (answer.ok || answer.type === 'opaqueredirect') {
    await caches.delete(PAGES);
  }

  return answer;
}

const isKept = answer => answer.ok && !answer.redirected && answer.headers.get('Content-Type')?.startsWith('text/html');

async function page(request, key, isItsOwn = true) {
  const cache = await caches.open(PAGES);
  const kept = await cache.match(key);
  try {
    const answer = await (kept ? Promise.race([fetch(request), tooLate()]) : fetch(request));
    if (isItsOwn && isKept(answer)) {
      await cache.put(key, answer.clone());
    }

    return answer.status >= 500 && kept ? kept : answer;
  } catch (fault) {
    return kept ?? fallback(fault);
  }
}

// The request of a navigation takes no signal.
function tooLate() {
  return new Promise((_, fail) => setTimeout(() => fail(new Error('No answer in time')), PATIENCE_MS));
}

async function fallback(fault) {
  const round = await (await caches.open(PAGES)).match(`${base}round`);
  if (round) {
    return round;
  }

  throw fault;
}

// Every page asks for a dozen files that seldom change: they are not written to the tablet's disk again each time.
const isSame = (one, other) => one.headers.has('ETag') && one.headers.get('ETag') === other?.headers.get('ETag');

// Where a file's name changes with its contents, what is kept is right; of others only where there is nothing newer.
async function file(request) {
  const cache = await caches.open(FILES);
  const kept = await cache.match(request);
  if (kept && isMarked(request.url)) {
    return kept;
  }

  try {
    const answer = await fetch(request);
    if (answer.ok && !isSame(answer, kept)) {
      await cache.put(request, answer.clone());
    }

    return answer.status >= 500 && kept ? kept : answer;
  } catch (fault) {
    if (kept) {
      return kept;
    }

    throw fault;
  }
}

async function keepFiles(addresses) {
  for (const address of addresses.filter(a => a.startsWith(self.location.origin + base) && isFile(new URL(a).pathname.slice(base.length)))) {
    try {
      await file(new Request(address));
    } catch {
      return;
    }
  }
}

async function keepAll(addresses) {
  const cache = await caches.open(PAGES);
  for (const address of addresses) {
    const key = keyOf(new URL(address, self.location.origin));
    const kept = await cache.match(key);
    if (kept && Date.now() - Date.parse(kept.headers.get('Date') ?? 0) < KEEP_FOR_MS) {
      continue;
    }

    if (!await fetchAnew(cache, key)) {
      return;
    }
  }
}

async function fetchAnew(cache, key) {
  try {
    const answer = await fetch(key, { credentials: 'same-origin' });
    if (isKept(answer)) {
      await cache.put(key, answer);
    } else if ([404, 409].includes(answer.status) || (answer.redirected && new URL(answer.url).pathname === `${base}round`)) {
      await cache.delete(key);
    }

    return true;
  } catch {
    return false;
  }
}

// What was stored changes the page of its sump and the round. What cannot be had stays as it is.
async function renew(addresses) {
  const cache = await caches.open(PAGES);
  const keys = [...addresses.map(a => keyOf(new URL(a, self.location.origin))), `${base}round/finish`, `${base}round`, `${base}round?all=1`];
  for (const key of new Set(keys)) {
    if (await cache.match(key) && !await fetchAnew(cache, key)) {
      return;
    }
  }
}
