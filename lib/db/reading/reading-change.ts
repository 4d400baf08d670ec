import 'server-only'
import { z } from 'zod'
import { database } from '../client'

const idAt = z.object({ id: z.string(), version: z.number().int() })
const factColumns = z.record(z.string(), z.union([z.string(), z.number(), z.null()]))

/** What saving a reading wrote, so that it can be taken back. */
const savedSchema = z.object({
  reading: z.object({ id: z.string(), name: z.string() }),
  /** The chart that was added; null where lists were added to designs that were there. */
  chart: idAt.nullable(),
  designs: z.array(idAt),
  lists: z.array(idAt.extend({ designId: z.string() })),
  /** What designs that were there lacked and were given: before, and their version after. */
  facts: z.array(idAt.extend({ before: factColumns })),
  threadIds: z.array(z.string()),
  fileIds: z.array(z.string()),
  /** Charts that had no cover and were given one. */
  covered: z.array(z.string()),
})

export type ReadingSaved = z.infer<typeof savedSchema>

/** How the steps of a saved reading begin; the table of changes holds other kinds too. */
export const readingStepsBegin = '{"reading":'

/** @throws what zod throws when it is not of that shape */
export const readReadingSteps = (json: string): ReadingSaved => savedSchema.parse(JSON.parse(json))

/** Whether a saved reading was taken back; null when there is no such change. */
export async function findReadingChange(changeId: string): Promise<{ isUndone: boolean; at: Date } | null> {
  const row = await database().prisma.bulkEdit.findFirst({
    where: { id: changeId, stepsJson: { startsWith: readingStepsBegin } },
    select: { status: true, at: true },
  })
  return row && { isUndone: row.status === 'undone', at: row.at }
}
