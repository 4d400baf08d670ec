import { textKey } from '#lib/quantity/text-key'
import type { Random } from '../random'
import { groundKinds } from './cloth'
import { distinct, receipt, type SizePlan, type TableRow } from './rows'
import { coverShares, formKinds } from './themes'
import type { MadeThread } from './threads'
import { adjective, chartTitle, noun } from './words'

export type ChartTables = Record<
  'Chart' | 'ChartDesigner' | 'Design' | 'DesignTheme' | 'ThreadList' | 'KeyLine' | 'KeyLineThread' | 'Movement',
  TableRow[]
>

export const emptyChartTables = (): ChartTables => ({
  ...{ Chart: [], ChartDesigner: [], Design: [], DesignTheme: [], ThreadList: [], KeyLine: [], KeyLineThread: [], Movement: [] },
})

const noStitches = {
  ...{ full: 0, half: 0, quarter: 0, threeQuarter: 0, tent: 0, backstitch: 0, backstitchDiagonal: 0, doubleRunning: 0 },
  ...{ knotOneWrap: 0, knotTwoWrap: 0, bead: 0 },
}

export type ChartMaking = {
  random: Random
  plan: SizePlan
  ownerIds: string[]
  designerIds: string[]
  themeIds: { season: string[]; subject: string[]; form: Map<string, string> }
  boxes: string[]
  threads: MadeThread[]
  /** Cotton and the like by line, so that a palette mostly keeps to one. */
  threadsByLine: MadeThread[][]
  ids: Record<'chart' | 'design' | 'list' | 'keyLine' | 'keyLineThread' | 'movement', () => string>
}

/** About 70 % of lists count stitches, 18 % state put-ups, the rest say nothing. */
const amountKinds = [
  ['tally', 70],
  ['stated', 18],
  ['none', 12],
] as const

/** Popular threads come up oftener: the lower a thread stands in its line, the likelier. */
const pickSkewed = <T>(random: Random, list: readonly T[]): T => list[Math.floor(list.length * random.next() ** 1.6)] as T

function drawPalette(making: ChartMaking, count: number): MadeThread[] {
  const { random, threads, threadsByLine } = making
  const main = random.weighted<MadeThread[]>([
    [threadsByLine[0] as MadeThread[], 6],
    [threadsByLine[2] as MadeThread[], 2],
    [threadsByLine[3] as MadeThread[], 2],
    [threadsByLine[6] as MadeThread[], 1],
  ])
  const drawn = new Map<string, MadeThread>()
  for (let tried = 0; drawn.size < count && tried < 20 * count; tried++) {
    const thread = random.chance(0.85) ? pickSkewed(random, main) : random.pick(threads)
    drawn.set(thread.id, thread)
  }
  return [...drawn.values()]
}

function addThreadList(
  into: ChartTables,
  making: ChartMaking,
  list: { designId: string; name: string; position: number; keyLineCount: number; stitches: number },
): void {
  const { random, ids } = making
  const threadListId = ids.list()
  into.ThreadList.push({
    id: threadListId,
    designId: list.designId,
    name: list.name,
    nameKey: textKey(list.name),
    position: list.position,
  })
  const amounts = random.weighted(amountKinds)
  const palette = drawPalette(making, list.keyLineCount)
  const weights = palette.map(() => 0.15 + random.next() ** 2)
  const weightSum = weights.reduce((sum, one) => sum + one, 0)
  for (let position = 0; position < list.keyLineCount; position++) {
    const thread = palette[position % palette.length] as MadeThread
    const full = Math.max(1, Math.round((list.stitches * (weights[position % palette.length] as number)) / weightSum))
    const keyLineId = ids.keyLine()
    const hasTally = amounts === 'tally'
    const isOutlined = hasTally && random.chance(0.12)
    into.KeyLine.push({
      ...{ id: keyLineId, threadListId, position, symbol: String.fromCodePoint(0x41 + (position % 26)), hasTally },
      ...noStitches,
      full: hasTally ? full : 0,
      backstitch: isOutlined ? random.int(20, 400) : 0,
      knotOneWrap: isOutlined && random.chance(0.2) ? random.int(3, 40) : 0,
    })
    const isBlend = palette.length > 2 && random.chance(0.03)
    const inNeedle = isBlend ? [thread, palette[(position + 1) % palette.length] as MadeThread] : [thread]
    inNeedle.forEach((one, turn) => {
      const putUps = Math.max(1, Math.ceil(full / 1_800))
      into.KeyLineThread.push({
        ...{ id: ids.keyLineThread(), keyLineId, position: turn, threadId: one.id },
        strands: isBlend ? 1 : Math.min(2, one.strands),
        statedHundredths: amounts === 'stated' ? 100 * putUps : null,
        statedPutUpTenths: amounts === 'stated' ? one.line.putUpStrandTenths / one.line.strands : null,
      })
    })
  }
}

export function addChart(into: ChartTables, making: ChartMaking): void {
  const { random, plan, ids, themeIds } = making
  const id = ids.chart()
  const title = chartTitle(random)
  const designCount = random.chance(0.1) ? random.int(2, 6) : 1
  const kind =
    designCount > 1
      ? 'booklet'
      : random.weighted([
          ['leaflet', 12],
          ['card', 3],
          ['file', 3],
          ['issue', 1],
          ['kit', 1],
        ] as const)
  const ownerId = random.chance(0.85) ? (making.ownerIds[0] as string) : random.pick(making.ownerIds)
  const homePlaceId = random.pick(making.boxes)
  const copies =
    kind === 'file'
      ? 1
      : random.weighted([
          [1, 6],
          [2, 2],
          [3, 1],
          [5, 1],
        ] as const)
  const month = String(random.int(1, 12)).padStart(2, '0')
  into.Chart.push({
    ...{ id, title, titleKey: textKey(title), kind, ownerId, copies, partsNeeded: 1, partsHeld: 1 },
    ...{ homePlaceId, currentPlaceId: homePlaceId },
    boughtOn: `${random.int(2009, 2025)}-${month}-${String(random.int(1, 28)).padStart(2, '0')}`,
    priceMinor: 50 * random.int(8, 50),
  })
  into.Movement.push(receipt(ids.movement(), { chartId: id }, { wholeDelta: copies, toPlaceId: homePlaceId, toOwnerId: ownerId }))
  const designers = random.sample(
    [pickSkewed(random, making.designerIds), random.pick(making.designerIds)],
    random.chance(0.04) ? 2 : 1,
  )
  for (const [position, designerId] of [...new Set(designers)].entries())
    into.ChartDesigner.push({ chartId: id, designerId, position })

  const taken = new Set<string>()
  for (let position = 0; position < designCount; position++) {
    const designId = ids.design()
    const designTitle = designCount === 1 ? title : distinct(taken, () => `${adjective(random)} ${noun(random)}`)
    const form = random.weighted(formKinds)
    const ground = random.weighted(groundKinds)
    const widthStitches = random.int(...form.width)
    const heightStitches = random.int(...form.height)
    into.Design.push({
      ...{
        id: designId,
        chartId: id,
        title: designTitle,
        titleKey: textKey(designTitle),
        position,
        widthStitches,
        heightStitches,
      },
      ...{ advisedThreads: ground.threads, advisedPerUm: ground.perUm, advisedOver: ground.over, advisedWeave: ground.weave },
      ...{ insistsOnWeave: random.chance(0.04), advisedCloth: ground.name, coverKind: form.cover },
    })
    const themes = new Set([themeIds.form.get(form.name) as string, random.pick(themeIds.subject)])
    if (random.chance(0.5)) themes.add(random.pick(themeIds.season))
    if (random.chance(0.4)) themes.add(random.pick(themeIds.subject))
    for (const themeId of themes) into.DesignTheme.push({ designId, themeId })

    const share = plan.keyLinesPerChart === null ? null : Math.floor(plan.keyLinesPerChart / designCount)
    const rest = plan.keyLinesPerChart === null ? 0 : plan.keyLinesPerChart % designCount
    const keyLineCount =
      share === null
        ? Math.min(45, Math.max(2, Math.round(form.cover === 'full' ? random.normal(32, 6) : random.normal(12, 5))))
        : share + (position < rest ? 1 : 0)
    const stitches = widthStitches * heightStitches * (coverShares[form.cover] as number)
    addThreadList(into, making, { designId, name: 'Printed list', position: 0, keyLineCount, stitches })
    if (share === null && random.chance(0.06)) {
      addThreadList(into, making, {
        designId,
        name: 'Second list',
        position: 1,
        keyLineCount: Math.max(2, keyLineCount - 3),
        stitches,
      })
    }
  }
}
