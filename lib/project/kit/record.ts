/** Whole numbers from one to another, both counted. */
export type BagRange = { fromBag: number; toBag: number }

/** The batch record, a line of it: these bags have their cuts of this thread out of that stock. */
export type KitLot = BagRange & { threadId: string; batchId: string; lot: string | null }

/** Numbers in rising order as ranges: 1–8, 9–13. */
export function rangesOf(numbers: readonly number[]): BagRange[] {
  const ranges: BagRange[] = []
  for (const number of [...new Set(numbers)].sort((a, b) => a - b)) {
    const last = ranges.at(-1)
    if (last && last.toBag === number - 1) last.toBag = number
    else ranges.push({ fromBag: number, toBag: number })
  }
  return ranges
}

export const isInRange = ({ fromBag, toBag }: BagRange, bag: number): boolean => bag >= fromBag && bag <= toBag

export function numbersOf({ fromBag, toBag }: BagRange): number[] {
  return Array.from({ length: toBag - fromBag + 1 }, (_, at) => fromBag + at)
}

/** The bags that have their cut of a thread. */
export const bagsWithCut = (lots: readonly KitLot[], threadId: string): Set<number> =>
  new Set(lots.flatMap((lot) => (lot.threadId === threadId ? numbersOf(lot) : [])))

/** What is left of a line of the record when one of its bags is cut for anew: none, one or two shorter ones. */
export function withoutBag<Lot extends BagRange>(lot: Lot, bag: number): Lot[] {
  if (!isInRange(lot, bag)) return [lot]
  return [
    { ...lot, toBag: bag - 1 },
    { ...lot, fromBag: bag + 1 },
  ].filter(({ fromBag, toBag }) => fromBag <= toBag)
}

/** Which bags have which lot of one thread. A batch without a mark is a lot of its own: nobody can say that two match. */
export type BagsOfLot = { lot: string | null; batchIds: string[]; bags: number[] }

/** The lots of one thread over the bags, those of most bags first; ties by the first bag. */
export function lotsOverBags(lots: readonly KitLot[], threadId: string): BagsOfLot[] {
  const byLot = new Map<string, BagsOfLot>()
  for (const line of lots) {
    if (line.threadId !== threadId) continue
    const key = line.lot === null ? `unmarked ${line.batchId}` : `lot ${line.lot}`
    const known = byLot.get(key) ?? { lot: line.lot, batchIds: [], bags: [] }
    known.bags.push(...numbersOf(line))
    if (!known.batchIds.includes(line.batchId)) known.batchIds.push(line.batchId)
    byLot.set(key, known)
  }
  for (const one of byLot.values()) one.bags.sort((a, b) => a - b)
  return [...byLot.values()].sort((a, b) => b.bags.length - a.bags.length || (a.bags[0] ?? 0) - (b.bags[0] ?? 0))
}

/**
 * Read bag numbers as one writes them: "1–8, 13", "1-3 5", "all" for every one there is.
 *
 * @returns the numbers in rising order; null when it does not read, or names a bag there is not.
 */
export function parseBags(text: string, known: readonly number[]): number[] | null {
  const said = text
    .trim()
    .toLowerCase()
    .replace(/\s*[-–—]\s*|\s+to\s+/gu, '-')
  if (said === 'all') return [...known]
  const numbers = new Set<number>()
  for (const part of said.split(/[\s,;&]+|\band\b/u).filter((word) => word !== '' && !/^bags?$/u.test(word))) {
    const found = /^(\d{1,5})(?:-(\d{1,5}))?$/u.exec(part)
    if (!found) return null
    const [from, to] = [Number(found[1]), Number(found[2] ?? found[1])]
    if (from > to || !known.includes(from) || !known.includes(to)) return null
    for (const number of known) if (number >= from && number <= to) numbers.add(number)
  }
  return numbers.size === 0 ? null : [...numbers].sort((a, b) => a - b)
}
