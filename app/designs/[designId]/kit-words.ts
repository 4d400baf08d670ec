import { say } from '#language/say'
import type { DesignKits, KitBatch, KitThread } from '#lib/db/coverage/design-kits'
import { counted, listed } from '#words/amounts'
import { ordinal } from '#words/ordinal'

type Named = (threadId: string) => string

/** As many threads as one sentence bears. */
const mostNamed = 4

const named = (names: readonly string[]): string =>
  names.length > mostNamed
    ? say('{names} and {names2} more', { names: names.slice(0, mostNamed - 1).join(', '), names2: names.length - mostNamed + 1 })
    : listed(names)

/** "1 skein", "3 skeins of lot 18", "5 skeins of one lot". */
export function toBuyWords({ line, lotToMatch }: Pick<KitThread, 'line' | 'lotToMatch'>, putUps: number): string {
  const amount = counted(putUps, line.putUpWord)
  if (!line.lotsMatter) return amount
  return lotToMatch
    ? say('{amount} of lot {lot}', { amount, lot: lotToMatch.lot })
    : putUps > 1
      ? say('{amount} of one lot', { amount })
      : amount
}

/** "You can make 7 kits now." and what stops the next one: "0742 stops the eighth: buy 1 skein." */
export function kitsAnswer({ kits, stops, threads }: DesignKits, nameOf: Named): { answer: string; stops: string } {
  if (threads.length === 0) return { answer: say('Not known yet: its thread list is not in.'), stops: '' }
  const names = stops.map(({ thread }) => nameOf(thread.threadId))
  const stop = say('{named} {stops, plural, one {stops} other {stop}} the {ordinal}', {
    named: named(names),
    stops: stops.length,
    ordinal: ordinal(kits + 1),
  })
  const alike = new Set(stops.map(({ thread, toBuyPutUps }) => toBuyWords(thread, toBuyPutUps)))
  const buys =
    alike.size === 1
      ? [...alike].map((words) => (stops.length === 1 ? words : say('{words} of each', { words })))
      : stops.map(({ thread, toBuyPutUps }) => {
          const { line, lotToMatch, threadId } = thread
          const lot = lotToMatch
            ? say(' (lot {lot})', { lot: lotToMatch.lot })
            : line.lotsMatter && toBuyPutUps > 1
              ? say(' (one lot)')
              : ''
          return say('{counted} of {nameOf}{lot}', {
            counted: counted(toBuyPutUps, line.putUpWord),
            nameOf: nameOf(threadId),
            lot,
          })
        })
  return {
    answer:
      kits === 0
        ? say('You can make no kit now.')
        : say('You can make {kits, plural, one {# kit} other {# kits}} now.', { kits }),
    stops: stops.length > mostNamed ? `${stop}.` : say('{stop}: buy {buys}.', { stop, buys: listed(buys) }),
  }
}

/** "12 kits and 1 spare". */
export const numberWords = ({ asked, spares }: Pick<DesignKits, 'asked' | 'spares'>): string =>
  listed([counted(asked, 'kit'), ...(spares > 0 ? [counted(spares, 'spare')] : [])])

/** "For 12 kits and 1 spare there is enough thread." or what is to be bought in all. */
export function boughtWords(kits: DesignKits): string {
  const short = kits.threads.filter(({ toBuyPutUps }) => toBuyPutUps > 0)
  if (short.length === 0) return say('There is enough thread for {number}.', { number: numberWords(kits) })
  const putUps = short.reduce((sum, { toBuyPutUps }) => sum + toBuyPutUps, 0)
  const amount = counted(putUps, putUpWordOf(short))
  return say('For {number}, buy {amount} of {short, plural, one {# thread} other {# threads}}.', {
    number: numberWords(kits),
    amount,
    short: short.length,
  })
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
      return say('{nameOf}: {rest}.', {
        nameOf: nameOf(threadId),
        rest: lot === null ? say('one batch that bears no lot mark') : say('all of lot {lot}', { lot }),
      })
    }),
    ...wanting.map(({ threadId, line, lots, lotToMatch, toBuyPutUps, putUpsForAll }) => {
      const best = lots.find(({ kits }) => kits > 0)
      const gives = best
        ? say('{rest} gives {kits, number}', {
            rest: best.lot === null ? say('a batch without a lot mark') : say('lot {lot}', { lot: best.lot }),
            kits: best.kits,
          })
        : say('no lot held gives one')
      const anew = say('{counted} of one new lot', { counted: counted(putUpsForAll, line.putUpWord) })
      return lotToMatch
        ? say('{nameOf}: {gives}; buy {toBuy}, or where that is not to be had, {anew}.', {
            nameOf: nameOf(threadId),
            gives,
            toBuy: toBuyWords({ line, lotToMatch }, toBuyPutUps),
            anew,
          })
        : say('{nameOf}: {gives}; buy {anew}.', { nameOf: nameOf(threadId), gives, anew })
    }),
    ...(scattered.length > 0
      ? [
          say('{named} would come out of several batches or lots. In a solid that seldom shows; compare them by daylight.', {
            named: named(scattered.map(({ threadId }) => nameOf(threadId))),
          }),
        ]
      : []),
    ...(short.length > 0
      ? [
          say('Of {named} some is to be bought; ask for one lot.', {
            named: named(short.map(({ threadId }) => nameOf(threadId))),
          }),
        ]
      : []),
  ]
  const isWhole = wanting.length === 0 && scattered.length === 0 && short.length === 0
  const answer =
    threads.length === 0
      ? say('Not known yet.')
      : wanting.length > 0
        ? say('Not from what is free.')
        : isWhole
          ? say('Yes, every thread.')
          : mattering.length > 0
            ? say('Yes, of every thread whose lots matter.')
            : say('Not every thread, but lots matter in none of them.')
  return { answer, notes }
}

/** Whether what was promised to a kit batch is all of one lot. */
export function batchLotWords({ promisedCount, mixed }: Pick<KitBatch, 'promisedCount' | 'mixed'>, nameOf: Named): string {
  if (promisedCount === 0) return say('nothing is promised to it yet')
  if (mixed.length === 0)
    return say('all of one lot, thread by thread: {promisedCount, plural, one {# thread} other {# threads}}', { promisedCount })
  const lotWords = (lots: readonly (string | null)[]) => {
    const marked = lots.flatMap((lot) => (lot === null ? [] : [lot]))
    const unmarked = lots.length - marked.length
    return listed([
      ...(marked.length > 0
        ? [say('{marked, plural, one {lot} other {lots}} {marked2}', { marked: marked.length, marked2: listed(marked) })]
        : []),
      ...(unmarked > 0 ? [say('{unmarked, plural, one {# batch} other {# batches}} without a mark', { unmarked })] : []),
    ])
  }
  return mixed
    .map(({ threadId, lotsMatter, lots }) =>
      say('{nameOf} of {lot}{hasLotsMatter, select, yes {} other {, a solid}}', {
        nameOf: nameOf(threadId),
        lot: lotWords(lots),
        hasLotsMatter: Boolean(lotsMatter),
      }),
    )
    .join('; ')
}

/** What is said of charts: one bought chart to a kit; a file is nobody's to pass on. */
export function chartWords({ charts, asked, spares }: DesignKits): string[] {
  const { isFile, onRecord, toBuy } = charts
  const are = (count: number) => say('{count, number} {count, plural, one {is} other {are}}', { count })
  const held =
    onRecord === 0
      ? say('None is on record here, so {are} to buy.', { are: are(toBuy) })
      : toBuy > 0
        ? say('{are} on record, so {are2} to buy; more if one of your own is among them.', {
            are: are(onRecord),
            are2: are(toBuy),
          })
        : say('{are} on record: enough, unless one of your own is among them.', { are: are(onRecord) })
  return [
    isFile
      ? say(
          'This chart is a file, and a file is for one person: it is not packed, nor printed for others. Each kit wants a copy bought for it, {asked, number} in all.',
          { asked },
        )
      : say('One bought chart goes into each kit: {asked, number}. {held}', { asked, held }),
    ...(spares === 0
      ? []
      : [spares === 1 ? say('The spare has none until it is sold.') : say('Spares have none until they are sold.')]),
  ]
}

/** What the put-ups of a list are called together: "skein", or "put-up" where they are of several kinds. */
export function putUpWordOf(threads: readonly KitThread[]): string {
  const words = new Set(threads.map(({ line }) => line.putUpWord))
  return words.size === 1 ? (threads[0]?.line.putUpWord ?? 'put-up') : 'put-up'
}
