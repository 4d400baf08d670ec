import 'server-only'
import type { Housing } from '#lib/place/new-home'
import { calendarDay } from '#lib/quantity/day'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { bulkInsert, timestamp } from '../bulk-insert'
import { settleThing } from '../loan/settle-lines'
import { newId } from '../new-id'
import { hasPlace, type NoSuchPlace } from '../stock/change-batch'
import { write } from '../write'
import type { Write } from '../write-gate'
import { type NewHomeStep, newHomeText } from './queries'
import { type HomedNoun, mostThings, type NewHomeRequest, readNewHome } from './read-new-home'

export type NewHomeRefused =
  | NoSuchPlace
  /** Only the record puts things there. */
  | { kind: 'kept-by-record' }
  | { kind: 'changed-meanwhile' }
  | { kind: 'nothing-changes' }
  | { kind: 'too-many'; count: number; most: number }

/** Give some pieces of cloth, or some notions, another home in one write, with a line of the journal each. */
export function applyNewHome(
  request: NewHomeRequest & { what: string; fingerprint?: string | undefined; who?: string | null },
): Promise<Result<{ bulkEditId: string; changed: number; same: number }, NewHomeRefused>> {
  requireWhole()
  return write<{ bulkEditId: string; changed: number; same: number }, NewHomeRefused>(async (writing) => {
    const { tx, at } = writing
    const { noun, toPlaceId, what, who = null } = request
    if (request.ids.length > mostThings) return refused({ kind: 'too-many', count: request.ids.length, most: mostThings })
    if (!(await hasPlace(tx, toPlaceId))) return refused({ kind: 'no-such-place', placeId: toPlaceId })
    const place = await tx.place.findUnique({ where: { id: toPlaceId }, select: { kind: true } })
    if (place?.kind === 'not found') return refused({ kind: 'kept-by-record' })
    const { lines, held, fingerprint } = await readNewHome(tx, request)
    if (request.fingerprint !== undefined && request.fingerprint !== fingerprint) return refused({ kind: 'changed-meanwhile' })
    const changing = lines.filter(({ isChanged }) => isChanged)
    if (changing.length === 0) return refused({ kind: 'nothing-changes' })
    const idsOf = (isOut: boolean) => changing.filter((line) => line.isOut === isOut).map(({ id }) => id)
    await house(writing, noun, idsOf(false), { homePlaceId: toPlaceId, currentPlaceId: toPlaceId, outSince: null })
    await house(writing, noun, idsOf(true), { homePlaceId: toPlaceId })
    const moved = changing.map(({ id, before, isOut }) => ({
      id,
      fromPlaceId: isOut ? before.homePlaceId : before.currentPlaceId,
      toPlaceId,
    }))
    await journal(writing, noun, moved, { kind: 'move', who, reason: what })
    const back = changing.filter(({ id, isOut }) => !isOut && held.get(id)?.outSince)
    for (const { id } of back) await settleThing(tx, keyOf(noun, id), calendarDay(at))
    const steps = changing.map(({ id, before }): NewHomeStep => {
      const { version, outSince } = held.get(id) as NonNullable<ReturnType<typeof held.get>>
      return { id, before, outSince: outSince?.toISOString() ?? null, versionAfter: version + 1 }
    })
    const bulkEditId = newId()
    const stepsJson = newHomeText({ noun, toPlaceId, steps, left: [] })
    await tx.bulkEdit.create({ data: { id: bulkEditId, at, who, what, stepsJson } })
    return ok({ bulkEditId, changed: changing.length, same: lines.length - changing.length })
  })
}

const keyOf = (noun: HomedNoun, id: string) => (noun === 'cloth' ? { clothPieceId: id } : { notionId: id })

/** Write where some things live and lie; what is not said stays. */
export async function house(
  { tx, touch }: Write,
  noun: HomedNoun,
  ids: readonly string[],
  housing: Partial<Housing> & { outSince?: Date | null },
): Promise<void> {
  const data = { ...housing, version: { increment: 1 } }
  for (const some of chunks(ids)) {
    const where = { id: { in: some } }
    if (noun === 'cloth') await tx.clothPiece.updateMany({ where, data })
    else await tx.notion.updateMany({ where, data })
  }
  for (const id of ids) touch(noun, id)
}

/** One line of the journal each. */
export async function journal(
  { tx, engine, revision, at }: Write,
  noun: HomedNoun,
  moved: readonly { id: string; fromPlaceId: string | null; toPlaceId: string | null }[],
  said: { kind: string; who: string | null; reason: string },
): Promise<void> {
  const rows = moved.map(({ id, ...places }) => ({
    ...{ id: newId(), revision, at: timestamp(at), ...said, ...places },
    ...{ clothPieceId: noun === 'cloth' ? id : null, notionId: noun === 'notion' ? id : null },
  }))
  await bulkInsert(tx, engine, 'Movement', rows)
}
