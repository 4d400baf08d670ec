import type { Lab } from '#lib/colour/lab'
import type { Dyeing } from '#lib/thread/thread'
import type { KitItemKind } from './item'

/** One line of what goes into a kit. The key names it for good: `thread:<id>`, `cloth`, `chart`, `item:<id>`. */
export type MasterLine = {
  key: string
  /** All kits of the batch are to have it of one dye lot. */
  needsOneLot: boolean
  /** A spare kit has it too; the chart it gets only once it is sold. */
  isInSpares: boolean
  /** Where it lies or lives, for walking order; none where nobody knows. */
  placeIds: readonly string[]
} & (
  | {
      kind: 'thread'
      threadId: string
      makerName: string
      lineName: string
      code: string
      /** The thread's own name, beside its code. */
      name: string | null
      lab: Lab | null
      dyeing: Dyeing
      /** Strands of the thread as it is sold: a length of it is `strandTenths / strands`. */
      strands: number
      putUpWord: string
      putUpStrandTenths: number
      /** One cut without a join, beside whole put-ups where a kit takes more than one. */
      perKit: { strandTenths: number }
    }
  | {
      kind: 'cloth'
      /** The cloth chosen, or as the chart advises it. */
      name: string | null
      colourName: string | null
      /** Threads to the inch or 10 cm, as text: "28 count"; null where nobody said. */
      countLabel: string | null
      /** As it is cut; null where the design's size or the count is not known. */
      perKit: { count: 1; widthUm: number | null; heightUm: number | null }
    }
  | {
      kind: 'chart'
      title: string
      /** A file is one person's: nothing is packed, but a copy is bought for each kit. */
      isFile: boolean
      perKit: { count: 1 }
    }
  | {
      kind: 'item'
      itemId: string
      itemKind: KitItemKind
      name: string
      /** Of the stock it is taken from: size 26, 2 mm. */
      size: string | null
      notionId: string | null
      note: string | null
      perKit: { count: number }
    }
)

/** What every kit of a batch is packed and checked by: threads in the order of the key, then cloth, chart and the other things. */
export type MasterList = {
  projectId: string
  title: string
  /** All kits, the spares among them. */
  copies: number
  spares: number
  lines: readonly MasterLine[]
}

/** The lines a kit is packed by. A spare has no chart until it is sold. */
export const linesOfKit = ({ lines }: Pick<MasterList, 'lines'>, kit: { isSpare: boolean; isSold: boolean }): MasterLine[] =>
  lines.filter(({ isInSpares }) => isInSpares || !kit.isSpare || kit.isSold)
