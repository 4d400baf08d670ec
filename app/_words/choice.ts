import type { Choice } from '#lib/db/planning/choose-designs'
import type { LeftOut } from '#lib/db/planning/explain-choice'
import type { ChoiceCandidate, NeverChosen } from '#lib/db/planning/read-choice'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { formatDate } from '#lib/quantity/date'
import type { TooManyAtOnce } from '#lib/solver/jobs'
import { counted, listed } from './amounts'
import { fitWords } from './cloth'

/** Why a design counts what it does. */
export function valueWords({ because, dueOn }: Pick<ChoiceCandidate, 'because' | 'dueOn'>): string {
  if (because === 'plain') return 'not among the wishes'
  return dueOn === null ? 'wanted' : `wanted by ${formatDate(dueOn)}`
}

/** Why nothing is chosen just now. */
export const choiceRefusedWords = ({ most }: TooManyAtOnce): string =>
  `${most} sets of designs are being chosen already, and no more are at a time. Wait for one to end, or stop it, then ask again.`

/** How good a choice is, and how that is known. */
export function choiceWords({ placed, cuts, value, bound, isProved, endedBy }: Choice): { answer: string; proof: string } {
  const answer =
    placed.length === 0
      ? 'None of these can be stitched from what is there.'
      : `${counted(placed.length, 'design')} from ${counted(cuts.length, 'piece')}, nothing bought.`
  if (isProved) return { answer, proof: placed.length === 0 ? '' : `Worth ${value} together: no other choice is worth more.` }
  const gap = Math.round((1_000 * (bound - value)) / bound) / 10
  const ended = { time: 'The time was up', stop: 'It was stopped', doubt: 'Some cuts could not be settled', proof: '' }[endedBy]
  return {
    answer,
    proof: `Worth ${value} together. ${ended}: no choice is worth more than ${bound}, which is ${gap} % away at most. A longer search may find a better one.`,
  }
}

type Names = { design: (designId: string) => string; thread: (threadId: string) => string; piece: (pieceId: string) => string }
type LengthOf = (threadId: string, strandTenths: number) => string

/** What keeps a design out that could be stitched by itself, a sentence each. */
export function leftOutWords({ threads, room, pieces }: LeftOut, names: Names, length: LengthOf): string[] {
  const byThread = threads.map(({ threadId, needStrandTenths, leftStrandTenths, isOneLot, takenBy }) => {
    const [need, left] = [length(threadId, needStrandTenths), length(threadId, leftStrandTenths)]
    const taken = takenBy.slice(0, 3).map(({ designId }) => names.design(designId))
    const others = takenBy.length > 3 ? [`${takenBy.length - 3} more`] : []
    const where = isOneLot ? ' in one lot' : ''
    const by = taken.length > 0 ? `; ${listed([...taken, ...others])} ${takenBy.length === 1 ? 'takes' : 'take'} it` : ''
    return `${names.thread(threadId)}: needs ${need}${where}, ${leftStrandTenths === 0 ? 'nothing' : left} is left${by}.`
  })
  const on = pieces.slice(0, 4).map(({ pieceId }) => names.piece(pieceId))
  const more = pieces.length > 4 ? [`${pieces.length - 4} more`] : []
  const cloth =
    room === 'none'
      ? [`No room on ${listed([...on, ...more])} beside what is cut from ${pieces.length === 1 ? 'it' : 'them'}.`]
      : room === 'unknown'
        ? ['There was no time to see whether it finds room.']
        : threads.length === 0
          ? ['There is room for it and thread enough: a longer search would take it in.']
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
      const lacking = never.threads.slice(0, 3).map(({ threadId, needStrandTenths, freeStrandTenths, isOneLot }) => {
        const free = freeStrandTenths === 0 ? 'none' : length(threadId, freeStrandTenths)
        return `${names.thread(threadId)} (${free} free${isOneLot ? ' in one lot' : ''}, needs ${length(threadId, needStrandTenths)})`
      })
      const more = never.threads.length > 3 ? [counted(never.threads.length - 3, 'more thread')] : []
      return `Not enough even by itself of ${listed([...lacking, ...more])}.`
    }
  }
}
