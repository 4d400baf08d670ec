import { statusRanks } from './line-status'

/**
 * Answers by row, in words, so that a change of one thread only adds and takes away. Threads that are enough are not counted.
 */
export type AnswerWords = {
  /** Two words a row: put-ups to buy; how many threads are `none`, `short`, `lots` and `elsewhere`, a byte each. */
  worse: Int32Array
  /** One word a row: how many are `unknown`, `swap` and `mixed`, a byte each, and whether nothing can ever be ready. */
  better: Int32Array
}

/** As many threads of one list as a byte counts; a list with more is worked out one by one, and its counts stop here. */
export const mostCounted = 0xff

/** Set in `better` where a list has no needs or is known to lack some: it is `unknown` at best. */
export const bareBit = 1 << 24

/** What one more thread of a rank adds to the word that counts it. */
export const stepOfRank = (rank: number): number => (rank === statusRanks.enough ? 0 : 1 << ((rank & 3) * 8))

export const wordsFor = (rowCount: number): AnswerWords => ({
  worse: new Int32Array(rowCount * 2),
  better: new Int32Array(rowCount),
})

/** Take one row over from another place. */
export function copyRow(from: AnswerWords, fromRow: number, to: AnswerWords, toRow: number): void {
  to.worse[toRow * 2] = from.worse[fromRow * 2] as number
  to.worse[toRow * 2 + 1] = from.worse[fromRow * 2 + 1] as number
  to.better[toRow] = from.better[fromRow] as number
}

export const isSameRow = (a: AnswerWords, b: AnswerWords, row: number): boolean =>
  a.worse[row * 2] === b.worse[row * 2] && a.worse[row * 2 + 1] === b.worse[row * 2 + 1] && a.better[row] === b.better[row]

const lowestByte = (word: number): number => (31 - Math.clz32(word & -word)) >>> 3

/** The rank of a row's status: that of its worst thread. */
export function rankAt({ worse, better }: AnswerWords, row: number): number {
  const worst = worse[row * 2 + 1] as number
  if (worst !== 0) return lowestByte(worst)
  const rest = better[row] as number
  if (rest === 0) return statusRanks.enough
  return rest >= bareBit ? statusRanks.unknown : statusRanks.unknown + lowestByte(rest)
}

/** Put-ups to buy, with those for lots that do not match. */
export const buyPutUpsAt = ({ worse }: AnswerWords, row: number): number => (worse[row * 2] as number) >>> 0

/** How many threads are not ready; those with a swap are among them. */
export function missingAt({ worse, better }: AnswerWords, row: number): number {
  const four = worse[row * 2 + 1] as number
  const rest = better[row] as number
  return (four & 0xff) + ((four >>> 8) & 0xff) + ((four >>> 16) & 0xff) + (four >>> 24) + (rest & 0xff) + ((rest >>> 8) & 0xff)
}
