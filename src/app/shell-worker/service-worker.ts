// Keeps the app's own files, so that it opens where the server can not be reached. What the API says is
// never kept here.
declare const self: ServiceWorkerGlobalScope

/** Paths of the app's files; the build puts the list here, and by it every build has its own cache. */
declare const shellFiles: readonly string[]
declare const shellVersion: string

const cacheName = `shell-${shellVersion}`

const keepShell = async (): Promise<void> => {
  const cache = await caches.open(cacheName)
  await cache.addAll(['/', ...shellFiles])
  await self.skipWaiting()
}

const dropOlder = async (): Promise<void> => {
  const names = await caches.keys()
  const older = names.filter((name) => name.startsWith('shell-') && name !== cacheName)
  await Promise.all(older.map((name) => caches.delete(name)))
  await self.clients.claim()
}

/** A page from the server while it is there, so that a newer app is taken at once. */
const page = async (request: Request): Promise<Response> => {
  try {
    return await fetch(request)
  } catch (error) {
    const kept = await caches.match('/', { cacheName })
    if (kept === undefined) throw error
    return kept
  }
}

const file = async (request: Request): Promise<Response> =>
  (await caches.match(request, { cacheName })) ?? fetch(request)

self.addEventListener('install', (event) => event.waitUntil(keepShell()))
self.addEventListener('activate', (event) => event.waitUntil(dropOlder()))
self.addEventListener('fetch', (event) => {
  const { request } = event
  const { origin, pathname } = new URL(request.url)
  if (request.method !== 'GET' || origin !== self.location.origin) return
  if (/^\/(api|healthz|readyz)(\/|$)/.test(pathname)) return
  event.respondWith(request.mode === 'navigate' ? page(request) : file(request))
})
