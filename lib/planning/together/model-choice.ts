import { compareExact } from '#lib/stock/batch'
import { type ChoiceDesign, type ChoiceThread, type ChoiceWorld, costOfPutUp, mostBought, type Placed } from './choice-world'
import { type CutLimit, shareRows, unitOf } from './cloth-limits'

/** The model of a choice: a text for the solver, and how to read its answer. */
export type ChoiceModel = {
  lpText: string
  /** The same with fractions allowed: its best is a bound that takes a moment. */
  relaxedText: string
  read: (values: ReadonlyMap<string, number>) => Placed[]
  /** The columns of a choice that are not nought, for a solver to start from. */
  startFrom: (placed: readonly Placed[]) => Map<string, number>
}

/** What the model is to find: the most worth; or of sets worth so much at least, the one that buys least. */
export type ChoiceAim = { kind: 'most-value' } | { kind: 'least-bought'; leastValue: number }

/** Where lots matter: a column for each lot a design could take its thread from; no name where the fullest does for all. */
type LotColumn = { name: string; threadId: string; lot: number }
/** One list of one design that could be taken, with the columns that say whether it is. */
type Option = { design: number; listId: string; terms: string[]; own: string | null; lots: LotColumn[] }
/** A column of whole put-ups bought. */
type BoughtColumn = { name: string; threadId: string; most: number; cost: number }

/**
 * The model that chooses the designs worth most, to be stitched from what is free and may be bought, and cut from these pieces.
 *
 * One column for each cut on each piece (with cloth aside none); for a design with several lists or copies one for each list; where lots
 * matter and one lot is not enough for all, one for each lot that holds a design's need; a whole number of put-ups for each thread that
 * could be bought. A design has all its copies cut or none, is worked from one list, and each of its threads whose lots matter comes of
 * one lot: what is bought is one lot more. All that is taken of a thread is no more than is free and bought, and of a lot no more than
 * it holds; all that is bought keeps to the limit. What is cut from a piece keeps to `shareRows` and to the limits found so far; that
 * they can be cut so is for the caller to try, since straight cuts from edge to edge are no linear rule.
 *
 * Threads that reach for all designs together have no row. The order of designs, pieces and threads makes no difference to the text.
 *
 * @returns null when there is nothing to choose from
 */
export function modelChoice(
  world: ChoiceWorld,
  limits: readonly CutLimit[],
  aim: ChoiceAim = { kind: 'most-value' },
): ChoiceModel | null {
  const designs = world.designs.filter(({ pin }) => pin !== 'out').sort((a, b) => compareExact(a.id, b.id))
  const pieces = world.pieces && [...world.pieces].sort((a, b) => compareExact(a.id, b.id))
  const designAt = new Map(designs.map(({ id }, at) => [id, at]))
  const pieceAt = new Map((pieces ?? []).map(({ id }, at) => [id, at]))
  const column = (designId: string, pieceId: string, copy: number) =>
    `x${designAt.get(designId)}_${pieceAt.get(pieceId)}${copy === 0 ? '' : `_${copy}`}`
  const columnOfUnit = (id: string, pieceId: string) => column(unitOf(id).designId, pieceId, unitOf(id).copy)
  const piecesOf = ({ ways }: ChoiceDesign) => (pieces ?? []).filter(({ id }) => (ways[id] ?? []).length > 0)
  const copiesOf = ({ copies }: ChoiceDesign) => Array.from({ length: copies }, (_, copy) => copy)

  const rows: string[] = []
  const row = (terms: readonly string[], end: string) => rows.push(` ${wrapped(terms)} ${end}`)
  const value: string[] = []
  const binaries: string[] = []
  const options: Option[] = []
  designs.forEach((design, at) => {
    const placed = piecesOf(design).flatMap(({ id }) => copiesOf(design).map((copy) => column(design.id, id, copy)))
    if (design.lists.length === 0 || (pieces !== null && placed.length === 0)) return
    binaries.push(...placed)
    const lists = [...design.lists].sort((a, b) => compareExact(a.listId, b.listId))
    const isOwn = pieces === null || lists.length > 1 || design.copies > 1
    const chosen = isOwn ? lists.map((_, list) => `y${at}_${list}`) : placed
    if (isOwn) binaries.push(...chosen)
    value.push(...chosen.map((name) => `${design.value} ${name}`))
    if (chosen.length > 1 || design.pin === 'in') row(chosen, design.pin === 'in' ? '= 1' : '<= 1')
    if (isOwn && pieces !== null) row([...placed, ...chosen.map((name) => `-${design.copies} ${name}`)], '= 0')
    for (const { id } of design.copies > 1 ? piecesOf(design) : []) {
      for (const copy of copiesOf(design).slice(1))
        row([column(design.id, id, copy), `-1 ${column(design.id, id, copy - 1)}`], '<= 0')
    }
    lists.forEach(({ listId }, list) => {
      const own = isOwn ? (chosen[list] as string) : null
      options.push({ design: at, listId, terms: own === null ? placed : [own], own, lots: [] })
    })
  })
  if (value.length === 0) return null

  const bought: BoughtColumn[] = []
  for (const [threadId, needs] of needsByThread(designs, options)) {
    const thread = world.threads.get(threadId)
    if (!thread) throw new RangeError(`modelChoice: no thread ${threadId}`)
    const all = mostNeeded(needs)
    if (all <= (thread.lotsMatter ? (thread.lotsStrandTenths[0] ?? 0) : thread.freeStrandTenths)) {
      if (thread.lotsMatter) for (const { option } of needs) option.lots.push({ name: '', threadId, lot: 0 })
      continue
    }
    const more = boughtColumn(world, threadId, thread, all, bought.length)
    if (more) bought.push(more)
    const moreTerm = more ? [`-${metres(thread.putUpStrandTenths)} ${more.name}`] : []
    row(
      [
        ...needs.flatMap(({ option, strandTenths }) => option.terms.map((name) => `${metres(strandTenths)} ${name}`)),
        ...moreTerm,
      ],
      `<= ${metres(thread.freeStrandTenths)}`,
    )
    if (more) {
      // Follows from the rest for whole numbers, and keeps fractions from buying a part of a put-up.
      for (const { option, strandTenths } of thread.lotsMatter ? [] : needs) {
        const alone = Math.ceil((strandTenths - thread.freeStrandTenths) / thread.putUpStrandTenths)
        if (alone > 0) row([...option.terms.map((name) => `${alone} ${name}`), `-1 ${more.name}`], '<= 0')
      }
    }
    if (!thread.lotsMatter) continue
    const lots = [...thread.lotsStrandTenths, more ? more.most * thread.putUpStrandTenths : 0]
    const byLot = lots.map((): string[] => [])
    for (const { option, strandTenths, at } of needs) {
      const names: string[] = []
      lots.forEach((lotStrandTenths, lot) => {
        if (lotStrandTenths < strandTenths) return
        const name = `z${at}_${lot}`
        names.push(name)
        option.lots.push({ name, threadId, lot })
        byLot[lot]?.push(`${metres(strandTenths)} ${name}`)
        const isBought = lot === thread.lotsStrandTenths.length
        if (more && isBought) row([`${Math.ceil(strandTenths / thread.putUpStrandTenths)} ${name}`, `-1 ${more.name}`], '<= 0')
      })
      binaries.push(...names)
      row([...option.terms, ...names.map((name) => `-1 ${name}`)], '= 0')
    }
    byLot.forEach((terms, lot) => {
      if (terms.length === 0) return
      const isBought = lot === thread.lotsStrandTenths.length
      row(isBought ? [...terms, ...moreTerm] : terms, `<= ${isBought ? '0' : metres(lots[lot] ?? 0)}`)
    })
  }
  const spent = bought.filter(({ cost }) => cost > 0).map(({ name, cost }) => `${cost} ${name}`)
  if (spent.length > 0) row(spent, `<= ${mostBought(world.buying)}`)
  const taken = new Set(binaries)
  for (const { pieceId, shares } of shareRows({ ...world, designs, pieces })) {
    const terms = [...shares].flatMap(([id, share]) => {
      const name = columnOfUnit(id, pieceId)
      return taken.has(name) ? [`${share} ${name}`] : []
    })
    if (terms.length > 1) row(terms, '<= 1')
  }
  for (const { pieceId, unitIds, most } of limits) {
    const names = unitIds.map((id) => columnOfUnit(id, pieceId)).filter((name) => taken.has(name))
    if (names.length > most) row([...names].sort(compareExact), `<= ${most}`)
  }
  if (aim.kind === 'least-bought') row(value, `>= ${aim.leastValue}`)
  const objective =
    aim.kind === 'most-value'
      ? `Maximize\n value: ${wrapped(value)}`
      : `Minimize\n bought: ${wrapped(spent.length > 0 ? spent : [`0 ${binaries[0]}`])}`
  const whole = bought.map(({ name, most }) => ` 0 <= ${name} <= ${most}`)
  const textOf = (end: string) => `${objective}\nSubject To\n${rows.join('\n')}\n${end}\nEnd\n`
  const wholeEnd =
    bought.length === 0 ? '' : `Bounds\n${whole.join('\n')}\nGeneral\n ${bought.map(({ name }) => name).join('\n ')}\n`
  return {
    lpText: textOf(`${wholeEnd}Binaries\n ${binaries.join('\n ')}`),
    relaxedText: textOf(`Bounds\n${[...binaries.map((name) => ` 0 <= ${name} <= 1`), ...whole].join('\n')}`),
    read: (values) => {
      const isOn = (name: string) => (values.get(name) ?? 0) > 0.5
      return options.flatMap(({ design: at, listId, terms, lots }): Placed[] => {
        if (!terms.some(isOn)) return []
        const design = designs[at] as ChoiceDesign
        const pieceIds = piecesOf(design).flatMap(({ id }) =>
          copiesOf(design).flatMap((copy) => (isOn(column(design.id, id, copy)) ? [id] : [])),
        )
        const chosen = lots.filter(({ name }) => name === '' || isOn(name)).map(({ threadId, lot }) => [threadId, lot])
        return [{ designId: design.id, listId, pieceIds, lots: Object.fromEntries(chosen) }]
      })
    },
    startFrom: (placed) => {
      const values = new Map<string, number>()
      const lengths = new Map<string, number>()
      for (const { designId, listId, pieceIds, lots } of placed) {
        const at = designAt.get(designId)
        const option = options.find((one) => one.design === at && one.listId === listId)
        if (!option) continue
        if (option.own !== null) values.set(option.own, 1)
        const counts = new Map<string, number>()
        for (const pieceId of pieceIds) {
          const copy = counts.get(pieceId) ?? 0
          counts.set(pieceId, copy + 1)
          values.set(column(designId, pieceId, copy), 1)
        }
        for (const { name, threadId, lot } of option.lots) if (name !== '' && lots[threadId] === lot) values.set(name, 1)
        const list = (designs[option.design] as ChoiceDesign).lists.find((one) => one.listId === listId)
        for (const { threadId, strandTenths } of list?.needs ?? []) {
          const thread = world.threads.get(threadId)
          if (!thread?.lotsMatter || lots[threadId] === thread.lotsStrandTenths.length)
            lengths.set(threadId, (lengths.get(threadId) ?? 0) + strandTenths)
        }
      }
      for (const { name, threadId, most } of bought) {
        const thread = world.threads.get(threadId) as ChoiceThread
        const short = (lengths.get(threadId) ?? 0) - (thread.lotsMatter ? 0 : thread.freeStrandTenths)
        if (short > 0) values.set(name, Math.min(most, Math.ceil(short / thread.putUpStrandTenths)))
      }
      return values
    },
  }
}

/** The column of put-ups bought, no more than all together could want or the limit pays for; null where it is none. */
function boughtColumn(
  { buying }: ChoiceWorld,
  threadId: string,
  thread: ChoiceThread,
  all: number,
  at: number,
): BoughtColumn | null {
  const cost = costOfPutUp(buying, thread)
  if (cost === null) return null
  const wanted = Math.ceil((thread.lotsMatter ? all : all - thread.freeStrandTenths) / thread.putUpStrandTenths)
  const most = cost === 0 ? wanted : Math.min(wanted, Math.floor(mostBought(buying) / cost))
  return most > 0 ? { name: `b${at}`, threadId, most, cost } : null
}

/** Exact; a solver's tolerance of a millionth is then far less than the tenth of a millimetre that lengths are known to. */
const metres = (strandTenths: number): string => (strandTenths / 10_000).toFixed(4)

type NeedAt = { option: Option; strandTenths: number; at: number }

/** The most all designs together could need of a thread, each worked from the list that needs most of it. */
function mostNeeded(needs: readonly NeedAt[]): number {
  const byDesign = new Map<number, number>()
  for (const { option, strandTenths } of needs)
    byDesign.set(option.design, Math.max(byDesign.get(option.design) ?? 0, strandTenths))
  return [...byDesign.values()].reduce((sum, strandTenths) => sum + strandTenths, 0)
}

/** What each option needs of each thread, threads by id; `at` numbers them for the names of columns. */
function needsByThread(designs: readonly ChoiceDesign[], options: readonly Option[]): [string, NeedAt[]][] {
  const byThread = new Map<string, NeedAt[]>()
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
