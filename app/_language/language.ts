import { english, findLanguage, type Language, languageOfTag } from './languages'

/** What the server and the page's own file keep where both find it: the messages of each language by what they are in English. */
type Shared = {
  larderAsking?: { getStore: () => { language?: string } | undefined }
  larderMessages?: Partial<Record<string, Readonly<Record<string, string>>>>
}
const shared = globalThis as unknown as Shared

let ofDocument: Language | undefined

/**
 * The language of whoever is being answered. On the server it is known by the request at work (lib/db/access/asking.ts), in the browser
 * by the document, which has one for as long as it is there. Outside both, for programs, jobs and tests, it is English.
 */
export function language(): Language {
  if (typeof document === 'undefined') return findLanguage(shared.larderAsking?.getStore()?.language) ?? english
  ofDocument ??= languageOfTag(document.documentElement.lang)
  return ofDocument
}

/** What a message is in a language: itself in English, and where no translation of it is at hand. */
export function translated(message: string, { key }: Language): string {
  return key === 'en' ? message : (shared.larderMessages?.[key]?.[message] ?? message)
}
