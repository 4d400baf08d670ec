import { planYardage, type YardagePlan, type YardageRequest } from '#lib/cloth/yardage'
import { countKits, type KitLine, putUpsForKits } from '#lib/coverage/kit-count'
import type { Batch, StockPromise } from '#lib/stock/batch'
import type { ThreadLine } from '#lib/thread/thread'

/** How many kits, and how many of them are spares: those want no chart until they are sold. */
export type KitNumbers = { copies: number; spares: number; soldSpares: number }

/** Cloth for a batch of kits, in pieces of the size one kit takes. */
export type KitClothStock = {
  /** Cut for it already, and lying there. */
  cut: number
  /** More that come out of cloth kept for it, whole pieces and plans of cuts. */
  kept: number
  /** More that come out of cloth that is free and looks the same. */
  free: number
  /** How one lies on the bolt; null where it is not known how it is cut. */
  bolt: Omit<YardageRequest, 'copies'> | null
}

/** Bought charts: how many there are for this batch, other batches' taken off. */
type KitChartStock = { isFile: boolean; copies: number }

export type KitItemStock = {
  id: string
  perKit: number
  /** For this batch: what was taken for it and what is free; null where no stock of it is kept. */
  have: number | null
  packOf: number | null
}

/** What is to be bought of one line. */
export type LineToBuy =
  | { kind: 'thread'; putUps: number }
  /** `lengthUm` off the bolt, in the shop's steps; null where no bolt is wide enough, or the size is not known. */
  | { kind: 'cloth'; pieces: number; lengthUm: number | null }
  | { kind: 'chart'; copies: number }
  | { kind: 'item'; count: number; packs: number | null }

type LineSums = {
  /** As in the master list: `thread:<id>`, `cloth`, `chart`, `item:<id>`. */
  key: string
  /** Kits there is enough of it for; null where nobody can say, and then it stops none. May be more than are wanted. */
  kits: number | null
  /** For all kits; null when there is enough. */
  toBuy: LineToBuy | null
}

export type ReckonedLine = LineSums &
  (
    | ({ kind: 'thread'; cut: number } & Omit<KitLine, 'kits' | 'toBuyPutUps'>)
    | { kind: 'cloth'; wanted: number; cut: number; kept: number; free: number; boltForAll: YardagePlan | null }
    | { kind: 'chart'; wanted: number; isFile: boolean; copies: number }
    | { kind: 'item'; itemId: string; perKit: number; wanted: number; have: number | null; packsForAll: number | null }
  )

export type KitReckoning = KitNumbers & {
  /** Kits that can be made, at most as many as are wanted; null when nothing of what they take is known. */
  makeable: number | null
  /** What stops the next one: the lines there is enough of for no more, and what to buy for one more. */
  stops: { key: string; toBuy: LineToBuy | null }[]
  /** Threads in the order of the key, cloth, chart, then the items. */
  lines: ReckonedLine[]
  /** Lines of which nobody can say how many kits they give. */
  unknown: string[]
}

export type KitStock = KitNumbers & {
  /** What one kit takes of each thread; none when there is no thread list. */
  threads: {
    needs: readonly { threadId: string; strandTenths: number }[]
    /** Kits that have their cut already, by thread: they want no more of it. */
    cut: ReadonlyMap<string, number>
    batches: readonly Batch[]
    promises: readonly StockPromise[]
    lines: ReadonlyMap<string, Pick<ThreadLine, 'lotsMatter' | 'putUpStrandTenths'>>
    projectId: string
  }
  /** Null where the size of the design or the count of the cloth is not known. */
  cloth: KitClothStock | null
  chart: KitChartStock
  items: readonly KitItemStock[]
}

/** Bought charts that a batch of kits wants: one to each kit, none to a spare until it is sold. */
export const chartsWanted = ({ copies, spares, soldSpares }: KitNumbers): number => copies - spares + soldSpares

/** Whole packs that hold so many. */
const packsOf = (count: number, packOf: number | null): number | null => (packOf === null ? null : Math.ceil(count / packOf))

/**
 * What a batch of kits takes of everything, how many of them can be made from what is there, and what stops the next one.
 *
 * Each line allows ⌊what there is ÷ what one kit takes⌋ kits, and the fewest of them is what can be made: a kit short of one line is no
 * kit. Thread is counted in cuts without a join, of one lot where lots matter (see `countKits`). A line of which nobody can say what
 * there is stops nothing, and is named. Source: the project's trade notes, 3.4 "Kit N".
 *
 * @throws {RangeError} if the numbers make no sense: no copies, more spares than copies, more sold than there are, nought of an item.
 */
export function reckonKits(stock: KitStock): KitReckoning {
  const { copies, spares, soldSpares, cloth } = stock
  const isSense = copies >= 1 && spares >= 0 && spares <= copies && soldSpares >= 0 && soldSpares <= spares
  if (!isSense || ![copies, spares, soldSpares].every(Number.isSafeInteger))
    throw new RangeError(`reckonKits: ${copies} copies, ${spares} spares, ${soldSpares} sold`)
  const lines: ReckonedLine[] = [
    ...stock.threads.needs.map((need) => threadLine(need, stock)),
    clothLine(cloth, copies),
    chartLine(stock.chart, stock),
    ...stock.items.map((item) => itemLine(item, copies)),
  ]
  const known = lines.flatMap(({ kits }) => (kits === null ? [] : [kits]))
  // A chart or cloth alone is no answer: without threads and items nobody has said what goes into a kit.
  const hasContents = lines.some(({ kind, kits }) => (kind === 'thread' || kind === 'item') && kits !== null)
  const makeable = hasContents ? Math.min(copies, ...known) : null
  const isStopped = makeable !== null && makeable < copies
  return {
    ...{ copies, spares, soldSpares, makeable, lines },
    stops: isStopped ? stopsOf(stock, lines, makeable) : [],
    unknown: lines.flatMap(({ key, kits }) => (kits === null ? [key] : [])),
  }
}

function stopsOf(stock: KitStock, lines: readonly ReckonedLine[], makeable: number): KitReckoning['stops'] {
  const next = makeable + 1
  const toBuyForNext = (line: ReckonedLine): LineToBuy | null => {
    switch (line.kind) {
      case 'thread':
        return { kind: 'thread', putUps: countThread(line, stock, next).toBuyPutUps }
      case 'cloth':
        return clothToBuy(stock.cloth, next)
      case 'chart':
        return { kind: 'chart', copies: 1 }
      case 'item':
        return itemToBuy(stock.items.find(({ id }) => id === line.itemId) as KitItemStock, next)
    }
  }
  return lines.flatMap((line) => (line.kits === makeable ? [{ key: line.key, toBuy: toBuyForNext(line) }] : []))
}

/** One thread, for the kits that have no cut of it yet. */
function countThread(
  { threadId, perKitStrandTenths }: { threadId: string; perKitStrandTenths: number },
  { threads }: KitStock,
  kits: number,
): KitLine {
  const wanted = Math.max(0, kits - (threads.cut.get(threadId) ?? 0))
  const needs = [{ threadId, strandTenths: perKitStrandTenths }]
  return countKits({ ...threads, needs, wanted }).lines[0] as KitLine
}

function threadLine({ threadId, strandTenths }: { threadId: string; strandTenths: number }, stock: KitStock): ReckonedLine {
  const { copies } = stock
  const cut = Math.min(copies, stock.threads.cut.get(threadId) ?? 0)
  const { toBuyPutUps, ...line } = countThread({ threadId, perKitStrandTenths: strandTenths }, stock, copies)
  const { putUpStrandTenths } = stock.threads.lines.get(threadId) as Pick<ThreadLine, 'putUpStrandTenths'>
  return {
    ...{ ...line, kind: 'thread', key: `thread:${threadId}`, cut, kits: cut + line.kits },
    putUpsForAll: putUpsForKits(strandTenths, putUpStrandTenths, copies),
    toBuy: toBuyPutUps > 0 ? { kind: 'thread', putUps: toBuyPutUps } : null,
  }
}

function clothLine(cloth: KitClothStock | null, copies: number): ReckonedLine {
  const sums = { key: 'cloth', kind: 'cloth' as const, wanted: copies }
  if (cloth === null) return { ...sums, kits: null, toBuy: null, cut: 0, kept: 0, free: 0, boltForAll: null }
  const { cut, kept, free, bolt } = cloth
  return {
    ...sums,
    ...{ cut, kept, free },
    kits: cut + kept + free,
    toBuy: clothToBuy(cloth, copies),
    boltForAll: bolt && planYardage({ ...bolt, copies }),
  }
}

function clothToBuy(cloth: KitClothStock | null, copies: number): LineToBuy | null {
  if (cloth === null) return null
  const pieces = copies - cloth.cut - cloth.kept - cloth.free
  if (pieces <= 0) return null
  const lengthUm = cloth.bolt ? (planYardage({ ...cloth.bolt, copies: pieces }).best?.toBuyUm ?? null) : null
  return { kind: 'cloth', pieces, lengthUm }
}

function chartLine({ isFile, copies }: KitChartStock, numbers: KitNumbers): ReckonedLine {
  const wanted = chartsWanted(numbers)
  const short = wanted - copies
  return {
    ...{ key: 'chart', kind: 'chart', wanted, isFile, copies },
    // Once every kit to be sold has its chart, spares wait for none; beyond those, each further kit wants one.
    kits: isFile ? null : short > 0 ? copies : copies + numbers.copies - wanted,
    toBuy: short > 0 ? { kind: 'chart', copies: short } : null,
  }
}

function itemLine(item: KitItemStock, copies: number): ReckonedLine {
  const { id, perKit, have, packOf } = item
  if (!Number.isSafeInteger(perKit) || perKit < 1) throw new RangeError(`reckonKits: ${perKit} of ${id} to a kit`)
  const wanted = perKit * copies
  return {
    ...{ key: `item:${id}`, kind: 'item', itemId: id, perKit, wanted, have },
    kits: have === null ? null : Math.floor(have / perKit),
    packsForAll: packsOf(wanted, packOf),
    toBuy: itemToBuy(item, copies),
  }
}

function itemToBuy({ perKit, have, packOf }: KitItemStock, copies: number): LineToBuy | null {
  const count = have === null ? 0 : perKit * copies - have
  return count > 0 ? { kind: 'item', count, packs: packsOf(count, packOf) } : null
}
