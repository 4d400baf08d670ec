import 'server-only'
import { isInHand, type WalkKind } from '#lib/project/walk'
import { type CarryLine, type CarryPlan, type LeftWhy, planCarry, planHomecoming } from '#lib/project/walk-carry'
import { ok, type Result, refused } from '#lib/result'
import type { Batch, StockPromise } from '#lib/stock/batch'
import { newId } from '../new-id'
import { readMergeTargets } from '../project/merge-targets'
import { ensureBag, takeChartAlong, takeClothAlong } from '../project/project-bag'
import { type ProjectSnapshot, planStep, readProject, writeProject } from '../project/project-row'
import { readBatches } from '../stock/apply-stock-change'
import { write } from '../write'
import type { Write } from '../write-gate'
import { putNotionHome, putThingBack, takeNotionAlong } from './carry-things'
import { applyLargeChange, inParts, readInParts } from './in-parts'
import type { WalkRefusal } from './walk-refusal'
import { batchIdOf, claimOpenWalk, readLineRows } from './walk-row'
import type { LineRow } from './write-lines'

export type CarryOutRefused = Extract<
  WalkRefusal,
  {
    kind:
      | 'no-such-walk'
      | 'walk-closed'
      | 'nothing-ticked'
      | 'bag-unnamed'
      | 'changed-meanwhile'
      | 'no-such-project'
      | 'cloth-reserved'
      | 'no-such-cloth'
  }
>

/** A thousand bags are written one after another. */
const longestMs = 120_000

export type CarriedOut = {
  carried: number
  left: { lineId: string; why: LeftWhy }[]
  /** Projects all of whose lines are in their bag now. */
  kittedProjectIds: string[]
  /** Everything was carried out, so the walk is done. */
  isDone: boolean
}

/**
 * What is ticked moves on the record, all in one write: from a pull into each project's bag, from a put-back list to where it lives. What
 * is not ticked stays as it is, and nothing is carried twice. What the record no longer has as the list says stays ticked and is named.
 *
 * @param input.bags     the label of the bag of each project that has none yet
 * @param input.lineIds  only these of what is ticked: what somebody had in hand who said so later; left out, all
 */
export function carryOut(input: {
  walkId: string
  bags?: readonly { projectId: string; label: string }[]
  lineIds?: readonly string[]
  who?: string | null
}): Promise<Result<CarriedOut, CarryOutRefused>> {
  const { walkId, bags = [], who = null } = input
  const meant = input.lineIds && new Set(input.lineIds)
  return write<CarriedOut, CarryOutRefused>(async (writing) => {
    const { tx, at, revision } = writing
    const walk = await claimOpenWalk(writing, walkId)
    if (!walk.ok) return walk
    const { kind } = walk.value
    const lines = await readLineRows(tx, walkId)
    const ticked = lines.filter(
      (line) => line.carriedAt === null && isInHand(line.status) && (meant === undefined || meant.has(line.id)),
    )
    if (ticked.length === 0) return refused({ kind: 'nothing-ticked' })

    const projects = kind === 'pull' ? await openBags(writing, ticked, bags) : ok(new Map<string, ProjectSnapshot>())
    if (!projects.ok) return projects
    const bagOf = (line: LineRow): string | null =>
      kind === 'pull' ? (projects.value.get(line.projectId ?? '')?.placeId ?? null) : line.toPlaceId
    const thread = await carryThread(writing, kind, ticked, { bagOf, who })
    if (!thread.ok) return thread
    const { carried, left } = thread.value
    await carryOther(writing, kind, ticked, { bagOf, who, carried, left })

    for (const part of inParts(carried))
      await tx.walkLine.updateMany({ where: { id: { in: part } }, data: { carriedAt: at, revision } })
    const isCarried = new Set([...carried, ...lines.flatMap((line) => (line.carriedAt === null ? [] : [line.id]))])
    const kitted = await kitThoseComplete(writing, [...projects.value.values()], lines, isCarried)
    if (!kitted.ok) return kitted
    const isDone = lines.every(({ id }) => isCarried.has(id))
    if (isDone) await tx.walk.update({ where: { id: walkId }, data: { status: 'done', closedAt: at, closedBy: who } })
    return ok({ carried: carried.length, left, kittedProjectIds: kitted.value, isDone })
  }, longestMs)
}

/** The projects of these lines, each with its bag, made where it is new. */
async function openBags(
  writing: Write,
  ticked: readonly LineRow[],
  bags: readonly { projectId: string; label: string }[],
): Promise<Result<Map<string, ProjectSnapshot>, CarryOutRefused>> {
  const labelOf = new Map(bags.map(({ projectId, label }) => [projectId, label.trim()]))
  const opened = new Map<string, ProjectSnapshot>()
  for (const projectId of new Set(ticked.flatMap((line) => line.projectId ?? []))) {
    const read = await readProject(writing.tx, { projectId })
    if (!read.ok) return refused(read.error)
    const project = read.value
    if (project.placeId !== null) {
      opened.set(projectId, project)
      continue
    }
    const label = labelOf.get(projectId)
    if (!label) {
      const { design } = await writing.tx.project.findUniqueOrThrow({
        where: { id: projectId },
        select: { design: { select: { title: true } } },
      })
      return refused({ kind: 'bag-unnamed', projectId, title: design.title })
    }
    const placeId = await ensureBag(writing, label)
    const written = await writeProject(writing, project, { placeId })
    if (!written.ok) return written
    opened.set(projectId, { ...project, placeId, version: project.version + 1 })
  }
  return ok(opened)
}

type Carrying = { bagOf: (line: LineRow) => string | null; who: string | null }

async function carryThread(
  writing: Write,
  kind: WalkKind,
  ticked: readonly LineRow[],
  { bagOf, who }: Carrying,
): Promise<Result<Pick<CarryPlan, 'left' | 'carried'>, { kind: 'changed-meanwhile' }>> {
  const ofThread = ticked.filter(({ batchId }) => batchId !== null)
  const batches = new Map<string, Batch>()
  const promises = new Map<string, StockPromise>()
  const versions = new Map<string, number>()
  const mergeInto = new Map<string, Batch>()
  const keep = (stock: Awaited<ReturnType<typeof readBatches>>) => {
    for (const batch of stock.batches) batches.set(batch.id, batch)
    for (const promise of stock.promises) promises.set(promise.id, promise)
    for (const [id, version] of stock.versions) versions.set(id, version)
  }
  await readInParts(ofThread.map(batchIdOf), async (ids) => {
    const stock = await readBatches(writing.tx, { id: { in: ids } })
    keep(stock)
    if (kind === 'put-back') {
      const targets = await readMergeTargets(writing.tx, stock.batches)
      for (const [id, into] of targets.mergeInto) mergeInto.set(id, into)
      keep(targets.atHome)
    }
    return []
  })
  const carrying = ofThread.map(
    (line): CarryLine => ({
      ...{ lineId: line.id, batchId: batchIdOf(line) as string, projectId: line.projectId },
      ...{ wholePutUps: line.count, takesPart: line.takesPart, toPlaceId: bagOf(line), newBatchId: newId() },
    }),
  )
  const stock = { batches: [...batches.values()], promises: [...promises.values()], lines: carrying }
  const plan = kind === 'pull' ? planCarry(stock) : planHomecoming({ ...stock, mergeInto })
  const applied = await applyLargeChange(writing, plan.change, { versions, who })
  return applied.ok ? ok(plan) : applied
}

/** Cloth, charts and notions: into the bag, or where they live. Adds what was carried, and what was not. */
async function carryOther(
  writing: Write,
  kind: WalkKind,
  ticked: readonly LineRow[],
  { bagOf, who, carried, left }: Carrying & Pick<CarryPlan, 'left' | 'carried'>,
): Promise<void> {
  for (const line of ticked) {
    const { clothPieceId, chartId, notionId, projectId } = line
    if (line.batchId !== null) continue
    const placeId = bagOf(line)
    if (kind === 'put-back') {
      const isBack = notionId
        ? await putNotionHome(writing, notionId)
        : await putThingBack(writing, { clothPieceId, chartId, projectId, toPlaceId: placeId, who })
      if (isBack) carried.push(line.id)
      else left.push({ lineId: line.id, why: 'no-home' })
      continue
    }
    if (placeId === null || projectId === null) throw new RangeError(`carryOut: line ${line.id} of a pull has no bag`)
    if (clothPieceId) await takeClothAlong(writing, clothPieceId, placeId, { projectId, who })
    if (chartId) await takeChartAlong(writing, chartId, placeId, { projectId, who })
    const isTaken = notionId === null || (await takeNotionAlong(writing, notionId, { projectId, many: line.count, placeId, who }))
    if (isTaken) carried.push(line.id)
    else left.push({ lineId: line.id, why: 'not-enough' })
  }
}

/** Projects that were only planned, and all of whose lines are in the bag now, are kitted. */
async function kitThoseComplete(
  writing: Write,
  projects: readonly ProjectSnapshot[],
  lines: readonly LineRow[],
  isCarried: ReadonlySet<string>,
): Promise<Result<string[], CarryOutRefused>> {
  const kitted: string[] = []
  for (const project of projects) {
    const own = lines.filter(({ projectId }) => projectId === project.id)
    if (project.status !== 'planned' || own.some(({ id }) => !isCarried.has(id))) continue
    const step = await planStep(writing, project, 'kitted', '')
    if (!step.ok) {
      // From planned to kitted nothing is in the way but what the piece of cloth is kept for.
      if (step.error.kind === 'not-from-here') continue
      return refused(step.error)
    }
    const written = await writeProject(writing, project, { status: step.value.status })
    if (!written.ok) return written
    kitted.push(project.id)
  }
  return ok(kitted)
}
