import { formatDate } from '#language/day'
import { say } from '#language/say'
import type { TooManyAtOnce } from '#lib/db/job/job'
import type { LadderStep } from '#lib/db/planning/together/choice-jobs'
import type { Choice } from '#lib/db/planning/together/choose-designs'
import type { LeftOut } from '#lib/db/planning/together/explain-choice'
import type { NeverChosen } from '#lib/db/planning/together/read-choice'
import type { Bought, Buying } from '#lib/planning/together/choice-world'
import type { ThreadTaken } from '#lib/planning/together/why-not'
import type { ValuePart } from '#lib/planning/together/wish-value'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { counted, listed } from './amounts'
import { fitWords } from './cloth'
import { priceWords } from './price'

/** Why a design counts what it does: "4 stars → 8, wanted by Sat 12 Dec 2026 → +4". */
export const valueWords = (parts: readonly ValuePart[]): string =>
  parts.map((part, at) => `${partWords(part)} → ${at === 0 ? '' : '+'}${part.points}`).join(', ')

function partWords(part: ValuePart): string {
  switch (part.kind) {
    case 'plain':
      return say('not among the wishes')
    case 'wish':
      return part.stars === null ? say('wanted, no stars given') : counted(part.stars, 'star')
    case 'due':
      return say('wanted by {dueOn}', { dueOn: formatDate(part.dueOn) })
    case 'season':
      return part.weeks === 0
        ? say('{theme}, this week', { theme: part.theme })
        : say('{theme} in {weeks, plural, one {# week} other {# weeks}}', { theme: part.theme, weeks: part.weeks })
    case 'bought':
      return say('bought {years, plural, one {# year} other {# years}} ago', { years: part.years })
  }
}

/** Why nothing is chosen just now. */
export const choiceRefusedWords = ({ most }: TooManyAtOnce): string =>
  say(
    '{most} sets of designs are being chosen already, and no more are at a time. Wait for one to end, or stop it, then ask again.',
    { most },
  )

/** How much may be bought: "nothing bought", "at most 3 put-ups". */
export function buyingWords(buying: Buying, currency: string): string {
  switch (buying.kind) {
    case 'nothing':
      return say('nothing bought')
    case 'put-ups':
      return buying.most === 0
        ? say('nothing bought')
        : say('at most {most, plural, one {# put-up} other {# put-ups}}', { most: buying.most })
    case 'budget':
      return buying.mostMinor === 0
        ? say('nothing bought')
        : say('for at most {price}', { price: priceWords(buying.mostMinor, currency) })
  }
}

/** What is bought in all: "4 put-ups for 9.20"; threads without a price are said, not guessed. */
export function boughtWords(bought: readonly Bought[], currency: string): string {
  const putUps = bought.reduce((sum, one) => sum + one.putUps, 0)
  if (putUps === 0) return say('nothing bought')
  const minor = bought.reduce((sum, one) => sum + (one.minor ?? 0), 0)
  const unpriced = bought.filter((one) => one.minor === null).length
  const cost = minor === 0 ? '' : say(' for {price}', { price: priceWords(minor, currency) })
  const without =
    unpriced === 0 ? '' : say(', {unpriced, plural, one {# thread} other {# threads}} of them without a price', { unpriced })
  return say('{putUps, plural, one {# put-up} other {# put-ups}} bought{cost}{without}', { putUps, cost, without })
}

/** One limit of several: "3 put-ups", "9.20". */
export function limitShort(buying: Buying, currency: string): string {
  if (buying.kind === 'budget') return priceWords(buying.mostMinor, currency)
  return counted(buying.kind === 'nothing' ? 0 : buying.most, 'put-up')
}

/** How good a step of several limits is known to be. */
export const ladderProof = ({ isProved, value, bound }: Pick<LadderStep, 'isProved' | 'value' | 'bound'>): string =>
  isProved ? say('proved') : say('{bound} at most ({gapPercent} %)', { bound, gapPercent: gapPercent(value, bound) })

const gapPercent = (value: number, bound: number): number => Math.round((1_000 * (bound - value)) / bound) / 10

/** How good a choice is, and how that is known. */
export function choiceWords(
  { placed, cuts, value, bound, isProved, endedBy, bought }: Choice,
  currency = '',
): { answer: string; proof: string } {
  const from = cuts.length === 0 ? '' : say(' from {cuts, plural, one {# piece} other {# pieces}}', { cuts: cuts.length })
  const answer =
    placed.length === 0
      ? say('None of these can be stitched from what is there.')
      : say('{placed, plural, one {# design} other {# designs}}{from}, {bought}.', {
          placed: placed.length,
          from,
          bought: boughtWords(bought, currency),
        })
  if (isProved)
    return { answer, proof: placed.length === 0 ? '' : say('Worth {value} together: no other choice is worth more.', { value }) }
  const ended = {
    time: say('The time was up'),
    stop: say('It was stopped'),
    doubt: say('Some cuts could not be settled'),
    proof: '',
  }[endedBy]
  return {
    answer,
    proof: say(
      'Worth {value} together. {ended}: no choice is worth more than {bound}, which is {gapPercent} % away at most. A longer search may find a better one.',
      { value, ended, bound, gapPercent: gapPercent(value, bound) },
    ),
  }
}

type Names = { design: (designId: string) => string; thread: (threadId: string) => string; piece: (pieceId: string) => string }
type LengthOf = (threadId: string, strandTenths: number) => string

/** A thread that keeps a design out, by how much, and who has it. */
export function threadTakenWords(
  { threadId, needStrandTenths, leftStrandTenths, isOneLot, morePutUps, takenBy }: ThreadTaken,
  names: Pick<Names, 'design' | 'thread'>,
  length: LengthOf,
): string {
  const [need, left] = [length(threadId, needStrandTenths), length(threadId, leftStrandTenths)]
  const taken = takenBy.slice(0, 3).map(({ designId }) => names.design(designId))
  const others = takenBy.length > 3 ? [say('{takenBy} more', { takenBy: takenBy.length - 3 })] : []
  const where = isOneLot ? say(' in one lot') : ''
  const by =
    taken.length > 0
      ? say('; {listed} {takenBy, plural, one {takes} other {take}} it', {
          listed: listed([...taken, ...others]),
          takenBy: takenBy.length,
        })
      : ''
  const short = say('{length}, {morePutUps, plural, one {# put-up} other {# put-ups}}, short', {
    length: length(threadId, needStrandTenths - leftStrandTenths),
    morePutUps,
  })
  return say('{thread}: needs {need}{where}, {rest} is left: {short}{by}.', {
    thread: names.thread(threadId),
    need,
    where,
    rest: leftStrandTenths === 0 ? say('nothing') : left,
    short,
    by,
  })
}

/** What keeps a design out that could be stitched by itself, a sentence each. */
export function leftOutWords({ threads, room, pieces }: LeftOut, names: Names, length: LengthOf): string[] {
  const byThread = threads.map((thread) => threadTakenWords(thread, names, length))
  const on = pieces.slice(0, 4).map(({ pieceId }) => names.piece(pieceId))
  const more = pieces.length > 4 ? [say('{pieces} more', { pieces: pieces.length - 4 })] : []
  const cloth =
    room === 'none'
      ? [
          say('No room on {listed} beside what is cut from {pieces, plural, one {it} other {them}}.', {
            listed: listed([...on, ...more]),
            pieces: pieces.length,
          }),
        ]
      : room === 'unknown'
        ? [say('There was no time to see whether it finds room.')]
        : threads.length === 0
          ? [
              room === 'aside'
                ? say('Thread enough is left for it: a longer search would take it in.')
                : say('There is room for it and thread enough: a longer search would take it in.'),
            ]
          : []
  return [...byThread, ...cloth]
}

/** Why a design cannot be chosen whatever else is. */
export function neverWords(never: NeverChosen, names: Names, length: LengthOf, unit: LengthUnit): string {
  switch (never.kind) {
    case 'no-size':
      return say('Its size is not known.')
    case 'no-list':
      return say('It has no thread list yet.')
    case 'incomplete-list':
      return say('Part of its thread list is not in yet.')
    case 'no-cloth':
      return say('None of the pieces is of the count and weave it is worked on.')
    case 'too-large':
      return say('The nearest piece is {piece}: {fit}.', { piece: names.piece(never.pieceId), fit: fitWords(never.fit, unit) })
    case 'threads': {
      const lacking = never.threads.slice(0, 3).map(({ threadId, needStrandTenths, freeStrandTenths, isOneLot, putUps }) => {
        const free = freeStrandTenths === 0 ? say('none') : length(threadId, freeStrandTenths)
        return say(
          '{thread} ({free} free{isOneLot, select, yes { in one lot} other {}}, needs {length}, {putUps, plural, one {# put-up} other {# put-ups}} short)',
          { thread: names.thread(threadId), free, isOneLot, length: length(threadId, needStrandTenths), putUps },
        )
      })
      const more =
        never.threads.length > 3
          ? [say('{count, plural, one {# more thread} other {# more threads}}', { count: never.threads.length - 3 })]
          : []
      return say('Not enough even by itself of {listed}.', { listed: listed([...lacking, ...more]) })
    }
  }
}
