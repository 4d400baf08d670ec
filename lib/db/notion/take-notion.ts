import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { newId } from '../new-id'
import { openProjects } from '../place/place-counts'
import { write } from '../write'
import type { Write } from '../write-gate'
import { claimNotion, type HeldNotion, journalNotion, refuseInUse } from './claim-notion'
import type { NotionRefusal } from './notion-refusal'

type Refusal = Extract<NotionRefusal, { kind: 'no-such-project' | 'other-owner' | 'in-use' | 'not-enough' | 'changed-meanwhile' }>

/**
 * Take some of a notion, or all of it, for a project under way: it goes where the project's kit is, if that is known, and is in use for
 * it. When some stay behind, what is taken becomes a row of its own until it is put back.
 *
 * @returns the id of what was taken
 */
export function takeNotion(input: {
  id: string
  version: number
  projectId: string
  many: number
}): Promise<Result<{ id: string }, Refusal>> {
  return write<{ id: string }, Refusal>(async (open) => {
    const { projectId, many } = input
    const claimed = await claimNotion(open, input)
    if (!claimed.ok) return claimed
    const free = refuseInUse(claimed.value)
    if (!free.ok) return free
    const held = claimed.value
    if (many > held.count) return refused({ kind: 'not-enough', count: held.count })
    const project = await open.tx.project.findFirst({
      where: { id: projectId, ...openProjects },
      select: { placeId: true, ownerId: true },
    })
    if (!project) return refused({ kind: 'no-such-project', projectId })
    if (project.ownerId !== held.ownerId) return refused({ kind: 'other-owner' })
    return ok({ id: await carryToProject(open, held, { projectId, many, placeId: project.placeId }) })
  })
}

/**
 * Some of a notion that was claimed, or all of it, comes into use for a project and goes where its kit is.
 *
 * @returns the id of what was taken: a row of its own where some stay behind
 */
export async function carryToProject(
  open: Write,
  { project: _project, ...held }: HeldNotion,
  take: { projectId: string; many: number; placeId: string | null; who?: string | null },
): Promise<string> {
  const { tx, at, touch } = open
  const { id } = held
  const { projectId, many, who = null } = take
  const currentPlaceId = take.placeId ?? held.currentPlaceId
  const outSince = isOut({ homePlaceId: held.homePlaceId, currentPlaceId }) ? at : null
  const places = { fromPlaceId: held.currentPlaceId, toPlaceId: currentPlaceId, projectId, who }
  if (many === held.count) {
    await tx.notion.update({ where: { id }, data: { projectId, currentPlaceId, outSince } })
    await journalNotion(open, { kind: 'take', notionId: id, ...places })
    return id
  }
  const takenId = newId()
  await tx.notion.update({ where: { id }, data: { count: held.count - many } })
  // How many there should be is said of what stays.
  await tx.notion.create({
    data: { ...held, id: takenId, count: many, minimum: null, projectId, currentPlaceId, outSince },
  })
  await journalNotion(open, { kind: 'split', notionId: id, wholeDelta: -many, ...places })
  await journalNotion(open, { kind: 'take', notionId: takenId, wholeDelta: many, ...places })
  touch('notion', takenId)
  return takenId
}
