import { grouped } from '#lib/grouped'
import { textKey } from '#lib/quantity/text-key'
import { agree, mostSaid } from './agree'
import type { DraftRow, NamedThread, ThreadDraft } from './drafts'
import { pairRows } from './pair-rows'
import type { PlanningDesk } from './planning-desk'
import type { BatchRow, LineRow } from './snapshot'
import { rowsAStep, type Steps } from './steps'
import { type LineFacts, lineKey, lotsMatterFor, ThreadFinder, workingOf } from './thread-finder'
import type { UnknownRows } from './unknown-rows'

type Row = DraftRow<'threads'>

/** A row that says another home than a batch brought in before: the batch was moved, or the row speaks of another. */
export type OtherHome = 'moved' | 'beside'

/**
 * Threads by maker, line and code, and a batch for each row by owner, thread, lot, home and put-up. What differs from the stock there is
 * becomes a correction in the journal.
 */
export function* planThreads(
  desk: PlanningDesk,
  { rows, known }: UnknownRows<'threads'>,
  otherHome: OtherHome | undefined,
): Steps<void> {
  const byLine = new Map<string, Row[]>()
  const finder = new ThreadFinder(
    desk,
    [...rows, ...known.map(({ row }) => row)].flatMap(({ draft }) => [draft, ...draft.standsInFor]),
    (key) => factsOfLine(desk, byLine.get(key) ?? []),
  )
  const standInsOf = new Map<Row, NamedThread[]>()
  const told: { row: Row; line: string }[] = []
  let at = 0
  yield
  for (const row of rows) {
    if (++at % rowsAStep === 0) yield
    const line = finder.lineNameFor(row.draft, row.rowNumber)
    const standIns = row.draft.standsInFor.map((named) => ({ ...named, line: finder.lineNameFor(named, row.rowNumber) }))
    if (line === null || standIns.some((named) => named.line === null)) continue
    if (standIns.length > 0) standInsOf.set(row, standIns)
    told.push({ row, line })
  }
  yield
  const groups = grouped(told, ({ row, line }) => lineKey(row.draft.maker, line))
  yield
  for (const [key, group] of groups)
    byLine.set(
      key,
      group.map(({ row }) => row),
    )

  const threadOf = new Map<Row, string>()
  const changedBy = new Set<Row>()
  const heldLines = new Set(desk.list('batch').map(({ threadId }) => desk.get('thread', threadId).lineId))
  for (const [, group] of groups) {
    const { line } = group[0] as { line: string }
    const first = (group[0] as { row: Row }).row
    const lineId = finder.lineFor(first.draft.maker, line, first.rowNumber)
    if (!desk.isNew('line', lineId)) {
      const facts = factsOfLine(
        desk,
        group.map(({ row }) => row),
      )
      const said = heldLines.has(lineId) ? lineChange(facts) : firstLineChange(desk.get('line', lineId), facts)
      if (desk.change('line', lineId, said, first.rowNumber)) changedBy.add(first)
    }
    for (const [, same] of grouped(group, ({ row }) => row.draft.code)) {
      if (++at % rowsAStep === 0) yield
      const threadRows = same.map(({ row }) => row)
      const id = planThread(desk, finder, threadRows, line, changedBy)
      for (const row of threadRows) threadOf.set(row, id)
    }
  }
  planStandIns(desk, { finder, threadOf, standInsOf, changedBy })
  yield
  yield* planBatches(desk, { threadOf, changedBy, known, otherHome })
}

/** Warns once of rows that disagree: a line's facts are asked for when it is made or compared, and kept. */
function factsOfLine(desk: PlanningDesk, rows: Row[]): LineFacts {
  return {
    fibre: agree(desk, rows, 'fibre', (draft) => draft.fibre),
    strands: agree(desk, rows, 'strands', (draft) => draft.strands),
    // One line is sold in several put-ups, so that rows may well differ.
    putUpTenths: mostSaid(rows.map((row) => row.draft.putUpTenths)),
    putUpWord: agree(desk, rows, 'putUpWord', (draft) => draft.putUpWord),
    dyeing: agree(desk, rows, 'dyed', (draft) => draft.dyeing),
    lotsMatter: agree(desk, rows, 'lotsMatter', (draft) => draft.lotsMatter),
  }
}

/** What a file changes of a line there is stock of. Its strands stand: the lengths of that stock are counted by them. */
function lineChange({ fibre, putUpWord, dyeing, lotsMatter }: LineFacts): Partial<LineRow> {
  return {
    fibre: fibre ?? undefined,
    putUpWord: putUpWord ?? undefined,
    dyeing: dyeing ?? undefined,
    lotsMatter: lotsMatter ?? undefined,
  }
}

/** A line nobody held anything of was guessed at from keys: the first file with stock of it says what it is, as if it were new. */
function firstLineChange(there: LineRow, facts: LineFacts): Partial<LineRow> {
  const strands = facts.strands ?? there.strands
  const putUpTenths = facts.putUpTenths ?? there.putUpStrandTenths / there.strands
  const dyeing = facts.dyeing ?? there.dyeing
  return {
    ...lineChange(facts),
    strands,
    putUpStrandTenths: Math.round(putUpTenths * strands),
    working: workingOf(dyeing),
    lotsMatter: facts.lotsMatter ?? lotsMatterFor({ dyeing, fibre: facts.fibre ?? there.fibre, name: there.name }),
  }
}

function planThread(desk: PlanningDesk, finder: ThreadFinder, rows: Row[], line: string, changedBy: Set<Row>): string {
  const [first] = rows as [Row]
  const id = finder.threadFor({ ...first.draft, line }, first.rowNumber) as string
  const isChanged = desk.change(
    'thread',
    id,
    {
      name: agree(desk, rows, 'name', (draft) => draft.name) ?? undefined,
      lab: agree(desk, rows, 'colour', (draft) => draft.lab) ?? undefined,
      minimumPutUps: agree(desk, rows, 'minimum', (draft) => draft.minimumPutUps) ?? undefined,
      note: agree(desk, rows, 'note', (draft) => draft.note) ?? undefined,
    },
    first.rowNumber,
  )
  if (isChanged) changedBy.add(first)
  return id
}

type StandIns = { finder: ThreadFinder; threadOf: Map<Row, string>; standInsOf: Map<Row, NamedThread[]>; changedBy: Set<Row> }

function planStandIns(desk: PlanningDesk, { finder, threadOf, standInsOf, changedBy }: StandIns): void {
  const held = new Set(desk.list('standIn').map((row) => `${row.threadId} ${row.standInThreadId}`))
  for (const [row, standInThreadId] of threadOf) {
    for (const named of standInsOf.get(row) ?? []) {
      const threadId = finder.threadFor(named, row.rowNumber) as string
      if (threadId === standInThreadId || held.has(`${threadId} ${standInThreadId}`)) continue
      held.add(`${threadId} ${standInThreadId}`)
      desk.add('standIn', { threadId, standInThreadId }, row.rowNumber)
      changedBy.add(row)
    }
  }
}

type BatchesToPlan = {
  threadOf: Map<Row, string>
  changedBy: Set<Row>
  known: UnknownRows<'threads'>['known']
  otherHome: OtherHome | undefined
}

function* planBatches(desk: PlanningDesk, { threadOf, changedBy, known, otherHome }: BatchesToPlan): Steps<void> {
  const claimed = new Set(known.map(({ nounId }) => nounId))
  const held = grouped(
    desk.list('batch').filter((batch) => !claimed.has(batch.id)),
    batchKey,
  )
  const firstOf = new Map<string, Row>()
  for (const [row, threadId] of threadOf) if (!firstOf.has(threadId)) firstOf.set(threadId, row)
  const wanted: { row: Row; batch: Omit<BatchRow, 'id'> }[] = []
  for (const [row, threadId] of threadOf) {
    if (wanted.push({ row, batch: batchOf(desk, row, threadId) }) % rowsAStep === 0) yield
  }

  // Half of the rows are as an earlier file had them: it is that file again, and a row that is gone from it became another.
  const isSameFile = known.length >= threadOf.size
  const broughtIn = desk.broughtInIds()
  // There are no others to mistake it for: what an earlier file brought in, and this one puts elsewhere.
  const isElsewhere = ({ row, batch }: (typeof wanted)[number], there: BatchRow) =>
    row.draft.place !== null && broughtIn.has(there.id) && there.putUpStrandTenths === batch.putUpStrandTenths
  let at = 0
  for (const [key, group] of grouped(wanted, ({ batch }) => batchKey(batch))) {
    if (++at % rowsAStep === 0) yield
    const pairs = pairRows(group, held.get(key) ?? [], [
      ({ batch }, there) => isAtSame(batch, there) && saysSame(batch, there),
      ({ batch }, there) => isAtSame(batch, there),
      ({ row, batch }, there) =>
        (row.draft.place === null || there.homePlaceId === null || there.homePlaceId === batch.homePlaceId) &&
        (row.draft.putUpTenths === null || there.putUpStrandTenths === batch.putUpStrandTenths),
      ...(otherHome === 'moved' || (otherHome === undefined && isSameFile) ? [isElsewhere] : []),
    ])
    const paired = new Set(pairs.map(([, there]) => there))
    for (const [wantedRow, there] of pairs) {
      const { row, batch } = wantedRow
      const isMoved =
        there !== null && there.homePlaceId !== null && batch.homePlaceId !== null && there.homePlaceId !== batch.homePlaceId
      const perhaps =
        there === null && otherHome === undefined
          ? (held.get(key) ?? []).find((other) => !paired.has(other) && isElsewhere(wantedRow, other))
          : undefined
      const from = isMoved ? there : perhaps
      if (from)
        desk.warn(row.rowNumber, 'place', isMoved ? 'batch-moved' : 'batch-perhaps-moved', row.draft.place ?? '', [
          from.homePlaceId === null ? '' : desk.get('place', from.homePlaceId).label,
        ])
      const { id, outcome } = there ? changeBatch(desk, row, batch, there) : addBatch(desk, row, batch)
      const { threadId } = batch
      const isThreadNew = desk.isNew('thread', threadId) && firstOf.get(threadId) === row
      const ofThread = isThreadNew ? 'added' : changedBy.has(row) ? 'changed' : 'same'
      if (id === null) desk.finish(row, ofThread, 'thread', threadId)
      else desk.finish(row, outcome === 'same' ? ofThread : outcome, 'batch', id)
    }
  }
}

const batchKey = (batch: Pick<BatchRow, 'ownerId' | 'threadId' | 'lot'>): string =>
  JSON.stringify([batch.ownerId, batch.threadId, textKey(batch.lot ?? '')])

const isAtSame = (batch: Omit<BatchRow, 'id'>, there: BatchRow): boolean =>
  batch.homePlaceId === there.homePlaceId && batch.putUpStrandTenths === there.putUpStrandTenths

const saysSame = (batch: Omit<BatchRow, 'id'>, there: BatchRow): boolean =>
  batch.wholePutUps === there.wholePutUps &&
  batch.partStrandTenths === there.partStrandTenths &&
  batch.partCertainty === there.partCertainty

/** The batch a row would make if there were none. A guessed part rounds down. */
function batchOf(desk: PlanningDesk, row: Row, threadId: string): Omit<BatchRow, 'id'> {
  const { draft, rowNumber } = row
  const line = desk.get('line', desk.get('thread', threadId).lineId)
  const putUpStrandTenths = draft.putUpTenths === null ? line.putUpStrandTenths : draft.putUpTenths * line.strands
  const homePlaceId = draft.place === null ? null : desk.placeLabelled(draft.place, rowNumber, 'place')
  return {
    threadId,
    ownerId: desk.ownerNamed(draft.owner, rowNumber),
    lot: draft.lot,
    putUpStrandTenths,
    wholePutUps: draft.wholePutUps ?? 0,
    ...partOf(draft, line.strands, putUpStrandTenths),
    homePlaceId,
    currentPlaceId: draft.nowAt === null ? homePlaceId : desk.placeLabelled(draft.nowAt, rowNumber, 'nowAt'),
  }
}

function partOf(
  { part, isHeldUncounted }: ThreadDraft,
  strands: number,
  putUpStrandTenths: number,
): Pick<BatchRow, 'partStrandTenths' | 'partCertainty'> {
  if (isHeldUncounted || part?.kind === 'some') return { partStrandTenths: 0, partCertainty: 'some' }
  if (part === null || part.kind === 'none') return { partStrandTenths: 0, partCertainty: 'none' }
  const partStrandTenths =
    part.kind === 'length' ? part.tenths * strands : Math.floor((putUpStrandTenths * part.numerator) / part.denominator)
  return partStrandTenths === 0
    ? { partStrandTenths, partCertainty: 'none' }
    : { partStrandTenths, partCertainty: part.certainty }
}

type BatchOutcome = { id: string | null; outcome: 'added' | 'changed' | 'same' }

/** A row that holds nothing and names no place says that the thread is known, no more. */
function addBatch(desk: PlanningDesk, row: Row, batch: Omit<BatchRow, 'id'>): BatchOutcome {
  if (batch.wholePutUps === 0 && batch.partCertainty === 'none' && batch.homePlaceId === null)
    return { id: null, outcome: 'same' }
  const id = desk.add('batch', batch, row.rowNumber)
  desk.move({
    kind: 'receive',
    noun: 'batch',
    nounId: id,
    wholeDelta: batch.wholePutUps,
    partDeltaStrandTenths: batch.partStrandTenths,
    toPlaceId: batch.currentPlaceId,
    toOwnerId: batch.ownerId,
    rowNumber: row.rowNumber,
  })
  return { id, outcome: 'added' }
}

function changeBatch(desk: PlanningDesk, row: Row, batch: Omit<BatchRow, 'id'>, there: BatchRow): BatchOutcome {
  const { draft, rowNumber } = row
  const isAmountSaid = draft.wholePutUps !== null || draft.part !== null
  const whole = draft.wholePutUps ?? there.wholePutUps
  const part = draft.part === null ? there : batch
  const isHomeMoved = batch.homePlaceId !== null && batch.homePlaceId !== there.homePlaceId
  const wasHome = there.currentPlaceId === null || there.currentPlaceId === there.homePlaceId
  // What was at home goes along to its new one; what is out stays where it is.
  const current =
    draft.nowAt !== null || (isHomeMoved && wasHome) ? batch.currentPlaceId : (there.currentPlaceId ?? batch.homePlaceId)
  const isChanged = desk.change(
    'batch',
    there.id,
    {
      wholePutUps: isAmountSaid ? whole : undefined,
      partStrandTenths: isAmountSaid ? part.partStrandTenths : undefined,
      partCertainty: isAmountSaid ? part.partCertainty : undefined,
      homePlaceId: batch.homePlaceId ?? undefined,
      currentPlaceId: current ?? undefined,
    },
    rowNumber,
  )
  const wholeDelta = isAmountSaid ? whole - there.wholePutUps : 0
  const partDeltaStrandTenths = isAmountSaid ? part.partStrandTenths - there.partStrandTenths : 0
  if (wholeDelta !== 0 || partDeltaStrandTenths !== 0) {
    desk.move({ kind: 'correct', noun: 'batch', nounId: there.id, wholeDelta, partDeltaStrandTenths, rowNumber })
  }
  if (current !== there.currentPlaceId) {
    desk.move({ kind: 'move', noun: 'batch', nounId: there.id, fromPlaceId: there.currentPlaceId, toPlaceId: current, rowNumber })
  }
  return { id: there.id, outcome: isChanged ? 'changed' : 'same' }
}
