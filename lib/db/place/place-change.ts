import 'server-only'
import { z } from 'zod'
import { type BulkEditHead, findWithSteps, listHeads } from '../bulk-edit/heads'
import { housedNouns } from './rehouse-things'

const housingSchema = z.object({ homePlaceId: z.string().nullable(), currentPlaceId: z.string().nullable() })
const putUpsSchema = z.array(z.object({ putUpWord: z.string(), most: z.number().int() }))
const roomSchema = z.object({ capacity: z.number().int().nullable(), putUps: putUpsSchema })

/** What a merge or a split kept, so that it can be taken back. */
const keptSchema = z.object({
  places: z.object({
    kind: z.enum(['merge', 'split']),
    /** The place that was given up, or the one that was split. */
    fromId: z.string(),
    fromLabel: z.string(),
    /** The place that has its goods now, or the new one. */
    intoId: z.string(),
    intoLabel: z.string(),
    formerLabelId: z.string(),
  }),
  things: z.array(z.object({ noun: z.enum(housedNouns), id: z.string(), before: housingSchema, versionAfter: z.number().int() })),
  /** Places that stood inside it. */
  insideIds: z.array(z.string()),
  projectIds: z.array(z.string()),
  loanIds: z.array(z.string()),
  walkIds: z.array(z.string()),
  walkLineIds: z.array(z.string()),
  missingIds: z.array(z.string()),
  /** Old labels that led to it and lead on now. */
  formerLabelIds: z.array(z.string()),
  /** The room of the place that took it in, before and after; null where nothing was added. */
  room: z.object({ before: roomSchema, after: roomSchema }).nullable(),
  /** Once taken back: what was left as it was, for it was changed since. */
  left: z.object({ things: z.number().int(), places: z.number().int(), room: z.boolean(), newPlace: z.boolean() }).optional(),
})

export type KeptPlaceChange = z.infer<typeof keptSchema>

/**
 * How the steps of a change of places begin. They are kept in the table of changes to many threads; its readers tell the two apart by
 * this.
 */
export const placeStepsBegin = '{"places":'

/** @throws what zod throws when it is not of that shape */
export const readPlaceSteps = (json: string): KeptPlaceChange => keptSchema.parse(JSON.parse(json))

const ofPlaces = { stepsJson: { startsWith: placeStepsBegin } }

/** Places merged and split, latest first. */
export const listPlaceChanges = (limit: number): Promise<BulkEditHead[]> => listHeads(ofPlaces, limit)

/** One of them with what it kept, or null. */
export async function findPlaceChange(id: string): Promise<(BulkEditHead & { kept: KeptPlaceChange }) | null> {
  const row = await findWithSteps(id, ofPlaces)
  if (!row) return null
  const { stepsJson, ...head } = row
  return { ...head, kept: readPlaceSteps(stepsJson) }
}
