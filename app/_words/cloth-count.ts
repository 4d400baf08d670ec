import { withDecimalMark } from '#language/figures'
import { say } from '#language/say'
import { type Count, countFigures } from '#lib/quantity/count'

/** "28 count", "34 × 31 count", "110 per 10 cm"; `parseCount` reads what is said in any language there is. */
export function countWords(ends: Count, picks: Count): string {
  const { figures, isMetric } = countFigures(ends, picks)
  const written = withDecimalMark(figures)
  return isMetric ? say('{figures} per 10 cm', { figures: written }) : say('{figures} count', { figures: written })
}

/** "28-count": what cloth is sold as. */
export const nominalWords = (label: string): string => say('{label}-count', { label })
