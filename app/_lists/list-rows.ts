import { formatClothSize } from '#language/lengths'
import { say, sayings } from '#language/say'
import { numberColumn, type Sheet, sheetFrom, textColumn } from '#lib/archive/sheet'
import type { SharedListName, SharedTheme, SharedThing } from '#lib/db/list/shared-thing'
import { toCsv } from '#lib/importing/escape-csv'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { compareExact } from '#lib/stock/batch'
import { counted, listed } from '#words/amounts'
import { countWords } from '#words/cloth-count'
import { givenName } from '#words/given'
import { notionKindWords } from '#words/notion'
import { threadTitle } from '#words/thread'
import type { ListChoices } from './list-query'

const sectionWords: Record<SharedThing['noun'], string> = sayings({
  thread: 'Threads',
  chart: 'Charts',
  cloth: 'Cloth',
  notion: 'Notions',
})

export const listWords = (): Record<SharedListName, { title: string; byline: string; file: string }> => ({
  doubles: {
    title: say('Doubles to pass on'),
    byline: say('Charts held more often than once, threads beyond what is kept, and cloth kept for no project.'),
    file: 'doubles',
  },
  wants: {
    title: say('Wants'),
    byline: say(
      'For whoever asks what to give: threads short for wanted and planned projects or below the least kept, charts and parts that are not here, notions below their least.',
    ),
    file: 'wants',
  },
  stash: {
    title: say('Stash'),
    byline: say(
      'What is held, to show others: threads by maker and code, charts by title and designer, cloth by count and size.',
    ),
    file: 'stash',
  },
  guild: {
    title: say('Charts for the guild'),
    byline: say(
      'The charts that are held, by designer or by theme, with their designs and sizes: who has what to look at or borrow.',
    ),
    file: 'guild',
  },
})

/** A line of a list for others, in words. */
export type ListRow = {
  key: string
  section: SharedThing['noun']
  /** The heading it stands under. */
  group: string
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
  const row = {
    ...{ key: `${thing.noun}.${thing.id}`, section: thing.noun, group: sectionWords[thing.noun], place: thing.place },
  }
  switch (thing.noun) {
    case 'thread': {
      const whole = thing.putUps > 0 ? counted(thing.putUps, thing.putUpWord) : ''
      const part = thing.hasPart ? say('a part') : ''
      return {
        ...{ ...row, by: thing.line.makerName, title: threadTitle(thing), code: thing.code, many: thing.putUps },
        details: listed([whole, part].filter(Boolean)),
      }
    }
    case 'chart':
      return {
        ...{ ...row, by: listed(thing.designerNames), title: thing.title, code: '', many: thing.copies },
        details: [
          givenName(thing.kind),
          thing.parts && say('part {held} of {needed} is here', { held: thing.parts.held, needed: thing.parts.needed }),
          thing.alsoIn.length > 0 && say('all of it also in {alsoIn}: keep one', { alsoIn: listed(thing.alsoIn) }),
          ...designWords(thing, unit),
        ]
          .filter(Boolean)
          .join(', '),
      }
    case 'cloth':
      return {
        ...{ ...row, by: '', title: [thing.name, thing.colourName].filter(Boolean).join(', '), code: '', many: 1 },
        details: [countWords(thing.ends, thing.picks), formatClothSize(thing, unit)].join(', '),
      }
    case 'notion':
      return {
        ...{ ...row, by: '', title: [thing.name, thing.size].filter(Boolean).join(', '), code: '', many: thing.many },
        details: notionKindWords[thing.kind].one,
      }
  }
}

type Chart = Extract<SharedThing, { noun: 'chart' }>

/** "140 × 98 stitches"; of several designs each with its title; then their themes. */
function designWords({ designs, title }: Chart, unit: LengthUnit): string[] {
  const sizes = designs.map(({ title: named, size }) => {
    const said =
      size.kind === 'stitches'
        ? say('{width} × {height} stitches', { width: size.width, height: size.height })
        : size.kind === 'measured'
          ? formatClothSize(size, unit)
          : ''
    const isAlone = designs.length === 1 && named === title
    return isAlone ? said : [named, said && `(${said})`].filter(Boolean).join(' ')
  })
  return [...sizes.filter(Boolean), ...new Set(designs.flatMap(({ themes }) => themes.map(({ name }) => givenName(name))))]
}

const axisWords: Record<SharedTheme['axis'], string> = sayings({ season: 'Season', subject: 'Subject', form: 'Form' })
const axes = Object.keys(axisWords) as SharedTheme['axis'][]

/** A guild's list under headings: a chart of two designers stands once, under both their names; one of several themes under each of them. */
export function guildRows(things: readonly SharedThing[], by: ListChoices['by'], unit: LengthUnit): ListRow[] {
  const charts = things.flatMap((thing) => (thing.noun === 'chart' ? [{ thing, row: listRow(thing, unit) }] : []))
  if (by === 'designer')
    return charts
      .map(({ row }) => ({ ...row, group: row.by || say('No designer named') }))
      .sort((a, b) => Number(a.by === '') - Number(b.by === '') || compareExact(a.group, b.group))
  const under = new Map<string, { axis: number; rows: ListRow[] }>()
  for (const { thing, row } of charts) {
    const themes = thing.designs.flatMap((design) => design.themes)
    const heads = new Map(themes.map(({ axis, name }) => [`${axisWords[axis]}: ${givenName(name)}`, axes.indexOf(axis)]))
    if (heads.size === 0) heads.set(say('No theme'), axes.length)
    for (const [group, axis] of heads) {
      const known = under.get(group) ?? { axis, rows: [] }
      known.rows.push({ ...row, group })
      under.set(group, known)
    }
  }
  return [...under].sort(([a, left], [b, right]) => left.axis - right.axis || compareExact(a, b)).flatMap(([, { rows }]) => rows)
}

/** Rows by the heading they stand under, in their order. */
export function groupsOf(rows: readonly ListRow[]): { group: string; rows: ListRow[] }[] {
  const groups = new Map<string, ListRow[]>()
  for (const row of rows) {
    const known = groups.get(row.group)
    if (known) known.push(row)
    else groups.set(row.group, [row])
  }
  return [...groups].map(([group, some]) => ({ group, rows: some }))
}

type Said = { withPlaces: boolean }

/** The rows as a sheet; the heading they stand under is its first column. */
export function listSheet(title: string, rows: readonly ListRow[], { withPlaces }: Said): Sheet {
  return sheetFrom(
    title,
    [
      textColumn<ListRow>(say('Under'), 22, ({ group }) => group),
      textColumn<ListRow>(say('Maker or designer'), 24, ({ by }) => by),
      textColumn<ListRow>(say('Title'), 40, ({ title: named }) => named),
      textColumn<ListRow>(say('Code'), 10, ({ code }) => code),
      textColumn<ListRow>(say('Details'), 48, ({ details }) => details),
      numberColumn<ListRow>(say('How many'), 'whole', ({ many }) => many),
      ...(withPlaces ? [textColumn<ListRow>(say('Place'), 16, ({ place }) => place)] : []),
    ],
    rows,
  )
}

/** The rows as a file. A thread’s title says its code too, for spreadsheets take the zeros off a code that stands alone. */
export function listCsv(rows: readonly ListRow[], { withPlaces }: Said): string {
  const { columns, rows: cells } = listSheet('', rows, { withPlaces })
  return toCsv([columns.map(({ head }) => head), ...cells])
}
