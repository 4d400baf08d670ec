import 'server-only'
import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import path from 'node:path'
import german from './german.json'
import type { Language } from './languages'
import { trialMessage } from './trial'

/** What gather.mjs wrote. The place is asked for at run time: a bundler would take a URL of it for a module. */
const gatheredFile = () => path.join(process.cwd(), 'app', '_language', 'built', 'messages.json')
type Gathered = { messages: string[]; inBrowser: string[] }
const gathered = (): Gathered => JSON.parse(readFileSync(gatheredFile(), 'utf8')) as Gathered

type Catalogue = Readonly<Record<string, string>>
type Kept = { larderMessages?: Record<string, Catalogue>; larderBrowserFiles?: Map<string, BrowserFile> }
const shared = globalThis as unknown as Kept

/** Whether the tests' own language may be chosen. */
export const mayBeTrial = (): boolean => process.env.LARDER_TRIAL_LANGUAGE === '1'

/** Called once when the program has started: from then on everything is said in the languages there are. */
export function keepCatalogues(): void {
  shared.larderMessages = { de: german }
  shared.larderBrowserFiles = new Map()
  if (!mayBeTrial()) return
  shared.larderMessages.trial = Object.fromEntries(gathered().messages.map((message) => [message, trialMessage(message)]))
}

/** What the browser is given for a language, at an address that changes with it. */
export type BrowserFile = { address: string; script: string }

/** Null for English, which is in the code. */
export function browserFileOf({ key }: Language): BrowserFile | null {
  const catalogue = shared.larderMessages?.[key]
  if (!catalogue) return null
  const known = shared.larderBrowserFiles?.get(key)
  if (known) return known
  const messages = Object.fromEntries(
    gathered().inBrowser.flatMap((message) => (catalogue[message] ? [[message, catalogue[message]]] : [])),
  )
  // Read by JSON.parse: several times as fast as a program, and nothing in it can become one.
  const script = `self.larderMessages={${key}:JSON.parse(${JSON.stringify(JSON.stringify(messages)).replaceAll('<', '\\u003c')})}`
  const digest = createHash('sha256').update(script).digest('base64url').slice(0, 16)
  const file = { address: `/language/${key}-${digest}.js`, script }
  shared.larderBrowserFiles?.set(key, file)
  return file
}
