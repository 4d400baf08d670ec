import 'server-only'
import { z } from 'zod'
import type { WhyLeft } from '#lib/place/new-home'
import { type BulkEditHead, findWithSteps, listHeads } from '../bulk-edit/heads'
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

/** Such changes of one kind of thing, latest first. */
export const listNewHomes = (noun: HomedNoun, limit: number): Promise<BulkEditHead[]> =>
  listHeads({ stepsJson: { startsWith: `{"things":{"noun":"${noun}"` } }, limit)

/** One with what it kept, or null. */
export async function findNewHome(id: string): Promise<(BulkEditHead & KeptNewHome) | null> {
  const row = await findWithSteps(id, ofThings)
  if (!row) return null
  const { stepsJson, ...head } = row
  return { ...head, ...readNewHomeSteps(stepsJson) }
}
