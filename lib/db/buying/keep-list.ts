import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../new-id'
import { hasOwner } from '../stock/change-batch'
import { write } from '../write'
import type { BuyingRefused } from './buying-refusal'
import { insertNewLines, type NewLine } from './new-lines'

/** What a list is for; `listName` is the thread list it was reckoned by. */
export type ListFor = { designId: string; projectId: string | null; listName: string | null }

/**
 * Keep a list to shop by, as it was reckoned. Sent again with the same id it is the same list, and nothing is added to it.
 *
 * @param input.listId   made by whoever asks; left out, it is made here
 * @param input.ownerId  whose stock it is bought into
 * @throws {RangeError} if the title is blank, or as `insertNewLines`
 */
export function keepBuyList(input: {
  listId?: string
  title: string
  ownerId: string
  wantedFor: readonly ListFor[]
  lines: readonly NewLine[]
  note?: string | null
  who?: string | null
}): Promise<Result<{ listId: string }, BuyingRefused>> {
  const { ownerId, wantedFor, lines, note = null, who = null } = input
  const title = input.title.trim()
  if (title === '') throw new RangeError('keepBuyList: no title')
  return write<{ listId: string }, BuyingRefused>(async (writing) => {
    const { tx, at } = writing
    const listId = input.listId ?? newId()
    if ((await tx.buyList.count({ where: { id: listId } })) > 0) return ok({ listId })
    if (!(await hasOwner(tx, ownerId))) return refused({ kind: 'no-such-owner', ownerId })
    const designIds = [...new Set(wantedFor.map(({ designId }) => designId))]
    const projectIds = [...new Set(wantedFor.flatMap(({ projectId }) => projectId ?? []))]
    const designs = await tx.design.findMany({ where: { id: { in: designIds } }, select: { id: true } })
    const goneDesign = designIds.find((id) => !designs.some((design) => design.id === id))
    if (goneDesign !== undefined) return refused({ kind: 'no-such-design', designId: goneDesign })
    const projects = await tx.project.findMany({ where: { id: { in: projectIds }, goneAt: null }, select: { id: true } })
    const goneProject = projectIds.find((id) => !projects.some((project) => project.id === id))
    if (goneProject !== undefined) return refused({ kind: 'no-such-project', projectId: goneProject })
    await tx.buyList.create({ data: { id: listId, title, ownerId, startedAt: at, startedBy: who, note } })
    await tx.buyListFor.createMany({
      data: wantedFor.map((one, position) => ({ id: newId(), buyListId: listId, position, ...one })),
    })
    const added = await insertNewLines(writing, listId, lines)
    return added.ok ? ok({ listId }) : added
  })
}
