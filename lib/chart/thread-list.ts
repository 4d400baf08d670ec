import type { StitchTally } from '../thread/stitches'

/**
 * Stated put-ups in hundredths (two skeins = 200; 0.6 of a skein = 60), and the put-up they were stated in: its length
 * as sold, in tenths of a millimetre, or null when the key does not say which and the line's own is meant.
 */
export type StatedPutUps = { hundredths: number; putUpTenths: number | null }

/** One thread in the needle. A blend has several, each with its own strands. */
export type KeyLineThread = { threadId: string; strands: number; stated: StatedPutUps | null }

/** One line of a key: symbol, thread or blend, and its amount by stitches, by stated put-ups, or (`tally` null and no `stated`) none. */
export type KeyLine = {
  id: string
  symbol: string | null
  threads: KeyLineThread[]
  tally: StitchTally | null
}

/** One palette of a design. `isIncomplete`: lines of its key are known to be wanting, so that it is never all ready. */
export type ThreadList = { id: string; designId: string; name: string; isIncomplete?: boolean; keyLines: KeyLine[] }
