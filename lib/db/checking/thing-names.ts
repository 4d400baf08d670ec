import 'server-only'
import type { Concerned, ConcernedNoun, StockNoun } from '#lib/checking/fault'
import { text, textOrNull } from '../cells'
import type { Cell } from '../read-snapshot'

/** What a row of each noun is called by, and what its page goes by, `thing` being the row. */
const named = {
  batch: {
    name: `(SELECT mk."name" || ' ' || th."code" FROM "Thread" th JOIN "ThreadLine" li ON li."id" = th."lineId"
      JOIN "Maker" mk ON mk."id" = li."makerId" WHERE th."id" = thing."threadId") || coalesce(', lot ' || thing."lot", '')`,
    link: 'thing."threadId"',
  },
  cloth: { name: `coalesce(thing."label" || ', ', '') || thing."name"`, link: 'thing."id"' },
  chart: { name: 'thing."title"', link: 'thing."id"' },
  notion: { name: `thing."name" || coalesce(', ' || thing."size", '')`, link: 'thing."id"' },
  project: {
    name: `(SELECT de."title" FROM "Design" de WHERE de."id" = thing."designId") || coalesce(' for ' || thing."forWhom", '')`,
    link: 'thing."id"',
  },
} as const satisfies Record<StockNoun | 'project', { name: string; link: string }>

export type NamedNoun = keyof typeof named

/** Columns for what a fault is about, as `thingName` and `thingLink`. */
export const nameColumns = (noun: NamedNoun): string[] => [
  `${named[noun].name} AS "thingName"`,
  `${named[noun].link} AS "thingLink"`,
]

/** What a fault is about. One that lost its name is told by its id. */
export const concerned = (
  noun: ConcernedNoun,
  id: Cell | undefined,
  name: Cell | undefined,
  linkId: Cell | undefined,
): Concerned => ({
  noun,
  id: text(id),
  name: textOrNull(name) ?? text(id),
  linkId: textOrNull(linkId),
})
