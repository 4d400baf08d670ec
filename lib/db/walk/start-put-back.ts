import 'server-only'
import { inWalkingOrder } from '#lib/project/walk-lines'
import { newId } from '../new-id'
import type { Write } from '../write-gate'
import { readWalkedThings, readWalkRanks, stopOf } from './read-things'
import { insertLines, untouchedLine } from './write-lines'

export type PutBackLine = {
  batchId?: string
  clothPieceId?: string
  chartId?: string
  notionId?: string
  projectId?: string | null
  /** Whole put-ups, pieces or copies. */
  count: number
  takesPart: boolean
  /** null: where it lives. */
  toPlaceId: string | null
}

/**
 * Make the list of what goes back where it lives, in walking order, inside a write that unpacks a bag. Nothing moves on the record until
 * the ticked lines are carried out.
 *
 * @param input.placeId  the bag that is unpacked
 */
export async function createPutBackWalk(
  writing: Write,
  input: {
    title: string
    placeId: string | null
    projectIds: readonly string[]
    lines: readonly PutBackLine[]
    who?: string | null
  },
): Promise<{ walkId: string }> {
  const { tx, at, revision } = writing
  const { title, placeId, lines, who = null } = input
  const projectIds = [...new Set(input.projectIds)]
  const walkId = newId()
  await tx.walk.create({
    data: { id: walkId, kind: 'put-back', title, placeId, status: 'open', startedAt: at, startedBy: who },
  })
  if (projectIds.length > 0)
    await tx.walkProject.createMany({ data: projectIds.map((projectId, position) => ({ walkId, projectId, position })) })

  const rows = lines.map((line) => ({
    ...{ batchId: null, clothPieceId: null, chartId: null, notionId: null, projectId: null },
    ...line,
    ...untouchedLine,
    ...{ id: newId(), revision },
  }))
  const things = await readWalkedThings(tx, rows)
  const stops = rows.map((row) => stopOf(row, things, true))
  const rankOf = await readWalkRanks(
    tx,
    stops.map((stop) => stop.placeId),
  )
  await insertLines(writing, walkId, inWalkingOrder(stops, { rankOf, projectIds }))
  return { walkId }
}
