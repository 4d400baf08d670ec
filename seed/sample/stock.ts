import { type Random, seededRandom } from '../random'
import { cottonDrawers, hanne, shop } from './places'
import { lines, type SampleThread } from './threads'
import { kettleThreads, orchardGateCotton, orchardGateHandDyed } from './worked'

/** A batch: stock of one thread in one lot, of one owner, with one home. */
export type SampleBatch = {
  thread: SampleThread
  owner: string
  lot?: string
  skeins: number
  part?: string
  place: string
  nowAt?: string
  minimum?: number
  standsInFor?: string
  note?: string
}

/**
 * How much of a line each owner holds: share of its runs of neighbouring colours that are kept at all, share of the colours of a
 * kept run, and the odds of one, two, three… whole put-ups of a held colour.
 */
type Holding = { runs: number; colours: number; skeins: [number, number][]; lotCount?: number }

const plenty: [number, number][] = [
  [1, 3],
  [2, 4],
  [3, 3],
  [4, 2],
  [5, 1],
  [6, 1],
  [8, 1],
]
const some: [number, number][] = [
  [1, 4],
  [2, 3],
  [3, 1],
]
const few: [number, number][] = [
  [1, 3],
  [2, 1],
]

const holdings: Record<keyof typeof lines, { shop: Holding; hanne: Holding }> = {
  cotton: {
    shop: { runs: 0.685, colours: 0.97, skeins: plenty },
    hanne: { runs: 0.36, colours: 0.95, skeins: [[0, 1], ...some] },
  },
  shaded: { shop: { runs: 1, colours: 0.9, skeins: some }, hanne: { runs: 1, colours: 0.15, skeins: few } },
  handDyed: {
    shop: { runs: 1, colours: 0.66, skeins: plenty, lotCount: 2 },
    hanne: { runs: 1, colours: 0.34, skeins: some },
  },
  handDyedSilk: { shop: { runs: 1, colours: 0.7, skeins: some }, hanne: { runs: 1, colours: 0.2, skeins: few } },
  silk: { shop: { runs: 0.6, colours: 0.95, skeins: some, lotCount: 2 }, hanne: { runs: 0.35, colours: 0.95, skeins: few } },
  filament: { shop: { runs: 1, colours: 0.95, skeins: few }, hanne: { runs: 1, colours: 0.3, skeins: few } },
  braid: { shop: { runs: 1, colours: 0.9, skeins: few }, hanne: { runs: 1, colours: 0.2, skeins: few } },
  beads: { shop: { runs: 1, colours: 0.8, skeins: some }, hanne: { runs: 1, colours: 0.4, skeins: few } },
}

const partWords: [string, number][] = [
  ['some', 2],
  ['1/4', 2],
  ['1/2', 4],
  ['3/4', 2],
  ['2.5 m', 1],
  ['about 1/2', 2],
  ['4 m measured', 1],
]

function hanneDrawer(thread: SampleThread): string {
  if (thread.line === lines.cotton) return cottonDrawers.indexOf(thread.drawer) < 6 ? 'H1' : 'H2'
  return thread.line.lotsMatter || thread.line === lines.shaded ? 'H3' : 'Sewing box'
}

function listHeld(
  random: Random,
  thread: SampleThread,
  owner: string,
  { colours, skeins, lotCount = 1 }: Holding,
): SampleBatch[] {
  if (!random.chance(colours)) return []
  const lots = thread.line.lotsMatter ? random.int(1, lotCount) : 1
  const place = owner === shop ? thread.drawer : hanneDrawer(thread)
  return Array.from({ length: lots }, () => {
    const whole = random.weighted(skeins)
    const hasPart = whole === 0 || random.chance(owner === shop ? 0.04 : 0.3)
    const isPartable = thread.line.strands > 1
    return {
      ...{ thread, owner, place, skeins: hasPart && !isPartable ? Math.max(1, whole) : whole },
      lot: thread.line.lotsMatter ? String(random.int(11, 64)) : undefined,
      part:
        hasPart && isPartable
          ? random.weighted(partWords.filter(([word]) => thread.line.putUpM >= 8 || !/m/.test(word) || word === 'some'))
          : undefined,
    }
  })
}

const workedThread = (thread: SampleThread) =>
  kettleThreads.some(({ line, code }) => line === thread.line && code === thread.code) ||
  (thread.line === lines.cotton &&
    (orchardGateCotton.includes(thread.name) || thread.name === 'Dark Madder' || thread.name === 'Faded Madder')) ||
  (thread.line === lines.handDyed && orchardGateHandDyed.includes(thread.code))

/**
 * The stock that the worked answers need. Kettle at Wend Cross: 0311 two, Ecru a measured part, Quillwater 12, 0742 one of the
 * two wanted, 0087 out in a bag, 1204 none but a stand-in, Tarn Blue one of each of two lots, 0905 none; nothing of it at Hanne's.
 */
function listWorkedStock(thread: SampleThread): SampleBatch[] {
  const inShop = { thread, owner: shop, place: thread.drawer }
  const atHome = { thread, owner: hanne, place: hanneDrawer(thread) }
  if (thread.line === lines.filament) return [{ ...inShop, skeins: 2, minimum: 1 }]
  if (thread.line === lines.handDyed && thread.code === 'Tarn Blue') {
    return [
      { ...inShop, lot: '18', skeins: 1, minimum: 2 },
      { ...inShop, lot: '22', skeins: 1, minimum: 2 },
    ]
  }
  if (thread.line === lines.handDyed) return [{ ...atHome, lot: '31', skeins: thread.code === 'Orchard Grass' ? 2 : 1 }]
  if (thread.code === '0311') return [{ ...inShop, skeins: 2, minimum: 3 }]
  if (thread.code === 'Ecru') return [{ ...inShop, skeins: 0, part: '2.5 m measured', minimum: 3 }]
  if (thread.code === '0742') return [{ ...inShop, skeins: 1, minimum: 2 }]
  if (thread.code === '0087') return [{ ...inShop, skeins: 1, nowAt: 'K-07' }]
  if (thread.name === 'Dark Madder') return [{ ...inShop, skeins: 3, standsInFor: 'Larkholm | Stranded Cotton | 1204' }]
  if (thread.name === 'Faded Madder') return [{ ...inShop, skeins: 2 }]
  if (orchardGateCotton.indexOf(thread.name) >= 0 && orchardGateCotton.indexOf(thread.name) < 11)
    return [
      { ...atHome, skeins: 1 },
      { ...inShop, skeins: 2 },
    ]
  return []
}

/** Stand-ins the shop accepts besides the worked one: cotton for a hand-dyed colour, and near neighbours. */
function addStandIns(random: Random, batches: SampleBatch[], threads: SampleThread[]): void {
  const isHeld = new Set(batches.map(({ thread }) => thread))
  const missing = threads.filter((thread) => thread.line === lines.cotton && !isHeld.has(thread) && !workedThread(thread))
  for (const original of random.sample(missing, 12)) {
    const distance = ({ thread: { lab } }: SampleBatch) =>
      Math.hypot(lab[0] - original.lab[0], lab[1] - original.lab[1], lab[2] - original.lab[2])
    const held = batches.filter(
      ({ thread, skeins, standsInFor }) => thread.line === lines.cotton && skeins > 1 && !standsInFor && !workedThread(thread),
    )
    const nearest = held.sort((one, other) => distance(one) - distance(other))[0]
    if (nearest && distance(nearest) < 7) nearest.standsInFor = `Larkholm | Stranded Cotton | ${original.code}`
  }
}

/** All batches of the sample, thread by thread, the shop's before Hanne's. */
export function listSampleBatches(threads: SampleThread[]): SampleBatch[] {
  const random = seededRandom('oxmarsh stock')
  const keptRuns = new Map<string, boolean>()
  const keepsRun = (thread: SampleThread, owner: string, { runs }: Holding) => {
    const key = `${owner}|${thread.line.line}|${thread.run}`
    const isKept = keptRuns.get(key) ?? random.chance(runs)
    keptRuns.set(key, isKept)
    return isKept
  }
  const heldBy = (thread: SampleThread, owner: string, holding: Holding) =>
    keepsRun(thread, owner, holding) ? listHeld(random, thread, owner, holding) : []
  const batches = threads.flatMap((thread) => {
    const [key] = Object.entries(lines).find(([, line]) => line === thread.line) as [keyof typeof lines, unknown]
    const minimum = random.chance(0.35) ? random.int(1, 3) : undefined
    const inShop = heldBy(thread, shop, holdings[key].shop).map((batch) => ({ ...batch, minimum }))
    const atHome = heldBy(thread, hanne, holdings[key].hanne)
    return workedThread(thread) ? listWorkedStock(thread) : [...inShop, ...atHome]
  })
  addStandIns(random, batches, threads)
  return batches
}

/** Give an owner at least two put-ups in one lot of each thread: what was bought for a design all at once. Changes `batches` in place. */
export function gather(batches: SampleBatch[], { threads, owner }: { threads: SampleThread[]; owner: string }): void {
  for (const thread of threads) {
    if (workedThread(thread)) continue
    const found = batches.find((batch) => batch.thread === thread && batch.owner === owner)
    if (found) found.skeins = Math.max(2, found.skeins)
    else {
      const lot = thread.line.lotsMatter ? '47' : undefined
      batches.push({ thread, owner, place: owner === shop ? thread.drawer : hanneDrawer(thread), lot, skeins: 2 })
    }
  }
}

/**
 * Put the threads of a design into the bag (or with the person) where it is being worked: one skein of each goes out of a home
 * that has more, a last skein goes out whole, and what was not held was bought for the kit. Changes `batches` in place.
 */
export function takeOut(batches: SampleBatch[], kit: { threads: SampleThread[]; owner: string; nowAt: string }): void {
  for (const thread of kit.threads) {
    if (workedThread(thread)) continue
    const at = batches.findIndex(
      (batch) => batch.thread === thread && batch.owner === kit.owner && !batch.nowAt && batch.skeins > 0,
    )
    const found = batches[at]
    const place = kit.owner === shop ? thread.drawer : hanneDrawer(thread)
    if (!found) {
      const lot = thread.line.lotsMatter ? '9' : undefined
      batches.push({ thread, owner: kit.owner, place, nowAt: kit.nowAt, lot, skeins: 1, note: 'Bought for the kit' })
    } else if (found.skeins === 1 && !found.part) {
      found.nowAt = kit.nowAt
    } else {
      found.skeins -= 1
      batches.splice(at + 1, 0, { ...found, skeins: 1, part: undefined, standsInFor: undefined, nowAt: kit.nowAt })
    }
  }
}
