import 'server-only'
import { z } from 'zod'
import type { BulkStep, KeptChange, LeftAlone } from '#lib/stock/plan-bulk-edit'
import { type BulkEditHead, findWithSteps, listHeads } from './heads'

const valueSchema = z.union([
  z.number(),
  z.string(),
  z.boolean(),
  z.null(),
  z.object({ homePlaceId: z.string().nullable(), currentPlaceId: z.string().nullable() }),
])

const stepsSchema = z.object({
  change: z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('minimum'), putUps: z.number().int().nullable() }),
    z.object({ kind: z.literal('family'), family: z.string().nullable() }),
    z.object({ kind: z.literal('leaving'), isLeaving: z.boolean() }),
    z.object({ kind: z.literal('home'), toPlaceId: z.string() }),
    z.object({ kind: z.literal('owner'), toOwnerId: z.string() }),
    z.object({ kind: z.literal('lot'), lot: z.string() }),
    z.object({ kind: z.literal('filing') }),
  ]),
  steps: z.array(
    z.object({
      threadId: z.string(),
      batchId: z.string().nullable(),
      before: valueSchema,
      versionAfter: z.number().int(),
      toPlaceId: z.string().optional(),
    }),
  ),
  /** Once undone: what was left alone. */
  left: z
    .array(
      z.object({
        threadId: z.string(),
        batchId: z.string().nullable(),
        why: z.enum(['changed-since', 'gone', 'place-gone']),
      }),
    )
    .default([]),
})

type Steps = { change: KeptChange; steps: BulkStep[]; left: LeftAlone[] }

/** What a change kept for its undo. @throws what zod throws when it is not of that shape */
export const readStepsJson = (json: string): Steps => stepsSchema.parse(JSON.parse(json))

/** Other changes that can be taken back are kept in the same table, such as places merged; their steps begin otherwise. */
export const ofThreads = { stepsJson: { startsWith: '{"change":' } }

/** The changes made to many at once, latest first. */
export const listBulkEdits = (limit: number): Promise<BulkEditHead[]> => listHeads(ofThreads, limit)

/** One change with all its steps, or null. */
export async function findBulkEdit(bulkEditId: string): Promise<(BulkEditHead & Steps) | null> {
  const row = await findWithSteps(bulkEditId, ofThreads)
  if (!row) return null
  const { stepsJson, ...head } = row
  return { ...head, ...readStepsJson(stepsJson) }
}
