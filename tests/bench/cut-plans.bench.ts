import { createRequire } from 'node:module'
import type * as Packers from 'maxrects-packer'
import { type CutPlan, type CutRequest, nodesOf } from '#lib/cloth/cut-plan'
import { searchCuts } from '#lib/cloth/cutting/search-cuts'
import { seededRandom } from '#seed/random'
import type { Bench, Measurement } from './measurement'
import { percentile } from './timing'

// Its package says it is one kind of module and is the other.
const packers = createRequire(import.meta.url)('maxrects-packer') as typeof Packers

type Size = { width: number; height: number }
type Box = Size & { x: number; y: number }

/** A fat quarter in tenths of an inch. */
const sheet: Size = { width: 180, height: 270 }
const sheetArea = sheet.width * sheet.height
const counts = [8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20]
const setsOfEach = 8
const timeGivenMs = 200
/** When a search is told to stop: its last slice comes on top. */
const stopAtMs = 170
const wholeWithinMs = 1_000

/** A sheet cut in two at random, from edge to edge, again and again, one of the three largest each time: it can be rebuilt whole. */
function zeroWasteSet(count: number, seed: string): Size[] {
  const random = seededRandom(seed)
  const parts = [{ ...sheet }]
  while (parts.length < count) {
    parts.sort((a, b) => b.width * b.height - a.width * a.height)
    const [part] = parts.splice(random.int(0, Math.min(2, parts.length - 1)), 1) as [Size]
    const share = 0.3 + 0.4 * random.next()
    const isWide = part.width > part.height
    const at = Math.round((isWide ? part.width : part.height) * share)
    const { width, height } = part
    if (isWide) parts.push({ width: at, height }, { width: width - at, height })
    else parts.push({ width, height: at }, { width, height: height - at })
  }
  return random.shuffle(parts)
}

/** Sizes drawn evenly, then all made so large that together they are 1.15 sheets: some must be left out. */
function randomSet(count: number, seed: string): Size[] {
  const random = seededRandom(seed)
  const drawn = Array.from({ length: count }, () => ({
    width: sheet.width * (0.12 + 0.38 * random.next()),
    height: sheet.height * (0.12 + 0.38 * random.next()),
  }))
  const scale = Math.sqrt((1.15 * sheetArea) / drawn.reduce((sum, { width, height }) => sum + width * height, 0))
  return drawn.map(({ width, height }) => ({
    width: Math.min(sheet.width, Math.round(width * scale)),
    height: Math.min(sheet.height, Math.round(height * scale)),
  }))
}

function requestOf(sizes: readonly Size[]): CutRequest {
  return {
    pieces: [{ id: 'sheet', widthUm: sheet.width, heightUm: sheet.height }],
    wishes: sizes.map(({ width, height }, at) => ({
      ...{ id: String(at), copies: 1, value: width * height },
      ways: {
        sheet: [
          { widthUm: width, heightUm: height, isTurned: false },
          { widthUm: height, heightUm: width, isTurned: true },
        ],
      },
    })),
    ...{ objective: 'most value', gapUm: 0, leastOffcutUm: 1, seed: 1 },
  }
}

/** The plan there is when the time is up, or sooner when it is proved; and how long it took. */
function planWithin(sizes: readonly Size[], timeMs: number): { plan: CutPlan; tookMs: number } {
  const begun = performance.now()
  const search = searchCuts(requestOf(sizes))
  for (;;) {
    const { value: plan, done } = search.next()
    const tookMs = performance.now() - begun
    if (done || tookMs >= timeMs || plan.value === sheetArea) return { plan, tookMs }
  }
}

const filledBy = ({ layouts }: CutPlan): number =>
  layouts
    .flatMap(({ root }) => [...nodesOf(root)])
    .reduce((sum, node) => (node.kind === 'wanted' ? sum + node.widthUm * node.heightUm : sum), 0)

/** The packer's fullest sheet, by whichever of its two orders fills more. */
function packed(sizes: readonly Size[]): Box[] {
  const area = (boxes: readonly Size[]) => boxes.reduce((sum, { width, height }) => sum + width * height, 0)
  const sheets = [0, 1].flatMap((logic) => {
    const packer = new packers.MaxRectsPacker(sheet.width, sheet.height, 0, {
      ...{ smart: false, pot: false, square: false, allowRotation: true, logic },
    })
    for (const size of sizes) packer.add(size.width, size.height, null)
    const bulk = new packers.MaxRectsPacker(sheet.width, sheet.height, 0, {
      ...{ smart: false, pot: false, square: false, allowRotation: true, logic },
    })
    bulk.addArray(sizes.map((size) => ({ ...size, x: 0, y: 0 }) as never))
    return [...packer.bins, ...bulk.bins].map(({ rects }) => rects.map(({ x, y, width, height }) => ({ x, y, width, height })))
  })
  return sheets.sort((a, b) => area(b) - area(a))[0] ?? []
}

/** Whether boxes can be parted by straight cuts from edge to edge, to the last one. */
function canBeCut(boxes: readonly Box[]): boolean {
  if (boxes.length <= 1) return true
  const parted = (start: (box: Box) => number, size: (box: Box) => number): boolean => {
    const sorted = [...boxes].sort((a, b) => start(a) - start(b))
    let end = 0
    for (const [at, box] of sorted.entries()) {
      if (at > 0 && start(box) >= end) return canBeCut(sorted.slice(0, at)) && canBeCut(sorted.slice(at))
      end = Math.max(end, start(box) + size(box))
    }
    return false
  }
  return (
    parted(
      ({ x }) => x,
      ({ width }) => width,
    ) ||
    parted(
      ({ y }) => y,
      ({ height }) => height,
    )
  )
}

const mean = (figures: readonly number[]): number => figures.reduce((sum, figure) => sum + figure, 0) / figures.length

async function run(): Promise<Measurement[]> {
  const measurements: Measurement[] = []
  for (const [name, makeSet, points] of [
    ['zero-waste', zeroWasteSet, 10],
    ['random', randomSet, 5],
  ] as const) {
    const ours: number[] = []
    const theirs: number[] = []
    const times: number[] = []
    let cuttable = 0
    for (const count of counts)
      for (let set = 0; set < setsOfEach; set++) {
        const sizes = makeSet(count, `${name} ${count} ${set}`)
        const { plan, tookMs } = planWithin(sizes, stopAtMs)
        const boxes = packed(sizes)
        ours.push((100 * filledBy(plan)) / sheetArea)
        theirs.push((100 * boxes.reduce((sum, { width, height }) => sum + width * height, 0)) / sheetArea)
        times.push(tookMs)
        if (canBeCut(boxes)) cuttable++
      }
    const samples = ours.length
    const worst = [Math.min(...ours), Math.min(...theirs)] as const
    const row = (
      what: string,
      figures: readonly [number, number],
      goal: Measurement['goal'],
      isWithRange = false,
    ): Measurement => ({
      name: what,
      ...{ ours: figures[0], against: figures[1], ratio: figures[0] / figures[1], unit: '%', samples, goal },
      oursRange: isWithRange ? [Math.min(...ours), Math.max(...ours)] : null,
      againstRange: isWithRange ? [Math.min(...theirs), Math.max(...theirs)] : null,
    })
    measurements.push(
      row(
        `mean fill of one sheet, ${name} sets of 8–20`,
        [mean(ours), mean(theirs)],
        { words: `${points} points more`, isMet: mean(ours) - mean(theirs) >= points },
        true,
      ),
      row(`worst fill, ${name} sets`, worst, { words: 'higher', isMet: worst[0] > worst[1] }),
      row(`layouts that can be cut from edge to edge, ${name} sets`, [100, (100 * cuttable) / samples], null),
      {
        name: `a plan of ${name} sets, at most ${timeGivenMs} ms given (p95)`,
        ...{ ours: percentile(times, 0.95), against: null, ratio: null, unit: 'ms', samples },
        oursRange: [Math.min(...times), Math.max(...times)],
        againstRange: null,
        goal: { words: `within ${timeGivenMs} ms`, isMet: percentile(times, 0.95) <= timeGivenMs },
      },
    )
  }
  const small = counts
    .filter((count) => count <= 12)
    .flatMap((count) => Array.from({ length: setsOfEach }, (_, set) => zeroWasteSet(count, `zero-waste ${count} ${set}`)))
  const found = small.map((sizes) => planWithin(sizes, wholeWithinMs))
  const whole = found.filter(({ plan, tookMs }) => filledBy(plan) === sheetArea && tookMs <= wholeWithinMs).length
  measurements.push({
    name: 'zero-waste sets of 8–12 rebuilt whole within 1 s',
    ...{ ours: (100 * whole) / small.length, against: null, ratio: null, unit: '%', samples: small.length },
    oursRange: null,
    againstRange: null,
    goal: { words: 'all of them', isMet: whole === small.length },
  })
  return measurements
}

export const cutPlans: Bench = {
  name: 'cut-plans',
  about: [
    'How much of one fat quarter, 18 × 27 in, is filled with sets of 8 to 20 pieces that may be turned: by ours, in 200 ms, every cut from edge to edge; and by the npm package maxrects-packer, each set given to it in both of its orders, one by one and all at once, of which the fullest sheet is taken. The packer need not be able to cut what it lays: how many of its layouts could be is counted. Zero-waste sets are the sheet itself cut up at random; random sets are 1.15 sheets together.',
  ],
  run,
}
