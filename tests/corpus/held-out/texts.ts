import { seededRandom } from '#seed/random'
import { widerRanges } from '../train/wider-ranges'
import type { CorpusText } from '../truth'
import { drawWorld, settleMeant } from '../world'
import { heldOutTemplates } from './templates'

/** A maker may be one that nobody knows yet, where the document says it plainly. */
const mayBeUnknown = new Set(['dashes', 'ruled table', 'counts by kind', 'number in brackets'])

/** The texts of the held-out half: every template by turns. */
export function heldOutTexts(count: number): CorpusText[] {
  const ranges = widerRanges()
  const templates = Object.entries(heldOutTemplates)
  return Array.from({ length: count }, (_, at) => {
    const random = seededRandom(`corpus held-out text ${at}`)
    const [template, write] = templates[at % templates.length] as (typeof templates)[number]
    const { known, pools } = drawWorld(
      ranges,
      random.pick([1, 0.95, 0.8, 0.5]),
      random,
      mayBeUnknown.has(template) && random.chance(0.2) ? 'Brindlequay' : null,
    )
    const [silk = [], wool = [], dyed = [], braid = [], beads = []] = pools
    const { text, designs } = write({ random, silk, wool, dyed, braid, beads })
    settleMeant(designs, known)
    return { name: `held-out-text-${String(at).padStart(3, '0')}`, template, known, text, designs }
  })
}
