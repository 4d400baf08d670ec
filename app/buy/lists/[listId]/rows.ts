import type { ShopLine } from '#lib/planning/buying/shop-list'
import type { Dye, Hex } from '#trade/winding'

/** A line as the list ticks it. */
export type DeskLine = ShopLine & {
  id: string
  isInStock: boolean
  /** Where it lies, once it is in stock. */
  place: string | null
  /** What was taken instead, by name; null where only its id is known yet. */
  insteadName: string | null
}

/** One line, as the list says it. */
export type DeskRow = {
  id: string
  /** Said and heard: "Larkholm 0311 Barn Red", "needles 26". */
  name: string
  thread: {
    threadId: string
    maker: string
    code: string
    name: string | null
    hexes: Hex[]
    dye: Dye
    lotsMatter: boolean
  } | null
  /** "3 skeins of 8 m". */
  amount: string
  putUps: number
  /** The lot it has to match: ticked plainly, it is taken to be of that one. */
  matchLot: string | null
  /** Of one lot, the lot to match, a note. */
  notes: string[]
  /** Null where prices are left off, or none is known. */
  price: string | null
  /** Where it would go; null when nobody knows. */
  home: string | null
}

/** The lines of one shop or maker. */
export type DeskStop = { key: string; title: string; rows: DeskRow[] }
