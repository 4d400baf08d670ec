import type { DeviceHit } from '#lib/search/device-index'
import { momentOf } from './moment'

/** A page that was kept, for the list of what can be opened. */
export type SeenPage = { path: string; title: string; seenAtMs: number }

/** What the page without a connection has to say. All its words are the server's; only names, labels and times are filled in. */
export type OfflineSaid = {
  kind: 'not-seen' | 'search' | 'list'
  pages: readonly SeenPage[]
  /** What was looked for, and what the device knows of it. */
  asked: string
  hits: readonly DeviceHit[]
  found: number
  leftOut: number
  /** When the device last heard of everything; null where it never did. */
  knownAtMs: number | null
}

const escapes: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' }
export const escapeHtml = (text: string): string => text.replace(/[&<>"']/g, (sign) => escapes[sign] as string)

const addresses: Record<DeviceHit['noun'], string> = {
  design: '/designs',
  thread: '/threads',
  cloth: '/cloth',
  notion: '/notions',
  place: '/places',
  project: '/projects',
}

/**
 * The page without a connection, filled in: its scripts are taken out, since what they would look after is not there, and the marks that
 * app/offline/page.tsx left are put in their places.
 */
export function sayOffline(template: string, said: OfflineSaid, nowMs: number): string {
  const locale = /<html[^>]* lang="([\w-]+)"/.exec(template)?.[1] ?? 'en-GB'
  const moment = (atMs: number) => escapeHtml(momentOf(atMs, nowMs, locale))
  const pages = said.pages.map(
    ({ path, title, seenAtMs }) =>
      `<li><a href="${escapeHtml(path)}">${escapeHtml(title)}</a> <small>${moment(seenAtMs)}</small></li>`,
  )
  const hits = said.hits.map(({ noun, id, title, note, place }) => {
    const at =
      place && noun !== 'place' ? `<a data-place href="/places/${escapeHtml(place.id)}">${escapeHtml(place.label)}</a>` : ''
    const small = [note, place?.name ?? ''].filter(Boolean).join(' · ')
    return `<li><a href="${addresses[noun]}/${escapeHtml(id)}">${escapeHtml(title)}</a>${at}<small>${escapeHtml(small)}</small></li>`
  })
  const state = said.kind !== 'search' ? said.kind : said.knownAtMs === null ? 'unknown' : said.found > 0 ? 'found' : 'nothing'
  const facts = `data-offline="${state}"${said.leftOut > 0 ? ' data-left-out' : ''}${said.pages.length > 0 ? ' data-has-pages' : ''}`
  const filled: Record<string, string> = {
    asked: escapeHtml(said.asked),
    found: said.found.toLocaleString(locale),
    shown: said.hits.length.toLocaleString(locale),
    'left-out': said.leftOut.toLocaleString(locale),
    known: said.knownAtMs === null ? '' : moment(said.knownAtMs),
    pages: pages.join(''),
    hits: hits.join(''),
  }
  return template
    .replace(/<script\b[^>]*>[\s\S]*?<\/script>/g, '')
    .replace(/<link\b[^>]*\bas="script"[^>]*>/g, '')
    .replace(/<html\b/, `<html ${facts}`)
    .replace(/data-offline-box=""/, () => `value="${escapeHtml(said.asked)}"`)
    .replace(/(<(\w+)[^>]* data-offline-here="([\w-]+)"[^>]*>)(?:[^<]*)(<\/\2>)/g, (_all, open, _tag, name, close) => {
      return `${open}${filled[name] ?? ''}${close}`
    })
}
