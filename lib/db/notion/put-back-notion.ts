import 'server-only'
import { calendarDay } from '#lib/quantity/day'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { settleLines } from '../loan/settle-lines'
import { write } from '../write'
import type { Write } from '../write-gate'
import { claimNotion, type HeldNotion, journalNotion } from './claim-notion'
import type { NotionRefusal } from './notion-refusal'

export type PutBackNotionRefused = Extract<NotionRefusal, { kind: 'already-there' | 'changed-meanwhile' }>

/**
 * Put a notion back where it lives; the project that had it has it no more. It is laid together with more of the same that live and lie
 * there. What has no home stays where it is, free again.
 *
 * @returns the id under which it is found now
 */
export function putBackNotion(input: { id: string; version: number }): Promise<Result<{ id: string }, PutBackNotionRefused>> {
  return write<{ id: string }, PutBackNotionRefused>(async (open) => {
    const held = await claimNotion(open, input)
    if (!held.ok) return held
    const { projectId, currentPlaceId } = held.value
    if (projectId === null && !isOut(held.value)) return refused({ kind: 'already-there' })
    const id = await layNotionBack(open, held.value)
    await settleLines(open.tx, { notionId: input.id }, { fromPlaceId: currentPlaceId, on: calendarDay(open.at) })
    return ok({ id })
  })
}

/** Lay a notion that was claimed where it lives, with more of the same there. @returns the id under which it is found now */
export async function layNotionBack(open: Write, held: HeldNotion): Promise<string> {
  const { tx, at, touch } = open
  const { id, ownerId, kind, name, size, sizeKey, count, homePlaceId, currentPlaceId, projectId } = held
  const toPlaceId = homePlaceId ?? currentPlaceId
  const there = { projectId: null, currentPlaceId: toPlaceId, outSince: null }
  const places = { fromPlaceId: currentPlaceId, toPlaceId, projectId }
  const alike = await tx.notion.findFirst({
    where: {
      id: { not: id },
      ownerId,
      kind,
      name,
      ...(sizeKey === null ? { size } : { sizeKey }),
      homePlaceId,
      ...there,
      goneAt: null,
    },
    select: { id: true },
    orderBy: { id: 'asc' },
  })
  if (!alike || homePlaceId === null) {
    await tx.notion.update({ where: { id }, data: there })
    await journalNotion(open, { kind: 'return', notionId: id, ...places })
    return id
  }
  await tx.notion.update({ where: { id }, data: { ...there, count: 0, goneAt: at } })
  await tx.notion.update({ where: { id: alike.id }, data: { count: { increment: count }, version: { increment: 1 } } })
  await journalNotion(open, { kind: 'return', notionId: id, wholeDelta: -count, ...places })
  await journalNotion(open, { kind: 'merge', notionId: alike.id, wholeDelta: count, ...places })
  touch('notion', alike.id)
  return alike.id
}
