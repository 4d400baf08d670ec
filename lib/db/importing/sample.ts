import 'server-only'
import { readFile } from 'node:fs/promises'
import path from 'node:path'
import { type ImportKind, importKinds } from '#lib/importing/fields'
import type { Result } from '#lib/result'
import { requireWhole } from '../access/whole'
import { addOwner } from '../owner/owners'
import { type BroughtIn, bringIn, type ReportImport } from './bring-in'
import type { ImportRefused } from './import-service'
import { bringInSampleWork } from './sample-work'
import { stageFile } from './stage-file'

/** A file of the invented sample, which is also the example of its kind. */
export const readSampleFile = (kind: ImportKind): Promise<Buffer> =>
  readFile(path.join(process.cwd(), 'seed', 'oxmarsh', `${kind}.csv`))

/** The shop comes first, and so is the one whose stock is shown; the files alone do not say which of the two is a shop. */
const sampleOwners = [
  { name: 'The Oxmarsh Needle Room', kind: 'shop' },
  { name: 'Hanne Drewitt', kind: 'own' },
] as const

/**
 * Bring the sample's files in, one import each, in the order in which each finds what it speaks of; and the log of its projects.
 *
 * @returns the last import, with the counts of all
 */
export async function bringInSample(report: ReportImport = () => {}): Promise<Result<BroughtIn, ImportRefused>> {
  requireWhole()
  const counts = { added: 0, changed: 0, same: 0, refused: 0 }
  let importId = ''
  // A namesake that is there already does as well.
  for (const owner of sampleOwners) await addOwner(owner)
  for (const [index, kind] of importKinds.entries()) {
    report({ state: 'running', step: 'writing', done: index, of: importKinds.length })
    const { stagedId } = await stageFile(`${kind}.csv`, await readSampleFile(kind))
    const result = await bringIn(stagedId, { kind })
    if (!result.ok) return result
    importId = result.value.importId
    for (const name of ['added', 'changed', 'same', 'refused'] as const) counts[name] += result.value.counts[name]
  }
  await bringInSampleWork()
  return { ok: true, value: { importId, counts } }
}
