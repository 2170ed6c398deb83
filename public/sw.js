// Keeps one whole version of the app on the phone and serves it from there, so that the
// network is never waited for. The build fills in the two marks.
const VERSION = "@VERSION@";
const FILES = "@FILES@";

// Several copies of the app can stand on one origin: each keeps to its own caches.
const OURS = `freshet ${self.registration.scope} `;
const CACHE = OURS + VERSION;
const HOME = self.registration.scope;

self.addEventListener("install", (event) => {
  // Past every cache in between, and only if each file is the one this version was built with:
  // a half-updated host then fails the install, and the version in use stays.
  const wanted = FILES.map(([url, integrity]) => new Request(url, { cache: "reload", integrity }));
  event.waitUntil(caches.open(CACHE).then((cache) => cache.addAll(wanted)));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => names.filter((name) => name.startsWith(OURS) && name !== CACHE))
      .then((old) => Promise.all(old.map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

// A new version waits until the app says that no round is running.
self.addEventListener("message", (event) => {
  if (event.data?.type === "take-over") self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin || !url.href.startsWith(HOME)) return;
  event.respondWith(serve(request, url));
});

async function serve(request, url) {
  const cache = await caches.open(CACHE);
  const page = request.mode === "navigate" && /^(index\.html)?$/.test(url.pathname.slice(new URL(HOME).pathname.length));
  // The page is one file whatever the query says.
  const kept = await cache.match(page ? HOME : request, { ignoreVary: true });
  return kept ?? fetch(request);
}
