import 'server-only'
import { applyPlan, type ImportOperation, type ImportPlan } from '#lib/importing/import-plan'
import type { SheetLayout } from '#lib/importing/layouts'
import { rowName } from '#lib/importing/row-names'
import type { ImportedNoun, KeyLineRow, RowOf, Snapshot } from '#lib/importing/snapshot'
import { stitches } from '#lib/thread/stitches'
import { doerName } from '../access/doer'
import { type BulkRow, bulkInsert, timestamp } from '../bulk-insert'
import { newId } from '../new-id'
import type { ChangedNoun, Write } from '../write-gate'
import { columnsOf, tableOf, versioned } from './noun-columns'
import { setPlacePaths } from './place-paths'

type Add = Extract<ImportOperation, { do: 'add' }>
type Change = Extract<ImportOperation, { do: 'change' }>

/** Told how many of the plan's operations are written; may throw to call the whole of it off. */
export type OnWritten = (done: number, of: number) => void

const touchedAs: Record<ImportedNoun, ChangedNoun | null> = {
  owner: 'owner',
  place: 'place',
  maker: 'maker',
  line: 'line',
  thread: 'thread',
  standIn: 'standIn',
  batch: 'batch',
  designer: 'designer',
  theme: null,
  chart: 'chart',
  design: 'design',
  list: 'list',
  cloth: 'cloth',
  project: 'project',
  notion: 'notion',
}

/**
 * Write a plan inside the caller's transaction: its operations in their order, its movements, and what undo and a second bringing in
 * need to know.
 *
 * @param snapshot  the one the plan was made on, read under the same revision
 */
export async function writePlan(
  write: Write,
  plan: ImportPlan,
  context: { importId: string; fileName: string; layout: SheetLayout; snapshot: Snapshot; onWritten: OnWritten },
): Promise<void> {
  const { importId, fileName, layout } = context
  const rows = plan.rows.filter(({ outcome }) => outcome !== 'same')
  const operationCount = plan.operations.length
  // The journal, the steps for an undo and the rows to know again are half of the work: they count in what is told.
  const all = 2 * operationCount + plan.movements.length + rows.length
  let done = 0
  const tellWritten = (more: number) => {
    done += more
    context.onWritten(Math.floor((done / all) * operationCount), operationCount)
  }
  // Only what changes has to be known as it is after; a file of nothing but new rows does without.
  let after: Snapshot | null = null
  const rowsAfter = new Map<ImportedNoun, Map<string, unknown>>()
  const rowAfter = <N extends ImportedNoun>(noun: N, id: string): RowOf[N] => {
    after ??= applyPlan(context.snapshot, plan)
    const known = rowsAfter.get(noun) ?? new Map((after[noun] as readonly { id: string }[]).map((row) => [row.id, row]))
    rowsAfter.set(noun, known)
    return known.get(id) as RowOf[N]
  }
  const at = timestamp(write.at)
  const versions = new Map<ImportOperation, number>()
  for (const run of runsOf(plan.operations)) {
    const [first] = run
    if (first?.do === 'add') {
      await addAll(write, run as Add[], fileName)
    } else {
      for (const operation of run as Change[]) {
        versions.set(operation, await change(write, operation, rowAfter(operation.noun, operation.id)))
      }
    }
    for (const { noun, id } of run) {
      const touched = touchedAs[noun]
      if (touched) write.touch(touched, id)
    }
    tellWritten(run.length)
    // Time for a request in between, such as one to stop.
    await new Promise((resolve) => setImmediate(resolve))
  }
  if (plan.operations.some(({ noun }) => noun === 'place')) await setPlacePaths(write)

  const { tx, engine } = write
  await insertInSlices(plan.movements, tellWritten, (movements) =>
    bulkInsert(
      tx,
      engine,
      'Movement',
      movements.map((movement) => ({
        id: newId(),
        revision: write.revision,
        at,
        kind: movement.kind,
        batchId: movement.noun === 'batch' ? movement.nounId : null,
        clothPieceId: movement.noun === 'cloth' ? movement.nounId : null,
        chartId: movement.noun === 'chart' ? movement.nounId : null,
        notionId: movement.noun === 'notion' ? movement.nounId : null,
        wholeDelta: movement.wholeDelta,
        partDeltaStrandTenths: movement.partDeltaStrandTenths,
        fromPlaceId: movement.fromPlaceId,
        toPlaceId: movement.toPlaceId,
        toOwnerId: movement.toOwnerId,
        importId,
        who: doerName(null),
        reason: `brought in from ${fileName}, ${rowName(movement.rowNumber, layout)}`,
      })),
    ),
  )
  await insertInSlices(plan.operations, tellWritten, (operations, from) =>
    bulkInsert(
      tx,
      engine,
      'ImportStep',
      operations.map((operation, index) => ({
        id: newId(),
        importId,
        position: from + index,
        did: operation.do === 'add' ? 'added' : 'changed',
        noun: operation.noun,
        nounId: operation.id,
        beforeJson: operation.do === 'change' ? JSON.stringify(operation.before) : null,
        versionAfter: versions.get(operation) ?? 0,
      })),
    ),
  )
  await insertInSlices(rows, tellWritten, (some) =>
    bulkInsert(
      tx,
      engine,
      'ImportRow',
      some.map(({ rowNumber, rowKey, noun, nounId }) => ({ id: newId(), importId, rowNumber, rowKey, noun, nounId })),
    ),
  )
}

const sliceLength = 2_000

/** Insert many rows a slice at a time: each can be called off in between, and no more than a slice of them is made into columns at once. */
async function insertInSlices<Row>(
  rows: readonly Row[],
  tellWritten: (count: number) => void,
  insert: (rows: readonly Row[], from: number) => Promise<void>,
): Promise<void> {
  for (let from = 0; from < rows.length; from += sliceLength) {
    const slice = rows.slice(from, from + sliceLength)
    await insert(slice, from)
    tellWritten(slice.length)
  }
}

/** Neighbouring operations of the same sort and noun, so that additions go in together. */
function runsOf(operations: readonly ImportOperation[]): ImportOperation[][] {
  const runs: ImportOperation[][] = []
  for (const operation of operations) {
    const run = runs.at(-1)
    const last = run?.[0]
    if (run && last?.do === operation.do && last.noun === operation.noun && run.length < 1_000) run.push(operation)
    else runs.push([operation])
  }
  return runs
}

async function addAll({ tx, engine, at }: Write, operations: Add[], fileName: string): Promise<void> {
  const noun = (operations[0] as Add).noun
  const rows = operations.map(({ row }) => ({
    ...columnsOf(noun, row as never, row as never, at),
    ...(versioned.has(noun) && { version: 0 }),
    // Rewritten by setPlacePaths once every place is there.
    ...(noun === 'place' && { path: `/${row.id}/` }),
    ...(noun === 'standIn' && { source: fileName }),
  })) as BulkRow[]
  await bulkInsert(tx, engine, tableOf[noun], rows)
  switch (noun) {
    case 'chart':
      return bulkInsert(
        tx,
        engine,
        'ChartDesigner',
        operations.flatMap(({ row }) => designerRows(row as RowOf['chart'])),
      )
    case 'design':
      return bulkInsert(
        tx,
        engine,
        'DesignTheme',
        operations.flatMap(({ row }) => themeRows(row as RowOf['design'])),
      )
    case 'list':
      return addKeyLines(
        { tx, engine },
        operations.map(({ row }) => row as RowOf['list']),
      )
  }
}

/** @returns the version of the row after the change; 0 for a noun without versions. */
async function change(write: Write, operation: Change, row: RowOf[ImportedNoun]): Promise<number> {
  const { noun, id, after } = operation
  await writeValues(write, noun, id, after, row)
  return versioned.has(noun) ? await versionOf(write, noun, id) : 0
}

/** Set some values of a row that is there, and raise its version. */
export async function writeValues(
  { tx, engine, at }: Write,
  noun: ImportedNoun,
  id: string,
  values: object,
  row: RowOf[ImportedNoun],
): Promise<void> {
  const columns = columnsOf(noun, values as never, row as never, at)
  const names = Object.keys(columns)
  // SQLite keeps a boolean as 0 or 1, and its driver takes no other.
  const parameters = Object.values(columns).map((value) =>
    engine === 'sqlite' && typeof value === 'boolean' ? Number(value) : value,
  )
  const mark = (at: number) => (engine === 'sqlite' ? '?' : `$${at + 1}`)
  const sets = names.map(
    (name, at) => `"${name}" = ${engine === 'postgresql' && /(?:At|Since)$/.test(name) ? `${mark(at)}::timestamp` : mark(at)}`,
  )
  if (versioned.has(noun)) sets.push('"version" = "version" + 1')
  if (sets.length > 0) {
    const sql = `UPDATE "${tableOf[noun]}" SET ${sets.join(', ')} WHERE "id" = ${mark(names.length)}`
    await tx.$executeRawUnsafe(sql, ...parameters, id)
  }
  if (noun === 'chart' && 'designerIds' in values) {
    await tx.chartDesigner.deleteMany({ where: { chartId: id } })
    await bulkInsert(tx, engine, 'ChartDesigner', designerRows(row as RowOf['chart']))
  }
  if (noun === 'design' && 'themeIds' in values) {
    await tx.designTheme.deleteMany({ where: { designId: id } })
    await bulkInsert(tx, engine, 'DesignTheme', themeRows(row as RowOf['design']))
  }
  if (noun === 'list' && 'keyLines' in values) {
    await tx.keyLine.deleteMany({ where: { threadListId: id } })
    await addKeyLines({ tx, engine }, [row as RowOf['list']])
  }
}

export async function versionOf({ tx, engine }: Pick<Write, 'tx' | 'engine'>, noun: ImportedNoun, id: string): Promise<number> {
  const mark = engine === 'sqlite' ? '?' : '$1'
  const rows = await tx.$queryRawUnsafe<{ version: number | bigint }[]>(
    `SELECT "version" FROM "${tableOf[noun]}" WHERE "id" = ${mark}`,
    id,
  )
  return Number(rows[0]?.version ?? -1)
}

const designerRows = ({ id, designerIds }: RowOf['chart']): BulkRow[] =>
  designerIds.map((designerId, position) => ({ chartId: id, designerId, position }))

const themeRows = ({ id, themeIds }: RowOf['design']): BulkRow[] =>
  [...new Set(themeIds)].map((themeId) => ({ designId: id, themeId }))

async function addKeyLines({ tx, engine }: Pick<Write, 'tx' | 'engine'>, lists: readonly RowOf['list'][]): Promise<void> {
  const lines: BulkRow[] = []
  const threads: BulkRow[] = []
  for (const list of lists) {
    list.keyLines.forEach((line: KeyLineRow, position) => {
      const keyLineId = newId()
      lines.push({
        id: keyLineId,
        threadListId: list.id,
        position,
        symbol: line.symbol,
        hasTally: line.tally !== null,
        ...Object.fromEntries(stitches.map((stitch) => [stitch, line.tally?.[stitch] ?? 0])),
      })
      line.threads.forEach(({ threadId, strands, stated }, at) => {
        threads.push({
          id: newId(),
          keyLineId,
          position: at,
          threadId,
          strands,
          statedHundredths: stated?.hundredths ?? null,
          statedPutUpTenths: stated?.putUpTenths ?? null,
        })
      })
    })
  }
  await bulkInsert(tx, engine, 'KeyLine', lines)
  await bulkInsert(tx, engine, 'KeyLineThread', threads)
}
