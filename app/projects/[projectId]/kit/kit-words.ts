import { numberText } from '#language/figures'
import { formatClothLength } from '#language/lengths'
import type { KitCloth } from '#lib/db/kit/read-kit-cloth'
import type { KitNumbers, KitReckoning, LineToBuy } from '#lib/project/kit/reckoning'
import type { KitStep, KitStepState } from '#lib/project/kit/steps'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { counted, listed } from '#words/amounts'
import { pieceName } from '#words/cloth'
import { ordinal } from '#words/ordinal'
import { boltLength } from '#words/yardage'

export const stepWords: Record<KitStep, string> = {
  reserved: 'Reserved',
  pulled: 'Pulled',
  cut: 'Cut',
  packed: 'Packed',
  checked: 'Checked',
  sealed: 'Sealed',
}

export const stepStateWords: Record<KitStepState, string> = { 'not begun': 'not begun', begun: 'begun', done: 'done' }

/** "12 kits and 1 spare". */
export const numberWords = ({ copies, spares }: Pick<KitNumbers, 'copies' | 'spares'>): string =>
  [counted(copies - spares, 'kit'), ...(spares > 0 ? [counted(spares, 'spare')] : [])].join(' and ')

/** How a line of a kit is called in a sentence, and what its put-ups are called. */
export type LineNames = (key: string) => {
  name: string
  putUpWord: string
  /** The lot to match where lots matter; `one` when any will do, as long as it is one. */
  lot: { mark: string } | 'one' | null
}

/** What is to be bought of one line: "3 skeins of lot 18", "2 packs, 7 short", "31½ in off the bolt, for 13 squares". */
export function toBuyWords(toBuy: LineToBuy, lot: ReturnType<LineNames>['lot'], putUpWord: string, unit: LengthUnit): string {
  switch (toBuy.kind) {
    case 'thread': {
      const amount = counted(toBuy.putUps, putUpWord)
      if (lot === null) return amount
      return lot === 'one' ? (toBuy.putUps > 1 ? `${amount} of one lot` : amount) : `${amount} of lot ${lot.mark}`
    }
    case 'cloth': {
      const pieces = `for ${counted(toBuy.pieces, 'cut')}`
      return toBuy.lengthUm === null
        ? `cloth ${pieces}`
        : `${formatClothLength(toBuy.lengthUm, unit)} (${boltLength(toBuy.lengthUm, unit)}) of cloth off the bolt, ${pieces}`
    }
    case 'chart':
      return counted(toBuy.copies, 'copy')
    case 'item':
      return toBuy.packs === null ? `${numberText(toBuy.count)} more` : `${counted(toBuy.packs, 'pack')}, ${toBuy.count} short`
  }
}

/** As many lines as one sentence bears. */
const mostNamed = 3

/** How many kits can be made, and what stops the next one. */
export function answerWords(
  { makeable, copies, spares, stops, lines }: KitReckoning,
  nameOf: LineNames,
  unit: LengthUnit,
): { answer: string; stops: string } {
  if (makeable === null)
    return {
      answer: 'Not known yet.',
      stops: lines.some(({ kind }) => kind === 'thread')
        ? ''
        : 'Choose its thread list, or say below what goes into a kit, and it is counted here.',
    }
  if (makeable === copies)
    return {
      answer: `All ${numberWords({ copies, spares })} can be made from what is there.`,
      stops: lines.some(({ toBuy }) => toBuy) ? '' : 'Nothing is to be bought.',
    }
  const answer = makeable === 0 ? 'You can make no kit now.' : `You can make ${counted(makeable, 'kit')} now.`
  const sentences = stops.slice(0, mostNamed).map(({ key, toBuy }) => {
    const { name, lot, putUpWord } = nameOf(key)
    return `${name} stops the ${ordinal(makeable + 1)}${toBuy ? `: buy ${toBuyWords(toBuy, lot, putUpWord, unit)}` : ''}.`
  })
  const more = stops.length - mostNamed
  return {
    answer,
    stops: [...sentences, ...(more > 0 ? [`So ${more === 1 ? 'does one other line' : `do ${more} other lines`}.`] : [])].join(
      ' ',
    ),
  }
}

/** Where the cloth of the kits is: what is cut, kept and free. */
export function clothStandingWords(cloth: KitCloth): string {
  const named = (standing: KitCloth['pieces'][number]['standing']) =>
    cloth.pieces.flatMap(({ piece, gives, ...one }) =>
      one.standing === standing ? [`${pieceName(piece)}${gives > 1 ? ` gives ${gives}` : ''}`] : [],
    )
  const parts = [
    ...(cloth.cut > 0 ? [`${cloth.cut} cut`] : []),
    ...(cloth.kept > 0 ? [`${cloth.kept} from what is kept for it: ${shortList(named('kept'))}`] : []),
    ...(cloth.free > 0 ? [`${cloth.free} from what is free: ${shortList(named('free'))}`] : []),
  ]
  return parts.length === 0 ? 'no piece on hand gives one' : parts.join('; ')
}

const shortList = (names: readonly string[]): string =>
  names.length > 4 ? `${names.slice(0, 3).join(', ')} and ${names.length - 3} more` : listed(names)

/** What is said of charts: one bought chart to a kit, none to a spare until it is sold. */
export function chartStandingWords(chart: {
  isFile: boolean
  onRecord: number
  away: number
  elsewhere: number
  packed: number
}): string {
  if (chart.isFile) return 'a file is for one person: it is not packed; a copy is bought for each kit'
  const parts = [
    `${counted(chart.onRecord, 'copy')} on record`,
    ...(chart.packed > 0 ? [`${chart.packed} in closed kits`] : []),
    ...(chart.away > 0 ? [`${chart.away} lent or out`] : []),
    ...(chart.elsewhere > 0 ? [`${chart.elsewhere} for earlier kits`] : []),
  ]
  return parts.join(', ')
}

type KitLots = {
  reckoning: Pick<KitReckoning, 'copies' | 'lines'>
  threads: ReadonlyMap<
    string,
    { line: { lotsMatter: boolean }; lots: readonly { lot: string | null; kits: number }[]; cut: number }
  >
}

/** Whether all kits have each thread of one lot, or could have, and a sentence for each thread or group of threads it hangs on. */
export function lotWords({ reckoning, threads }: KitLots, nameOf: LineNames): { answer: string; notes: string[] } {
  const { copies, lines } = reckoning
  const all = lines.flatMap((line) => {
    const thread = line.kind === 'thread' ? threads.get(line.threadId) : undefined
    if (!thread) return []
    const best = thread.lots[0]
    const isOne = thread.cut >= copies || (best !== undefined && thread.cut + best.kits >= copies)
    return [
      { name: nameOf(line.key).name, lotsMatter: thread.line.lotsMatter, best, isOne, cut: thread.cut, kits: line.kits ?? 0 },
    ]
  })
  const mattering = all.filter(({ lotsMatter }) => lotsMatter)
  const wanting = mattering.filter(({ isOne }) => !isOne)
  const solids = all.filter(({ lotsMatter }) => !lotsMatter)
  const scattered = solids.filter(({ isOne, kits }) => !isOne && kits >= copies)
  const short = solids.filter(({ kits }) => kits < copies)
  const lotOf = (lot: string | null) => (lot === null ? 'a batch without a lot mark' : `lot ${lot}`)
  const notes = [
    ...mattering
      .filter(({ isOne }) => isOne)
      .map(
        ({ name, best, cut }) =>
          `${name}: ${cut >= copies ? 'cut for all; see the batch record' : `all of ${lotOf(best?.lot ?? null)}`}.`,
      ),
    ...wanting.map(({ name, best }) =>
      best && best.kits > 0
        ? `${name}: ${lotOf(best.lot)} gives ${best.kits}. Buy more of that lot, or all of a new one.`
        : `${name}: no lot on hand gives one. Buy all of one lot.`,
    ),
    ...(scattered.length > 0
      ? [
          `${shortList(scattered.map(({ name }) => name))} would come out of several lots. In a solid that seldom shows; compare them by daylight.`,
        ]
      : []),
    ...(short.length > 0 ? [`Of ${shortList(short.map(({ name }) => name))} some is to be bought; ask for one lot.`] : []),
    ...(all.length > 0 && solids.length > 0 && scattered.length === 0 && short.length === 0
      ? [`${solids.length === 1 ? 'The solid is of one lot too' : 'The solids are of one lot each'}.`]
      : []),
  ]
  const answer =
    wanting.length > 0
      ? 'Not from what is there.'
      : scattered.length === 0 && short.length === 0
        ? 'Yes, every thread.'
        : mattering.length > 0
          ? 'Yes, of every thread whose lots matter.'
          : 'Not every thread, but lots matter in none of them.'
  return { answer, notes }
}
