// @ts-check
/*
 * What this origin answers without a connection: fixed files of the build, and one page without anybody's data in it (`/offline`), which opens
 * what is kept sealed on this device. Registered there, once somebody has chosen a code; it goes with what is kept.
 */

const worker = /** @type {ServiceWorkerGlobalScope} */ (/** @type {unknown} */ (self));
const FILES = 'rungwise-files';
const DESK = '/offline';
/** A server that says nothing for so long is taken for gone, ms. */
const PATIENCE = 12_000;

worker.addEventListener('install', () => worker.skipWaiting());
worker.addEventListener('activate', (event) => event.waitUntil(worker.clients.claim()));

/** The page sends what it has fetched: its own files are kept, and the desk as somebody meets it who is not signed in. Files of older builds go. */
worker.addEventListener('message', (event) => {
  const fetched = /** @type {string[]} */ (event.data);
  event.waitUntil(
    keep(fetched).then(
      () => event.ports[0]?.postMessage('kept'),
      () => event.ports[0]?.postMessage('not kept'),
    ),
  );
});

worker.addEventListener('fetch', (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== location.origin) return;
  if (isFile(url)) event.respondWith(fileOf(request));
  else if (request.mode === 'navigate') event.respondWith(pageOf(request, url));
});

/** @param {URL} url */
function isFile(url) {
  return url.pathname.startsWith('/_next/static/');
}

/** @param {string[]} fetched */
async function keep(fetched) {
  const files = await caches.open(FILES);
  const wanted = [
    ...new Set(
      fetched
        .map((one) => new URL(one, location.origin))
        .filter(isFile)
        .map(({ pathname }) => pathname),
    ),
  ];
  for (const one of await files.keys()) if (!wanted.includes(new URL(one.url).pathname)) await files.delete(one);
  const missing = [];
  for (const one of wanted) if (!(await files.match(one))) missing.push(one);
  await files.addAll(missing);
  await files.put(DESK, await fetch(DESK, { credentials: 'omit', cache: 'no-store' }));
}

/** @param {Request} request */
async function fileOf(request) {
  return (await caches.match(request, { cacheName: FILES })) ?? fetch(request);
}

/**
 * @param {Request} request
 * @param {URL} url
 */
async function pageOf(request, url) {
  const silence = new AbortController();
  const timer = setTimeout(() => silence.abort(), PATIENCE);
  try {
    return await fetch(request, { signal: silence.signal });
  } catch {
    if (url.pathname !== DESK) return Response.redirect(DESK);
    return (await caches.match(DESK, { cacheName: FILES })) ?? Response.error();
  } finally {
    // What has begun to come, a large file as well, takes as long as it takes.
    clearTimeout(timer);
  }
}
