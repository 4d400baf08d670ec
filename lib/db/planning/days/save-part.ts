import 'server-only'
import { type PartsRule, partDays } from '#lib/planning/pace/schedule-jobs'
import { addDays } from '#lib/quantity/day'
import { ok, type Result, refused } from '#lib/result'
import type { Transaction } from '../../client'
import { newId } from '../../new-id'
import { type ProjectEditRefused, readProject } from '../../project/project-row'
import type { ChangedMeanwhile } from '../../stock/apply-stock-change'
import { write } from '../../write'

type PartSaid = { name: string; comesOn: string | null; dueOn: string | null; stitches: number | null }
export type NoSuchPart = { kind: 'no-such-part'; id: string }
export type PartRefused =
  | ProjectEditRefused
  | ChangedMeanwhile
  | NoSuchPart
  | { kind: 'due-before-out' }
  | { kind: 'too-many-parts'; most: number }

const mostParts = 200

/** The place after the last part of a project; null when it has as many as it may. */
async function nextPosition(tx: Transaction, projectId: string, adding: number): Promise<number | null> {
  const there = await tx.stitchAlongPart.aggregate({ where: { projectId }, _max: { position: true }, _count: { _all: true } })
  return there._count._all + adding > mostParts ? null : (there._max.position ?? -1) + 1
}

const isDueBeforeOut = ({ comesOn, dueOn }: PartSaid): boolean => comesOn !== null && dueOn !== null && dueOn < comesOn

/** Add a part to a project, the last of them; or say one otherwise. */
export function savePart(
  input: PartSaid & ({ projectId: string } | { id: string; version?: number }),
): Promise<Result<{ id: string; projectId: string }, PartRefused>> {
  return write<{ id: string; projectId: string }, PartRefused>(async ({ tx, touch }) => {
    const { name, comesOn, dueOn, stitches } = input
    if (isDueBeforeOut(input)) return refused({ kind: 'due-before-out' })
    if ('projectId' in input) {
      const { projectId } = input
      const read = await readProject(tx, { projectId })
      if (!read.ok) return read
      const position = await nextPosition(tx, projectId, 1)
      if (position === null) return refused({ kind: 'too-many-parts', most: mostParts })
      const id = newId()
      await tx.stitchAlongPart.create({ data: { id, projectId, position, name, comesOn, dueOn, stitches } })
      touch('project', projectId)
      return ok({ id, projectId })
    }
    const { id, version } = input
    const there = await tx.stitchAlongPart.findUnique({ where: { id }, select: { version: true, projectId: true } })
    if (!there) return refused({ kind: 'no-such-part', id })
    const claimed = await tx.stitchAlongPart.updateMany({
      where: { id, version: version ?? there.version },
      data: { name, comesOn, dueOn, stitches, version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    touch('project', there.projectId)
    return ok({ id, projectId: there.projectId })
  })
}

type PartsToMake = {
  projectId: string
  rule: PartsRule
  /** Before its number: "Part" makes Part 1, Part 2 … */
  name: string
  /** Days after it comes out that each is due; null for no day. */
  dueAfterDays: number | null
  stitches: number | null
}

/** Make parts by a rule, after those there are; their numbers go on from how many there are. */
export function makeParts(input: PartsToMake): Promise<Result<{ made: number }, PartRefused>> {
  return write<{ made: number }, PartRefused>(async ({ tx, touch }) => {
    const { projectId, rule, name, dueAfterDays, stitches } = input
    const read = await readProject(tx, { projectId })
    if (!read.ok) return read
    const position = await nextPosition(tx, projectId, rule.count)
    if (position === null) return refused({ kind: 'too-many-parts', most: mostParts })
    const there = await tx.stitchAlongPart.count({ where: { projectId } })
    await tx.stitchAlongPart.createMany({
      data: partDays(rule).map((comesOn, at) => ({
        ...{ id: newId(), projectId, position: position + at, name: `${name} ${there + at + 1}`, comesOn, stitches },
        dueOn: dueAfterDays === null ? null : addDays(comesOn, dueAfterDays),
      })),
    })
    touch('project', projectId)
    return ok({ made: rule.count })
  })
}
