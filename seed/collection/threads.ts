import type { Random } from '../random'
import { distinct, type SizePlan, type TableRow, tenth } from './rows'
import { adjective, noun } from './words'

type LineKind = {
  maker: string
  name: string
  fibre: string
  strands: number
  putUpStrandTenths: number
  putUpWord: string
  dyeing: 'solid' | 'variegated' | 'overdyed'
  lotsMatter: boolean
  /** Share of all threads. */
  weight: number
  codes: 'padded' | 'plain' | 'names'
}

const skein8m = { strands: 6, putUpStrandTenths: 480_000, putUpWord: 'skein' }
const skein8yd = { strands: 6, putUpStrandTenths: 438_912, putUpWord: 'skein' }
const skein5yd = { strands: 6, putUpStrandTenths: 274_320, putUpWord: 'skein' }
const hank5m = { strands: 12, putUpStrandTenths: 600_000, putUpWord: 'hank' }
const solid = { dyeing: 'solid', lotsMatter: false } as const
const handDyed = { dyeing: 'overdyed', lotsMatter: true } as const

export const lineKinds: LineKind[] = [
  { maker: 'Larkholm', name: 'Stranded Cotton', fibre: 'cotton', ...skein8m, ...solid, weight: 20, codes: 'padded' },
  {
    maker: 'Larkholm',
    name: 'Shaded Cotton',
    fibre: 'cotton',
    ...skein8m,
    dyeing: 'variegated',
    lotsMatter: false,
    weight: 3,
    codes: 'plain',
  },
  { maker: 'Stennick Mill', name: 'Soft Cotton', fibre: 'cotton', ...skein8yd, ...solid, weight: 18, codes: 'plain' },
  { maker: 'Oddny Loft', name: 'Hand-dyed Cotton', fibre: 'cotton', ...skein5yd, ...handDyed, weight: 17, codes: 'names' },
  { maker: 'Oddny Loft', name: 'Hand-dyed Silk', fibre: 'silk', ...skein5yd, ...handDyed, weight: 7, codes: 'names' },
  { maker: 'Marrowgate', name: 'Overdyed Cotton', fibre: 'cotton', ...skein8yd, ...handDyed, weight: 10, codes: 'names' },
  {
    maker: 'Brindlequay',
    name: 'Stranded Silk',
    fibre: 'silk',
    ...hank5m,
    dyeing: 'solid',
    lotsMatter: true,
    weight: 12,
    codes: 'plain',
  },
  {
    maker: 'Dunmarrow',
    name: 'Fine Wool',
    fibre: 'wool',
    strands: 1,
    putUpStrandTenths: 274_320,
    putUpWord: 'skein',
    ...solid,
    weight: 6,
    codes: 'padded',
  },
  {
    maker: 'Quillwater',
    name: 'Filament',
    fibre: 'metallic',
    strands: 1,
    putUpStrandTenths: 500_000,
    putUpWord: 'spool',
    ...solid,
    weight: 3,
    codes: 'plain',
  },
  {
    maker: 'Varnaby',
    name: 'Seed Beads',
    fibre: 'glass',
    strands: 1,
    putUpStrandTenths: 60_000,
    putUpWord: 'hank',
    ...solid,
    weight: 4,
    codes: 'plain',
  },
]

export type MadeThread = { id: string; line: LineKind; strands: number }

/** Lightness, chroma and hue at random, as CIELAB columns. */
function labColumns(random: Random): { labL: number; labA: number; labB: number } {
  const hue = random.next() * 2 * Math.PI
  const labL = Math.min(96, Math.max(14, random.normal(55, 18)))
  const chroma = Math.max(1, random.normal(28, 14)) * (1 - Math.abs(labL - 55) / 90)
  return { labL: tenth(labL), labA: tenth(chroma * Math.cos(hue)), labB: tenth(chroma * Math.sin(hue)) }
}

export function makeThreads(
  random: Random,
  plan: SizePlan,
  lineIds: string[],
  ids: () => string,
): { rows: TableRow[]; threads: MadeThread[] } {
  const rows: TableRow[] = []
  const threads: MadeThread[] = []
  const weightSum = lineKinds.reduce((sum, { weight }) => sum + weight, 0)
  const counts = lineKinds.map(({ weight }) => Math.floor((plan.threads * weight) / weightSum))
  counts[0] = (counts[0] ?? 0) + plan.threads - counts.reduce((sum, one) => sum + one, 0)
  lineKinds.forEach((line, at) => {
    const taken = new Set<string>()
    let number = 0
    for (let made = 0; made < (counts[at] as number); made++) {
      number += random.int(1, 9)
      const name = distinct(taken, () => `${adjective(random)} ${noun(random)}`)
      const code = line.codes === 'names' ? name : line.codes === 'padded' ? String(number).padStart(4, '0') : String(number)
      const id = ids()
      rows.push({ id, lineId: lineIds[at] as string, code, name: line.codes === 'names' ? null : name, ...labColumns(random) })
      threads.push({ id, line, strands: line.strands })
    }
  })
  return { rows, threads }
}
