import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import { type DesignInput, designData, writeThemes } from './add-design'
import type { ChartRefusal } from './chart-refusal'

type Refusal = Extract<ChartRefusal, { kind: 'changed-meanwhile' | 'design-taken' }>

/** Write a design anew; its thread lists stay as they are. */
export function editDesign(input: { id: string; version: number; design: DesignInput }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (open) => {
    const { tx, touch } = open
    const { id, version, design } = input
    const held = await tx.design.findFirst({ where: { id, version, chart: { goneAt: null } }, select: { chartId: true } })
    if (!held) return refused({ kind: 'changed-meanwhile' })
    const namesake = await tx.design.findFirst({
      where: { chartId: held.chartId, titleKey: textKey(design.title), id: { not: id } },
      select: { id: true },
    })
    if (namesake) return refused({ kind: 'design-taken', title: design.title })
    const claimed = await tx.design.updateMany({
      where: { id, version },
      data: { ...designData(design), version: { increment: 1 } },
    })
    if (claimed.count === 0) return refused({ kind: 'changed-meanwhile' })
    await writeThemes(open, id, design.themes)
    touch('design', id)
    return ok(null)
  })
}
