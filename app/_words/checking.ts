import { say, sayings } from '#language/say'
import { type FaultKind, type Weight, weightOf } from '#lib/checking/fault'
import type { CheckResult, CheckStep } from '#lib/db/checking/check-collection'
import type { Compared } from '#lib/db/checking/find-answer-faults'
import { counted, listed } from './amounts'

export const checkStepWords: Record<CheckStep, string> = sayings({
  damage: 'Reading the database through',
  links: 'Following every link',
  stock: 'Adding up the journal',
  places: 'Walking the places',
  promises: 'Looking at what is promised',
  loans: 'Looking at what is lent or looked for',
  work: 'Looking at kits and logs',
  references: 'Looking at names nothing guards',
  files: 'Looking at photographs and files',
  snapshot: 'Comparing the needs kept for the next start',
  answers: 'Comparing the answers in memory',
})

const comparedWords = ({ looked, of }: Compared): string =>
  looked === of
    ? say('all {of, plural, one {# design} other {# designs}}', { of })
    : say('a sample of {looked, number} of {of, plural, one {# design} other {# designs}}', { looked, of })

/** How long it took: "in 3 seconds", "in under a second". */
const tookWords = (seconds: number): string => (seconds < 1 ? say('under a second') : counted(Math.round(seconds), 'second'))

/** What was looked at, in a few sentences. */
export function lookedWords({ looked, seconds, engine }: CheckResult): string[] {
  const { movements, things, places, promises, files, snapshot, answers } = looked
  return [
    say(
      '{movements, plural, one {# movement} other {# movements}} held against {things, plural, one {# thing} other {# things}}, {places, plural, one {# place} other {# places}}, {promises, plural, one {# promise} other {# promises}} and {files, plural, one {# file} other {# files}}, in {took}.',
      { movements, things, places, promises, files, took: tookWords(seconds) },
    ),
    engine === 'sqlite'
      ? say('The database file was read through, table by table, and every link in it followed.')
      : say('Every link was followed. The database server watches over its own files.'),
    snapshot === null
      ? say('No needs are kept for the next start: a small collection is read anew.')
      : say('Of the needs kept for the next start, {compared}.', { compared: comparedWords(snapshot) }),
    answers === null
      ? say('No answers were in memory to be compared.')
      : say('Of the answers in memory, {compared}.', { compared: comparedWords(answers) }),
  ]
}

/** "nothing found", "3 things found". */
export const foundWords = (found: number): string =>
  found === 0 ? say('nothing found') : say('{found, plural, one {# thing} other {# things}} found', { found })

/** How it stands, in one line. */
export function verdictWords({ counts, looked, isWhole }: CheckResult): string {
  const sum = (weight: Weight) =>
    (Object.keys(counts) as FaultKind[]).reduce((all, kind) => all + (weightOf(kind) === weight ? (counts[kind] ?? 0) : 0), 0)
  const [wrong, minded] = [sum('wrong'), sum('mind')]
  const found = [
    ...(wrong > 0 ? [say('{wrong, plural, one {# thing} other {# things}} that must not be', { wrong })] : []),
    ...(minded > 0 ? [say('{minded, plural, one {# thing} other {# things}} worth a look', { minded })] : []),
  ]
  if (!isWhole)
    return say('Broken off before the end: {rest}', { rest: found.length > 0 ? listed(found) : say('nothing found by then') })
  if (wrong === 0)
    return say('All is well: {movements, plural, one {# movement} other {# movements}} add{rest} up{rest2}', {
      movements: looked.movements,
      rest: looked.movements === 1 ? 's' : '',
      rest2:
        minded > 0
          ? say(', and {minded, plural, one {# thing} other {# things}} {minded, plural, one {is} other {are}} worth a look', {
              minded,
            })
          : '',
    })
  return say('Found {found}', { found: listed(found) })
}
