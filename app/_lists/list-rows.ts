import type { SharedListName, SharedThing } from '#lib/db/list/shared-thing'
import { toCsv } from '#lib/importing/escape-csv'
import { formatClothSize, type LengthUnit } from '#lib/quantity/cloth-length'
import { formatCount } from '#lib/quantity/count'
import { counted, listed } from '#words/amounts'
import { notionKindWords } from '#words/notion'
import { threadTitle } from '#words/thread'

export const sectionWords: Record<SharedThing['noun'], string> = {
  thread: 'Threads',
  chart: 'Charts',
  cloth: 'Cloth',
  notion: 'Notions',
}

export const listWords: Record<SharedListName, { title: string; byline: string; file: string }> = {
  doubles: {
    title: 'Doubles to pass on',
    byline: 'Charts held more often than once, threads beyond what is kept, and cloth kept for no project.',
    file: 'doubles.csv',
  },
  wants: {
    title: 'Wants',
    byline:
      'For whoever asks what to give: threads short for wanted and planned projects or below the least kept, charts and parts that are not here, notions below their least.',
    file: 'wants.csv',
  },
  stash: {
    title: 'Stash',
    byline: 'What is held, to show others: threads by maker and code, charts by title and designer, cloth by count and size.',
    file: 'stash.csv',
  },
}

/** A line of a list for others, in words. */
export type ListRow = {
  key: string
  section: SharedThing['noun']
  /** The maker or the designers; empty where nobody said. */
  by: string
  title: string
  /** Of a thread, exact. */
  code: string
  details: string
  many: number
  place: string | null
}

/** The words of a thing: every word on a list for others is made here, from a thing that has no price, person or note. */
export function listRow(thing: SharedThing, unit: LengthUnit): ListRow {
  const row = { key: `${thing.noun}.${thing.id}`, section: thing.noun, place: thing.place }
  switch (thing.noun) {
    case 'thread': {
      const whole = thing.putUps > 0 ? counted(thing.putUps, thing.putUpWord) : ''
      const part = thing.hasPart ? 'a part' : ''
      return {
        ...{ ...row, by: thing.line.makerName, title: threadTitle(thing), code: thing.code, many: thing.putUps },
        details: [whole, part].filter(Boolean).join(' and '),
      }
    }
    case 'chart':
      return {
        ...{ ...row, by: listed(thing.designerNames), title: thing.title, code: '', many: thing.copies },
        details: [
          thing.kind,
          thing.parts && `part ${thing.parts.held} of ${thing.parts.needed} is here`,
          thing.alsoIn.length > 0 && `all of it also in ${listed(thing.alsoIn)}: keep one`,
        ]
          .filter(Boolean)
          .join(', '),
      }
    case 'cloth':
      return {
        ...{ ...row, by: '', title: [thing.name, thing.colourName].filter(Boolean).join(', '), code: '', many: 1 },
        details: [formatCount(thing.ends, thing.picks), formatClothSize(thing, unit)].join(', '),
      }
    case 'notion':
      return {
        ...{ ...row, by: '', title: [thing.name, thing.size].filter(Boolean).join(', '), code: '', many: thing.many },
        details: notionKindWords[thing.kind].one,
      }
  }
}

/** The rows as a file. A thread’s title says its code too, for spreadsheets take the zeros off a code that stands alone. */
export function listCsv(rows: readonly ListRow[], { withPlaces }: { withPlaces: boolean }): string {
  const head = ['Kind', 'Maker or designer', 'Title', 'Code', 'Details', 'How many', ...(withPlaces ? ['Place'] : [])]
  return toCsv([
    head,
    ...rows.map((row) => [
      ...[sectionWords[row.section], row.by, row.title, row.code, row.details, row.many],
      ...(withPlaces ? [row.place] : []),
    ]),
  ])
}
