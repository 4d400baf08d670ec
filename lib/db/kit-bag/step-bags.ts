import 'server-only'
import { type BagRefused, type BagStep, planBagStep } from '#lib/project/kit/bags'
import { ok, type Result, refused } from '#lib/result'
import { readCopiesOut } from '../loan/hand-over'
import { newId } from '../new-id'
import { write } from '../write'
import type { Write } from '../write-gate'
import { countItems, type TooFewItems } from './count-items'
import { ensureBags } from './ensure-bags'
import { type KitBagRow, linesOfBag, readLotRows } from './kit-rows'
import {
  type KitChanged,
  type KitClosed,
  type KitProject,
  type NoSuchKit,
  readKitProject,
  readMaster,
  refuseClosed,
} from './read-kit-project'

export type NoSuchBag = { kind: 'no-such-bag'; bag: number }
/** Each kit has one bought chart: more are wanted than there are. */
export type NoChartLeft = { kind: 'no-chart-left'; wanted: number; copies: number; isOtherOwner: boolean }

export type StepBagsRefused = NoSuchKit | KitClosed | KitChanged | NoSuchBag | NoChartLeft | TooFewItems | BagRefused

/**
 * Pack, unpack, close, open again, sell or take back bags, all of them or none. Packing counts needles and the like out of stock. A bag that is closed takes a copy of the chart out of
 * stock, a spare once it is sold.
 *
 * @param input.soldTo  who has it now; may be left out, as over the counter
 * @param input.reason  why bags are opened again or taken back
 */
export async function stepBags(input: {
  projectId: string
  step: BagStep
  bags: readonly number[]
  by: string | null
  reason?: string | null
  soldTo?: string | null
}): Promise<Result<{ bags: number; charts: number }, StepBagsRefused>> {
  const read = await readMaster(input.projectId)
  if (!read.ok) return read
  const master = read.value
  const reason = input.reason?.trim() || null
  return write<{ bags: number; charts: number }, StepBagsRefused>(async (writing) => {
    const project = await readKitProject(writing.tx, master)
    if (!project.ok) return project
    if (input.step === 'pack') {
      const open = refuseClosed(project.value)
      if (!open.ok) return open
    }
    const rows = new Map((await ensureBags(writing, master)).map((row) => [row.number, row]))
    const lots = await readLotRows(writing.tx, project.value.id)
    const hasChart = master.lines.some((line) => line.kind === 'chart' && !line.isFile)
    let chartDelta = 0
    const numbers = [...new Set(input.bags)].sort((a, b) => a - b)
    for (const number of numbers) {
      const bag = rows.get(number)
      if (!bag) return refused({ kind: 'no-such-bag', bag: number })
      const { keys, uncut } = linesOfBag(master, lots, bag)
      const planned = planBagStep(bag, input.step, { keys, uncut, hasChart, reason })
      if (!planned.ok) return planned
      chartDelta += planned.value.chartDelta
      if (planned.value.forgetsMarks) await writing.tx.kitBagCheck.deleteMany({ where: { bagId: bag.id } })
      const written = await writeBag(writing, bag, {
        status: planned.value.status,
        ...dated(bag, input, writing.at, reason),
      })
      if (!written.ok) return written
    }
    const filled = input.step === 'pack' ? 1 : input.step === 'unpack' ? -1 : 0
    const counted = await countItems(writing, project.value, master.lines, { bags: filled * numbers.length, who: input.by })
    if (!counted.ok) return counted
    const charts = await moveCharts(writing, project.value, chartDelta, input)
    if (!charts.ok) return charts
    writing.touch('project', project.value.id)
    return ok({ bags: numbers.length, charts: -chartDelta })
  })
}

/** Write a bag at the version it was read at. */
export async function writeBag(
  { tx }: Write,
  bag: Pick<KitBagRow, 'id' | 'version'>,
  data: Partial<Omit<KitBagRow, 'id' | 'version' | 'marks'>>,
): Promise<Result<null, KitChanged>> {
  const claimed = await tx.kitBag.updateMany({
    where: { id: bag.id, version: bag.version },
    data: { ...data, version: { increment: 1 } },
  })
  return claimed.count === 0 ? refused({ kind: 'changed-meanwhile' }) : ok(null)
}

/** When and by whom, as a bag keeps it; an opening and its reason stay in its note. */
function dated(
  bag: KitBagRow,
  { step, by, soldTo }: { step: BagStep; by: string | null; soldTo?: string | null },
  at: Date,
  reason: string | null,
): Partial<Omit<KitBagRow, 'id' | 'version' | 'marks' | 'status'>> {
  const unchecked = { checkedAt: null, checkedBy: null }
  const noted = (what: string) => ({
    note: [bag.note, `${at.toISOString().slice(0, 10)} ${what}${by ? ` by ${by}` : ''}: ${reason}`].filter(Boolean).join('\n'),
  })
  switch (step) {
    case 'pack':
      return { packedAt: at, packedBy: by }
    case 'unpack':
      return { packedAt: null, packedBy: null, ...unchecked }
    case 'seal':
      return { sealedAt: at, sealedBy: by }
    case 'unseal':
      return { sealedAt: null, sealedBy: null, ...unchecked, ...noted('opened again') }
    case 'sell':
      return { soldAt: at, soldTo: soldTo?.trim() || null }
    case 'take back':
      return { soldAt: null, soldTo: null, ...noted(`taken back${bag.soldTo ? ` from ${bag.soldTo}` : ''}`) }
  }
}

/** Copies of the chart into the bags, or out of them again. */
async function moveCharts(
  { tx, at, revision, touch }: Write,
  project: KitProject,
  delta: number,
  { by, step, bags }: { by: string | null; step: BagStep; bags: readonly number[] },
): Promise<Result<null, NoChartLeft>> {
  if (delta === 0) return ok(null)
  const { chartId } = project
  const chart = await tx.chart.findUniqueOrThrow({
    where: { id: chartId },
    select: { copies: true, ownerId: true, currentPlaceId: true },
  })
  const isOtherOwner = chart.ownerId !== project.ownerId
  // A copy that is lent cannot go into a bag.
  const here = delta < 0 && !isOtherOwner ? chart.copies - (await readCopiesOut(tx, chartId)) : 0
  if (delta < 0 && here < -delta)
    return refused({ kind: 'no-chart-left', wanted: -delta, copies: Math.max(0, here), isOtherOwner })
  await tx.chart.update({ where: { id: chartId }, data: { copies: { increment: delta }, version: { increment: 1 } } })
  touch('chart', chartId)
  for (const { id } of await tx.design.findMany({ where: { chartId }, select: { id: true } })) touch('design', id)
  const where = delta < 0 ? { fromPlaceId: chart.currentPlaceId } : { toPlaceId: chart.currentPlaceId }
  const named = bags.length === 1 ? `bag ${bags[0]}` : `bags ${[...bags].sort((a, b) => a - b).join(', ')}`
  await tx.movement.create({
    data: {
      ...{ id: newId(), revision, at, kind: delta < 0 ? 'use' : 'return', chartId, wholeDelta: delta, ...where },
      ...{ projectId: project.id, who: by, reason: `${step}: ${named}` },
    },
  })
  return ok(null)
}
