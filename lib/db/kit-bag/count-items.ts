import 'server-only'
import type { MasterLine } from '#lib/project/kit/master-list'
import { ok, type Result, refused } from '#lib/result'
import { claimNotion, journalNotion } from '../notion/claim-notion'
import type { ChangedMeanwhile } from '../stock/apply-stock-change'
import type { Write } from '../write-gate'
import type { KitProject } from './read-kit-project'

/** Fewer needles, beads or findings than go into the bags. */
export type TooFewItems = { kind: 'too-few-items'; notionId: string; name: string; wanted: number; have: number }

const rowColumns = {
  ...{ id: true, version: true, ownerId: true, kind: true, name: true, size: true, sizeKey: true },
  ...{ count: true, homePlaceId: true, currentPlaceId: true, projectId: true, goneAt: true },
} as const

/**
 * Count what goes by number into so many bags out of stock (`bags` above nought), or back into it: what was taken to the project first,
 * then what lies at home. Some of a notion may lie with a project while the rest is at home, in rows that are alike.
 */
export async function countItems(
  writing: Write,
  project: KitProject,
  lines: readonly MasterLine[],
  { bags, who }: { bags: number; who: string | null },
): Promise<Result<null, TooFewItems | ChangedMeanwhile>> {
  const { tx } = writing
  const wanted = new Map<string, number>()
  for (const line of lines) {
    if (line.kind === 'item' && line.notionId !== null)
      wanted.set(line.notionId, (wanted.get(line.notionId) ?? 0) + line.perKit.count * bags)
  }
  for (const [notionId, count] of wanted) {
    if (count === 0) continue
    const named = await tx.notion.findUnique({ where: { id: notionId }, select: rowColumns })
    if (!named) continue
    const { ownerId, kind, name, size, sizeKey } = named
    const alike = await tx.notion.findMany({
      where: {
        ownerId,
        kind,
        name,
        goneAt: null,
        OR: [{ projectId: project.id }, { projectId: null }],
        ...(sizeKey === null ? { size } : { sizeKey }),
      },
      select: rowColumns,
      orderBy: { id: 'asc' },
    })
    // A row that is somewhere else, with nobody's project, is out.
    const rows = alike
      .filter((row) => row.projectId !== null || row.homePlaceId === null || row.currentPlaceId === row.homePlaceId)
      .sort(
        (a, b) =>
          Number(b.projectId === project.id) - Number(a.projectId === project.id) ||
          Number(b.id === notionId) - Number(a.id === notionId),
      )
    const have = rows.reduce((sum, row) => sum + row.count, 0)
    if (count > have) return refused({ kind: 'too-few-items', notionId, name, wanted: count, have })
    let left = count
    // What comes back is laid where it lives.
    const takers = count > 0 ? rows : [rows.find(({ projectId }) => projectId === null) ?? rows[0] ?? named]
    for (const row of takers) {
      const taken = count > 0 ? Math.min(left, row.count) : left
      if (taken === 0) continue
      left -= taken
      const held = await claimNotion(writing, row)
      if (!held.ok) return held
      await tx.notion.update({ where: { id: row.id }, data: { count: { decrement: taken } } })
      const where = taken > 0 ? { fromPlaceId: row.currentPlaceId } : { toPlaceId: row.currentPlaceId }
      await journalNotion(writing, {
        ...{ kind: taken > 0 ? 'use' : 'return', notionId: row.id, wholeDelta: -taken, ...where, projectId: project.id, who },
        reason: taken > 0 ? 'counted into kits' : 'taken out of kits',
      })
    }
  }
  return ok(null)
}
