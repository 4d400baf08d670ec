import type { ChartKind, DesignSize } from '#lib/chart/design'
import type { NotionKind } from '#lib/notion/notion'
import type { Count } from '#lib/quantity/count'
import type { ThreadLine } from '#lib/thread/thread'

export const sharedLists = ['doubles', 'wants', 'stash', 'guild'] as const
/** What one could do without; what one would like to be given; what one has; the charts one has, by designer or theme, for a guild. */
export type SharedListName = (typeof sharedLists)[number]

export type SharedTheme = { axis: 'season' | 'subject' | 'form'; name: string }

/**
 * A thing as a list for others names it. It has no field for a price, a person, an address or a note, so that none can come along; a place
 * only where that was asked for.
 */
export type SharedThing = { id: string; place: string | null } & (
  | {
      noun: 'thread'
      line: Pick<ThreadLine, 'makerName' | 'name'>
      code: string
      name: string | null
      putUps: number
      putUpWord: string
      hasPart: boolean
    }
  | {
      noun: 'chart'
      title: string
      designerNames: readonly string[]
      kind: ChartKind
      copies: number
      /** Other charts that have its designs too. */
      alsoIn: readonly string[]
      /** Of a design in parts: how many are here, and of how many. */
      parts: { held: number; needed: number } | null
      /** What is in it, for the guild’s list; else empty. */
      designs: readonly { title: string; size: DesignSize; themes: readonly SharedTheme[] }[]
    }
  | {
      noun: 'cloth'
      name: string
      colourName: string | null
      ends: Count
      picks: Count
      widthUm: number
      heightUm: number
    }
  | { noun: 'notion'; kind: NotionKind; name: string; size: string | null; many: number }
)
