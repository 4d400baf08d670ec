import { numberText } from '#language/figures'
import type { DesignKits, KitBatch, KitThread } from '#lib/db/coverage/design-kits'
import { counted, listed } from '#words/amounts'
import { ordinal } from '#words/ordinal'

type Named = (threadId: string) => string

/** As many threads as one sentence bears. */
const mostNamed = 4

const named = (names: readonly string[]): string =>
  names.length > mostNamed
    ? `${names.slice(0, mostNamed - 1).join(', ')} and ${names.length - mostNamed + 1} more`
    : listed(names)

/** "1 skein", "3 skeins of lot 18", "5 skeins of one lot". */
export function toBuyWords({ line, lotToMatch }: Pick<KitThread, 'line' | 'lotToMatch'>, putUps: number): string {
  const amount = counted(putUps, line.putUpWord)
  if (!line.lotsMatter) return amount
  return lotToMatch ? `${amount} of lot ${lotToMatch.lot}` : putUps > 1 ? `${amount} of one lot` : amount
}

/** "You can make 7 kits now." and what stops the next one: "0742 stops the eighth: buy 1 skein." */
export function kitsAnswer({ kits, stops, threads }: DesignKits, nameOf: Named): { answer: string; stops: string } {
  if (threads.length === 0) return { answer: 'Not known yet: its thread list is not in.', stops: '' }
  const names = stops.map(({ thread }) => nameOf(thread.threadId))
  const stop = `${named(names)} ${stops.length === 1 ? 'stops' : 'stop'} the ${ordinal(kits + 1)}`
  const alike = new Set(stops.map(({ thread, toBuyPutUps }) => toBuyWords(thread, toBuyPutUps)))
  const buys =
    alike.size === 1
      ? [...alike].map((words) => (stops.length === 1 ? words : `${words} of each`))
      : stops.map(({ thread, toBuyPutUps }) => {
          const { line, lotToMatch, threadId } = thread
          const lot = lotToMatch ? ` (lot ${lotToMatch.lot})` : line.lotsMatter && toBuyPutUps > 1 ? ' (one lot)' : ''
          return `${counted(toBuyPutUps, line.putUpWord)} of ${nameOf(threadId)}${lot}`
        })
  return {
    answer: kits === 0 ? 'You can make no kit now.' : `You can make ${counted(kits, 'kit')} now.`,
    stops: stops.length > mostNamed ? `${stop}.` : `${stop}: buy ${listed(buys)}.`,
  }
}

/** "12 kits and 1 spare". */
export const numberWords = ({ asked, spares }: Pick<DesignKits, 'asked' | 'spares'>): string =>
  [counted(asked, 'kit'), ...(spares > 0 ? [counted(spares, 'spare')] : [])].join(' and ')

/** "For 12 kits and 1 spare there is enough thread." or what is to be bought in all. */
export function boughtWords(kits: DesignKits): string {
  const short = kits.threads.filter(({ toBuyPutUps }) => toBuyPutUps > 0)
  if (short.length === 0) return `There is enough thread for ${numberWords(kits)}.`
  const putUps = short.reduce((sum, { toBuyPutUps }) => sum + toBuyPutUps, 0)
  const amount = counted(putUps, putUpWordOf(short))
  return `For ${numberWords(kits)}, buy ${amount} of ${counted(short.length, 'thread')}.`
}

/** The answer to whether all kits asked about come from one lot, and a sentence for each thread or group of threads it hangs on. */
export function oneLotWords({ asked, spares, threads }: DesignKits, nameOf: Named): { answer: string; notes: string[] } {
  const wanted = asked + spares
  const isOneLot = ({ lots }: KitThread) => (lots[0]?.kits ?? 0) >= wanted
  const mattering = threads.filter(({ line }) => line.lotsMatter)
  const wanting = mattering.filter((thread) => !isOneLot(thread))
  const solids = threads.filter(({ line }) => !line.lotsMatter)
  const isHeld = ({ kits }: KitThread) => kits >= wanted
  const scattered = solids.filter((thread) => isHeld(thread) && !isOneLot(thread))
  const short = solids.filter((thread) => !isHeld(thread))
  const notes = [
    ...mattering.filter(isOneLot).map(({ threadId, lots }) => {
      const lot = lots[0]?.lot ?? null
      return `${nameOf(threadId)}: ${lot === null ? 'one batch that bears no lot mark' : `all of lot ${lot}`}.`
    }),
    ...wanting.map(({ threadId, line, lots, lotToMatch, toBuyPutUps, putUpsForAll }) => {
      const best = lots.find(({ kits }) => kits > 0)
      const gives = best
        ? `${best.lot === null ? 'a batch without a lot mark' : `lot ${best.lot}`} gives ${numberText(best.kits)}`
        : 'no lot held gives one'
      const anew = `${counted(putUpsForAll, line.putUpWord)} of one new lot`
      return lotToMatch
        ? `${nameOf(threadId)}: ${gives}; buy ${toBuyWords({ line, lotToMatch }, toBuyPutUps)}, or where that is not to be had, ${anew}.`
        : `${nameOf(threadId)}: ${gives}; buy ${anew}.`
    }),
    ...(scattered.length > 0
      ? [
          `${named(scattered.map(({ threadId }) => nameOf(threadId)))} would come out of several batches or lots. In a solid that seldom shows; compare them by daylight.`,
        ]
      : []),
    ...(short.length > 0
      ? [`Of ${named(short.map(({ threadId }) => nameOf(threadId)))} some is to be bought; ask for one lot.`]
      : []),
  ]
  const isWhole = wanting.length === 0 && scattered.length === 0 && short.length === 0
  const answer =
    threads.length === 0
      ? 'Not known yet.'
      : wanting.length > 0
        ? 'Not from what is free.'
        : isWhole
          ? 'Yes, every thread.'
          : mattering.length > 0
            ? 'Yes, of every thread whose lots matter.'
            : 'Not every thread, but lots matter in none of them.'
  return { answer, notes }
}

/** Whether what was promised to a kit batch is all of one lot. */
export function batchLotWords({ promisedCount, mixed }: Pick<KitBatch, 'promisedCount' | 'mixed'>, nameOf: Named): string {
  if (promisedCount === 0) return 'nothing is promised to it yet'
  if (mixed.length === 0) return `all of one lot, thread by thread: ${counted(promisedCount, 'thread')}`
  const lotWords = (lots: readonly (string | null)[]) => {
    const marked = lots.flatMap((lot) => (lot === null ? [] : [lot]))
    const unmarked = lots.length - marked.length
    return listed([
      ...(marked.length > 0 ? [`${marked.length === 1 ? 'lot' : 'lots'} ${listed(marked)}`] : []),
      ...(unmarked > 0 ? [`${counted(unmarked, 'batch')} without a mark`] : []),
    ])
  }
  return mixed
    .map(({ threadId, lotsMatter, lots }) => `${nameOf(threadId)} of ${lotWords(lots)}${lotsMatter ? '' : ', a solid'}`)
    .join('; ')
}

/** What is said of charts: one bought chart to a kit; a file is nobody's to pass on. */
export function chartWords({ charts, asked, spares }: DesignKits): string[] {
  const { isFile, onRecord, toBuy } = charts
  const are = (count: number) => `${numberText(count)} ${count === 1 ? 'is' : 'are'}`
  const held =
    onRecord === 0
      ? `None is on record here, so ${are(toBuy)} to buy.`
      : toBuy > 0
        ? `${are(onRecord)} on record, so ${are(toBuy)} to buy; more if one of your own is among them.`
        : `${are(onRecord)} on record: enough, unless one of your own is among them.`
  return [
    isFile
      ? `This chart is a file, and a file is for one person: it is not packed, nor printed for others. Each kit wants a copy bought for it, ${numberText(asked)} in all.`
      : `One bought chart goes into each kit: ${numberText(asked)}. ${held}`,
    ...(spares === 0 ? [] : [spares === 1 ? 'The spare has none until it is sold.' : 'Spares have none until they are sold.']),
  ]
}

/** What the put-ups of a list are called together: "skein", or "put-up" where they are of several kinds. */
export function putUpWordOf(threads: readonly KitThread[]): string {
  const words = new Set(threads.map(({ line }) => line.putUpWord))
  return words.size === 1 ? (threads[0]?.line.putUpWord ?? 'put-up') : 'put-up'
}
