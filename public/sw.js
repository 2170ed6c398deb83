// Keeps one whole version of the app on the phone and serves it from there, so that the
// network is never waited for. The build fills in the three marks.
const VERSION = "@VERSION@";
const FILES = "@FILES@";
// What only some phones read, such as a catalogue of a language: kept from the first time it is asked for.
const ASKED = "@ASKED@";

// Several copies of the app can stand on one origin: each keeps to its own caches.
const OURS = `freshet ${self.registration.scope} `;
const CACHE = OURS + VERSION;
const HOME = self.registration.scope;

/** A file past every cache in between, and only if it is the one that this version was built with. */
const whole = ([url, integrity]) => new Request(url, { cache: "reload", integrity });

/** Of what only some phones read, that which this one has read, in whichever version. */
async function asked() {
  const had = await Promise.all(ASKED.map(([url]) => caches.match(url)));
  return ASKED.filter((_, place) => had[place]);
}

/** Puts this version on the phone whole, unless it is there. */
async function fill() {
  const cache = await caches.open(CACHE);
  const files = [...FILES, ...(await asked())];
  if ((await cache.keys()).length >= files.length) return;
  // A half-updated host fails the install, and the version in use stays.
  await cache.addAll(files.map(whole));
}

self.addEventListener("install", (event) => event.waitUntil(fill()));

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => names.filter((name) => name.startsWith(OURS) && name !== CACHE))
      .then((old) => Promise.all(old.map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("message", (event) => {
  switch (event.data?.type) {
    // A new version waits until the app says that no round is running.
    case "take-over":
      self.skipWaiting();
      break;
    // Asked at each start, since a browser short of room may have thrown the files away.
    case "check":
      event.waitUntil(
        fill()
          .then(() => "ready", () => "failed")
          .then((state) => event.source.postMessage({ type: "offline", state })),
      );
      break;
  }
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin || !url.href.startsWith(HOME)) return;
  event.respondWith(serve(request, url));
});

// A due moment shown over other apps was tapped: the app comes to the front, at the case that it is
// about, or is opened there: at the page that the notification names, or where an older version named
// none, at the case.
self.addEventListener("notificationclick", (event) => {
  event.notification.close();
  const { case: name = "", query = name && `?case=${name}` } = event.notification.data ?? {};
  event.waitUntil(lead(name, query));
});

async function lead(name, query) {
  const pages = await self.clients.matchAll({ type: "window", includeUncontrolled: true });
  const page = pages.find(({ url }) => url.startsWith(HOME));
  if (!page) return self.clients.openWindow(HOME + query);
  page.postMessage({ type: "chosen", case: name });
  return page.focus();
}

async function serve(request, url) {
  const cache = await caches.open(CACHE);
  const page = request.mode === "navigate" && /^(index\.html)?$/.test(url.pathname.slice(new URL(HOME).pathname.length));
  // The page is one file whatever the query says.
  const kept = await cache.match(page ? HOME : request, { ignoreVary: true });
  if (kept) return kept;
  const file = ASKED.find(([name]) => new URL(name, HOME).href === url.href);
  if (!file) return fetch(request);
  const answer = await fetch(whole(file));
  // Where there is no room to keep it, it is read all the same.
  await cache.put(request, answer.clone()).catch(() => {});
  return answer;
}
