import 'server-only'
import { createHash } from 'node:crypto'
import { fileTitle } from '#lib/importing/file-title'
import type { ImportPlan } from '#lib/importing/import-plan'
import { shapeKey } from '#lib/importing/mapping'
import { planInSteps } from '#lib/importing/plan-import'
import type { Result } from '#lib/result'
import { requireWhole } from '../access/whole'
import { database } from '../client'
import { newId } from '../new-id'
import { promiseBags } from '../project/promise-for-project'
import { readSnapshot } from '../read-snapshot'
import { getSettings } from '../settings/settings'
import { write } from '../write'
import type { ImportChoices, ImportProgress, ImportRefused } from './import-service'
import { inTurns } from './in-turns'
import { planOptions } from './preview-import'
import { readFileToBringIn } from './read-file'
import { readImportSnapshot } from './read-import-snapshot'
import { writePlan } from './write-plan'

/** The longest one import may take to write. */
const writeTimeoutMs = 15 * 60_000

export type BroughtIn = { importId: string; counts: ImportPlan['counts'] }

/** Told as it goes; what it throws ends the import, and nothing of it stays. */
export type ReportImport = (progress: Extract<ImportProgress, { state: 'running' }>) => void

/** Bring a staged file in: all its good rows in one transaction, or, thrown or refused, nothing. */
export async function bringIn(
  stagedId: string,
  choices: ImportChoices,
  report: ReportImport = () => {},
): Promise<Result<BroughtIn, ImportRefused>> {
  requireWhole()
  report({ state: 'running', step: 'reading', done: 0, of: 1 })
  const file = await readFileToBringIn(stagedId, choices, () => report({ state: 'running', step: 'reading', done: 0, of: 1 }))
  if (!file.ok) return file
  const { fileName, bytes, found, table, mapping, keys, isAsItLooks, checked } = file.value
  const rowCount = table.rows.length
  const title = fileTitle(fileName, found.sheetName, found.sheets?.length)
  const settings = await getSettings()
  report({ state: 'running', step: 'deciding', done: 0, of: rowCount })

  return write<BroughtIn, ImportRefused>(async (writing) => {
    const { tx, at, touch } = writing
    // Read past the transaction, which has written nothing yet but holds the lock: nobody else can write meanwhile.
    const snapshot = await readSnapshot(database(), (rows) => readImportSnapshot(rows, mapping.kind))
    const plan = await inTurns(planInSteps(checked, snapshot, planOptions(mapping)), () =>
      report({ state: 'running', step: 'deciding', done: 0, of: rowCount }),
    )
    const { added, changed, same, refused } = plan.counts
    const importId = newId()
    await tx.importBatch.create({
      data: {
        id: importId,
        kind: mapping.kind,
        fileName: title,
        fileHash: createHash('sha256').update(bytes).digest('hex'),
        at,
        mappingJson: JSON.stringify(mapping),
        addedCount: added,
        changedCount: changed,
        sameCount: same,
        refusedCount: refused,
      },
    })
    const mappingJson = JSON.stringify(mapping)
    const remember = (key: string, mappingJson: string) =>
      tx.importMapping.upsert({
        where: { shapeKey: key },
        create: { id: newId(), shapeKey: key, mappingJson },
        update: { mappingJson },
      })
    await remember(shapeKey(mapping.kind, table.headers, table.layout), mappingJson)
    const { sheet, ...way } = mapping.reading ?? {}
    if (isAsItLooks) await tx.importMapping.deleteMany({ where: { shapeKey: keys.look } })
    else await remember(keys.look, JSON.stringify(way))
    if (keys.book !== null) await remember(keys.book, JSON.stringify({ sheet }))
    report({ state: 'running', step: 'writing', done: 0, of: plan.operations.length })
    await writePlan(writing, plan, {
      importId,
      fileName: title,
      layout: table.layout,
      snapshot,
      onWritten: (done, of) => report({ state: 'running', step: 'writing', done, of }),
    })
    if (mapping.kind === 'projects' || mapping.kind === 'threads') {
      const promised = await promiseBags(writing, settings)
      // Only a fault of the program could bring that about: nothing else can write meanwhile.
      if (!promised.ok) throw new Error('bringIn: stock changed inside its own transaction')
    }
    touch('everything', '*')
    return { ok: true, value: { importId, counts: plan.counts } }
  }, writeTimeoutMs)
}
