import 'server-only'
import type { Design } from '#lib/chart/design'
import { stitchSize } from '#lib/chart/design-size'
import { coverPerMille } from '#lib/coverage/need'
import { designColumns, toDesign } from '../chart/design-rows'
import type { Transaction } from '../client'
import { inParts, readInParts } from '../walk/in-parts'

/** Stitches that fill squares, by thread list. Outlines, knots and beads are worked over them and not counted again. */
export async function readCrosses(tx: Transaction, listIds: readonly (string | null)[]): Promise<Map<string, number>> {
  const ids = [...new Set(listIds.flatMap((id) => id ?? []))]
  if (ids.length === 0) return new Map()
  const sums = await tx.keyLine.groupBy({
    by: ['threadListId'],
    where: { threadListId: { in: ids } },
    _sum: { full: true, half: true, quarter: true, threeQuarter: true, tent: true },
  })
  return new Map(
    sums.map(({ threadListId, _sum: sum }) => [threadListId, Object.values(sum).reduce<number>((a, b) => a + (b ?? 0), 0)]),
  )
}

/** How many stitches a work has, and how that is known: by its key, or by the usual share of its outline that is stitched. */
export type StitchesTotal =
  | { stitches: number; how: 'counted'; pieces: number }
  | { stitches: number; how: 'estimated'; pieces: number; width: number; height: number; coverPerMille: number }

/** @param counted  by its key, of one piece. @returns null where the key counts no stitches and size or kind of cover is not known */
export function stitchesTotalOf(
  design: Pick<Design, 'size' | 'advised' | 'coverKind'>,
  counted: number,
  pieces: number,
): StitchesTotal | null {
  if (counted > 0) return { stitches: counted * pieces, how: 'counted', pieces }
  const size = stitchSize(design)
  if (size === null || design.coverKind === null) return null
  const perMille = coverPerMille[design.coverKind]
  const stitches = Math.ceil((size.width * size.height * perMille) / 1_000) * pieces
  return { stitches, how: 'estimated', pieces, width: size.width, height: size.height, coverPerMille: perMille }
}

/** What of a project says how many stitches it has. */
type StitchedWork = { designId: string; threadListId: string | null; quantity: number }

/** @returns null where the key counts no stitches and size or kind of cover is not known */
export async function readStitchesTotal(tx: Transaction, work: StitchedWork): Promise<StitchesTotal | null> {
  const [total] = await readStitchesTotals(tx, [work])
  return total ?? null
}

/** The same for many at once, in their order. */
export async function readStitchesTotals(tx: Transaction, works: readonly StitchedWork[]): Promise<(StitchesTotal | null)[]> {
  const crosses = new Map<string, number>()
  for (const ids of inParts([...new Set(works.flatMap(({ threadListId }) => threadListId ?? []))]))
    for (const [id, count] of await readCrosses(tx, ids)) crosses.set(id, count)
  const countedOf = ({ threadListId }: StitchedWork) => (threadListId === null ? 0 : (crosses.get(threadListId) ?? 0))
  const estimated = works.filter((work) => countedOf(work) === 0).map(({ designId }) => designId)
  const rows = await readInParts(estimated, (ids) => tx.design.findMany({ where: { id: { in: ids } }, select: designColumns }))
  const designs = new Map(rows.map((row) => [row.id, toDesign(row)]))
  return works.map((work) => {
    const counted = countedOf(work)
    if (counted > 0) return { stitches: counted * work.quantity, how: 'counted', pieces: work.quantity }
    const design = designs.get(work.designId)
    if (!design) throw new RangeError(`readStitchesTotals: no design ${work.designId}`)
    return stitchesTotalOf(design, counted, work.quantity)
  })
}
