/**
 * Runs on the device, between pages and the network (a service worker): what was seen can be opened again without a connection. Bundled by
 * prisma/bundle-workers.mjs and handed out by app/worker.js. What it may keep, and for whom, stands in DEVELOPERS.md.
 */
import {
  CacheFirst,
  ExpirationPlugin,
  NetworkFirst,
  NetworkOnly,
  type RouteHandlerCallbackOptions,
  Serwist,
  type SerwistPlugin,
} from 'serwist'
import { type DeviceIndex, searchDevice } from '#lib/search/device-index'
import { courseOf, drawerTurn, isForTheDrawer, keptAs, leadsToLists } from './course'
import { escapeHtml, type OfflineSaid, type SeenPage, sayOffline } from './say-offline'

/** As far as it is used here; the library of types for workers does not agree with the pages'. */
type WorkerScope = {
  registration: { unregister(): Promise<boolean> }
  navigator: { connection?: { saveData?: boolean } }
  addEventListener(kind: string, listener: (event: WorkerEvent) => void): void
}
type WorkerEvent = Event & {
  waitUntil(work: Promise<unknown>): void
  request?: Request
  data?: unknown
  source?: { url?: string }
}
const scope = self as unknown as WorkerScope

const pagesCache = 'larder-pages'
const picturesCache = 'larder-pictures'
const buildCache = 'larder-build'
/** Who is signed in, and the index of everything. */
const knownCache = 'larder-known'

const day = 24 * 3600
const patienceSeconds = 3
const mostPages = 120
const mostPageLetters = 1_500_000
const mostPictures = 300
const mostBuildFiles = 400
/** Fetched ahead at once, with so long between two, and not again for so long. */
const mostAhead = 40
const betweenAheadMs = 150
const aheadAgainMs = 5 * 60_000
const mostHits = 40
const mostPagesNamed = 60

const bounds = {
  pages: new ExpirationPlugin({ maxEntries: mostPages, maxAgeSeconds: 30 * day, purgeOnQuotaError: true }),
  pictures: new ExpirationPlugin({ maxEntries: mostPictures, maxAgeSeconds: 60 * day, purgeOnQuotaError: true }),
  build: new ExpirationPlugin({ maxEntries: mostBuildFiles, maxAgeSeconds: 60 * day, maxAgeFrom: 'last-used' }),
}

const whoseHeader = 'larder-whose'
const seenHeader = 'larder-seen-at'
const titleHeader = 'larder-title'
const nobody = 'nobody'

let whose: string | null | undefined
/** When lists were last fetched ahead. */
let aheadSince = Number.NEGATIVE_INFINITY
/** Raised by every throwing away: what was asked for before is not kept after. */
let turn = 0
const whoseAddress = '/offline/whose'
const indexAddress = '/offline/things'

async function readWhose(): Promise<string | null> {
  if (whose === undefined) {
    const kept = await (await caches.open(knownCache)).match(whoseAddress)
    whose = kept ? await kept.text() : null
  }
  return whose ?? null
}

/** Throw away all that was seen. What is built is everybody's. */
async function forget(): Promise<void> {
  turn += 1
  whose = null
  aheadSince = Number.NEGATIVE_INFINITY
  await Promise.all([bounds.pages.deleteCacheAndMetadata(), bounds.pictures.deleteCacheAndMetadata(), caches.delete(knownCache)])
}

/** Hear from an answer who is signed in: what another saw is thrown away before anything of theirs is kept. */
async function hear(response: Response): Promise<void> {
  if (response.type === 'opaqueredirect') return
  const said = response.status === 401 ? nobody : response.headers.get(whoseHeader)
  if (said === null) return
  const known = await readWhose()
  if (said === known) return
  if (known !== null || said === nobody) await forget()
  if (said === nobody) return
  whose = said
  await (await caches.open(knownCache)).put(whoseAddress, new Response(said))
}

/** The network, asked by the worker itself: an answer that was under way while somebody signed out is nobody's any more. */
async function ask(request: Request | string, init?: RequestInit): Promise<Response> {
  const began = turn
  const response = await fetch(request, init)
  if (began !== turn) throw new Error('signed out meanwhile')
  await hear(response)
  return response
}

const listening: SerwistPlugin = {
  requestWillFetch: async ({ request, state }) => {
    if (state) state.turn = turn
    return request
  },
  fetchDidSucceed: async ({ response, state }) => {
    if (state?.turn === turn) await hear(response)
    return response
  },
}

const isPage = (response: Response): boolean =>
  response.status === 200 && !response.redirected && (response.headers.get('content-type') ?? '').startsWith('text/html')

/** A page as it is kept: with when it was seen, and its title; null for what is not to be kept. */
async function asKept(response: Response): Promise<Response | null> {
  if (!isPage(response) || response.headers.get(whoseHeader) !== (await readWhose())) return null
  const text = await response.text()
  // Somebody may have signed out while it came.
  if (text.length > mostPageLetters || response.headers.get(whoseHeader) !== (await readWhose())) return null
  const headers = new Headers(response.headers)
  headers.set(seenHeader, new Date().toISOString())
  headers.set(titleHeader, encodeURIComponent(titleIn(text)))
  void keepBuiltFiles(text).catch(() => {})
  return new Response(text, { status: 200, headers })
}

const entities: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', '#x27': "'", '#39': "'" }
function titleIn(text: string): string {
  const title = /<title>([^<]*)<\/title>/.exec(text)?.[1] ?? ''
  return title
    .replace(/&(amp|lt|gt|quot|#x27|#39);/g, (_all, name: string) => entities[name] ?? '')
    .replace(/ · Chart Larder$/, '')
}

const build = new CacheFirst({
  cacheName: buildCache,
  plugins: [bounds.build, { cacheWillUpdate: async ({ response }) => (response.status === 200 ? response : null) }],
})

/** What a page needs to be drawn: scripts, styles, and of the fonts the letters of the page's own language. */
async function keepBuiltFiles(text: string): Promise<void> {
  const named = new Set([
    ...[...text.matchAll(/(?:\/_next\/)?(static\/[\w.~\-/]+\.(?:js|css|woff2))/g)].map(([, file]) => `/_next/${file}`),
    ...[...text.matchAll(/"(\/language\/[\w-]+\.js)"/g)].map(([, file]) => file as string),
  ])
  const cache = await caches.open(buildCache)
  for (const file of named) {
    if (await cache.match(file)) continue
    const response = await fetch(file)
    if (response.status !== 200) continue
    await cache.put(file, response.clone())
    await bounds.build.cacheDidUpdate({
      cacheName: buildCache,
      request: new Request(file),
      newResponse: response,
      event: new Event('kept') as never,
    })
    if (!file.endsWith('.css')) continue
    const fonts = [...(await response.text()).matchAll(/url\(["']?([^"')]*-latin-(?!ext)[^"')]*\.woff2)/g)]
    for (const [, font] of fonts) {
      const { pathname } = new URL(font as string, new URL(file, location.origin))
      if (!(await cache.match(pathname))) await cache.add(pathname).catch(() => {})
    }
  }
}

const pages = new NetworkFirst({
  cacheName: pagesCache,
  networkTimeoutSeconds: patienceSeconds,
  plugins: [
    bounds.pages,
    {
      ...listening,
      cacheKeyWillBeUsed: async ({ request }) => {
        const { pathname, search } = new URL(request.url)
        return keptAs(pathname, search)
      },
      cacheWillUpdate: async ({ response, state }) => (state?.turn === turn ? asKept(response) : null),
      cachedResponseWillBeUsed: async ({ cachedResponse }) => (cachedResponse ? asSeen(cachedResponse) : null),
    },
  ],
})

/** A kept page as it is shown again: the frame says when it was seen. */
async function asSeen(kept: Response): Promise<Response | null> {
  if (kept.headers.get(whoseHeader) !== (await readWhose())) return null
  const text = await kept.clone().text()
  const seenAt = escapeHtml(kept.headers.get(seenHeader) ?? '')
  return new Response(text.replace(/<html\b/, `<html data-seen-at="${seenAt}"`), { status: 200, headers: kept.headers })
}

async function keptPage(path: string): Promise<Response | null> {
  const kept = await (await caches.open(pagesCache)).match(path)
  return kept && kept.headers.get(whoseHeader) === (await readWhose()) ? kept : null
}

/** Fetch a page and keep it, unless that was done lately. */
async function keepAhead(path: string, event: unknown): Promise<void> {
  const kept = await keptPage(path)
  if (kept && Date.now() - Date.parse(kept.headers.get(seenHeader) ?? '') < aheadAgainMs) return
  const request = new Request(path, { headers: { accept: 'text/html' }, credentials: 'same-origin' })
  const [answered, done] = pages.handleAll({ request, event: event as never })
  await answered
  await done
}

/** The lists that are open and where they lead, one after another; nothing where every byte is paid for. */
async function fetchAhead(event: WorkerEvent): Promise<void> {
  if (scope.navigator.connection?.saveData || Date.now() - aheadSince < aheadAgainMs) return
  aheadSince = Date.now()
  const began = turn
  try {
    await keepAhead('/offline', event)
    await keepIndex()
    const response = await ask('/offline/pages', { credentials: 'same-origin' })
    if (!response.ok) return
    const { paths } = (await response.json()) as { paths: string[] }
    for (const path of paths.slice(0, mostAhead)) {
      await new Promise((resolve) => setTimeout(resolve, betweenAheadMs))
      if (began !== turn) return
      await keepAhead(path, event)
    }
  } catch {
    // The network went: tried again at the next page.
    aheadSince = Number.NEGATIVE_INFINITY
  }
}

async function keepIndex(): Promise<void> {
  const cache = await caches.open(knownCache)
  const kept = await cache.match(indexAddress)
  const tag = kept?.headers.get('etag')
  const response = await ask(indexAddress, { credentials: 'same-origin', headers: tag ? { 'if-none-match': tag } : {} })
  if (response.status === 304 && kept) return cache.put(indexAddress, await datedNow(kept))
  if (response.status === 200 && response.headers.get(whoseHeader) === (await readWhose()))
    await (await caches.open(knownCache)).put(indexAddress, await datedNow(response))
}

async function datedNow(response: Response): Promise<Response> {
  const headers = new Headers(response.headers)
  headers.set(seenHeader, new Date().toISOString())
  return new Response(await response.blob(), { headers })
}

/** Keep a page that was opened, whole, and what it leads to. */
async function afterOpening(path: string, event: WorkerEvent): Promise<void> {
  const { pathname } = new URL(path, location.origin)
  if (isForTheDrawer(pathname)) await keepAhead(path, event)
  if (leadsToLists(pathname)) await fetchAhead(event)
}

const inPatience = async (work: Promise<Response>): Promise<Response> =>
  Promise.race([
    work,
    new Promise<Response>((_resolve, reject) => setTimeout(() => reject(new Error('slow')), patienceSeconds * 1_000)),
  ])

async function answerPage(options: RouteHandlerCallbackOptions): Promise<Response> {
  const { pathname, search } = new URL(options.request.url)
  const event = options.event as unknown as WorkerEvent
  try {
    const response = await pages.handle(options)
    if (response.ok && !response.headers.has(seenHeader))
      event.waitUntil(afterOpening(keptAs(pathname, search), event).catch(() => {}))
    return response
  } catch {
    return sayNotThere({ kind: 'not-seen', asked: '' })
  }
}

async function answerTold({ request, url }: RouteHandlerCallbackOptions): Promise<Response> {
  try {
    return await inPatience(ask(request))
  } catch {
    const asked = url.searchParams.get('q')?.trim() ?? ''
    return sayNotThere({ kind: url.pathname === '/offline' ? 'list' : 'search', asked })
  }
}

/** A part of a page that cannot be had sends the browser to the whole page, which may have been seen. */
async function answerPart({ request, url, event }: RouteHandlerCallbackOptions): Promise<Response> {
  const path = keptAs(url.pathname, url.search)
  try {
    const asked = ask(request)
    const response = await ((await keptPage(path)) ? inPatience(asked) : asked)
    if (response.ok && !response.redirected) {
      const seen = event as unknown as WorkerEvent
      seen.waitUntil(afterOpening(path, seen).catch(() => {}))
    }
    return response
  } catch {
    return new Response('', { headers: { 'content-type': 'text/plain' } })
  }
}

async function seenPages(): Promise<SeenPage[]> {
  const cache = await caches.open(pagesCache)
  const seen: SeenPage[] = []
  for (const request of await cache.keys()) {
    const kept = await cache.match(request)
    const { pathname, search } = new URL(request.url)
    if (!kept || kept.headers.get(whoseHeader) !== (await readWhose()) || pathname === '/offline') continue
    const title = decodeURIComponent(kept.headers.get(titleHeader) ?? '') || pathname
    seen.push({ path: pathname + search, title, seenAtMs: Date.parse(kept.headers.get(seenHeader) ?? '') || 0 })
  }
  const turnOf = ({ path }: SeenPage) => drawerTurn(path.split('?')[0] ?? '')
  return seen.sort((a, b) => turnOf(a) - turnOf(b) || b.seenAtMs - a.seenAtMs).slice(0, mostPagesNamed)
}

async function sayNotThere({ kind, asked }: Pick<OfflineSaid, 'kind' | 'asked'>): Promise<Response> {
  const template = await keptPage('/offline')
  if (!template) {
    const plain = 'There is no connection, and this page was not seen on this device yet.'
    return new Response(plain, { status: 503, headers: { 'content-type': 'text/plain; charset=utf-8' } })
  }
  const kept = kind === 'search' ? await (await caches.open(knownCache)).match(indexAddress) : undefined
  const index = kept ? ((await kept.json()) as DeviceIndex) : null
  const answer = index ? searchDevice(index, asked, mostHits) : { hits: [], found: 0 }
  const knownAtMs = kept ? Date.parse(kept.headers.get(seenHeader) ?? '') || null : null
  const said = { kind, asked, ...answer, pages: await seenPages(), leftOut: index?.leftOut ?? 0, knownAtMs }
  return new Response(sayOffline(await template.text(), said, Date.now()), { status: 200, headers: template.headers })
}

/** What is never kept; asked for as a page, it says so in the house's own words. */
async function answerListening(options: RouteHandlerCallbackOptions): Promise<Response> {
  try {
    return await listened.handle(options)
  } catch (error) {
    if (options.request.mode !== 'navigate') throw error
    return sayNotThere({ kind: 'not-seen', asked: '' })
  }
}

const pictures = new CacheFirst({
  cacheName: picturesCache,
  plugins: [bounds.pictures, { cacheWillUpdate: async ({ response }) => (response.status === 200 ? response : null) }],
})
const listened = new NetworkOnly({ plugins: [listening] })

function courseFor(request: Request) {
  const { origin, pathname, search } = new URL(request.url)
  return courseOf({
    method: request.method,
    path: pathname,
    search,
    isOwn: origin === location.origin,
    isNavigation: request.mode === 'navigate',
    isPart: request.headers.has('rsc'),
    isAhead: request.headers.has('next-router-prefetch') || request.headers.has('next-router-segment-prefetch'),
  })
}

scope.addEventListener('fetch', (event) => {
  if (event.request && courseFor(event.request) === 'forget') event.waitUntil(forget())
})

/** A page that was there before the worker says where it stands; one that is told the worker is not wanted any more ends it. */
scope.addEventListener('message', (event) => {
  if (event.data !== 'opened' || !event.source?.url) return
  const { pathname, search } = new URL(event.source.url)
  if (
    ['page', 'told'].includes(
      courseOf({ method: 'GET', path: pathname, search, isOwn: true, isNavigation: true, isPart: false, isAhead: false }),
    )
  )
    event.waitUntil(afterOpening(keptAs(pathname, search), event).catch(() => {}))
})

const serwist = new Serwist({ skipWaiting: true, clientsClaim: true, disableDevLogs: true })
const answers = {
  build: (options: RouteHandlerCallbackOptions) => build.handle(options),
  picture: (options: RouteHandlerCallbackOptions) => pictures.handle(options),
  page: answerPage,
  told: answerTold,
  part: answerPart,
  listen: answerListening,
}
for (const [course, answer] of Object.entries(answers))
  serwist.registerCapture(({ request }) => courseFor(request) === course, answer)
serwist.addEventListeners()
