import type { TickedLine } from '#lib/project/walk'
import type { Dye, Hex } from '#trade/winding'

/** A line as the list ticks it. */
export type DeskLine = TickedLine & { id: string; projectId: string | null; isCarried: boolean }

/** One thing on the list: all its bags are ticked at once. */
export type DeskRow = {
  thingId: string
  /** Said and heard: "Larkholm 0311 Barn Red". */
  name: string
  thread: { maker: string; code: string; name: string | null; hexes: Hex[]; dye: Dye } | null
  kind: 'thread' | 'cloth' | 'chart' | 'notion'
  href: string
  note: string | null
  /** All that is taken, for all bags. */
  amount: string
  /** Where there are several bags, or several walked for: how much for which. */
  bags: { lineId: string; label: string; amount: string }[]
  lineIds: string[]
}

/** One place on the way, as it stands in the walk. */
export type DeskStop = { key: string; label: string | null; name: string | null; href: string | null; rows: DeskRow[] }

export type DeskBag = { projectId: string; title: string; label: string | null }
