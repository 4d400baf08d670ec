import 'server-only'
import { leastUsefulPart } from '#lib/coverage/kit-cuts'
import type { TransitionRefused } from '#lib/project/life-cycle'
import { takePromised } from '#lib/project/walk-lines'
import { ok, type Result } from '#lib/result'
import { type Batch, isOut } from '#lib/stock/batch'
import { planTake } from '#lib/stock/plan-place'
import type { StockChange } from '#lib/stock/stock-change'
import { newId } from '../new-id'
import { getSettings } from '../settings/settings'
import { applyStockChange } from '../stock/apply-stock-change'
import { write } from '../write'
import { ensureBag, joinChanges, readKit, takeChartAlong, takeClothAlong } from './project-bag'
import {
  type ClothChoiceRefused,
  type ProjectEdit,
  type ProjectEditRefused,
  planStep,
  readProject,
  writeProject,
} from './project-row'
import { cutsOf, readProjectNeed } from './read-need'

export type Kitted = {
  takenCount: number
  /** Promised, and not there to be taken without taking what others were promised. */
  leftThere: { batchId: string; threadId: string }[]
}

export type KitRefused = ProjectEditRefused | TransitionRefused | ClothChoiceRefused

/**
 * Carry what a project was promised from the drawers to its bag, and the cloth with it: the part skein first, then as many whole
 * put-ups as it takes. What lies there already stays. A project already stitched from is topped up and keeps its status.
 */
export async function kitProject(
  input: ProjectEdit & { bagLabel: string; takesChart: boolean },
): Promise<Result<Kitted, KitRefused>> {
  const settings = await getSettings()
  return write<Kitted, KitRefused>(async (writing) => {
    const read = await readProject(writing.tx, input)
    if (!read.ok) return read
    const project = read.value
    const isUnderWay = project.status === 'kitted' || project.status === 'stitching' || project.status === 'resting'
    const kitted = isUnderWay ? ok(project) : await planStep(writing, project, 'kitted', '')
    if (!kitted.ok) return kitted
    const placeId = await ensureBag(writing, input.bagLabel)
    const written = await writeProject(writing, project, { status: kitted.value.status, placeId })
    if (!written.ok) return written

    const projectId = project.id
    const { batches, promises, versions } = await readKit(writing.tx, project)
    const cutOf = cutsOf(await readProjectNeed(writing.tx, project, settings))
    const carried: Kitted = { takenCount: 0, leftThere: [] }
    const changes: StockChange[] = []
    for (const batch of batches) {
      if (batch.currentPlaceId === placeId) continue
      const own = promises.find((promise) => promise.batchId === batch.id && promise.projectId === projectId)
      const isInOldBag = isOut(batch) && batch.currentPlaceId === project.placeId
      const taking = { toPlaceId: placeId, projectId, newBatchId: newId(), promises }
      const taken = isInOldBag
        ? planAll(batch, taking)
        : takePromised(batch, {
            ...{ ...taking, strandTenths: own?.strandTenths ?? 0 },
            leastCutStrandTenths: leastUsefulPart(cutOf.get(batch.threadId) ?? 0, batch.putUpStrandTenths),
          })?.change
      if (!taken) {
        carried.leftThere.push({ batchId: batch.id, threadId: batch.threadId })
        continue
      }
      changes.push(taken)
      carried.takenCount++
    }
    const applied = await applyStockChange(writing, joinChanges(changes), { versions, who: input.who })
    if (!applied.ok) return applied
    if (project.clothPieceId) await takeClothAlong(writing, project.clothPieceId, placeId, { projectId, who: input.who })
    if (input.takesChart) await takeChartAlong(writing, project.chartId, placeId, { projectId, who: input.who })
    return ok(carried)
  })
}

/** All of a batch, from the old bag to the new one. */
function planAll(batch: Batch, taking: Omit<Parameters<typeof planTake>[1], 'wholePutUps' | 'takesPart'>): StockChange | null {
  const takesPart = batch.partCertainty !== 'none'
  if (batch.wholePutUps === 0 && !takesPart) return null
  const planned = planTake(batch, { ...taking, wholePutUps: batch.wholePutUps, takesPart })
  return planned.ok ? planned.value : null
}
