import { sayings } from '#language/say'
import type { SheetLine } from '#lib/db/count/queries'
import type { CountStatus } from '#lib/stock/stocktake'
import { threadName } from '#words/thread'

export const statusWords: Record<CountStatus, string> = sayings({
  open: 'being counted',
  counted: 'to be compared',
  signed: 'signed off',
  dropped: 'given up',
})

/** "Larkholm 0311 Saffron", or what was written of a thing found. */
export const lineName = ({ thread, found }: Pick<SheetLine, 'thread' | 'found'>): string =>
  thread ? threadName(thread) : (found ?? '')
