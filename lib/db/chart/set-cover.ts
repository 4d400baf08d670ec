import 'server-only'
import { ok, type Result, refused } from '#lib/result'
import { write } from '../write'
import type { ChartRefusal } from './chart-refusal'

type Refusal = Extract<ChartRefusal, { kind: 'changed-meanwhile' }>

/** A chart's cover: its photo's name and what it looks like (lib/chart/cover-hash.ts), where that is known; null takes it off. */
export type Cover = { file: string; hash: string | null }

/** Give a chart a cover, another one, or none. The picture it had stays in the data folder, for whoever undoes it. */
export function setCover(input: { chartId: string; version: number; cover: Cover | null }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async ({ tx, touch }) => {
    const { chartId, version, cover } = input
    const changed = await tx.chart.updateMany({
      where: { id: chartId, version, goneAt: null },
      data: { coverFile: cover?.file ?? null, coverHash: cover?.hash ?? null, version: { increment: 1 } },
    })
    if (changed.count === 0) return refused({ kind: 'changed-meanwhile' })
    touch('chart', chartId)
    return ok(null)
  })
}
