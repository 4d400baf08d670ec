import { say } from '#language/say'
import type { LeftInBag, ThingUnpacked, ThreadUnpacked } from '#lib/db/unpack/unpack-bag'
import type { UnpackSheet, UnpackThread } from '#lib/db/unpack/unpack-sheet'
import { parseNumber, parseWholeNumber } from '#lib/quantity/number'
import { parseThreadLength, type ThreadLengthUnit } from '#lib/quantity/thread-length'
import { thingOutcomes } from '#lib/stock/unpack'
import { plural, singular } from '#words/amounts'

export const fateField = (id: string) => `fate.${id}`
export const leftField = (id: string) => `left.${id}`
export const goneField = (id: string) => `gone.${id}`
export const projectField = (id: string) => `project.${id}`
export const versionField = (id: string) => `version.${id}`
export const freedField = (projectId: string) => `freed.${projectId}`

export const threadFates = ['as-it-was', 'left', 'used-up', 'not-there', 'stays'] as const
type ThreadFate = (typeof threadFates)[number]

/** Heavier, or more put-ups, is a slip of the finger. */
const mostGrams = 100_000
const mostPutUps = 10_000

/**
 * What is left, as it is written in one box: a length is measured ("2.5 m", "8 yd"), grams were weighed ("3.1 g"), and a bare figure or
 * one with the put-up's name is a share judged by eye ("0.7", "¾ skein"). Null when it is none of them.
 *
 * @returns lengths in strand tenths
 */
export function parseLeft(
  text: string,
  thread: { strands: number; putUpWord: string },
  unit: ThreadLengthUnit,
): LeftInBag | null {
  const said = text.trim()
  const grams = /^(.*\S)\s*g(?:rams?)?\.?$/iu.exec(said)
  if (grams) {
    const figure = parseNumber(grams[1] as string)
    return figure === null || figure < 0 || figure > mostGrams ? null : { how: 'weighed', milligrams: Math.round(figure * 1_000) }
  }
  const { putUpWord: one } = thread
  const words = [one, `${one}s`, singular(one), plural(one)].map((word) => word.replace(/[^\p{L}\p{N} ]/gu, '')).join('|')
  const share = parseNumber(said.replace(new RegExp(`\\s*(?:of an? )?(?:${words})$`, 'iu'), ''))
  if (share !== null) return share < 0 || share > mostPutUps ? null : { how: 'guess', putUpHundredths: Math.round(share * 100) }
  const length = parseThreadLength(said, unit)
  return length === null ? null : { how: 'measured', strandTenths: length * thread.strands }
}

type Read = {
  threads: ThreadUnpacked[]
  cloth: ThingUnpacked[]
  charts: ThingUnpacked[]
  notions: ThingUnpacked[]
  freedProjectIds: string[]
  fieldErrors: Record<string, string[]>
}

/** The form as it was sent. Only what stands on the sheet is read; what was taken out meanwhile is left alone. */
export function readUnpack(values: Record<string, string>, sheet: UnpackSheet, unit: ThreadLengthUnit): Read {
  const read: Read = { threads: [], cloth: [], charts: [], notions: [], freedProjectIds: [], fieldErrors: {} }
  for (const row of sheet.threads) {
    const fate = threadFates.find((known) => known === values[fateField(row.id)])
    if (!fate) continue
    const notThere = parseWholeNumber(values[goneField(row.id)]?.trim() || '0')
    if (notThere === null) {
      read.fieldErrors[goneField(row.id)] = [say('{nameOf}: how many are not there is a whole number.', { nameOf: nameOf(row) })]
      continue
    }
    const outcome = readOutcome(fate, values[leftField(row.id)]?.trim() ?? '', row, unit)
    if (typeof outcome === 'string') {
      read.fieldErrors[leftField(row.id)] = [`${nameOf(row)}: ${outcome}`]
      continue
    }
    const project = values[projectField(row.id)] ?? row.projects[0]?.id ?? ''
    const projectId = row.projects.some(({ id }) => id === project) ? project : null
    const version = Number(values[versionField(row.id)] ?? row.version)
    read.threads.push({ batchId: row.id, version, outcome, notThere, projectId })
  }
  for (const thing of sheet.things) {
    const outcome = thingOutcomes.find((known) => known === values[fateField(thing.id)])
    if (!outcome) continue
    const rows = thing.noun === 'cloth' ? read.cloth : thing.noun === 'chart' ? read.charts : read.notions
    rows.push({ id: thing.id, version: Number(values[versionField(thing.id)] ?? thing.version), outcome })
  }
  read.freedProjectIds = sheet.projects.flatMap(({ id }) => (values[freedField(id)] === 'free' ? id : []))
  return read
}

const nameOf = (row: Pick<UnpackThread, 'makerName' | 'code'>) => `${row.makerName} ${row.code}`

function readOutcome(
  fate: ThreadFate,
  text: string,
  row: UnpackThread,
  unit: ThreadLengthUnit,
): ThreadUnpacked['outcome'] | string {
  // An amount that was written down says more than the choice that stood there at first.
  if (fate !== 'left' && (fate !== 'as-it-was' || text === '')) return { kind: fate }
  const left = text === '' ? null : parseLeft(text, row, unit)
  if (left === null)
    return say('say how much is left: 0.7 of a {putUpWord}, 2.5 {unit}, or 3.1 g.', { putUpWord: singular(row.putUpWord), unit })
  if (left.how === 'weighed' && row.putUpMilligrams === null)
    return say('say on the page of its line what a full {putUpWord} weighs, or measure what is left.', {
      putUpWord: singular(row.putUpWord),
    })
  return { kind: 'left', ...left }
}
