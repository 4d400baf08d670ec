import type { StitchTally } from '../thread/stitches'

/** Stated put-ups in hundredths (two skeins = 200; 0.6 of a skein = 60), and the strand length of the put-up they were stated in. */
export type StatedPutUps = { hundredths: number; putUpStrandTenths: number }

/** One thread in the needle. A blend has several, each with its own strands. */
export type KeyLineThread = { threadId: string; strands: number; stated: StatedPutUps | null }

/** One line of a key: symbol, thread or blend, and its amount by stitches, by stated put-ups, or (`tally` null and no `stated`) none. */
export type KeyLine = {
  id: string
  symbol: string | null
  threads: KeyLineThread[]
  tally: StitchTally | null
}

/** One palette of a design. */
export type ThreadList = { id: string; designId: string; name: string; keyLines: KeyLine[] }
