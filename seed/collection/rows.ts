import { textKey } from '#lib/quantity/text-key'

export type TableRow = Record<string, string | number | boolean | null>

type TableName =
  | 'Owner'
  | 'Place'
  | 'Maker'
  | 'ThreadLine'
  | 'Thread'
  | 'Designer'
  | 'Theme'
  | 'Chart'
  | 'ChartDesigner'
  | 'Design'
  | 'DesignTheme'
  | 'ThreadList'
  | 'KeyLine'
  | 'KeyLineThread'
  | 'Batch'
  | 'ClothPiece'
  | 'Movement'

/** Rows of one table, column names as in the schema; the columns left out have defaults. */
export type TableRows = { table: TableName; rows: TableRow[] }

export type SizePlan = {
  charts: number
  threads: number
  clothPieces: number
  designers: number
  drawers: number
  boxes: number
  owners: { name: string; kind: string }[]
  /** Key lines to a chart, shared among its designs; null draws them for each design. */
  keyLinesPerChart: number | null
  chartsInChunk: number
}

/** What movements say until the writer puts in its own revision and moment. */
const movementRevision = 1
const movementAt = '2026-01-05T09:00:00.000+00:00'

export const tenth = (value: number) => Math.round(value * 10) / 10 + 0
export const idMaker = (prefix: string) => {
  let made = 0
  return () => `${prefix}${(made++).toString(36).padStart(6, '0')}`
}

/** Call `make` until it gives something not in `taken`, and remember it. */
export function distinct(taken: Set<string>, make: () => string): string {
  for (let tried = 0; ; tried++) {
    const text = tried < 20 ? make() : `${make()} ${tried}`
    const key = textKey(text)
    if (taken.has(key)) continue
    taken.add(key)
    return text
  }
}

export const receipt = (
  id: string,
  thing: { batchId?: string; clothPieceId?: string; chartId?: string },
  amount: { wholeDelta: number; partDeltaStrandTenths?: number; toPlaceId: string; toOwnerId: string },
): TableRow => ({
  ...{ id, revision: movementRevision, at: movementAt, kind: 'receive' },
  ...{ batchId: thing.batchId ?? null, clothPieceId: thing.clothPieceId ?? null, chartId: thing.chartId ?? null },
  ...{ wholeDelta: amount.wholeDelta, partDeltaStrandTenths: amount.partDeltaStrandTenths ?? 0 },
  ...{ toPlaceId: amount.toPlaceId, toOwnerId: amount.toOwnerId },
})
