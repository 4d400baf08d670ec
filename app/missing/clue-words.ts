import type { Clues } from '#lib/db/missing/read-clues'
import type { Clue, ClueKind } from '#lib/stock/missing-clues'
import { dayOf } from '#words/date'
import { movementWords } from '#words/movement'

const kindWords: Record<ClueKind, (clue: Clue) => string> = {
  'counted-over': ({ text, at }) => `a count found too many of it here${text ? ` (${text}${at ? `, ${dayOf(at)}` : ''})` : ''}`,
  'found-in-count': ({ text, at }) =>
    `found here in a count, where the record has none${text ? ` (${text}${at ? `, ${dayOf(at)}` : ''})` : ''}`,
  'more-out': () => 'more of the same thread is out here',
  'project-bag': ({ text }) => `the bag of ${text ?? 'the project'}`,
  'next-to': ({ text }) => `beside its home${text ? ` ${text}` : ''}: put into the next one by mistake`,
  'lived-there': ({ at }) => `its thread lived here before${at ? `, until ${dayOf(at)}` : ''}`,
  'was-there': ({ at }) => `it was here before${at ? `, ${dayOf(at)}` : ''}`,
  'more-home': () => 'more of the same thread lives here',
}

/** Why to look there: "beside its home T2.1-14: put into the next one by mistake". */
export const clueWords = (clues: readonly Clue[]): string => {
  const said = [...new Map(clues.map((clue) => [clue.kind, kindWords[clue.kind](clue)])).values()]
  return said.join('; ')
}

/** "Taken from T2.1-14 to K-07 for Seven Lanterns, by Joss Tarrow, 3 Mar 2026". */
export function lastHandWords({ kind, from, to, project, who, at }: Clues['lastHands'][number]): string {
  const way = [from && `from ${from}`, to && to !== from && `to ${to}`].filter(Boolean).join(' ')
  const told = [`${movementWords[kind]} ${way}`.trim(), project && `for ${project}`].filter(Boolean).join(' ')
  const sentence = `${told}, ${who ? `by ${who}` : 'nobody said by whom'}, ${dayOf(at)}`
  return sentence.charAt(0).toUpperCase() + sentence.slice(1)
}
