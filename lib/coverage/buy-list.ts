import { type Certainty, weakestCertainty } from '#lib/quantity/certainty'
import { type Batch, compareExact, isOut, knownStrandTenths, type StockPromise } from '#lib/stock/batch'
import { freeOfBatch, freeStock } from '#lib/stock/free-stock'
import { putUpsFor } from '#lib/thread/put-ups'
import type { ThreadLine } from '#lib/thread/thread'
import { cutOf } from './kit-cuts'
import { assignStandIns, figuresOf, isReadyRank, rankOf } from './line-status'
import type { ThreadNeed } from './need'

/** Something to be stitched and what it needs. A project counts on what it was promised already. */
export type Want = {
  key: string
  projectId: string | null
  needs: readonly ThreadNeed[]
  /** Of a kit batch: the length each kit has cut without a join, by thread. */
  cuts?: ReadonlyMap<string, number>
}

/** All of one thread's batches that are at hand, and every promise on them. */
export type ThreadStock = { batches: readonly Batch[]; promises: readonly StockPromise[] }

/** What is still to come: of one order, or of one line of a list somebody shops by. */
export type ToCome = { orderId: string; putUpStrandTenths: number; putUps: number; lot: string | null; isOnList?: boolean }

/**
 * `covered`: nothing to buy. `buy`: to be bought. The rest need buying only if something at hand will not do: `out`, what lies outside
 * its place and is promised to nobody would be enough; `lots`, there is enough, but of no one lot; `unknown`, a part nobody has
 * measured may be enough; `swap`, an accepted stand-in holds enough.
 */
export const buyStandings = ['buy', 'lots', 'out', 'unknown', 'swap', 'covered'] as const
export type BuyStanding = (typeof buyStandings)[number]

/** One thread's line on the list. Lengths in tenths of a millimetre of one strand. */
export type BuyLine = {
  threadId: string
  standing: BuyStanding
  /** What each of them needs, in the order handed in, and what it has been promised of that. */
  uses: { key: string; needStrandTenths: number; promisedStrandTenths: number }[]
  /** All uses together, before anything is rounded. */
  needStrandTenths: number
  /** Promised to these very projects. */
  promisedStrandTenths: number
  freeStrandTenths: number
  /** Out of its place and promised to nobody; not counted on. */
  outStrandTenths: number
  onOrderStrandTenths: number
  /** On a list somebody shops by, and not bought yet; counted on, so that nothing is bought twice. */
  onListStrandTenths: number
  /** To be bought: where lots matter, what has to come from one lot. */
  shortStrandTenths: number
  putUpStrandTenths: number
  /** Whole put-ups that hold what is short. */
  putUps: number
  /** The longest cut of a kit, which has no join; null when none is cut. */
  cutStrandTenths: number | null
  /** Where lots matter: the lot that `putUps` go with, null for a new one; how many it takes of a new one; and how many are usually
   * added to be safe. All of them are to be bought at once. */
  sameLot: { lot: string | null; newLotPutUps: number; sparePutUps: number } | null
  /** Other lengths the thread is held in, and how many of those would do. */
  otherPutUps: { putUpStrandTenths: number; putUps: number }[]
  standInThreadId: string | null
  certainty: Certainty
}

type Lot = { key: string; lot: string | null; supply: number; out: number }
type Use = { key: string; need: number; promised: Map<string, number> }

/** A batch without a lot mark is a lot of its own: nobody can say that two of them match. */
const lotKey = (lot: string | null, id: string): string => (lot === null ? `unmarked ${id}` : `lot ${lot}`)
const sum = (figures: Iterable<number>): number => [...figures].reduce((total, figure) => total + figure, 0)

/** How much of what was promised is really there, by project and lot: those promised first are served first. */
function standingPromises({ batches, promises }: ThreadStock): Map<string, Map<string, number>> {
  const byProject = new Map<string, Map<string, number>>()
  for (const batch of batches) {
    let left = knownStrandTenths(batch)
    const onBatch = promises.filter(({ batchId }) => batchId === batch.id).sort((a, b) => compareExact(a.id, b.id))
    for (const { projectId, strandTenths } of onBatch) {
      const kept = Math.min(left, strandTenths)
      left -= kept
      const lots = byProject.get(projectId) ?? new Map<string, number>()
      const key = lotKey(batch.lot, batch.id)
      lots.set(key, (lots.get(key) ?? 0) + kept)
      byProject.set(projectId, lots)
    }
  }
  return byProject
}

/** What a length in put-ups of some length counts for. */
type Worth = (strandTenths: number, putUpStrandTenths: number) => number

/**
 * A need for kits is reckoned in the line's own put-ups with their remnants, so put-ups of another length count for the cuts that come
 * out of them: a put-up of three cuts for one and a half of two. Where something else needs the thread too, lengths count as they are.
 */
function worthFor(cutStrandTenths: number | null, ownPutUpStrandTenths: number): Worth {
  const own = cutStrandTenths === null ? null : cutOf(cutStrandTenths, ownPutUpStrandTenths)
  if (own === null || own.whole > 0) return (strandTenths) => strandTenths
  return (strandTenths, putUpStrandTenths) => {
    if (putUpStrandTenths === ownPutUpStrandTenths) return strandTenths
    const whole = Math.floor(strandTenths / putUpStrandTenths)
    const cuts = Math.floor(putUpStrandTenths / own.rest)
    return whole * Math.ceil((cuts * ownPutUpStrandTenths) / own.perPutUp) + (strandTenths - whole * putUpStrandTenths)
  }
}

/** What is free, on order and out of each lot, in the order of their marks; what is on order without a lot is a lot of its own. */
function lotsOf(stock: ThreadStock, toCome: readonly ToCome[], worth: Worth): Lot[] {
  const lots = new Map<string, Lot>()
  const add = (lot: string | null, id: string, supply: number, out: number) => {
    const key = lotKey(lot, id)
    const known = lots.get(key) ?? { key, lot, supply: 0, out: 0 }
    lots.set(key, { ...known, supply: known.supply + supply, out: known.out + out })
  }
  for (const batch of stock.batches) {
    const { freeStrandTenths } = freeOfBatch(batch, stock.promises, null)
    add(batch.lot, batch.id, worth(freeStrandTenths, batch.putUpStrandTenths), outOf(batch, stock.promises))
  }
  for (const { orderId, putUpStrandTenths, putUps, lot } of toCome)
    add(lot, orderId, worth(putUpStrandTenths * putUps, putUpStrandTenths), 0)
  return [...lots.values()].sort((a, b) => compareExact(a.key, b.key))
}

/** The longest cut any of them makes of a thread; null when it is cut for no kit. */
const longestCut = (wants: readonly Want[], threadId: string): number | null =>
  wants.reduce<number | null>((longest, { cuts }) => {
    const cut = cuts?.get(threadId) ?? 0
    return cut > (longest ?? 0) ? cut : longest
  }, null)

const lengthOf = (toCome: readonly ToCome[]): number =>
  sum(toCome.map(({ putUps, putUpStrandTenths }) => putUps * putUpStrandTenths))

function outOf(batch: Batch, promises: readonly StockPromise[]): number {
  if (!isOut(batch)) return 0
  const promised = sum(promises.filter(({ batchId }) => batchId === batch.id).map(({ strandTenths }) => strandTenths))
  return Math.max(0, knownStrandTenths(batch) - promised)
}

type Short = { shortStrandTenths: number; isInMixedLots: boolean; isOutEnough: boolean; lot: string | null; newLot: number }

/** Every lot will do: all that is needed, less what is promised, free and on order. */
function shortOfAny(uses: readonly Use[], lots: readonly Lot[]): Short {
  const wanted = sum(uses.map(({ need, promised }) => Math.max(0, need - sum(promised.values()))))
  const shortStrandTenths = Math.max(0, wanted - sum(lots.map(({ supply }) => supply)))
  const isOutEnough = sum(lots.map(({ out }) => out)) >= shortStrandTenths
  return { shortStrandTenths, isInMixedLots: false, isOutEnough, lot: null, newLot: shortStrandTenths }
}

/**
 * Each use must come from one lot, though not all uses from the same. The greatest is served first, from the lot it was promised some
 * of already, else from the smallest that is enough; with several lots another order may leave less to buy. What no lot can serve is
 * bought together: of a new lot, or added to the marked lot that takes the least.
 */
function shortOfOneLot(uses: readonly Use[], lots: readonly Lot[]): Short {
  const supply = new Map(lots.map(({ key, supply: length }) => [key, length]))
  const wantedFrom = (use: Use, key: string) => Math.max(0, use.need - (use.promised.get(key) ?? 0))
  const unserved: Use[] = []
  for (const use of [...uses].sort((a, b) => b.need - a.need || compareExact(a.key, b.key))) {
    const keys = [...new Set([...supply.keys(), ...use.promised.keys()])].sort(compareExact)
    const [best] = keys
      .map((key) => ({ key, wanted: wantedFrom(use, key), left: (supply.get(key) ?? 0) - wantedFrom(use, key) }))
      .filter(({ left }) => left >= 0)
      .sort((a, b) => a.wanted - b.wanted || a.left - b.left || compareExact(a.key, b.key))
    if (best) supply.set(best.key, best.left)
    else unserved.push(use)
  }
  const newLot = sum(unserved.map(({ need }) => need))
  if (newLot === 0) return { shortStrandTenths: 0, isInMixedLots: false, isOutEnough: true, lot: null, newLot }
  const wantedOf = (key: string) => sum(unserved.map((use) => wantedFrom(use, key))) - (supply.get(key) ?? 0)
  const promised = sum(unserved.flatMap((use) => [...use.promised.values()]))
  const isInMixedLots = sum(supply.values()) + promised >= newLot
  const isOutEnough = lots.some(({ key, out }) => out > 0 && out >= wantedOf(key))
  const marked = new Map(lots.flatMap(({ key, lot }) => (lot === null ? [] : [[key, lot] as const])))
  const [best] = [...marked]
    .map(([key, lot]) => ({ lot, wanted: wantedOf(key) }))
    .filter(({ wanted }) => wanted < newLot)
    .sort((a, b) => a.wanted - b.wanted || compareExact(a.lot, b.lot))
  if (!best || isInMixedLots) return { shortStrandTenths: newLot, isInMixedLots, isOutEnough, lot: null, newLot }
  return { shortStrandTenths: best.wanted, isInMixedLots, isOutEnough, lot: best.lot, newLot }
}

/**
 * One list of what to buy for several designs and projects: the needs of each thread are summed over all of them before anything is
 * rounded to put-ups, free stock and what is on order are taken off once, and what a project was promised counts for that project
 * alone. Nothing promised to others is counted on. Swaps are not assumed: where an accepted one is held, the line says so and still
 * gives what to buy.
 *
 * @param input.stock   By thread, of these owners or of anybody; only these owners' counts. A thread left out is not held.
 * @param input.toCome  These owners' open orders, and what is on lists they shop by, by thread.
 * @param input.lines   The line of every thread needed, and of every stand-in.
 * @returns one line for every thread needed, by thread id; those with `putUps` 0 are covered.
 * @throws {RangeError} if a line is missing or two wants have one key.
 */
export function planBuyList(input: {
  wants: readonly Want[]
  stock: ReadonlyMap<string, ThreadStock>
  toCome: ReadonlyMap<string, readonly ToCome[]>
  lines: ReadonlyMap<string, Pick<ThreadLine, 'lotsMatter' | 'putUpStrandTenths'>>
  standIns: ReadonlyMap<string, readonly string[]>
  ownerIds: readonly string[]
}): BuyLine[] {
  const { wants, ownerIds } = input
  if (new Set(wants.map(({ key }) => key)).size < wants.length) throw new RangeError('planBuyList: two wants have one key')
  const lineOf = (threadId: string) => {
    const line = input.lines.get(threadId)
    if (!line) throw new RangeError(`planBuyList: no line for thread ${threadId}`)
    return line
  }
  const stockOf = (threadId: string): ThreadStock => {
    const { batches, promises } = input.stock.get(threadId) ?? { batches: [], promises: [] }
    return { batches: batches.filter((batch) => ownerIds.includes(batch.ownerId)), promises }
  }
  const freeOf = (threadId: string) => freeStock({ threadId, ...stockOf(threadId), ownerIds })

  const threadIds = [...new Set(wants.flatMap(({ needs }) => needs.map(({ threadId }) => threadId)))].sort(compareExact)
  const lines = threadIds.map((threadId): BuyLine => {
    const line = lineOf(threadId)
    const stock = stockOf(threadId)
    const free = freeOf(threadId)
    const toCome = input.toCome.get(threadId) ?? []
    const promised = standingPromises(stock)
    const needs = wants.flatMap((want) => want.needs.filter((need) => need.threadId === threadId).map((need) => ({ want, need })))
    const uses: Use[] = wants.flatMap(({ key, projectId, needs: all }) => {
      const need = sum(all.filter((one) => one.threadId === threadId).map(({ strandTenths }) => strandTenths))
      return need > 0 ? [{ key, need, promised: promised.get(projectId ?? '') ?? new Map() }] : []
    })
    const cutStrandTenths = longestCut(wants, threadId)
    const isForKitsAlone = uses.every(({ key }) => (wants.find((want) => want.key === key)?.cuts?.get(threadId) ?? 0) > 0)
    const lots = lotsOf(stock, toCome, worthFor(isForKitsAlone ? cutStrandTenths : null, line.putUpStrandTenths))
    const short = line.lotsMatter ? shortOfOneLot(uses, lots) : shortOfAny(uses, lots)
    const putUps = putUpsFor(short.shortStrandTenths, line.putUpStrandTenths)
    const newLotPutUps = putUpsFor(short.newLot, line.putUpStrandTenths)
    /** A part of unknown length is at most one put-up. */
    const unmeasured = sum(
      stock.batches.filter((batch) => batch.partCertainty === 'some' && !isOut(batch)).map((batch) => batch.putUpStrandTenths),
    )
    const standing: BuyStanding =
      putUps === 0
        ? 'covered'
        : short.shortStrandTenths <= unmeasured
          ? 'unknown'
          : short.isOutEnough
            ? 'out'
            : short.isInMixedLots
              ? 'lots'
              : 'buy'
    const others = new Set(stock.batches.map((batch) => batch.putUpStrandTenths))
    others.delete(line.putUpStrandTenths)
    return {
      threadId,
      standing,
      uses: uses.map((use) => ({
        key: use.key,
        needStrandTenths: use.need,
        promisedStrandTenths: Math.min(use.need, sum(use.promised.values())),
      })),
      needStrandTenths: sum(uses.map(({ need }) => need)),
      promisedStrandTenths: sum(uses.map((use) => Math.min(use.need, sum(use.promised.values())))),
      freeStrandTenths: free.freeStrandTenths,
      outStrandTenths: sum(lots.map(({ out }) => out)),
      onOrderStrandTenths: lengthOf(toCome.filter(({ isOnList }) => !isOnList)),
      onListStrandTenths: lengthOf(toCome.filter(({ isOnList }) => isOnList)),
      shortStrandTenths: short.shortStrandTenths,
      putUpStrandTenths: line.putUpStrandTenths,
      putUps,
      cutStrandTenths,
      sameLot:
        line.lotsMatter && putUps > 0
          ? { lot: short.lot, newLotPutUps, sparePutUps: Math.max(1, Math.ceil(newLotPutUps / 10)) }
          : null,
      otherPutUps:
        putUps === 0
          ? []
          : [...others]
              .sort((a, b) => a - b)
              .map((putUpStrandTenths) => ({
                putUpStrandTenths,
                putUps: putUpsFor(short.shortStrandTenths, putUpStrandTenths),
              })),
      standInThreadId: null,
      certainty: weakestCertainty([
        ...needs.map(({ need }) => need.certainty),
        ...(free.freeStrandTenths > 0 ? [free.certainty] : []),
      ]),
    }
  })

  const needByThread = new Map(lines.map((line) => [line.threadId, line.needStrandTenths]))
  const standInOf = assignStandIns({
    wanted: lines
      .filter(({ putUps }) => putUps > 0)
      .map(({ threadId, needStrandTenths, promisedStrandTenths }) => ({
        threadId,
        strandTenths: needStrandTenths - promisedStrandTenths,
      })),
    standInsOf: (threadId) => input.standIns.get(threadId) ?? [],
    ownNeed: (threadId) => needByThread.get(threadId) ?? 0,
    isReadyWith: (threadId, strandTenths) => isReadyRank(rankOf(strandTenths, figuresOf(freeOf(threadId)), lineOf(threadId))),
  })
  return lines.map((line) => {
    const standInThreadId = standInOf.get(line.threadId) ?? null
    return standInThreadId === null ? line : { ...line, standing: 'swap', standInThreadId }
  })
}
