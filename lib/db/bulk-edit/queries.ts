import 'server-only'
import { z } from 'zod'
import type { BulkStep, KeptChange, LeftAlone } from '#lib/stock/plan-bulk-edit'
import { database } from '../client'

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

export type BulkEditHead = { id: string; at: Date; who: string | null; what: string; isUndone: boolean }

const headColumns = { id: true, at: true, who: true, what: true, status: true } as const

const headOf = ({ status, ...row }: Omit<BulkEditHead, 'isUndone'> & { status: string }): BulkEditHead => ({
  ...row,
  isUndone: status === 'undone',
})

/** Other changes that can be taken back are kept in the same table, such as places merged; their steps begin otherwise. */
export const ofThreads = { stepsJson: { startsWith: '{"change":' } }

/** The changes made to many at once, latest first. */
export async function listBulkEdits(limit: number): Promise<BulkEditHead[]> {
  const rows = await database().prisma.bulkEdit.findMany({
    where: ofThreads,
    select: headColumns,
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    take: limit,
  })
  return rows.map(headOf)
}

/** One change with all its steps, or null. */
export async function findBulkEdit(bulkEditId: string): Promise<(BulkEditHead & Steps) | null> {
  const row = await database().prisma.bulkEdit.findFirst({
    where: { id: bulkEditId, ...ofThreads },
    select: { ...headColumns, stepsJson: true },
  })
  if (!row) return null
  const { stepsJson, ...head } = row
  return { ...headOf(head), ...readStepsJson(stepsJson) }
}
