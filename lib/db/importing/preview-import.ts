import 'server-only'
import { toCsv } from '#lib/importing/escape-csv'
import type { ImportKind } from '#lib/importing/fields'
import type { ImportPlan } from '#lib/importing/import-plan'
import type { Mapping } from '#lib/importing/mapping'
import { planInSteps } from '#lib/importing/plan-import'
import type { ImportedNoun } from '#lib/importing/snapshot'
import type { Result } from '#lib/result'
import { database } from '../client'
import { newId } from '../new-id'
import { readSnapshot } from '../read-snapshot'
import type { ImportChoices, ImportPreview, ImportRefused } from './import-service'
import { inTurns } from './in-turns'
import { readFileToBringIn, sampleRowsShown } from './read-file'
import { readImportSnapshot } from './read-import-snapshot'

/** As many errors and warnings as a person reads before mending the file. */
const mostShown = 300
const namesShown = 8

export const planOptions = ({ otherHome }: Mapping) => ({ newId, ...(otherHome && { otherHome }) })

/** Say what bringing a staged file in would do, without doing it. */
export async function previewImport(stagedId: string, choices: ImportChoices): Promise<Result<ImportPreview, ImportRefused>> {
  const file = await readFileToBringIn(stagedId, choices)
  if (!file.ok) return file
  const { table, mapping, checked } = file.value
  const snapshot = await readSnapshot(database(), (rows) => readImportSnapshot(rows, mapping.kind))
  const plan = await inTurns(planInSteps(checked, snapshot, planOptions(mapping)))
  return {
    ok: true,
    value: {
      stagedId,
      fileName: file.value.fileName,
      found: file.value.found,
      headers: table.headers,
      sampleRows: table.rows.slice(0, sampleRowsShown).map(({ cells }) => cells),
      rowCount: table.rows.length + table.problems.length,
      kind: mapping.kind,
      mapping,
      isMappingRemembered: file.value.isMappingRemembered,
      counts: plan.counts,
      errors: plan.errors.slice(0, mostShown),
      errorCount: plan.errors.length,
      warnings: plan.warnings.slice(0, mostShown),
      warningCount: plan.warnings.length,
      alsoMade: alsoMade(plan),
    },
  }
}

/** The rows that would be refused, and with a list all of its rows, as a file to mend and bring in again; lines that could not be parted into cells are not in it. */
export async function refusedRowsCsv(stagedId: string, choices: ImportChoices): Promise<Result<string, ImportRefused>> {
  const file = await readFileToBringIn(stagedId, choices)
  if (!file.ok) return file
  const { table, mapping, checked } = file.value
  const snapshot = await readSnapshot(database(), (rows) => readImportSnapshot(rows, mapping.kind))
  const { rowsToMend } = await inTurns(planInSteps(checked, snapshot, planOptions(mapping)))
  const toMend = new Set(rowsToMend)
  return {
    ok: true,
    value: toCsv([table.headers, ...table.rows.filter((row) => toMend.has(row.rowNumber)).map(({ cells }) => cells)]),
  }
}

/** What a row of each kind stands for. */
const ownNoun: Record<ImportKind, ImportedNoun> = {
  ...{ places: 'place', threads: 'batch', cloth: 'cloth', charts: 'design', lists: 'list', projects: 'project' },
  notions: 'notion',
}

/** Besides the rows themselves: the places, owners, makers, threads and so on that rows name and nobody knew. */
function alsoMade(plan: ImportPlan): ImportPreview['alsoMade'] {
  const own = ownNoun[plan.kind]
  const made = new Map<string, string[]>()
  for (const operation of plan.operations) {
    if (operation.do !== 'add' || operation.noun === own) continue
    const row = operation.row as { name?: string | null; label?: string; title?: string; code?: string }
    made.set(operation.noun, [...(made.get(operation.noun) ?? []), row.label ?? row.title ?? row.code ?? row.name ?? ''])
  }
  return [...made].map(([noun, names]) => ({ noun, count: names.length, names: names.filter(Boolean).slice(0, namesShown) }))
}
