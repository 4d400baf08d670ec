/** What of a request decides how the worker on the device answers it. */
export type Asked = {
  method: string
  /** Path and query, as they stand in the address. */
  path: string
  search: string
  /** Of this program's own address. */
  isOwn: boolean
  /** The browser opens a page. */
  isNavigation: boolean
  /** The page's own scripts ask for a page's parts (Next's RSC header), perhaps ahead of being wanted. */
  isPart: boolean
  isAhead: boolean
}

export type Course =
  /** What is built never changes under its name: kept, and asked for once. */
  | 'build'
  /** Drawings of the program itself: as what is built. */
  | 'picture'
  /** A page: from the network while it answers, else as it was seen. */
  | 'page'
  /** Find with words in its address, and the list of what was seen: from the network, else told from what this device knows. */
  | 'told'
  /** A part of a page: from the network, else the browser is told to open the whole page. */
  | 'part'
  /** From the network alone; who asks is listened for. */
  | 'listen'
  /** Somebody signs out: everything seen is thrown away. */
  | 'forget'
  /** Not for the worker at all. */
  | 'network'

/** Where somebody's own account, secrets or whole collections are shown: never kept on a device. */
const neverKept =
  /^\/(sign-in|sign-out|account|settings|bring-in|archive|backups|api|files|calendar\/feed|offline\/(things|pages))(\/|$)/
/** Scripts, styles and fonts, and the words of a language: the address changes with what is in them. */
const builtFile = /^\/(_next\/static\/.+\.(js|css|woff2?)|language\/[\w-]+\.js)$/

/** How a request is answered on the device. Nothing is ever kept of what is not a plain look. */
export function courseOf({ method, path, search, isOwn, isNavigation, isPart, isAhead }: Asked): Course {
  if (!isOwn) return 'network'
  if (method === 'POST' && path === '/sign-out') return 'forget'
  if (method !== 'GET') return 'network'
  if (builtFile.test(path)) return 'build'
  if (path === '/icon.svg' || path.startsWith('/icons/')) return 'build'
  if (path.startsWith('/photos/')) return 'picture'
  if (isPart) return isAhead || neverKept.test(path) ? 'listen' : 'part'
  if (path.startsWith('/api/')) return 'listen'
  if (!isNavigation) return 'network'
  // Downloads are opened as pages are.
  if (/\.\w{2,5}$/.test(path)) return 'network'
  if (neverKept.test(path)) return 'listen'
  return path === '/offline' || (path === '/' && new URLSearchParams(search).get('q')?.trim()) ? 'told' : 'page'
}

/** Under which address a page is kept: where the cursor stands, and what Next puts in for itself, make no other page of it. */
export function keptAs(path: string, search: string): string {
  const query = new URLSearchParams(search)
  for (const name of ['_rsc', 'focus']) query.delete(name)
  const rest = query.toString()
  return rest === '' ? path : `${path}?${rest}`
}

/** Screens for one hand, at a drawer: kept whole even where only a part of them was asked for. */
export const isForTheDrawer = (path: string): boolean =>
  path === '/' ||
  path === '/scan' ||
  /^\/(places|walks|count|buy\/lists)$/.test(path) ||
  /^\/(places|walks|count|buy\/lists)\/[0-9a-f-]{36}$/.test(path)

/** In which turn a screen is offered without a connection: Find, what one walks with, Places, the lists of lists, a place, anything else. */
export function drawerTurn(path: string): number {
  if (path === '/') return 0
  if (path === '/places') return 2
  if (!isForTheDrawer(path)) return 5
  return path.startsWith('/places/') ? 4 : /[0-9a-f-]{36}$/.test(path) ? 1 : 3
}

/** Screens that lead to the lists one walks with: opened, these are fetched ahead. */
export const leadsToLists = (path: string): boolean => path === '/' || path === '/places'
