import { say } from '#language/say'
import { weaveOfCount } from '#lib/importing/check-cloth'
import { parseCount, pitchUm, sameCount } from '#lib/quantity/count'
import { parseNumber, parseWholeNumber } from '#lib/quantity/number'
import { isAllowance } from '#lib/thread/allowance'
import type { Pitches } from '#lib/thread/stitch-geometry'
import { type Stitch, type StitchTally, stitches, type Working } from '#lib/thread/stitches'

/** Larger figures are slips of the finger. */
const mostStitches = 10_000_000
const mostStrands = 24

/** How a thread is to be worked. */
type ReachHow = Pitches & { strands: number; working: Working; allowance: number }

export type ReachChoices = {
  how: ReachHow
  tally: StitchTally
  /** The text of each field, as sent or as it stands at first. */
  texts: Record<string, string>
  /** A sentence for each field that was not understood; its usual value was taken. */
  errors: Record<string, string>
}

type Usual = { strands: number; working: Working; allowance: number }

const usualCloth = '14 over 1'

/**
 * Read what is asked of a thread from the page's address. Without "over", blocks are worked over one and single threads over two.
 *
 * @param usual  what stands where nothing was said
 */
export function readReach(query: Record<string, string | string[] | undefined>, usual: Usual): ReachChoices {
  const errors: Record<string, string> = {}
  const texts: Record<string, string> = {}
  const textOf = (name: string, atFirst = ''): string => {
    const sent = query[name]
    texts[name] = (typeof sent === 'string' ? sent.trim().slice(0, 100) : '') || atFirst
    return texts[name]
  }
  const readWith = <Value>(name: string, atFirst: string, read: (text: string) => Value | null, sentence: string): Value => {
    const value = read(textOf(name, atFirst))
    if (value !== null) return value
    errors[name] = sentence
    return read(atFirst) as Value
  }
  const cloth = readWith('cloth', usualCloth, readPitches, say('Give the count as 28 over 2, 14, or 34 x 31 over 2.'))
  const strands = readWith(
    'strands',
    String(usual.strands),
    (text) => between(parseWholeNumber(text), 1, mostStrands),
    say('Strands are a whole number from 1 to {mostStrands}.', { mostStrands }),
  )
  const allowance = readWith(
    'allowance',
    String(usual.allowance),
    (text) => {
      const factor = parseNumber(text)
      return factor !== null && isAllowance(factor) ? factor : null
    },
    say('A number from 1 to 5, such as 1.5.'),
  )
  const working: Working = textOf('working', usual.working) === 'crosses' ? 'crosses' : 'rows'
  const tally: StitchTally = {}
  for (const stitch of stitches) {
    const text = textOf(stitch)
    const count = text === '' ? 0 : between(parseWholeNumber(text), 0, mostStitches)
    if (count === null) errors[stitch] = say('Give a whole number, such as 120, or nothing.')
    else if (count > 0) tally[stitch] = count
  }
  return { how: { ...cloth, strands, working, allowance }, tally, texts, errors }
}

const between = (value: number | null, least: number, most: number): number | null =>
  value !== null && value >= least && value <= most ? value : null

function readPitches(text: string): Pitches | null {
  const read = parseCount(text)
  if (!read) return null
  const over = read.over ?? (weaveOfCount(read.ends) === 'block' ? 1 : 2)
  const acrossUm = pitchUm(read.ends, over)
  return { acrossUm, upUm: sameCount(read.ends, read.picks) ? acrossUm : pitchUm(read.picks, over) }
}

/** In sight on the form; the others unfold. */
export const commonStitches = ['full', 'half', 'backstitch', 'satin'] as const satisfies readonly Stitch[]
export const otherStitches = stitches.filter((stitch) => !commonStitches.some((common) => common === stitch))
