import type { Stitch } from '#lib/thread/stitches'
import type { Random } from '#seed/random'
import type { TruthAmount, TruthCloth, TruthDesign, TruthFacts, TruthLine, TruthThread } from './truth'
import type { PoolThread } from './world'

/** What a template writes: the text of it and what that says. */
export type Written = { text: string; designs: TruthDesign[] }

export const noFacts: TruthFacts = {
  title: null,
  designer: null,
  widthStitches: null,
  heightStitches: null,
  measuredWidthUm: null,
  measuredHeightUm: null,
  count: null,
  over: null,
  weave: null,
  cloth: null,
}

export const perInchCount = (threads: number) => ({ threads, perUm: 25_400 })
export const perTenCmCount = (threads: number) => ({ threads, perUm: 100_000 })
export const inchesUm = (inches: number): number => Math.round(inches * 25_400)
export const centimetresUm = (centimetres: number): number => Math.round(centimetres * 10_000)
export const metresTenths = (metres: number): number => Math.round(metres * 10_000)
export const yardsTenths = (yards: number): number => Math.round(yards * 9_144)

export const wordsOf = (text: string): string[] => text.split(/[\s,]+/u).filter((word) => word !== '')
/** A cloth said whole; nothing of it may be left out but what `whole` has besides. */
export const saidCloth = (essential: string, whole = essential): TruthCloth => ({
  essential: wordsOf(essential),
  whole: wordsOf(whole),
})

export type LineDraft = {
  symbol?: string | null
  threads: TruthThread[]
  stitches?: Stitch[] | null
  amounts?: TruthAmount[]
}
export const keyLine = ({ symbol = null, threads, stitches = null, amounts = [] }: LineDraft): TruthLine => ({
  symbol,
  isDrawn: false,
  threads,
  stitches,
  amounts,
})

export const stitchCount = (stitch: Stitch, count: number): TruthAmount => ({ kind: 'stitches', stitch, count })
export const putUps = (number: number): TruthAmount => ({ kind: 'put-ups', hundredths: Math.round(number * 100) })

/** 1240 → "1,240". */
export const withCommas = (value: number): string => String(value).replace(/\B(?=(\d{3})+$)/gu, ',')

/** As many different threads, in the order of their codes about as often as not. */
export function takeThreads(pool: readonly PoolThread[], count: number, random: Random): PoolThread[] {
  const taken = random.sample(pool, count)
  if (random.chance(0.5)) return taken
  return pool.filter((thread) => taken.includes(thread))
}

/** Stitches of a colour: mostly hundreds, some tens, a few thousands. */
export const drawCount = (random: Random): number =>
  random.weighted([
    [random.int(6, 95), 2],
    [random.int(100, 980), 5],
    [random.int(1_000, 5_400), 3],
  ] as const)

export const pad = (text: string, width: number): string => text + ' '.repeat(Math.max(0, width - [...text].length))

/** Cells in columns that line up, apart by at least `gap` blanks. */
export function aligned(rows: readonly (readonly string[])[], gap = 3): string[] {
  const columns = Math.max(...rows.map((row) => row.length))
  const widths = Array.from({ length: columns }, (_, at) => Math.max(...rows.map((row) => [...(row[at] ?? '')].length)))
  return rows.map((row) =>
    row
      .map((cell, at) => pad(cell, (widths[at] as number) + gap))
      .join('')
      .trimEnd(),
  )
}
