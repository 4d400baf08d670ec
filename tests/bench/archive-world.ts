import type { EngineStock } from '#lib/coverage/engine'
import { type NeedIndex, NeedIndexBuilder } from '#lib/coverage/need-index'
import { stockFigures } from '#lib/coverage/stock-figures'
import { pitchUm } from '#lib/quantity/count'
import type { Batch, PartCertainty, StockPromise } from '#lib/stock/batch'
import { defaultAllowance } from '#lib/thread/allowance'
import { pitchedLengthUm } from '#lib/thread/stitch-geometry'
import type { Stitch, Working } from '#lib/thread/stitches'
import { roundUpTenths } from '#lib/thread/thread-use'
import { type Random, seededRandom } from '#seed/random'

/** A library's collection. A made-up one of another size keeps these shares: thirty key lines to a design, two lists in every fifth. */
export const archiveSize = { designs: 200_000, threads: 3_000 }
export type ArchiveSize = typeof archiveSize

const keyLinesPerDesign = 30
const linesInList = { least: 20, most: 45 }
const worldSeed = 'archive 7'

export const ownerIds = ['0198c0de-0000-7000-8000-0000000000a1', '0198c0de-0000-7000-8000-0000000000a2'] as const

/** Ids as long as the project's own; each one piece in memory, as when read from a database, not joined of several. */
const idOf = (kind: number, number: number): string =>
  Buffer.from(`0198c0de-${kind.toString(16).padStart(4, '0')}-7000-8000-${number.toString(16).padStart(12, '0')}`).toString(
    'latin1',
  )

export type ArchiveLine = { id: string; strands: number; putUpStrandTenths: number; lotsMatter: boolean; working: Working }

/** By share of the threads; lots matter on a fifth of them. `palette`: how often a list keeps mostly to this line. */
const lineKinds = [
  { strands: 6, putUpStrandTenths: 480_000, lotsMatter: false, working: 'rows', share: 30, palette: 7 },
  { strands: 6, putUpStrandTenths: 438_912, lotsMatter: false, working: 'rows', share: 28, palette: 4 },
  { strands: 12, putUpStrandTenths: 600_000, lotsMatter: false, working: 'rows', share: 10, palette: 1 },
  { strands: 1, putUpStrandTenths: 274_320, lotsMatter: false, working: 'rows', share: 8, palette: 0 },
  { strands: 1, putUpStrandTenths: 500_000, lotsMatter: false, working: 'rows', share: 4, palette: 0 },
  { strands: 6, putUpStrandTenths: 274_320, lotsMatter: true, working: 'crosses', share: 14, palette: 2 },
  { strands: 6, putUpStrandTenths: 438_912, lotsMatter: true, working: 'crosses', share: 6, palette: 1 },
] as const

/** Threads of one cloth to the inch, and over how many of them a stitch goes. */
export const grounds = [
  { threads: 14, over: 1 },
  { threads: 16, over: 1 },
  { threads: 28, over: 2 },
  { threads: 32, over: 2 },
  { threads: 36, over: 2 },
] as const

export type ArchiveThread = { threadId: string; line: ArchiveLine }

/** One list as drawn, its key lines in columns; the same object is filled anew for every list. */
export type DrawnList = {
  list: number
  design: number
  isSecond: boolean
  isIncomplete: boolean
  /** Which of `grounds` its design advises. */
  ground: number
  keyLines: number
  /** By key line: its thread, and the other thread of a blend or −1; both worked with `strands`. */
  thread: Uint16Array
  blend: Int32Array
  strands: Uint8Array
  /** Crosses, or an outline's unit lengths; the other is nought. */
  full: Uint32Array
  backstitch: Uint32Array
}

/**
 * A made-up collection as large as a library's, of one fixed seed: its stock as objects, its lists drawn anew, always the same, whenever
 * they are asked for, so that six million key lines are never held.
 */
export class ArchiveWorld {
  readonly lines: ArchiveLine[] = []
  readonly threads: ArchiveThread[] = []
  readonly designIds: string[]
  /** By list. */
  readonly listIds: string[]
  readonly designOfList: Uint32Array
  readonly batches = new Map<string, Batch[]>()
  readonly promises = new Map<string, StockPromise[]>()
  readonly keyLineCount: number
  readonly #linesOfList: Uint8Array
  /** The threads of each line begin at these numbers; one more than there are lines. */
  readonly #firstOfLine: number[] = [0]

  constructor(size: ArchiveSize) {
    const shares = lineKinds.reduce((sum, { share }) => sum + share, 0)
    let shared = 0
    for (const [at, { share, palette: _, ...line }] of lineKinds.entries()) {
      shared += share
      this.lines.push({ id: idOf(1, at), ...line })
      const last = Math.round((size.threads * shared) / shares)
      for (let thread = this.threads.length; thread < last; thread++) {
        this.threads.push({ threadId: idOf(2, thread), line: this.lines[at] as ArchiveLine })
      }
      this.#firstOfLine.push(last)
    }
    this.designIds = Array.from({ length: size.designs }, (_, design) => idOf(3, design))
    const random = seededRandom(`${worldSeed} sizes`)
    const designs: number[] = []
    for (let design = 0; design < size.designs; design++) {
      designs.push(design)
      if (random.chance(0.2)) designs.push(design)
    }
    this.designOfList = Uint32Array.from(designs)
    this.listIds = designs.map((_, list) => idOf(4, list))
    this.keyLineCount = size.designs * keyLinesPerDesign
    this.#linesOfList = drawSizes(random, designs.length, this.keyLineCount)
    this.#drawStock(seededRandom(`${worldSeed} stock`))
  }

  get listCount(): number {
    return this.listIds.length
  }

  stockOf(threadId: string, owners: readonly string[]): EngineStock {
    const [batches, promises] = [this.batches.get(threadId) ?? [], this.promises.get(threadId) ?? []]
    return stockFigures({ threadId, batches, promises, ownerIds: owners })
  }

  /** Calls `visit` with every list, those of a design one after the other. */
  eachList(visit: (drawn: DrawnList) => void): void {
    const random = seededRandom(`${worldSeed} lists`)
    const most = linesInList.most
    const drawn: DrawnList = {
      ...{ list: 0, design: 0, isSecond: false, isIncomplete: false, ground: 0, keyLines: 0 },
      ...{ thread: new Uint16Array(most), blend: new Int32Array(most), strands: new Uint8Array(most) },
      ...{ full: new Uint32Array(most), backstitch: new Uint32Array(most) },
    }
    const palettes = lineKinds.map(({ palette }, line) => [line, palette] as const)
    const drawnIn = new Int32Array(this.threads.length).fill(-1)
    const weights = new Float64Array(most)
    let squares = 0
    for (let list = 0; list < this.listCount; list++) {
      const design = this.designOfList[list] as number
      drawn.isSecond = list > 0 && design === drawn.design
      if (!drawn.isSecond) {
        drawn.ground = Math.floor(random.next() * grounds.length)
        squares = 4_000 + 40_000 * random.next() ** 2
      }
      drawn.list = list
      drawn.design = design
      drawn.isIncomplete = random.chance(0.01)
      drawn.keyLines = this.#linesOfList[list] as number
      const main = random.weighted(palettes)
      let weightSum = 0
      for (let at = 0; at < drawn.keyLines; at++) {
        const isOutline = at > 3 && random.chance(0.08)
        const repeats = isOutline && random.chance(0.7)
        let thread = 0
        if (repeats) thread = drawn.thread[random.int(0, at - 1)] as number
        else
          do thread = this.#drawThread(random, main)
          while (drawnIn[thread] === list)
        drawnIn[thread] = list
        const isBlend = !isOutline && at > 0 && random.chance(0.03)
        drawn.thread[at] = thread
        drawn.blend[at] = isBlend ? (drawn.thread[at - 1] as number) : -1
        drawn.strands[at] = isOutline || isBlend ? 1 : Math.min(2, this.#strandsOf(thread))
        drawn.backstitch[at] = isOutline ? random.int(20, 600) : 0
        weights[at] = isOutline ? 0 : 0.15 + random.next() ** 2
        weightSum += weights[at] as number
      }
      for (let at = 0; at < drawn.keyLines; at++) {
        const share = (squares * (weights[at] as number)) / weightSum
        drawn.full[at] = share === 0 ? 0 : Math.max(1, Math.round(share))
      }
      visit(drawn)
    }
  }

  /** What every list needs, by the project's own arithmetic. */
  buildIndex(): NeedIndex {
    const builder = new NeedIndexBuilder(this.threads.map(({ threadId }) => threadId))
    const lengths = grounds.map(({ threads, over }) => {
      const pitch = pitchUm({ threads, perUm: 25_400 }, over)
      const of = (stitch: Stitch) => (working: Working) => pitchedLengthUm(stitch, working, { acrossUm: pitch, upUm: pitch })
      const [full, backstitch] = [of('full'), of('backstitch')]
      return { full: { rows: full('rows'), crosses: full('crosses') }, backstitch: backstitch('rows') }
    })
    this.eachList((drawn) => {
      const length = lengths[drawn.ground] as (typeof lengths)[number]
      const needs: { threadId: string; strandTenths: number }[] = []
      for (let at = 0; at < drawn.keyLines; at++) {
        for (const thread of [drawn.thread[at] as number, drawn.blend[at] as number]) {
          if (thread < 0) continue
          const { threadId, line } = this.threads[thread] as ArchiveThread
          const worked =
            (drawn.full[at] as number) * length.full[line.working] + (drawn.backstitch[at] as number) * length.backstitch
          const strandTenths = roundUpTenths(((worked * (drawn.strands[at] as number)) / 100) * defaultAllowance)
          needs.push({ threadId, strandTenths })
        }
      }
      const [listId, designId] = [this.listIds[drawn.list] as string, this.designIds[drawn.design] as string]
      builder.add({ listId, designId, isIncomplete: drawn.isIncomplete, needs })
    })
    return builder.finish()
  }

  #strandsOf(thread: number): number {
    return (this.threads[thread] as ArchiveThread).line.strands
  }

  /** Mostly of the list's main line, and there the sooner the lower its number. */
  #drawThread(random: Random, main: number): number {
    if (!random.chance(0.85)) return Math.floor(random.next() * this.threads.length)
    const [first, last] = [this.#firstOfLine[main] as number, this.#firstOfLine[main + 1] as number]
    return first + Math.floor((last - first) * random.next() ** 1.8)
  }

  /** The sooner a thread comes to be drawn, the likelier it is held; some of it is out, some promised, some in part. */
  #drawStock(random: Random): void {
    for (const [number, { threadId, line }] of this.threads.entries()) {
      const first = this.#firstOfLine[this.lines.indexOf(line)] as number
      const last = this.#firstOfLine[this.lines.indexOf(line) + 1] as number
      if (!random.chance(1 - 0.5 * ((number - first) / (last - first)) ** 2)) continue
      const batches: Batch[] = []
      const promises: StockPromise[] = []
      const batchCount = random.int(1, 4)
      for (let at = 0; at < batchCount; at++) {
        const id = idOf(5, number * 4 + at)
        const partCertainty = random.weighted<PartCertainty>([
          ['none', 62],
          ['guess', 15],
          ['measured', 12],
          ['label', 5],
          ['some', 6],
        ])
        const isPartKnown = partCertainty !== 'none' && partCertainty !== 'some'
        const isOut = random.chance(0.06)
        batches.push({
          ...{ id, threadId, ownerId: random.chance(0.8) ? ownerIds[0] : ownerIds[1] },
          ...{ lot: line.lotsMatter && random.chance(0.85) ? String(random.int(1, 4)) : null, putUpWord: null },
          ...{ putUpStrandTenths: line.putUpStrandTenths, wholePutUps: random.int(partCertainty === 'none' ? 1 : 0, 8) },
          ...{ partStrandTenths: isPartKnown ? random.int(1, line.putUpStrandTenths - 1) : 0, partCertainty },
          ...{ homePlaceId: 'drawer', currentPlaceId: isOut ? 'bag' : 'drawer' },
        })
        for (let turn = random.chance(0.2) ? random.int(1, 3) : 0; turn > 0; turn--) {
          const strandTenths = random.int(40_000, line.putUpStrandTenths)
          promises.push({ id: `${id} ${turn}`, batchId: id, projectId: `project ${random.int(1, 400)}`, strandTenths })
        }
      }
      this.batches.set(threadId, batches)
      if (promises.length > 0) this.promises.set(threadId, promises)
    }
  }
}

/** How many key lines each list has: most of them few, and `sum` together. */
function drawSizes(random: Random, lists: number, sum: number): Uint8Array {
  const { least, most } = linesInList
  const sizes = Uint8Array.from({ length: lists }, () => least + Math.floor((most - least + 1) * random.next() ** 4))
  let missing = sum - sizes.reduce((all, size) => all + size, 0)
  while (missing !== 0) {
    const list = random.int(0, lists - 1)
    const step = Math.sign(missing)
    const size = (sizes[list] as number) + step
    if (size < least || size > most) continue
    sizes[list] = size
    missing -= step
  }
  return sizes
}
