// The shell of the page, for when the server is not there: the page then keeps sound and says so.
const SHELF = "tallyback-page-1";
const FILES = [
  "/", "/page.css", "/page.js", "/sound.js", "/store.js", "/link.js", "/texts.js", "/microphone.js", "/icon.svg",
  "/tallyback.webmanifest",
];

self.addEventListener("install", (event) => {
  event.waitUntil(caches.open(SHELF).then((shelf) => shelf.addAll(FILES)).then(() => self.skipWaiting()));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((name) => name !== SHELF).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

// The server's own answer first, so that a newer version shows at once.
self.addEventListener("fetch", (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== self.location.origin || !FILES.includes(url.pathname)) {
    return;
  }
  event.respondWith(
    fetch(event.request)
      .then((answer) => {
        if (answer.ok) {
          const copy = answer.clone();
          caches.open(SHELF).then((shelf) => shelf.put(url.pathname, copy));
        }
        return answer;
      })
      .catch(() => caches.match(url.pathname)),
  );
});
