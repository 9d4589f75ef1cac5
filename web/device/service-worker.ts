import {
  cleanupOutdatedCaches,
  createHandlerBoundToURL,
  precacheAndRoute,
} from 'workbox-precaching'
import { NavigationRoute, registerRoute } from 'workbox-routing'

/**
 * Every file of the build, written in by `server/run/bundle-service-worker.mjs`; without a
 * revision where the name already tells the content.
 */
declare const BUILT_FILES: readonly { readonly url: string; readonly revision: string | null }[]

/** What is used of the worker's own scope; the types of pages and of workers exclude each other. */
interface WorkerScope {
  readonly location: { readonly search: string }
  skipWaiting(): Promise<void>
  readonly clients: { claim(): Promise<void> }
  addEventListener(type: 'message' | 'activate', listener: (event: WorkerEvent) => void): void
}
interface WorkerEvent {
  readonly data?: { readonly type?: unknown }
  waitUntil(work: Promise<unknown>): void
}

const scope = self as unknown as WorkerScope

/** The page is kept with its headers, and those name the origin of the base map (`keepShell`). */
const PAGE = '/index.html'
const files = BUILT_FILES.map(({ url, revision }) => ({
  url,
  revision: url === PAGE ? revision + scope.location.search : revision,
}))

// Only files of the build: answers of the server and what a person entered are the pages' business.
precacheAndRoute(files)
cleanupOutdatedCaches()
const page = createHandlerBoundToURL(PAGE)
registerRoute(new NavigationRoute(page, { denylist: [/^\/api\//] }))

// The first visit is served from the device at once; a newer version waits until it is taken.
scope.addEventListener('activate', (event) => event.waitUntil(scope.clients.claim()))
scope.addEventListener('message', (event) => {
  if (event.data?.type === 'SKIP_WAITING') event.waitUntil(scope.skipWaiting())
})
