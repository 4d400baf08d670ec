import 'server-only'
import { AsyncLocalStorage } from 'node:async_hooks'
import type { Who } from '#lib/access/who'

/** One request, for as long as it is at work. */
export type Asking = {
  who: Who
  /** Where it comes from, as the server saw it. */
  address: string
  /** The key a form or a request carries, so that a repeat is not done again. */
  onceKey: string | null
  /** A page's form, sent without scripts. */
  isPlainForm?: boolean
  /** What its words are said in; English where nothing says so, as for programs. */
  language?: string
}

// The server and everything Next bundles apart share one.
const shared = globalThis as unknown as { larderAsking?: AsyncLocalStorage<Asking> }
shared.larderAsking ??= new AsyncLocalStorage()
const storage = shared.larderAsking

/** The request at work; null for the program's own doings. */
export const asking = (): Asking | null => storage.getStore() ?? null

/** Who asks; the program itself where no request is at work. */
export const who = (): Who => storage.getStore()?.who ?? { kind: 'program' }

/** Do something as a request. */
export const whileAsking = <T>(request: Asking, work: () => T): T => storage.run(request, work)

/** Do something for nobody in particular: reading in the background what every request then shares. */
export const asProgram = <T>(work: () => T): T => storage.run({ who: { kind: 'program' }, address: '', onceKey: null }, work)
