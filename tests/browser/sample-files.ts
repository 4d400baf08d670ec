import { readFileSync } from 'node:fs'
import path from 'node:path'
import Papa from 'papaparse'

type SampleFile = 'charts' | 'cloth' | 'lists' | 'notions' | 'places' | 'projects' | 'threads'
export type SampleRow = Readonly<Record<string, string>>

export const shop = 'The Oxmarsh Needle Room'
export const hanne = 'Hanne Drewitt'

/** The rows of one file of the sample, each by its column heads, as any spreadsheet would show them. */
export function readSample(file: SampleFile): SampleRow[] {
  const text = readFileSync(path.resolve(import.meta.dirname, `../../seed/oxmarsh/${file}.csv`), 'utf8')
  return Papa.parse<SampleRow>(text, { header: true, skipEmptyLines: true }).data
}

/** Every row of a thread by its code or name: a row for each batch. */
export const threadRows = (code: string): SampleRow[] => readSample('threads').filter((row) => row.Code === code)

/**
 * The turn of each place when one walks past them all: rooms by their walk order, what stands in one by its label, and each with what is
 * inside it.
 */
export function walkTurns(): Map<string, number> {
  const places = new Map(readSample('places').map((row) => [row.Label as string, row]))
  const pathOf = (label: string): string[] => {
    const place = places.get(label)
    const step = `${(place?.['Walk order'] || '9').padStart(2, '0')} ${label}`
    return place?.Inside ? [...pathOf(place.Inside), step] : [step]
  }
  const byPath = new Intl.Collator('en', { numeric: true })
  const inTurn = [...places.keys()].sort((a, b) => byPath.compare(pathOf(a).join(' / '), pathOf(b).join(' / ')))
  return new Map(inTurn.map((label, at) => [label, at]))
}
