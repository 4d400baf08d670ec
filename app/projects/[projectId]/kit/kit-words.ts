import { formatClothLength } from '#language/lengths'
import { say, sayings } from '#language/say'
import type { KitCloth } from '#lib/db/kit/read-kit-cloth'
import type { KitNumbers, KitReckoning, LineToBuy } from '#lib/project/kit/reckoning'
import type { KitStep, KitStepState } from '#lib/project/kit/steps'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { counted, listed } from '#words/amounts'
import { pieceName } from '#words/cloth'
import { ordinal } from '#words/ordinal'
import { boltLength } from '#words/yardage'

export const stepWords: Record<KitStep, string> = sayings({
  reserved: 'Reserved',
  pulled: 'Pulled',
  cut: 'Cut',
  packed: 'Packed',
  checked: 'Checked',
  sealed: 'Sealed',
})

export const stepStateWords: Record<KitStepState, string> = sayings({ 'not begun': 'not begun', begun: 'begun', done: 'done' })

/** "12 kits and 1 spare". */
export const numberWords = ({ copies, spares }: Pick<KitNumbers, 'copies' | 'spares'>): string =>
  listed([counted(copies - spares, 'kit'), ...(spares > 0 ? [counted(spares, 'spare')] : [])])

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
      return lot === 'one'
        ? toBuy.putUps > 1
          ? say('{amount} of one lot', { amount })
          : amount
        : say('{amount} of lot {mark}', { amount, mark: lot.mark })
    }
    case 'cloth': {
      const pieces = say('for {pieces, plural, one {# cut} other {# cuts}}', { pieces: toBuy.pieces })
      return toBuy.lengthUm === null
        ? say('cloth {pieces}', { pieces })
        : say('{length} ({boltLength}) of cloth off the bolt, {pieces}', {
            length: formatClothLength(toBuy.lengthUm, unit),
            boltLength: boltLength(toBuy.lengthUm, unit),
            pieces,
          })
    }
    case 'chart':
      return counted(toBuy.copies, 'copy')
    case 'item':
      return toBuy.packs === null
        ? say('{count, number} more', { count: toBuy.count })
        : say('{packs, plural, one {# pack} other {# packs}}, {count} short', { packs: toBuy.packs, count: toBuy.count })
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
      answer: say('Not known yet.'),
      stops: lines.some(({ kind }) => kind === 'thread')
        ? ''
        : say('Choose its thread list, or say below what goes into a kit, and it is counted here.'),
    }
  if (makeable === copies)
    return {
      answer: say('All {number} can be made from what is there.', { number: numberWords({ copies, spares }) }),
      stops: lines.some(({ toBuy }) => toBuy) ? '' : say('Nothing is to be bought.'),
    }
  const answer =
    makeable === 0
      ? say('You can make no kit now.')
      : say('You can make {makeable, plural, one {# kit} other {# kits}} now.', { makeable })
  const sentences = stops.slice(0, mostNamed).map(({ key, toBuy }) => {
    const { name, lot, putUpWord } = nameOf(key)
    return say('{name} stops the {ordinal}{rest}.', {
      name,
      ordinal: ordinal(makeable + 1),
      rest: toBuy ? say(': buy {toBuy}', { toBuy: toBuyWords(toBuy, lot, putUpWord, unit) }) : '',
    })
  })
  const more = stops.length - mostNamed
  return {
    answer,
    stops: [
      ...sentences,
      ...(more > 0 ? [say('So {more, plural, one {does one other line} other {do # other lines}}.', { more })] : []),
    ].join(' '),
  }
}

/** Where the cloth of the kits is: what is cut, kept and free. */
export function clothStandingWords(cloth: KitCloth): string {
  const named = (standing: KitCloth['pieces'][number]['standing']) =>
    cloth.pieces.flatMap(({ piece, gives, ...one }) =>
      one.standing === standing ? [`${pieceName(piece)}${gives > 1 ? say(' gives {gives}', { gives }) : ''}`] : [],
    )
  const parts = [
    ...(cloth.cut > 0 ? [say('{cut} cut', { cut: cloth.cut })] : []),
    ...(cloth.kept > 0
      ? [say('{kept} from what is kept for it: {shortList}', { kept: cloth.kept, shortList: shortList(named('kept')) })]
      : []),
    ...(cloth.free > 0
      ? [say('{free} from what is free: {shortList}', { free: cloth.free, shortList: shortList(named('free')) })]
      : []),
  ]
  return parts.length === 0 ? say('no piece on hand gives one') : parts.join('; ')
}

const shortList = (names: readonly string[]): string =>
  names.length > 4
    ? say('{names} and {names2} more', { names: names.slice(0, 3).join(', '), names2: names.length - 3 })
    : listed(names)

/** What is said of charts: one bought chart to a kit, none to a spare until it is sold. */
export function chartStandingWords(chart: {
  isFile: boolean
  onRecord: number
  away: number
  elsewhere: number
  packed: number
}): string {
  if (chart.isFile) return say('a file is for one person: it is not packed; a copy is bought for each kit')
  const parts = [
    say('{onRecord, plural, one {# copy} other {# copies}} on record', { onRecord: chart.onRecord }),
    ...(chart.packed > 0 ? [say('{packed} in closed kits', { packed: chart.packed })] : []),
    ...(chart.away > 0 ? [say('{away} lent or out', { away: chart.away })] : []),
    ...(chart.elsewhere > 0 ? [say('{elsewhere} for earlier kits', { elsewhere: chart.elsewhere })] : []),
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
  const lotOf = (lot: string | null) => (lot === null ? say('a batch without a lot mark') : say('lot {lot}', { lot }))
  const notes = [
    ...mattering
      .filter(({ isOne }) => isOne)
      .map(({ name, best, cut }) =>
        say('{name}: {rest}.', {
          name,
          rest:
            cut >= copies ? say('cut for all; see the batch record') : say('all of {lotOf}', { lotOf: lotOf(best?.lot ?? null) }),
        }),
      ),
    ...wanting.map(({ name, best }) =>
      best && best.kits > 0
        ? say('{name}: {lotOf} gives {kits}. Buy more of that lot, or all of a new one.', {
            name,
            lotOf: lotOf(best.lot),
            kits: best.kits,
          })
        : say('{name}: no lot on hand gives one. Buy all of one lot.', { name }),
    ),
    ...(scattered.length > 0
      ? [
          say('{shortList} would come out of several lots. In a solid that seldom shows; compare them by daylight.', {
            shortList: shortList(scattered.map(({ name }) => name)),
          }),
        ]
      : []),
    ...(short.length > 0
      ? [say('Of {shortList} some is to be bought; ask for one lot.', { shortList: shortList(short.map(({ name }) => name)) })]
      : []),
    ...(all.length > 0 && solids.length > 0 && scattered.length === 0 && short.length === 0
      ? [`${solids.length === 1 ? say('The solid is of one lot too') : say('The solids are of one lot each')}.`]
      : []),
  ]
  const answer =
    wanting.length > 0
      ? say('Not from what is there.')
      : scattered.length === 0 && short.length === 0
        ? say('Yes, every thread.')
        : mattering.length > 0
          ? say('Yes, of every thread whose lots matter.')
          : say('Not every thread, but lots matter in none of them.')
  return { answer, notes }
}
