import { sayings } from '#language/say'
import type { KeyLineNamed, KeyThreadNamed } from '#lib/db/chart/queries'
import type { ThreadLengthUnit } from '#lib/quantity/thread-length'
import { type Stitch, stitches } from '#lib/thread/stitches'
import { putUpText } from './design-text'

export const stitchWords: Record<Stitch, string> = sayings({
  full: 'Full crosses',
  half: 'Half',
  quarter: 'Quarter',
  threeQuarter: 'Three-quarter',
  tent: 'Tent',
  backstitch: 'Backstitch',
  backstitchDiagonal: 'Backstitch, diagonal',
  doubleRunning: 'Double running',
  satin: 'Satin, in units',
  eyelet: 'Eyelets',
  knotOneWrap: 'Knots, one wrap',
  knotTwoWrap: 'Knots, two wraps',
  bead: 'Beads',
})

/** In sight on every line; the others unfold. */
export const commonStitches = ['full', 'backstitch'] as const satisfies readonly Stitch[]
export const otherStitches = stitches.filter((stitch) => !commonStitches.some((common) => common === stitch))

/** What is asked of each thread of a line. */
const threadParts = ['maker', 'line', 'code', 'name', 'strands', 'skeins', 'putUp'] as const
export type ThreadPart = (typeof threadParts)[number]

/** The fields of a key line and of its threads are told apart by keys that stay with them when lines are moved. */
export const lineField = (lineKey: string, part: 'symbol' | 'note' | 'threads' | Stitch): string => `l${lineKey}-${part}`
export const threadField = (lineKey: string, threadKey: string, part: ThreadPart): string => `l${lineKey}t${threadKey}-${part}`

/** The order of lines, and of the threads in a line, is sent as keys parted by commas. */
export const orderField = 'lines'
const inOrder = (text: string | undefined): string[] => (text ?? '').split(',').filter((key) => /^[a-z0-9]{1,12}$/.test(key))

export type KeyLayout = { key: string; threadKeys: string[] }[]

/** What was sent, laid out again. */
export const layoutOf = (values: Record<string, string | undefined>): KeyLayout =>
  inOrder(values[orderField]).map((key) => ({ key, threadKeys: inOrder(values[lineField(key, 'threads')]) }))

/** A list as its fields show it: where the lines stand, and the text of each field. */
export function keyTexts(
  keyLines: readonly KeyLineNamed[],
  unit: ThreadLengthUnit,
): { layout: KeyLayout; texts: Record<string, string> } {
  const texts: Record<string, string> = {}
  const layout = keyLines.map(({ symbol, note, tally, threads }, index) => {
    const key = String(index)
    texts[lineField(key, 'symbol')] = symbol ?? ''
    texts[lineField(key, 'note')] = note ?? ''
    for (const stitch of stitches) texts[lineField(key, stitch)] = tally?.[stitch] ? String(tally[stitch]) : ''
    threads.forEach((thread, at) => {
      const shown = threadTexts(thread, unit)
      for (const part of threadParts) texts[threadField(key, String(at), part)] = shown[part]
    })
    return { key, threadKeys: threads.map((_, at) => String(at)) }
  })
  return { layout, texts }
}

const threadTexts = (thread: KeyThreadNamed, unit: ThreadLengthUnit): Record<ThreadPart, string> => ({
  maker: thread.makerName,
  line: thread.lineName,
  code: thread.code,
  name: thread.name ?? '',
  strands: String(thread.strands),
  skeins: thread.stated ? String(thread.stated.hundredths / 100) : '',
  putUp: thread.stated?.putUpTenths == null ? '' : putUpText(thread.stated.putUpTenths, unit),
})
