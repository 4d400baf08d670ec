import { formatDate } from '#language/day'
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
      return 'not among the wishes'
    case 'wish':
      return part.stars === null ? 'wanted, no stars given' : counted(part.stars, 'star')
    case 'due':
      return `wanted by ${formatDate(part.dueOn)}`
    case 'season':
      return part.weeks === 0 ? `${part.theme}, this week` : `${part.theme} in ${counted(part.weeks, 'week')}`
    case 'bought':
      return `bought ${counted(part.years, 'year')} ago`
  }
}

/** Why nothing is chosen just now. */
export const choiceRefusedWords = ({ most }: TooManyAtOnce): string =>
  `${most} sets of designs are being chosen already, and no more are at a time. Wait for one to end, or stop it, then ask again.`

/** How much may be bought: "nothing bought", "at most 3 put-ups". */
export function buyingWords(buying: Buying, currency: string): string {
  switch (buying.kind) {
    case 'nothing':
      return 'nothing bought'
    case 'put-ups':
      return buying.most === 0 ? 'nothing bought' : `at most ${counted(buying.most, 'put-up')}`
    case 'budget':
      return buying.mostMinor === 0 ? 'nothing bought' : `for at most ${priceWords(buying.mostMinor, currency)}`
  }
}

/** What is bought in all: "4 put-ups for 9.20"; threads without a price are said, not guessed. */
export function boughtWords(bought: readonly Bought[], currency: string): string {
  const putUps = bought.reduce((sum, one) => sum + one.putUps, 0)
  if (putUps === 0) return 'nothing bought'
  const minor = bought.reduce((sum, one) => sum + (one.minor ?? 0), 0)
  const unpriced = bought.filter((one) => one.minor === null).length
  const cost = minor === 0 ? '' : ` for ${priceWords(minor, currency)}`
  const without = unpriced === 0 ? '' : `, ${counted(unpriced, 'thread')} of them without a price`
  return `${counted(putUps, 'put-up')} bought${cost}${without}`
}

/** One limit of several: "3 put-ups", "9.20". */
export function limitShort(buying: Buying, currency: string): string {
  if (buying.kind === 'budget') return priceWords(buying.mostMinor, currency)
  return counted(buying.kind === 'nothing' ? 0 : buying.most, 'put-up')
}

/** How good a step of several limits is known to be. */
export const ladderProof = ({ isProved, value, bound }: Pick<LadderStep, 'isProved' | 'value' | 'bound'>): string =>
  isProved ? 'proved' : `${bound} at most (${gapPercent(value, bound)} %)`

const gapPercent = (value: number, bound: number): number => Math.round((1_000 * (bound - value)) / bound) / 10

/** How good a choice is, and how that is known. */
export function choiceWords(
  { placed, cuts, value, bound, isProved, endedBy, bought }: Choice,
  currency = '',
): { answer: string; proof: string } {
  const from = cuts.length === 0 ? '' : ` from ${counted(cuts.length, 'piece')}`
  const answer =
    placed.length === 0
      ? 'None of these can be stitched from what is there.'
      : `${counted(placed.length, 'design')}${from}, ${boughtWords(bought, currency)}.`
  if (isProved) return { answer, proof: placed.length === 0 ? '' : `Worth ${value} together: no other choice is worth more.` }
  const ended = { time: 'The time was up', stop: 'It was stopped', doubt: 'Some cuts could not be settled', proof: '' }[endedBy]
  return {
    answer,
    proof: `Worth ${value} together. ${ended}: no choice is worth more than ${bound}, which is ${gapPercent(value, bound)} % away at most. A longer search may find a better one.`,
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
  const others = takenBy.length > 3 ? [`${takenBy.length - 3} more`] : []
  const where = isOneLot ? ' in one lot' : ''
  const by = taken.length > 0 ? `; ${listed([...taken, ...others])} ${takenBy.length === 1 ? 'takes' : 'take'} it` : ''
  const short = `${length(threadId, needStrandTenths - leftStrandTenths)}, ${counted(morePutUps, 'put-up')}, short`
  return `${names.thread(threadId)}: needs ${need}${where}, ${leftStrandTenths === 0 ? 'nothing' : left} is left: ${short}${by}.`
}

/** What keeps a design out that could be stitched by itself, a sentence each. */
export function leftOutWords({ threads, room, pieces }: LeftOut, names: Names, length: LengthOf): string[] {
  const byThread = threads.map((thread) => threadTakenWords(thread, names, length))
  const on = pieces.slice(0, 4).map(({ pieceId }) => names.piece(pieceId))
  const more = pieces.length > 4 ? [`${pieces.length - 4} more`] : []
  const cloth =
    room === 'none'
      ? [`No room on ${listed([...on, ...more])} beside what is cut from ${pieces.length === 1 ? 'it' : 'them'}.`]
      : room === 'unknown'
        ? ['There was no time to see whether it finds room.']
        : threads.length === 0
          ? [
              room === 'aside'
                ? 'Thread enough is left for it: a longer search would take it in.'
                : 'There is room for it and thread enough: a longer search would take it in.',
            ]
          : []
  return [...byThread, ...cloth]
}

/** Why a design cannot be chosen whatever else is. */
export function neverWords(never: NeverChosen, names: Names, length: LengthOf, unit: LengthUnit): string {
  switch (never.kind) {
    case 'no-size':
      return 'Its size is not known.'
    case 'no-list':
      return 'It has no thread list yet.'
    case 'incomplete-list':
      return 'Part of its thread list is not in yet.'
    case 'no-cloth':
      return 'None of the pieces is of the count and weave it is worked on.'
    case 'too-large':
      return `The nearest piece is ${names.piece(never.pieceId)}: ${fitWords(never.fit, unit)}.`
    case 'threads': {
      const lacking = never.threads.slice(0, 3).map(({ threadId, needStrandTenths, freeStrandTenths, isOneLot, putUps }) => {
        const free = freeStrandTenths === 0 ? 'none' : length(threadId, freeStrandTenths)
        return `${names.thread(threadId)} (${free} free${isOneLot ? ' in one lot' : ''}, needs ${length(threadId, needStrandTenths)}, ${counted(putUps, 'put-up')} short)`
      })
      const more = never.threads.length > 3 ? [counted(never.threads.length - 3, 'more thread')] : []
      return `Not enough even by itself of ${listed([...lacking, ...more])}.`
    }
  }
}
