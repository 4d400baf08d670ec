import { numberText } from '#language/figures'
import { say, sayings } from '#language/say'
import type { UndoDone } from '#lib/db/importing/import-service'
import { type Field, fieldsOf, type ImportKind, importKinds, listFields } from '#lib/importing/fields'
import type { ImportPlan } from '#lib/importing/import-plan'
import type { SheetLayout } from '#lib/importing/layouts'
import type { Separator } from '#lib/importing/sniff-separator'
import { counted, sayNoun, sayWord } from '#words/amounts'

/** What each kind of file is called, and what one row of it stands for. */
export const kindWords: Record<ImportKind, { title: string; row: string; tells: string }> = sayings({
  places: {
    title: 'Places',
    row: 'a place',
    tells: 'Rooms, cabinets, drawers, boxes, bags: their labels and what stands inside what.',
  },
  threads: {
    title: 'Threads held',
    row: 'one thread, of one lot',
    tells: 'Maker, line and code, how many skeins and what part of one, and the drawer they live in.',
  },
  cloth: { title: 'Cloth held', row: 'a piece of cloth', tells: 'Name, count, colour and size of each piece, and where it is.' },
  charts: {
    title: 'Charts',
    row: 'a design in a chart',
    tells: 'Leaflets, booklets, kits and files, with the size and themes of each design in them.',
  },
  lists: {
    title: 'Thread lists',
    row: 'a line of a chart’s key',
    tells: 'Which threads a design asks for, and how many stitches or skeins of each.',
  },
  projects: { title: 'Projects', row: 'one working of a design', tells: 'What is planned, under way or finished, and when.' },
  notions: {
    title: 'Notions',
    row: 'one sort of thing, of one size',
    tells: 'Hoops, frames, needles, scissors, beads, bags: how many there are of each, and where they are kept.',
  },
})

/** "Charts", "Thread lists", in the order in which files that name one another are best brought in. */
export const kindOptions = () => importKinds.map((kind) => ({ value: kind, label: kindWords[kind].title }))

export const layoutWords: Record<SheetLayout, string> = sayings({
  rows: 'rows under headings',
  'drawer-columns': 'a column for each drawer',
  'drawer-rows': 'a row for each drawer',
  'drawer-grid': 'a drawer in each cell',
})

export const separatorWords: Record<Separator, string> = sayings({
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  '|': 'upright bar',
})

const fieldNamed = (kind: ImportKind, name: string): Field | undefined => (fieldsOf[kind] as Record<string, Field>)[name]

export function fieldLabel(kind: ImportKind, name: string): string {
  const field = fieldNamed(kind, name)
  return field === undefined ? name : sayNoun(field.label)
}

export const helpOf = (kind: ImportKind, name: string | null): string => {
  const field = fieldNamed(kind, name ?? '')
  return field === undefined ? '' : sayWord(field.help)
}

export type SaidField = Field & { name: string }

/** The fields of a kind in their order, with their labels and help in words. */
export const saidFields = (kind: ImportKind): SaidField[] =>
  listFields(kind).map((field) => ({ ...field, label: sayNoun(field.label), help: sayWord(field.help) }))

const countedNouns: Record<string, (count: number) => string> = {
  owner: (count) => counted(count, 'owner'),
  place: (count) => counted(count, 'place'),
  maker: (count) => counted(count, 'maker'),
  line: (count) => say('{count, plural, one {# line of thread} other {# lines of thread}}', { count }),
  thread: (count) => counted(count, 'thread'),
  standIn: (count) => counted(count, 'stand-in'),
  batch: (count) => say('{count, plural, one {# batch of thread} other {# batches of thread}}', { count }),
  designer: (count) => counted(count, 'designer'),
  theme: (count) => counted(count, 'theme'),
  chart: (count) => counted(count, 'chart'),
  design: (count) => counted(count, 'design'),
  list: (count) => counted(count, 'thread list'),
  cloth: (count) => say('{count, plural, one {# piece of cloth} other {# pieces of cloth}}', { count }),
  project: (count) => counted(count, 'project'),
  notion: (count) => counted(count, 'notion'),
}

/** "1 place", "12 batches of thread". */
export const countedNoun = (count: number, noun: string): string => countedNouns[noun]?.(count) ?? counted(count, noun)

type Counts = ImportPlan['counts']

/** "214 new, 3 changed, 1,020 the same, 2 refused"; what there is none of is left out. */
export function describeCounts({ added, changed, same, refused }: Counts): string {
  const figure = (count: number, word: string) => (count > 0 ? [`${numberText(count)} ${word}`] : [])
  const words = [
    ...figure(added, say('new')),
    ...figure(changed, say('changed')),
    ...figure(same, say('the same')),
    ...figure(refused, say('refused')),
  ]
  return words.join(', ') || say('nothing')
}

/** What the button would do; null when there is something to do. */
export function describeNothingToDo({ added, changed, same, refused }: Counts): string | null {
  if (added + changed > 0) return null
  if (refused === 0) return say('Everything in this file is here already; nothing would change.')
  if (same === 0) return say('No row can be brought in as the file is read now. What stands in the way is said below.')
  return say(
    'What could be read is here already; nothing would change. {refused, plural, one {# row} other {# rows}} cannot be brought in, for the reasons below.',
    { refused },
  )
}

export type UndoLeft = { noun: string; why: UndoDone['left'][number]['why']; count: number }

/** What was left by an undo, gathered by noun and reason, most first. */
export function gatherLeft(left: UndoDone['left']): UndoLeft[] {
  const gathered = new Map<string, UndoLeft>()
  for (const { noun, why } of left) {
    const key = `${noun} ${why}`
    gathered.set(key, { noun, why, count: (gathered.get(key)?.count ?? 0) + 1 })
  }
  return [...gathered.values()].sort((one, other) => other.count - one.count || (one.noun < other.noun ? -1 : 1))
}

const whyWords: Record<UndoLeft['why'], string> = sayings({
  'changed-since': 'changed by hand since',
  'in-use': 'something else depends on it now',
})

export const describeLeft = ({ noun, why, count }: UndoLeft): string => `${countedNoun(count, noun)}: ${whyWords[why]}.`

export const describeTakenBack = (takenBack: number): string =>
  takenBack === 0
    ? say('Nothing could be taken back.')
    : say('{takenBack, plural, one {# thing} other {# things}} taken back.', { takenBack })

const encodingNames: Record<string, string> = sayings({
  'utf-8': 'UTF-8',
  'utf-16le': 'UTF-16',
  'utf-16be': 'UTF-16',
  'windows-1252': 'Western European (windows-1252)',
  'windows-1250': 'Central European (windows-1250)',
})

/** @param encoding  null for a workbook */
export function describeEncoding(encoding: string | null, warnings: readonly string[]): string {
  if (encoding === null) return say('Workbook (xlsx)')
  const name = encodingNames[encoding] ?? encoding
  const notes = [
    ...(warnings.includes('encoding-guessed') ? [say('guessed from its letters: look whether accents came out right')] : []),
    ...(warnings.includes('damaged') ? [say('some letters could not be read and stand as �')] : []),
  ]
  return notes.length === 0 ? name : `${name}, ${notes.join('; ')}`
}
