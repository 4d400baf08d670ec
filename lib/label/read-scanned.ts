/** What a code may lead to. A batch's label leads to its thread. */
export const scannedNouns = ['place', 'chart', 'thread', 'cloth', 'project'] as const
export type ScannedNoun = (typeof scannedNouns)[number]

/** A text a camera read or somebody typed: the link of a label, or any other text, which is never followed. */
type Scanned = { kind: 'link'; noun: ScannedNoun; id: string } | { kind: 'text'; text: string }

const pages: Record<string, ScannedNoun> = {
  places: 'place',
  charts: 'chart',
  threads: 'thread',
  cloth: 'cloth',
  projects: 'project',
}

/** The page of what was scanned. */
export const scannedPath = ({ noun, id }: { noun: ScannedNoun; id: string }): string =>
  `/${Object.keys(pages).find((page) => pages[page] === noun)}/${id}`

const idShape = /^[\da-f]{8}(?:-[\da-f]{4}){3}-[\da-f]{12}$/u

/** More than this is on no label of ours; codes can hold some three thousand letters. */
const longest = 300

/**
 * Read what a code says. A link counts only when it has the shape of those our labels carry: a web address that ends in one of our pages and
 * an id, with nothing behind it. Of it the page and id alone are kept: whatever address stands before them is not gone to, since labels
 * outlive the address they were printed with, and a code may come from anybody.
 */
export function readScanned(text: string): Scanned {
  const link = text.trim().length <= longest ? readLink(text.trim()) : null
  return link ?? { kind: 'text', text: shownText(text) }
}

function readLink(text: string): Scanned | null {
  const shape = /^https?:\/\/[^\s/?#@\\]+(?:\/[^\s?#\\]*)?\/([a-z]+)\/([\da-f-]{36})$/iu.exec(text)
  const noun = Object.hasOwn(pages, shape?.[1] ?? '') ? pages[shape?.[1] as string] : undefined
  const id = shape?.[2]?.toLowerCase() ?? ''
  return noun && idShape.test(id) ? { kind: 'link', noun, id } : null
}

/**
 * A scanned text as it may be shown: what breaks lines, turns the direction of writing or has no width becomes a space, and a long one is cut.
 */
export function shownText(text: string): string {
  const plain = text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]+/gu, ' ').trim()
  return plain.length > longest ? `${plain.slice(0, longest - 1)}…` : plain
}
