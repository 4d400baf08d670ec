import 'server-only'
import { type ColourFamily, colourFamilies, compareForChoosing, familyNamed, filedFamily } from '#lib/colour/family'
import type { Lab, LabCertainty } from '#lib/colour/lab'
import { grouped } from '#lib/grouped'
import { textKey } from '#lib/quantity/text-key'
import { type Batch, isOut, type StockPromise } from '#lib/stock/batch'
import { compareCodes } from '#lib/thread/code-order'
import type { ThreadLine } from '#lib/thread/thread'
import { database } from '../client'
import { labOf } from '../lab-of'
import { batchColumns, promiseColumns } from '../stock/apply-stock-change'
import { listLines } from './list-lines'
import { type StockState, type StockSummary, stockStates, summariseStock } from './summarise-stock'

/** `unknown`: neither a colour nor a family is on record. */
export type FamilyChoice = ColourFamily | 'unknown'
export const familyChoices: readonly FamilyChoice[] = [...colourFamilies, 'unknown']

export const threadOrders = ['drawer', 'colour'] as const
/** `drawer`: by maker, line and code. `colour`: by family, hue and lightness, as one chooses. */
export type ThreadOrder = (typeof threadOrders)[number]

export type ThreadFilter = {
  makerId: string | null
  lineId: string | null
  /** Its home or current place is this one or inside it. */
  placeId: string | null
  /** Every word of it occurs in maker, line, code or name. */
  text: string
  state: StockState | null
  family: FamilyChoice | null
}

export type ThreadRow = {
  id: string
  line: ThreadLine
  code: string
  name: string | null
  lab: Lab | null
  labCertainty: LabCertainty | null
  /** The one it is filed under, by a person's word or by its colour. */
  family: ColourFamily | null
  isLeaving: boolean
  minimumPutUps: number | null
  stock: StockSummary
  /** Where stock of it lives, and where what is out is now; each place once. */
  homes: { id: string; label: string }[]
  away: { id: string; label: string }[]
}

export type ThreadListing = {
  rows: ThreadRow[]
  total: number
  /** How many there would be with another choice here and the other choices as they are. */
  counts: {
    makers: Map<string, number>
    lines: Map<string, number>
    states: Record<StockState, number>
    families: Record<FamilyChoice, number>
  }
  lines: ThreadLine[]
}

type Found<Row> = {
  thread: Row
  line: ThreadLine
  lab: Lab | null
  family: ColourFamily | null
  stock: StockSummary
  batches: Batch[]
}

const bump = (counts: Map<string, number>, key: string) => counts.set(key, (counts.get(key) ?? 0) + 1)

/**
 * Threads with what these owners hold of them, in the order asked for, a page at a time.
 *
 * Codes are ordered as in a drawer, which no database does, and every count needs every thread's stock: so all threads are read and
 * narrowed down here. 3,000 threads with 4,500 batches take about a tenth of a second.
 */
export async function listThreads(
  filter: ThreadFilter,
  asked: { ownerIds: readonly string[]; offset: number; limit: number; order?: ThreadOrder },
): Promise<ThreadListing> {
  const { prisma } = database()
  const ownerIds = [...asked.ownerIds]
  const ofOwners = { goneAt: null, ownerId: { in: ownerIds } }
  const [lines, threads, batches, promises, places] = await Promise.all([
    listLines(),
    prisma.thread.findMany({
      where: { goneAt: null },
      select: {
        ...{ id: true, lineId: true, code: true, name: true, minimumPutUps: true },
        ...{ labL: true, labA: true, labB: true, labCertainty: true, family: true, isLeaving: true },
      },
    }),
    prisma.batch.findMany({ where: ofOwners, select: batchColumns, orderBy: { id: 'asc' } }) as unknown as Promise<Batch[]>,
    prisma.stockPromise.findMany({ where: { batch: ofOwners }, select: promiseColumns }),
    prisma.place.findMany({ select: { id: true, label: true, path: true } }),
  ])
  const placeById = new Map(places.map((place) => [place.id, place]))
  const lineById = new Map(lines.map((line) => [line.id, line]))
  const lineRank = new Map(lines.map((line, index) => [line.id, index]))
  const batchesOf = grouped(batches, (batch) => batch.threadId)
  const promisesOf = grouped<string, StockPromise>(promises, (promise) => promise.batchId)
  const insidePath = filter.placeId === null ? null : (placeById.get(filter.placeId)?.path ?? '')
  const isInPlace = (placeId: string | null) =>
    placeId !== null && insidePath !== null && (placeById.get(placeId)?.path.startsWith(insidePath) ?? false)
  const words = textKey(filter.text).split(' ').filter(Boolean)

  const counts = {
    makers: new Map<string, number>(),
    lines: new Map<string, number>(),
    states: Object.fromEntries(stockStates.map((state) => [state, 0])) as Record<StockState, number>,
    families: Object.fromEntries(familyChoices.map((family) => [family, 0])) as Record<FamilyChoice, number>,
  }
  const found: Found<(typeof threads)[number]>[] = []
  for (const thread of threads) {
    const line = lineById.get(thread.lineId) as ThreadLine
    if (words.length > 0) {
      const text = textKey(`${line.makerName} ${line.name} ${thread.code} ${thread.name ?? ''}`)
      if (!words.every((word) => text.includes(word))) continue
    }
    const held = batchesOf.get(thread.id) ?? []
    if (insidePath !== null && !held.some((batch) => isInPlace(batch.homePlaceId) || isInPlace(batch.currentPlaceId))) continue
    const stock = summariseStock({
      threadId: thread.id,
      batches: held,
      promises: held.flatMap((batch) => promisesOf.get(batch.id) ?? []),
      ownerIds,
      minimumPutUps: thread.minimumPutUps,
    })
    const isInState = filter.state === null || stock.states.includes(filter.state)
    const isOfMaker = filter.makerId === null || line.makerId === filter.makerId
    const isOfLine = filter.lineId === null || line.id === filter.lineId
    const lab = labOf(thread)
    const family = filedFamily({ lab, family: familyNamed(thread.family) })
    const isOfFamily = filter.family === null || (family ?? 'unknown') === filter.family
    if (isInState && isOfFamily) bump(counts.makers, line.makerId)
    if (isInState && isOfFamily && isOfMaker) bump(counts.lines, line.id)
    if (isOfFamily && isOfMaker && isOfLine) for (const state of stock.states) counts.states[state]++
    if (isInState && isOfMaker && isOfLine) counts.families[family ?? 'unknown']++
    if (isInState && isOfMaker && isOfLine && isOfFamily) found.push({ thread, line, lab, family, stock, batches: held })
  }
  found.sort(
    (a, b) =>
      (asked.order === 'colour' ? compareForChoosing(a, b) : 0) ||
      (lineRank.get(a.line.id) as number) - (lineRank.get(b.line.id) as number) ||
      compareCodes(a.thread.code, b.thread.code),
  )
  const placesOf = (ids: (string | null)[]) =>
    [...new Set(ids)].flatMap((id) => {
      const place = id === null ? undefined : placeById.get(id)
      return place ? [{ id: place.id, label: place.label }] : []
    })
  return {
    rows: found.slice(asked.offset, asked.offset + asked.limit).map(({ thread, line, lab, family, stock, batches: all }) => {
      const held = all.filter((batch) => batch.wholePutUps > 0 || batch.partCertainty !== 'none')
      return {
        id: thread.id,
        line,
        code: thread.code,
        name: thread.name,
        lab,
        labCertainty: thread.labCertainty as LabCertainty | null,
        family,
        isLeaving: thread.isLeaving,
        minimumPutUps: thread.minimumPutUps,
        stock,
        // What is used up still says where the next of it goes.
        homes: placesOf((held.length > 0 ? held : all).map((batch) => batch.homePlaceId)),
        away: placesOf(held.filter(isOut).map((batch) => batch.currentPlaceId)),
      }
    }),
    total: found.length,
    counts,
    lines,
  }
}
