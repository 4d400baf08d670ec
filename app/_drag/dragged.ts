import type { Dragged } from '#lib/db/place/drop-thing'

const nouns = { charts: 'chart', designs: 'design', threads: 'thread' } as const

/** What a row is of, by the address it leads to; null where that is nothing to be dragged. */
export function draggedOf(href: string): Dragged | null {
  const [, folder, id] = /^\/(charts|designs|threads)\/([^/?#]{16,60})$/.exec(href) ?? []
  return folder && id ? { noun: nouns[folder as keyof typeof nouns], id } : null
}

/** The place an address leads to; null for any other. */
export const placeIdOf = (href: string): string | null => /^\/places\/([^/?#]{16,60})$/.exec(href)?.[1] ?? null

/** More than these is no strip to aim at. */
export const placesToDropOn = 8
