import 'server-only'
import { dayOfRule, nextDay, parseRule, printRule } from '#lib/planning/days/occasion-rule'
import { underWayStatuses } from '#lib/project/life-cycle'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { newId } from '../../new-id'
import type { ChangedMeanwhile } from '../../stock/apply-stock-change'
import { inParts } from '../../walk/in-parts'
import { write } from '../../write'

/** `rule` as lib/planning/days/occasion-rule.ts reads it. */
type OccasionSaid = { name: string; rule: string; today: string }
export type NoSuchOccasion = { kind: 'no-such-occasion'; occasionKey: string }
export type SaveOccasionRefused =
  | ChangedMeanwhile
  | NoSuchOccasion
  | { kind: 'no-such-owner'; ownerId: string }
  | { kind: 'no-rule'; rule: string }
  | { kind: 'name-taken'; name: string }
  | { kind: 'too-many-occasions'; most: number }

const mostOccasions = 200

/**
 * Keep a day besides the known feasts, or say one otherwise. Works that are due on a day of its old rule follow to the next of the new
 * one; a due day that was set by hand stays.
 */
export function saveOccasion(
  input: OccasionSaid & ({ ownerId: string } | { id: string; version?: number }),
): Promise<Result<{ id: string; moved: number }, SaveOccasionRefused>> {
  return write<{ id: string; moved: number }, SaveOccasionRefused>(async ({ tx, touch }) => {
    const name = input.name.trim()
    const rule = parseRule(input.rule)
    if (!rule) return refused({ kind: 'no-rule', rule: input.rule })
    const there =
      'id' in input
        ? await tx.occasion.findUnique({ where: { id: input.id }, select: { ownerId: true, version: true, rule: true } })
        : null
    if ('id' in input && !there) return refused({ kind: 'no-such-occasion', occasionKey: input.id })
    const ownerId = there?.ownerId ?? ('ownerId' in input ? input.ownerId : '')
    const others = await tx.occasion.findMany({ where: { ownerId }, select: { id: true, nameKey: true } })
    const nameKey = textKey(name)
    const same = others.find((other) => other.nameKey === nameKey)
    if (same && !('id' in input && same.id === input.id)) return refused({ kind: 'name-taken', name })
    const data = { name, nameKey, rule: printRule(rule) }
    if ('ownerId' in input) {
      if ((await tx.owner.count({ where: { id: ownerId } })) === 0) return refused({ kind: 'no-such-owner', ownerId })
      if (others.length >= mostOccasions) return refused({ kind: 'too-many-occasions', most: mostOccasions })
      const id = newId()
      await tx.occasion.create({ data: { id, ownerId, ...data } })
      return ok({ id, moved: 0 })
    }
    const { id, version } = input
    const claimed = await tx.occasion.updateMany({
      where: { id, version: version ?? there?.version ?? 0 },
      data: { ...data, version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    if (there?.rule === data.rule) return ok({ id, moved: 0 })
    const old = parseRule(there?.rule ?? '')
    const next = nextDay((year) => dayOfRule(rule, year), input.today)
    const due = await tx.project.findMany({
      where: { occasionKey: id, goneAt: null, status: { in: [...underWayStatuses] }, dueOn: { gte: input.today } },
      select: { id: true, dueOn: true },
    })
    const following = due
      .filter(({ dueOn }) => dueOn !== null && old && dayOfRule(old, Number(dueOn.slice(0, 4))) === dueOn)
      .map((one) => one.id)
    if (next === null || following.length === 0) return ok({ id, moved: 0 })
    for (const ids of inParts(following))
      await tx.project.updateMany({ where: { id: { in: ids } }, data: { dueOn: next, version: { increment: 1 } } })
    for (const projectId of following) touch('project', projectId)
    return ok({ id, moved: following.length })
  })
}
