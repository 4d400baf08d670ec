import 'server-only'
import { ok, type Result } from '#lib/result'
import { planTake } from '#lib/stock/plan-place'
import { carryNotions } from '../notion/carry-notions'
import { applyStockChange } from '../stock/apply-stock-change'
import { write } from '../write'
import { ensureBag, joinChanges, readKit, takeChartAlong, takeClothAlong } from './project-bag'
import { type ProjectEdit, type ProjectEditRefused, readProject, writeProject } from './project-row'

/** Give a project another bag; all that lies in the old one for it goes over, thread, cloth, chart and notions. */
export function changeBag(
  input: ProjectEdit & { bagLabel: string },
): Promise<Result<{ movedCount: number }, ProjectEditRefused>> {
  return write<{ movedCount: number }, ProjectEditRefused>(async (writing) => {
    const { tx } = writing
    const read = await readProject(tx, input)
    if (!read.ok) return read
    const project = read.value
    const toPlaceId = await ensureBag(writing, input.bagLabel)
    const oldPlaceId = project.placeId
    const written = await writeProject(writing, project, { placeId: toPlaceId })
    if (!written.ok || oldPlaceId === null || oldPlaceId === toPlaceId) return written.ok ? ok({ movedCount: 0 }) : written

    const projectId = project.id
    const { batches, promises, versions } = await readKit(tx, project)
    const changes = batches.flatMap((batch) => {
      // A drawer that serves as the bag keeps what lives in it.
      if (batch.currentPlaceId !== oldPlaceId || batch.homePlaceId === oldPlaceId) return []
      const takesPart = batch.partCertainty !== 'none'
      if (batch.wholePutUps === 0 && !takesPart) return []
      const taken = planTake(batch, { wholePutUps: batch.wholePutUps, takesPart, toPlaceId, projectId, promises })
      return taken.ok ? [taken.value] : []
    })
    const applied = await applyStockChange(writing, joinChanges(changes), { versions, who: input.who })
    if (!applied.ok) return applied

    const carried = { projectId, who: input.who }
    const { clothPieceId, chartId } = project
    const inOldBag = { currentPlaceId: oldPlaceId, movements: { some: { projectId, kind: 'take' } } }
    if (clothPieceId && (await tx.clothPiece.count({ where: { id: clothPieceId, ...inOldBag } })) > 0)
      await takeClothAlong(writing, clothPieceId, toPlaceId, carried)
    if ((await tx.chart.count({ where: { id: chartId, ...inOldBag } })) > 0)
      await takeChartAlong(writing, chartId, toPlaceId, carried)
    await carryNotions(writing, { ...carried, fromPlaceId: oldPlaceId, toPlaceId })
    return ok({ movedCount: changes.length })
  })
}
