import 'server-only'
import { planStepsBack } from '#lib/place/new-home'
import { ok, type Result, refused } from '#lib/result'
import { requireWhole } from '../access/whole'
import { write } from '../write'
import { house, journal } from './apply-new-home'
import { type KeptNewHome, type NewHomeStep, newHomeText, ofThings, readNewHomeSteps } from './queries'
import { readHeld } from './read-new-home'

export type NewHomeUndoRefused = { kind: 'no-such-edit'; bulkEditId: string } | { kind: 'already-undone'; bulkEditId: string }

/** Take such a change back in one write; what was changed since is left alone and named. */
export function undoNewHome({
  bulkEditId,
  who = null,
}: {
  bulkEditId: string
  who?: string | null
}): Promise<Result<{ takenBack: number; left: KeptNewHome['left'] }, NewHomeUndoRefused>> {
  requireWhole()
  return write<{ takenBack: number; left: KeptNewHome['left'] }, NewHomeUndoRefused>(async (writing) => {
    const { tx } = writing
    const row = await tx.bulkEdit.findFirst({ where: { id: bulkEditId, ...ofThings } })
    if (!row) return refused({ kind: 'no-such-edit', bulkEditId })
    const claimed = await tx.bulkEdit.updateMany({
      where: { id: bulkEditId, status: 'done', version: row.version },
      data: { status: 'undone', version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'already-undone', bulkEditId })
    const kept = readNewHomeSteps(row.stepsJson)
    const held = await readHeld(
      tx,
      kept.noun,
      kept.steps.map(({ id }) => id),
    )
    const places = await tx.place.findMany({ where: { goneAt: null }, select: { id: true } })
    const versions = new Map(held.map(({ id, version }) => [id, version]))
    const planned = planStepsBack(kept.steps, versions, new Set(places.map(({ id }) => id)))
    const alike = new Map<string, NewHomeStep[]>()
    for (const step of planned.back) {
      const key = JSON.stringify([step.before, step.outSince])
      alike.set(key, [...(alike.get(key) ?? []), step])
    }
    for (const group of alike.values()) {
      const { before, outSince } = group[0] as NewHomeStep
      const ids = group.map(({ id }) => id)
      await house(writing, kept.noun, ids, { ...before, outSince: outSince === null ? null : new Date(outSince) })
    }
    const moved = planned.back.map(({ id, before }) => ({ id, fromPlaceId: kept.toPlaceId, toPlaceId: before.homePlaceId }))
    await journal(writing, kept.noun, moved, { kind: 'undo', who, reason: `${row.what}, taken back` })
    const left = planned.left.map(({ step, why }) => ({ id: step.id, why }))
    await tx.bulkEdit.update({ where: { id: bulkEditId }, data: { stepsJson: newHomeText({ ...kept, left }) } })
    return ok({ takenBack: planned.back.length, left })
  })
}
