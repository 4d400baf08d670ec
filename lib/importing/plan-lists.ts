import { grouped } from '#lib/grouped'
import { textKey } from '#lib/quantity/text-key'
import { mostSaid } from './agree'
import { listGroupOf } from './check-lists'
import { DesignFinder } from './design-finder'
import type { CheckedRows, DraftRow } from './drafts'
import type { PlanningDesk } from './planning-desk'
import { canonicalJson } from './row-key'
import type { DesignRow, KeyLineRow, ListRow } from './snapshot'
import { rowsAStep, type Steps } from './steps'
import { lineKey, noLineFacts, ThreadFinder } from './thread-finder'
import type { UnknownRows } from './unknown-rows'

type Row = DraftRow<'lists'>

/**
 * Thread lists by design and name, their lines in the order of the file. A list whose lines differ from those there is replaced whole.
 *
 * @returns the row numbers of lists that lack a refused row: brought in again they must come whole.
 */
export function* planLists(
  desk: PlanningDesk,
  { rows, known }: UnknownRows<'lists'>,
  refusedRows: CheckedRows<'lists'>['refusedRows'],
): Steps<number[]> {
  const finder = new DesignFinder(desk)
  const isKnown = new Set(known.map(({ row }) => row))
  const all = [...rows, ...known.map(({ row }) => row)]
  const found = all.flatMap((row) => {
    const { draft } = row
    const answer = finder.find({ chart: draft.chart, design: draft.design, designers: draft.designers })
    if ('designs' in answer) return [{ row, designs: answer.designs }]
    if (!isKnown.has(row)) desk.refuse(row.rowNumber, answer.field, answer.kind, answer.raw, answer.accepted)
    return []
  })
  const lists = [
    ...grouped(found, ({ row, designs }) =>
      JSON.stringify([designs.map((design) => design.id), textKey(row.draft.list)]),
    ).values(),
  ].filter((group) => group.some(({ row }) => !isKnown.has(row)))
  const planned = lists.flat().map(({ row }) => row)
  const isPlanned = new Set(planned)
  for (const { row, nounId } of known) if (!isPlanned.has(row)) desk.finish(row, 'same', 'list', nounId || null)
  yield
  const keyLineOf = readKeyLines(desk, planned, all)
  yield

  const refusedNumbers = new Map<string, number[]>()
  const noteRefused = (group: string, rowNumber: number) =>
    refusedNumbers.set(group, [...(refusedNumbers.get(group) ?? []), rowNumber])
  for (const row of refusedRows) if (row.listGroup !== null) noteRefused(row.listGroup, row.rowNumber)
  for (const row of planned) if (!keyLineOf.has(row)) noteRefused(listGroupOf(row.draft), row.rowNumber)

  const listsOf = grouped(desk.list('list'), (list) => list.designId)
  const toMend: number[] = []
  let at = 0
  for (const group of lists) {
    if (++at % rowsAStep === 0) yield
    const { designs } = group[0] as { designs: DesignRow[] }
    const inOrder = group
      .map(({ row }) => row)
      .filter((row) => keyLineOf.has(row))
      .sort((left, right) => left.rowNumber - right.rowNumber)
    if (inOrder.length === 0) continue
    const missing = [...new Set(inOrder.flatMap((row) => refusedNumbers.get(listGroupOf(row.draft)) ?? []))].sort((a, b) => a - b)
    if (missing.length > 0) {
      const [first] = inOrder as [Row]
      desk.warn(first.rowNumber, 'list', 'list-incomplete', `${first.draft.chart}: ${first.draft.list}`, missing.map(String))
      toMend.push(...inOrder.map((row) => row.rowNumber))
    }
    const keyLines = inOrder.map((row) => keyLineOf.get(row) as KeyLineRow)
    const plannedLists = designs.map((design) => {
      const ofDesign = listsOf.get(design.id) ?? []
      listsOf.set(design.id, ofDesign)
      return planList(desk, { design, ofDesign, first: inOrder[0] as Row, keyLines, isIncomplete: missing.length > 0 })
    })
    finishRows(desk, { inOrder, keyLineOf, plannedLists })
  }
  return toMend
}

/** The key lines of rows, their threads made where they are new; a row whose thread cannot be told is refused and left out. */
function readKeyLines(desk: PlanningDesk, planned: Row[], all: Row[]): Map<Row, KeyLineRow> {
  const putUpsOf = new Map<string, number[]>()
  const finder = new ThreadFinder(
    desk,
    all.flatMap(({ draft }) => draft.threads),
    (key) => ({ ...noLineFacts, putUpTenths: mostSaid(putUpsOf.get(key) ?? []) }),
  )
  const told = planned.flatMap((row) => {
    const lines = row.draft.threads.map((thread) => finder.lineNameFor(thread, row.rowNumber))
    if (lines.includes(null)) return []
    const threads = row.draft.threads.map((thread, index) => ({ ...thread, line: lines[index] as string }))
    return [{ row, threads }]
  })
  const namesOf = new Map<string, (string | null)[]>()
  for (const { row, threads } of told) {
    for (const { maker, line, code, name } of threads) {
      const key = lineKey(maker, line)
      if (row.draft.putUpTenths !== null) putUpsOf.set(key, [...(putUpsOf.get(key) ?? []), row.draft.putUpTenths])
      const names = namesOf.get(`${key} ${code}`)
      if (names) names.push(name)
      else namesOf.set(`${key} ${code}`, [name])
    }
  }
  const keyLineOf = new Map<Row, KeyLineRow>()
  for (const { row, threads } of told) {
    keyLineOf.set(row, {
      symbol: row.draft.symbol,
      tally: row.draft.tally,
      threads: threads.map((thread) => {
        const threadId = finder.threadFor(thread, row.rowNumber) as string
        const name = mostSaid(namesOf.get(`${lineKey(thread.maker, thread.line)} ${thread.code}`) ?? [])
        // A key's name for a colour fills a gap; it does not overrule the stash's own.
        if (name !== null && desk.get('thread', threadId).name === null) desk.change('thread', threadId, { name }, row.rowNumber)
        return {
          threadId,
          strands: thread.strands,
          stated:
            thread.statedHundredths === null ? null : { hundredths: thread.statedHundredths, putUpTenths: row.draft.putUpTenths },
        }
      }),
    })
  }
  return keyLineOf
}

type PlannedList = { id: string; outcome: 'added' | 'changed' | 'same'; linesBefore: Set<string> }

type ListToPlan = { design: DesignRow; ofDesign: ListRow[]; first: Row; keyLines: KeyLineRow[]; isIncomplete: boolean }

/** Adds a new list to `ofDesign`, so that the next one of the design stands after it. */
function planList(desk: PlanningDesk, { design, ofDesign, first, keyLines, isIncomplete }: ListToPlan): PlannedList {
  const { draft, rowNumber } = first
  const there = ofDesign.find((list) => textKey(list.name) === textKey(draft.list))
  if (there) {
    const linesBefore = new Set(there.keyLines.map(canonicalJson))
    return {
      id: there.id,
      outcome: desk.change('list', there.id, { keyLines, isIncomplete }, rowNumber) ? 'changed' : 'same',
      linesBefore,
    }
  }
  const position = Math.max(-1, ...ofDesign.map((list) => list.position)) + 1
  const id = desk.add('list', { designId: design.id, name: draft.list, position, isIncomplete, keyLines }, rowNumber)
  ofDesign.push(desk.get('list', id))
  return { id, outcome: 'added', linesBefore: new Set() }
}

type Finished = { inOrder: Row[]; keyLineOf: Map<Row, KeyLineRow>; plannedLists: PlannedList[] }

/** Of a changed list the rows that are new to it are the changed ones; if it only lost lines or their order changed, its first row is. */
function finishRows(desk: PlanningDesk, { inOrder, keyLineOf, plannedLists }: Finished): void {
  const list =
    plannedLists.find(({ outcome }) => outcome === 'added') ?? plannedLists.find(({ outcome }) => outcome === 'changed')
  const id = (list ?? (plannedLists[0] as PlannedList)).id
  const isNewToIt = (row: Row) => !list?.linesBefore.has(canonicalJson(keyLineOf.get(row)))
  const isReordered = list?.outcome === 'changed' && !inOrder.some(isNewToIt)
  for (const row of inOrder) {
    const isTouched = list !== undefined && (isReordered ? row === inOrder[0] : isNewToIt(row))
    desk.finish(row, isTouched ? (list as PlannedList).outcome : 'same', 'list', id)
  }
}
