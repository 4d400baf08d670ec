import { numberText } from '#language/figures'
import { say } from '#language/say'
import type { ClassSheet } from '#lib/printing/class-sheet'
import { groupsOf, type ListRow } from './list-rows'

/** The rows on paper, under their headings. What a column would say of every row alike is left out. */
export function listPages(title: string, day: string, rows: readonly ListRow[], withPlaces: boolean): ClassSheet {
  return {
    title,
    lines: [day],
    blocks: groupsOf(rows).flatMap(({ group, rows: some }) => {
      const saysBy = some.some(({ by, section }) => by !== '' && by !== group && section === 'chart')
      const saysMany = some.some(({ many, section }) => many !== 1 && section !== 'thread')
      return [
        { kind: 'heading' as const, text: group },
        {
          kind: 'table' as const,
          columns: [
            { head: say('What'), share: 5 },
            ...(saysBy ? [{ head: say('Designer'), share: 3 }] : []),
            { head: say('Details'), share: 5 },
            ...(withPlaces ? [{ head: say('Place'), share: 2 }] : []),
            ...(saysMany ? [{ head: say('How many'), share: 1.4, isRight: true }] : []),
          ],
          rows: some.map(({ title: named, by, details, place, many }) => [
            named,
            ...(saysBy ? [by] : []),
            details,
            ...(withPlaces ? [place ?? ''] : []),
            ...(saysMany ? [numberText(many)] : []),
          ]),
        },
      ]
    }),
    footer: `${title}, ${day}`,
    pageOf: (page, pages) => say('Page {page} of {pages}', { page, pages }),
  }
}
