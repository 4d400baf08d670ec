import 'server-only'
import { z } from 'zod'
import { type BulkEditHead, findWithSteps, listHeads } from '../bulk-edit/heads'
import { database, type Transaction } from '../client'
import type { ChangedNoun, Write } from '../write-gate'
import { mergedTables, type Step, type StepKeeper } from './keep-steps'

export const mergedNouns = ['chart', 'designer', 'thread', 'line', 'maker'] as const
export type MergedNoun = (typeof mergedNouns)[number]

/** What was given up for what. */
export type Merged = { noun: MergedNoun; goneId: string; goneName: string; keptId: string; keptName: string }

const moment = z.strictObject({ at: z.string() }).transform(({ at }) => new Date(at))
const valuesSchema = z.record(z.string(), z.union([z.string(), z.number(), z.boolean(), z.null(), moment]))
const keySchema = z.record(z.string(), z.string())
const table = z.enum(mergedTables)

const keptSchema = z.object({
  merged: z.object({
    noun: z.enum(mergedNouns),
    goneId: z.string(),
    goneName: z.string(),
    keptId: z.string(),
    keptName: z.string(),
  }),
  /** What went along, counted, for the page that tells of it. */
  counts: z.record(z.string(), z.number()),
  steps: z.array(
    z.discriminatedUnion('did', [
      z.object({ did: z.literal('changed'), table, keys: z.array(keySchema), before: valuesSchema, after: valuesSchema }),
      z.object({ did: z.literal('added'), table, key: keySchema }),
      z.object({ did: z.literal('dropped'), table, row: valuesSchema }),
    ]),
  ),
  touched: z.array(z.tuple([z.string(), z.string()])),
  /** Copies of a chart that changed rows. */
  copies: z.number().int().nullable(),
  /** Batches that are of another thread now. */
  batchIds: z.array(z.string()),
})

export type KeptMerging = Omit<z.infer<typeof keptSchema>, 'steps' | 'touched'> & {
  steps: Step[]
  touched: [ChangedNoun, string][]
}

/** How the steps of a merge begin: readers of the changes made to many tell them apart by this. */
export const mergingStepsBegin = '{"merged":'

/** @throws what zod throws when it is not of that shape */
export const readMergingSteps = (json: string): KeptMerging => keptSchema.parse(JSON.parse(json)) as KeptMerging

/** Dates are kept as `{ at }`, so that they are told from texts. */
function asJson(kept: KeptMerging): string {
  return JSON.stringify(kept, function (this: Record<string, unknown>, key, value) {
    const raw = this[key]
    return raw instanceof Date ? { at: raw.toISOString() } : value
  })
}

/** Keep a merge, so that it can be told and taken back. */
export async function keepMerging(
  { tx, at }: Write,
  keeper: StepKeeper,
  kept: {
    id: string
    merged: Merged
    who: string | null
    counts: Record<string, number>
    copies?: number
    batchIds?: readonly string[]
  },
): Promise<void> {
  const { id, merged, who, counts, copies = null, batchIds = [] } = kept
  const stepsJson = asJson({
    merged,
    counts,
    steps: keeper.steps,
    touched: [...keeper.touched.values()],
    copies,
    batchIds: [...batchIds],
  })
  await tx.bulkEdit.create({ data: { id, at, who, what: `${merged.goneName} merged into ${merged.keptName}`, stepsJson } })
}

/** What was merged, latest first; of some nouns only. */
export const listMergings = (nouns: readonly MergedNoun[], limit: number): Promise<BulkEditHead[]> =>
  listHeads(
    nouns.map((noun) => ({ stepsJson: { startsWith: `${mergingStepsBegin}{"noun":"${noun}"` } })),
    limit,
  )

/** One merge with what it kept, or null. */
export async function findMerging(id: string): Promise<(BulkEditHead & { kept: KeptMerging }) | null> {
  const row = await findWithSteps(id, { stepsJson: { startsWith: mergingStepsBegin } })
  if (!row) return null
  const { stepsJson, ...head } = row
  return { ...head, kept: readMergingSteps(stepsJson) }
}

/** A text that is part of a kept merge, for those that stand. */
const standing = (noun: MergedNoun, part: string) => ({
  status: 'done',
  AND: [{ stepsJson: { startsWith: `${mergingStepsBegin}{"noun":"${noun}"` } }, { stepsJson: { contains: part } }],
})

const idShape = /^[0-9A-Za-z-]{1,64}$/u

/** What a thing that is there no more was merged into, and by which merge; null when it was not. */
export async function findMergedInto(
  noun: MergedNoun,
  goneId: string,
  tx: Pick<Transaction, 'bulkEdit'> = database().prisma,
): Promise<{ mergingId: string; keptId: string; keptName: string } | null> {
  if (!idShape.test(goneId)) return null
  const row = await tx.bulkEdit.findFirst({
    where: standing(noun, `"goneId":"${goneId}"`),
    select: { id: true, stepsJson: true },
    orderBy: { at: 'desc' },
  })
  if (!row) return null
  const { keptId, keptName } = readMergingSteps(row.stepsJson).merged
  return { mergingId: row.id, keptId, keptName }
}

/** The ids of all that was merged into a thing, and into what was, as far as these merges stand. */
export async function listMergedIds(noun: MergedNoun, keptId: string): Promise<string[]> {
  const found = new Set<string>()
  let asking = [keptId]
  while (asking.length > 0) {
    const rows = await database().prisma.bulkEdit.findMany({
      where: { OR: asking.filter((id) => idShape.test(id)).map((id) => standing(noun, `"keptId":"${id}"`)) },
      select: { stepsJson: true },
    })
    asking = rows
      .map(({ stepsJson }) => readMergingSteps(stepsJson).merged.goneId)
      .filter((id) => id !== keptId && !found.has(id))
    for (const id of asking) found.add(id)
  }
  return [...found]
}

/** The chart a design is found in now, where its own was merged into another and it became one with a design there. */
export async function findChartOfUnited(designId: string): Promise<string | null> {
  const design = await database().prisma.design.findFirst({
    where: { id: designId, chart: { goneAt: { not: null } } },
    select: { chartId: true },
  })
  return design ? ((await findMergedInto('chart', design.chartId))?.keptId ?? null) : null
}
