import 'server-only'
import { z } from 'zod'
import type { WhyLeft } from '#lib/place/new-home'
import { database } from '../client'
import { type HomedNoun, homedNouns } from './read-new-home'

const stepSchema = z.object({
  id: z.string(),
  before: z.object({ homePlaceId: z.string().nullable(), currentPlaceId: z.string().nullable() }),
  outSince: z.string().nullable(),
  versionAfter: z.number().int(),
})
const keptSchema = z.object({
  things: z.object({ noun: z.enum(homedNouns), toPlaceId: z.string() }),
  steps: z.array(stepSchema),
  left: z.array(z.object({ id: z.string(), why: z.enum(['changed-since', 'gone', 'place-gone']) })).default([]),
})
export type NewHomeStep = z.infer<typeof stepSchema>

export type KeptNewHome = { noun: HomedNoun; toPlaceId: string; steps: NewHomeStep[]; left: { id: string; why: WhyLeft }[] }

/** How such a change begins in the table it shares with other changes of many. */
export const ofThings = { stepsJson: { startsWith: '{"things":' } }
export const newHomeText = ({ noun, toPlaceId, steps, left }: KeptNewHome) =>
  JSON.stringify({ things: { noun, toPlaceId }, steps, left })
export const readNewHomeSteps = (json: string): KeptNewHome => {
  const { things, ...kept } = keptSchema.parse(JSON.parse(json))
  return { ...things, ...kept }
}

export type NewHomeHead = { id: string; at: Date; who: string | null; what: string; isUndone: boolean }

const headColumns = { id: true, at: true, who: true, what: true, status: true } as const

/** Such changes of one kind of thing, latest first. */
export async function listNewHomes(noun: HomedNoun, limit: number): Promise<NewHomeHead[]> {
  const rows = await database().prisma.bulkEdit.findMany({
    where: { stepsJson: { startsWith: `{"things":{"noun":"${noun}"` } },
    select: headColumns,
    orderBy: [{ at: 'desc' }, { id: 'desc' }],
    take: limit,
  })
  return rows.map(({ status, ...row }) => ({ ...row, isUndone: status === 'undone' }))
}

/** One with what it kept, or null. */
export async function findNewHome(id: string): Promise<(NewHomeHead & KeptNewHome) | null> {
  const row = await database().prisma.bulkEdit.findFirst({
    where: { id, ...ofThings },
    select: { ...headColumns, stepsJson: true },
  })
  if (!row) return null
  const { stepsJson, status, ...head } = row
  return { ...head, isUndone: status === 'undone', ...readNewHomeSteps(stepsJson) }
}
