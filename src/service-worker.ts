/// <reference types="@sveltejs/kit" />
/// <reference no-default-lib="true"/>
/// <reference lib="esnext" />
/// <reference lib="webworker" />
import { build, files, version } from '$service-worker';

/**
 * Keeps one page for reading just outside theatre: the note for the list, and the files it needs. It stores nothing else of
 * the record.
 */
const worker = globalThis as unknown as ServiceWorkerGlobalScope;
const FILES = `files-${version}`;
const NOTE = 'note';
const NOTE_PATHS = ['/before-a-list', '/before-a-list/__data.json'];

/** Letters of other languages are fetched where a page holds one, the licences of the typefaces where somebody reads them. */
const isForTheNote = (path: string) => !/latin-ext|\/licences\//.test(path);

worker.addEventListener('install', (event) => {
  event.waitUntil(
    caches
      .open(FILES)
      .then((cache) => cache.addAll([...build, ...files].filter(isForTheNote)))
      .then(() => worker.skipWaiting()),
  );
});

worker.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(names.filter((name) => name !== FILES && name !== NOTE).map((name) => caches.delete(name))),
      )
      .then(() => worker.clients.claim()),
  );
});

worker.addEventListener('message', (event) => {
  if (event.data === 'keep-note')
    event.waitUntil(
      caches
        .open(NOTE)
        .then((cache) => cache.addAll(NOTE_PATHS))
        .then(() => event.source?.postMessage('note-kept')),
    );
  if (event.data === 'forget-note') event.waitUntil(caches.delete(NOTE));
});

worker.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== 'GET' || url.origin !== worker.location.origin) return;
  if (build.includes(url.pathname) || files.includes(url.pathname)) {
    event.respondWith(caches.match(event.request, { cacheName: FILES }).then((kept) => kept ?? fetch(event.request)));
    return;
  }
  if (!NOTE_PATHS.includes(url.pathname)) return;
  // Fresh when the server answers, the kept page when it does not.
  event.respondWith(
    fetch(event.request).catch(async () => {
      const kept = await caches.match(url.pathname, { cacheName: NOTE, ignoreSearch: true });
      return kept ?? Response.error();
    }),
  );
});
