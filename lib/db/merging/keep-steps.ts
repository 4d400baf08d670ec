import 'server-only'
import { chunks } from '../bulk-edit/read-bulk-edit'
import type { Transaction } from '../client'
import type { ChangedNoun, Write } from '../write-gate'

/** Tables a merge changes, by their name in the client. */
export const mergedTables = [
  'chart',
  'chartDesigner',
  'formerTitle',
  'keptFile',
  'design',
  'designTheme',
  'threadList',
  'project',
  'loanLine',
  'walkLine',
  'missingThing',
  'designer',
  'formerDesignerName',
  'maker',
  'threadLine',
  'thread',
  'formerThreadCode',
  'batch',
  'keyLineThread',
  'standIn',
  'conversion',
  'projectSwap',
  'useReading',
  'reorderRule',
  'threadOrder',
  'threadBarcode',
  'kitLot',
  'kitBagCheck',
  'threadOffer',
  'buyListFor',
  'buyListLine',
] as const
export type MergedTable = (typeof mergedTables)[number]

/** Their rows are claimed by version: each change raises it, so that a form opened before is refused. */
const versioned: ReadonlySet<MergedTable> = new Set([
  'chart',
  'keptFile',
  'design',
  'threadList',
  'project',
  'missingThing',
  'maker',
  'threadLine',
  'thread',
  'batch',
  'reorderRule',
  'threadOrder',
  'threadOffer',
])

export type Values = Record<string, string | number | boolean | Date | null>
/** What names a row: its id, or the two ids of a pair. */
export type RowKey = Record<string, string>

/** One step of a merge, in the order it was done. */
export type Step =
  | { did: 'changed'; table: MergedTable; keys: RowKey[]; before: Values; after: Values }
  | { did: 'added'; table: MergedTable; key: RowKey }
  | { did: 'dropped'; table: MergedTable; row: Values }

type Delegate = {
  findMany(asked: { where: object }): Promise<Values[]>
  updateMany(asked: { where: object; data: object }): Promise<{ count: number }>
  create(asked: { data: object }): Promise<unknown>
  deleteMany(asked: { where: object }): Promise<{ count: number }>
}

const tableOf = (tx: Transaction, table: MergedTable): Delegate => (tx as unknown as Record<MergedTable, Delegate>)[table]

/** All rows that fit, whole, as `drop` keeps them. */
export const readRows = (tx: Transaction, table: MergedTable, where: object): Promise<Values[]> =>
  tableOf(tx, table).findMany({ where })

const raised = (table: MergedTable) => (versioned.has(table) ? { version: { increment: 1 } } : {})

/** Rows by their keys: ids together, pairs one by one. */
function* parts(keys: readonly RowKey[]): Generator<{ where: object; count: number }, void, void> {
  const ids = keys.flatMap((key) => ('id' in key ? [key.id] : []))
  for (const some of chunks(ids)) yield { where: { id: { in: some } }, count: some.length }
  for (const key of keys) if (!('id' in key)) yield { where: key, count: 1 }
}

/** Writes rows and keeps what it takes to put them back. */
export class StepKeeper {
  readonly steps: Step[] = []
  readonly touched = new Map<string, [noun: ChangedNoun, id: string]>()

  constructor(readonly write: Write) {}

  /** Set the same values in some rows, which all had the same before. @throws when one of them is not there. */
  async change(table: MergedTable, keys: readonly RowKey[], before: Values, after: Values): Promise<void> {
    if (keys.length === 0) return
    for (const { where, count } of parts(keys)) {
      const changed = await tableOf(this.write.tx, table).updateMany({ where, data: { ...after, ...raised(table) } })
      if (changed.count !== count) throw new Error(`StepKeeper: ${changed.count} of ${count} rows of ${table} changed`)
    }
    this.steps.push({ did: 'changed', table, keys: [...keys], before, after })
  }

  async add(table: MergedTable, row: Values): Promise<void> {
    await tableOf(this.write.tx, table).create({ data: row })
    this.steps.push({ did: 'added', table, key: keyOf(table, row) })
  }

  /** Take a row away, whole as it was read. */
  async drop(table: MergedTable, row: Values): Promise<void> {
    await tableOf(this.write.tx, table).deleteMany({ where: keyOf(table, row) })
    this.steps.push({ did: 'dropped', table, row })
  }

  /** Say what was written, now and again when it is taken back. */
  touch(noun: ChangedNoun, id: string): void {
    this.touched.set(`${noun} ${id}`, [noun, id])
    this.write.touch(noun, id)
  }
}

function keyOf(table: MergedTable, row: Values): RowKey {
  if (table === 'chartDesigner') return { chartId: String(row.chartId), designerId: String(row.designerId) }
  if (table === 'designTheme') return { designId: String(row.designId), themeId: String(row.themeId) }
  return { id: String(row.id) }
}

/**
 * Put rows back as they were, the last step first.
 *
 * @returns the table of the first row that was changed, taken away or replaced since; the write is to be abandoned then. Null: all is back.
 */
export async function takeBackSteps({ tx }: Write, steps: readonly Step[]): Promise<MergedTable | null> {
  for (const step of steps.toReversed()) {
    const table = tableOf(tx, step.table)
    if (step.did === 'dropped') {
      const key = keyOf(step.table, step.row)
      if ((await table.findMany({ where: key })).length > 0) return step.table
      try {
        await table.create({ data: step.row })
      } catch (error) {
        // Its place was taken by another: a code typed anew, a list of that name.
        if ((error as { code?: unknown }).code === 'P2002' || (error as { code?: unknown }).code === 'P2003') return step.table
        throw error
      }
    } else if (step.did === 'added') {
      if ((await table.deleteMany({ where: step.key })).count !== 1) return step.table
    } else {
      for (const { where, count } of parts(step.keys)) {
        const back = await table.updateMany({
          where: { ...where, ...step.after },
          data: { ...step.before, ...raised(step.table) },
        })
        if (back.count !== count) return step.table
      }
    }
  }
  return null
}
