import 'server-only'
import { applyPlan, type ImportOperation, type ImportPlan } from '#lib/importing/import-plan'
import type { ImportedNoun, KeyLineRow, RowOf, Snapshot } from '#lib/importing/snapshot'
import { stitches } from '#lib/thread/stitches'
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
  context: { importId: string; fileName: string; snapshot: Snapshot; onWritten: OnWritten },
): Promise<void> {
  const { importId, fileName, onWritten } = context
  const after = applyPlan(context.snapshot, plan)
  const rowsAfter = new Map<ImportedNoun, Map<string, unknown>>()
  const rowAfter = <N extends ImportedNoun>(noun: N, id: string): RowOf[N] => {
    const known = rowsAfter.get(noun) ?? new Map((after[noun] as readonly { id: string }[]).map((row) => [row.id, row]))
    rowsAfter.set(noun, known)
    return known.get(id) as RowOf[N]
  }
  const versions = new Map<ImportOperation, number>()
  let done = 0
  for (const run of runsOf(plan.operations)) {
    const [first] = run
    if (first?.do === 'add') {
      await addAll(write, run as Add[], fileName)
      for (const operation of run) versions.set(operation, 0)
    } else {
      for (const operation of run as Change[]) {
        versions.set(operation, await change(write, operation, rowAfter(operation.noun, operation.id)))
      }
    }
    for (const { noun, id } of run) {
      const touched = touchedAs[noun]
      if (touched) write.touch(touched, id)
    }
    done += run.length
    onWritten(done, plan.operations.length)
    // Time for a request in between, such as one to stop.
    await new Promise((resolve) => setImmediate(resolve))
  }
  if (plan.operations.some(({ noun }) => noun === 'place')) await setPlacePaths(write)

  await bulkInsert(
    write.tx,
    write.engine,
    'Movement',
    plan.movements.map((movement) => ({
      id: newId(),
      revision: write.revision,
      at: timestamp(write.at),
      kind: movement.kind,
      batchId: movement.noun === 'batch' ? movement.nounId : null,
      clothPieceId: movement.noun === 'cloth' ? movement.nounId : null,
      chartId: movement.noun === 'chart' ? movement.nounId : null,
      wholeDelta: movement.wholeDelta,
      partDeltaStrandTenths: movement.partDeltaStrandTenths,
      fromPlaceId: movement.fromPlaceId,
      toPlaceId: movement.toPlaceId,
      toOwnerId: movement.toOwnerId,
      importId,
      reason: `brought in from ${fileName}, row ${movement.rowNumber}`,
    })),
  )
  await bulkInsert(
    write.tx,
    write.engine,
    'ImportStep',
    plan.operations.map((operation, position) => ({
      id: newId(),
      importId,
      position,
      did: operation.do === 'add' ? 'added' : 'changed',
      noun: operation.noun,
      nounId: operation.id,
      beforeJson: operation.do === 'change' ? JSON.stringify(operation.before) : null,
      versionAfter: versions.get(operation) ?? 0,
    })),
  )
  await bulkInsert(
    write.tx,
    write.engine,
    'ImportRow',
    plan.rows
      .filter(({ outcome }) => outcome !== 'same')
      .map(({ rowNumber, rowKey, noun, nounId }) => ({ id: newId(), importId, rowNumber, rowKey, noun, nounId })),
  )
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
    ...(noun === 'project' && { quantity: 1 }),
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
