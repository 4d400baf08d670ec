import { say } from '#language/say'
import type { Clues } from '#lib/db/missing/read-clues'
import type { Clue, ClueKind } from '#lib/stock/missing-clues'
import { dayOf } from '#words/date'
import { movementWords } from '#words/movement'

const kindWords: Record<ClueKind, (clue: Clue) => string> = {
  'counted-over': ({ text, at }) =>
    say('a count found too many of it here{rest}', { rest: text ? ` (${text}${at ? `, ${dayOf(at)}` : ''})` : '' }),
  'found-in-count': ({ text, at }) =>
    say('found here in a count, where the record has none{rest}', {
      rest: text ? ` (${text}${at ? `, ${dayOf(at)}` : ''})` : '',
    }),
  'more-out': () => say('more of the same thread is out here'),
  'project-bag': ({ text }) => say('the bag of {text}', { text: text ?? say('the project') }),
  'next-to': ({ text }) => say('beside its home{rest}: put into the next one by mistake', { rest: text ? ` ${text}` : '' }),
  'lived-there': ({ at }) =>
    say('its thread lived here before{rest}', { rest: at ? say(', until {at}', { at: dayOf(at) }) : '' }),
  'was-there': ({ at }) => say('it was here before{rest}', { rest: at ? `, ${dayOf(at)}` : '' }),
  'more-home': () => say('more of the same thread lives here'),
}

/** Why to look there: "beside its home T2.1-14: put into the next one by mistake". */
export const clueWords = (clues: readonly Clue[]): string => {
  const said = [...new Map(clues.map((clue) => [clue.kind, kindWords[clue.kind](clue)])).values()]
  return said.join('; ')
}

/** "Taken from T2.1-14 to K-07 for Seven Lanterns, by Joss Tarrow, 3 Mar 2026". */
export function lastHandWords({ kind, from, to, project, who, at }: Clues['lastHands'][number]): string {
  const way = [from && say('from {from}', { from }), to && to !== from && say('to {to}', { to })].filter(Boolean).join(' ')
  const told = [`${movementWords[kind]} ${way}`.trim(), project && say('for {project}', { project })].filter(Boolean).join(' ')
  const sentence = say('{told}, {rest}, {at}', {
    told,
    rest: who ? say('by {who}', { who }) : say('nobody said by whom'),
    at: dayOf(at),
  })
  return sentence.charAt(0).toUpperCase() + sentence.slice(1)
}
