import type { ReadingParts, ReadingProgress } from './page-reading'

/** Adds up how long each part of a reading takes. */
export type PartsClock = {
  parts: ReadingParts
  time: <T>(part: keyof ReadingParts, work: () => Promise<T>) => Promise<T>
  timeNow: <T>(part: keyof ReadingParts, work: () => T) => T
}

/** What the readers of every kind of file are handed. */
export type ReaderDesk = { root: string; clock: PartsClock; tell: (progress: ReadingProgress) => void }

export function partsClock(): PartsClock {
  const parts: ReadingParts = { opening: 0, words: 0, drawing: 0, straightening: 0, reading: 0, layingOut: 0, cover: 0 }
  return {
    parts,
    time: async (part, work) => {
      const begun = performance.now()
      try {
        return await work()
      } finally {
        parts[part] += performance.now() - begun
      }
    },
    timeNow: (part, work) => {
      const begun = performance.now()
      try {
        return work()
      } finally {
        parts[part] += performance.now() - begun
      }
    },
  }
}
