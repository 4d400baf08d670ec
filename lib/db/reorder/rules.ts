import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { defaultCoverWeeks, type ReorderRule } from '#lib/stock/reorder'
import { database } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { newId } from '../new-id'
import type { ChangedMeanwhile } from '../stock/apply-stock-change'
import { hasOwner, type NoSuchOwner } from '../stock/change-batch'
import { write } from '../write'

export type KeptRule = { rule: ReorderRule; version: number }
export type RuleRefused = ChangedMeanwhile | NoSuchOwner | { kind: 'no-such-thread'; threadId: string }

export const ruleColumns = {
  threadId: true,
  ownerId: true,
  kind: true,
  minimumPutUps: true,
  demandHundredths: true,
  spreadHundredths: true,
  leadWeeks: true,
  coverWeeks: true,
  packPutUps: true,
  version: true,
} as const satisfies Prisma.ReorderRuleSelect

type RuleRow = Prisma.ReorderRuleGetPayload<{ select: typeof ruleColumns }>

export function toRule(row: RuleRow): ReorderRule {
  const { packPutUps } = row
  if (row.kind === 'minimum') return { kind: 'minimum', minimumPutUps: row.minimumPutUps ?? 0, packPutUps }
  return {
    kind: 'point',
    demandHundredths: row.demandHundredths ?? 0,
    spreadHundredths: row.spreadHundredths ?? 0,
    leadWeeks: row.leadWeeks ?? 0,
    coverWeeks: row.coverWeeks ?? defaultCoverWeeks,
    packPutUps,
  }
}

/** An owner's own rule for a thread. */
export async function findRule(threadId: string, ownerId: string): Promise<KeptRule | null> {
  const row = await database().prisma.reorderRule.findUnique({
    where: { threadId_ownerId: { threadId, ownerId } },
    select: ruleColumns,
  })
  return row && { rule: toRule(row), version: row.version }
}

const noFigures = {
  minimumPutUps: null,
  demandHundredths: null,
  spreadHundredths: null,
  leadWeeks: null,
  coverWeeks: null,
}

/**
 * Put down when an owner buys a thread again.
 *
 * @param input.version  of the rule the person saw; null when there was none
 */
export function saveRule(input: {
  threadId: string
  ownerId: string
  version: number | null
  rule: ReorderRule
}): Promise<Result<null, RuleRefused>> {
  const { threadId, ownerId, version, rule } = input
  return write<null, RuleRefused>(async ({ tx, touch }) => {
    if ((await tx.thread.count({ where: { id: threadId, goneAt: null } })) === 0) {
      return refused({ kind: 'no-such-thread', threadId })
    }
    if (!(await hasOwner(tx, ownerId))) return refused({ kind: 'no-such-owner', ownerId })
    const data = { ...noFigures, ...rule }
    const known = await tx.reorderRule.findUnique({
      where: { threadId_ownerId: { threadId, ownerId } },
      select: { version: true },
    })
    if ((known?.version ?? null) !== version) return refused({ kind: 'changed-meanwhile' })
    if (known === null) await tx.reorderRule.create({ data: { id: newId(), threadId, ownerId, ...data } })
    else {
      await tx.reorderRule.update({
        where: { threadId_ownerId: { threadId, ownerId } },
        data: { ...data, version: { increment: 1 } },
      })
    }
    touch('thread', threadId)
    return ok(null)
  })
}

/** Take an owner's own rule away; what the thread says for whoever holds it then counts again. */
export function removeRule(input: { threadId: string; ownerId: string; version: number }): Promise<Result<null, RuleRefused>> {
  return write<null, RuleRefused>(async ({ tx, touch }) => {
    const removed = await tx.reorderRule.deleteMany({ where: input })
    if (removed.count === 0) return refused({ kind: 'changed-meanwhile' })
    touch('thread', input.threadId)
    return ok(null)
  })
}
