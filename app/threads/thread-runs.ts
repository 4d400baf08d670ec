import { say } from '#language/say'
import type { familyChoices, ThreadListing, ThreadOrder, ThreadRow } from '#lib/db/thread/list-threads'
import type { Run } from '#lib/listing/runs'
import { putUpUnit } from '#lib/thread/put-ups'
import type { ThreadLine } from '#lib/thread/thread'
import { counted, threadLength } from '#words/amounts'
import { givenName } from '#words/given'
import { dyedWords } from '#words/swaps'
import { lineTitle } from '#words/thread'
import { familyWord } from './colour-words'

export const familyTitle = (family: (typeof familyChoices)[number]): string =>
  familyWord(family).replace(/^./u, (letter) => letter.toUpperCase())

export const lineNote = (line: ThreadLine): string =>
  [line.fibre && givenName(line.fibre), putUpWords(line), line.dyeing === 'solid' ? null : dyedWords[line.dyeing]]
    .filter(Boolean)
    .join(', ')

/** "8 m of 6 strands", in the unit it is sold by. */
function putUpWords({ putUpStrandTenths, strands }: ThreadLine): string {
  const length = threadLength(putUpStrandTenths, strands, putUpUnit(putUpStrandTenths, strands))
  return strands === 1 ? length : say('{length} of {strands} strands', { length, strands })
}

/** The headings of a whole list of threads, in its order: the lines, or the families of colour. */
export function threadRuns({ rows, counts }: Pick<ThreadListing, 'rows' | 'counts'>, order: ThreadOrder): Run[] {
  const runs: Run[] = []
  const keyOf = (row: ThreadRow) => (order === 'colour' ? (row.family ?? 'unknown') : row.line.id)
  rows.forEach((row, first) => {
    const before = rows[first - 1]
    if (before && keyOf(before) === keyOf(row)) return
    const family = row.family ?? 'unknown'
    runs.push(
      order === 'colour'
        ? { title: familyTitle(family), note: counted(counts.families[family], 'thread'), first }
        : {
            ...{ title: lineTitle(row.line), note: lineNote(row.line), first },
            link: {
              href: `/threads/lines/${row.line.id}`,
              label: say('change'),
              of: say('the line {lineTitle}', { lineTitle: lineTitle(row.line) }),
            },
          },
    )
  })
  return runs
}
