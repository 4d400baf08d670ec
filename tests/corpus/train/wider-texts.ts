import { seededRandom } from '#seed/random'
import type { CorpusText } from '../truth'
import { drawWorld, settleMeant } from '../world'
import { widerRanges } from './wider-ranges'
import { widerTemplates } from './wider-templates'

/** A maker may be one that nobody knows yet, where the document says it plainly. */
const mayBeUnknown = new Set(['stitch tables', 'symbol last', 'leaders', 'semicolons'])

/** Texts of other makers in other wordings, which were held out at first: every template by turns. */
export function widerTexts(count: number): CorpusText[] {
  const ranges = widerRanges()
  const templates = Object.entries(widerTemplates)
  return Array.from({ length: count }, (_, at) => {
    const random = seededRandom(`corpus wider text ${at}`)
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
    return { name: `wider-text-${String(at).padStart(3, '0')}`, template, known, text, designs }
  })
}
