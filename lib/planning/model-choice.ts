import { compareExact } from '#lib/stock/batch'
import type { ChoiceDesign, ChoiceWorld, Placed } from './choice-world'
import { type CutLimit, shareRows } from './cloth-limits'

/** The model of a choice: a text for the solver, and how to read its answer. */
export type ChoiceModel = {
  lpText: string
  /** The same with fractions allowed: its best is a bound that takes a moment. */
  relaxedText: string
  read: (values: ReadonlyMap<string, number>) => Placed[]
}

/** Where lots matter: a column for each lot a design could take its thread from. */
type LotColumn = { name: string; threadId: string; lot: number }
/** One list of one design that could be taken, with the columns that say whether it is. */
type Option = { design: number; listId: string; terms: string[]; lots: LotColumn[] }

/**
 * The model that chooses the designs worth most, to be stitched from what is free and cut from these pieces.
 *
 * One column for each design on each piece; for a design with several lists one for each of them; where lots matter and one lot is not
 * enough for all, one for each lot that holds a design's need. A design lies on one piece at most and is worked from one list. All that
 * is taken of a thread is no more than is free, and of a lot no more than it holds. What is cut from a piece keeps to `shareRows` and
 * to the limits found so far; that they can be cut so is for the caller to try, since straight cuts from edge to edge are no linear rule.
 *
 * Threads that reach for all designs together have no row. The order of designs, pieces and threads makes no difference to the text.
 *
 * @returns null when there is nothing to choose from
 */
export function modelChoice(world: ChoiceWorld, limits: readonly CutLimit[]): ChoiceModel | null {
  const designs = [...world.designs].sort((a, b) => compareExact(a.id, b.id))
  const pieces = [...world.pieces].sort((a, b) => compareExact(a.id, b.id))
  const designAt = new Map(designs.map(({ id }, at) => [id, at]))
  const pieceAt = new Map(pieces.map(({ id }, at) => [id, at]))
  const column = (designId: string, pieceId: string) => `x${designAt.get(designId)}_${pieceAt.get(pieceId)}`
  const piecesOf = ({ ways }: ChoiceDesign) => pieces.filter(({ id }) => (ways[id] ?? []).length > 0)

  const rows: string[] = []
  const row = (terms: readonly string[], end: string) => rows.push(` ${wrapped(terms)} ${end}`)
  const objective: string[] = []
  const binaries: string[] = []
  const options: Option[] = []
  designs.forEach((design, at) => {
    const placed = piecesOf(design).map(({ id }) => column(design.id, id))
    if (placed.length === 0 || design.lists.length === 0) return
    binaries.push(...placed)
    objective.push(...placed.map((name) => `${design.value} ${name}`))
    row(placed, '<= 1')
    const lists = [...design.lists].sort((a, b) => compareExact(a.listId, b.listId))
    if (lists.length === 1) options.push({ design: at, listId: (lists[0] as { listId: string }).listId, terms: placed, lots: [] })
    else {
      const names = lists.map((_, list) => `y${at}_${list}`)
      binaries.push(...names)
      row([...placed, ...names.map((name) => `-1 ${name}`)], '= 0')
      lists.forEach(({ listId }, list) => {
        options.push({ design: at, listId, terms: [names[list] as string], lots: [] })
      })
    }
  })
  if (objective.length === 0) return null

  for (const [threadId, needs] of needsByThread(designs, options)) {
    const thread = world.threads.get(threadId)
    if (!thread) throw new RangeError(`modelChoice: no thread ${threadId}`)
    const all = needs.reduce((sum, { strandTenths }) => sum + strandTenths, 0)
    const best = thread.lotsMatter ? (thread.lotsStrandTenths[0] ?? 0) : thread.freeStrandTenths
    if (all <= best) {
      if (thread.lotsMatter) for (const { option } of needs) option.lots.push({ name: '', threadId, lot: 0 })
      continue
    }
    row(
      needs.flatMap(({ option, strandTenths }) => option.terms.map((name) => `${metres(strandTenths)} ${name}`)),
      `<= ${metres(thread.freeStrandTenths)}`,
    )
    if (!thread.lotsMatter) continue
    const byLot = thread.lotsStrandTenths.map((): string[] => [])
    for (const { option, strandTenths, at } of needs) {
      const names: string[] = []
      thread.lotsStrandTenths.forEach((lotStrandTenths, lot) => {
        if (lotStrandTenths < strandTenths) return
        const name = `z${at}_${lot}`
        names.push(name)
        option.lots.push({ name, threadId, lot })
        byLot[lot]?.push(`${metres(strandTenths)} ${name}`)
      })
      binaries.push(...names)
      row([...option.terms, ...names.map((name) => `-1 ${name}`)], '= 0')
    }
    byLot.forEach((terms, lot) => {
      if (terms.length > 0) row(terms, `<= ${metres(thread.lotsStrandTenths[lot] ?? 0)}`)
    })
  }
  const taken = new Set(binaries)
  for (const { pieceId, shares } of shareRows({ ...world, designs, pieces })) {
    const terms = [...shares]
      .map(([designId, share]) => [share, column(designId, pieceId)] as const)
      .filter(([, name]) => taken.has(name))
    if (terms.length > 1)
      row(
        terms.map(([share, name]) => `${share} ${name}`),
        '<= 1',
      )
  }
  for (const { pieceId, designIds, most } of limits) {
    const names = designIds.map((designId) => column(designId, pieceId)).filter((name) => taken.has(name))
    if (names.length > most) row([...names].sort(compareExact), `<= ${most}`)
  }

  const textOf = (end: string) => `Maximize\n value: ${wrapped(objective)}\nSubject To\n${rows.join('\n')}\n${end}\nEnd\n`
  return {
    lpText: textOf(`Binaries\n ${binaries.join('\n ')}`),
    relaxedText: textOf(`Bounds\n${binaries.map((name) => ` 0 <= ${name} <= 1`).join('\n')}`),
    read: (values) => {
      const isOn = (name: string) => (values.get(name) ?? 0) > 0.5
      return options.flatMap(({ design: at, listId, terms, lots }): Placed[] => {
        const design = designs[at] as ChoiceDesign
        const piece = piecesOf(design).find(({ id }) => isOn(column(design.id, id)))
        if (!piece || !terms.some(isOn)) return []
        const chosen = lots.filter(({ name }) => name === '' || isOn(name)).map(({ threadId, lot }) => [threadId, lot])
        return [{ designId: design.id, listId, pieceId: piece.id, lots: Object.fromEntries(chosen) }]
      })
    },
  }
}

/** Exact; a solver's tolerance of a millionth is then far less than the tenth of a millimetre that lengths are known to. */
const metres = (strandTenths: number): string => (strandTenths / 10_000).toFixed(4)

/** What each option needs of each thread, threads by id; `at` numbers them for the names of columns. */
function needsByThread(designs: readonly ChoiceDesign[], options: readonly Option[]) {
  const byThread = new Map<string, { option: Option; strandTenths: number; at: number }[]>()
  let at = 0
  for (const option of options) {
    const list = designs[option.design]?.lists.find(({ listId }) => listId === option.listId)
    for (const { threadId, strandTenths } of [...(list?.needs ?? [])].sort((a, b) => compareExact(a.threadId, b.threadId))) {
      const needs = byThread.get(threadId) ?? []
      needs.push({ option, strandTenths, at: at++ })
      byThread.set(threadId, needs)
    }
  }
  return [...byThread].sort(([a], [b]) => compareExact(a, b))
}

/** A sum, a few terms to a line: readers of the format may refuse long lines. */
function wrapped(terms: readonly string[]): string {
  const lines: string[] = []
  for (let at = 0; at < terms.length; at += 8)
    lines.push(
      terms
        .slice(at, at + 8)
        .join(' + ')
        .replaceAll('+ -', '- '),
    )
  return lines.join('\n + ').replaceAll('+ -', '- ')
}
