import { seededRandom } from '#seed/random'
import type { CorpusText } from '../truth'
import { drawWorld, settleMeant } from '../world'
import { trainRanges } from './ranges'
import { trainTemplates } from './templates'

/** A maker may be one that nobody knows yet, where the document says it plainly. */
const mayBeUnknown = new Set(['headed table', 'quoted cells', 'maker groups', 'two palettes'])

/** Templates that have more than one line of Larkholm's, or need codes with zeros. */
const ofLarkholmAlone = new Set(['labelled lines', 'lost zeros', 'maker for each'])

/** The texts of the train half: every template by turns. */
export function trainTexts(count: number): CorpusText[] {
  const ranges = trainRanges()
  const templates = Object.entries(trainTemplates)
  return Array.from({ length: count }, (_, at) => {
    const random = seededRandom(`corpus train text ${at}`)
    const [template, write] = templates[at % templates.length] as (typeof templates)[number]
    // Half of the threads are known to nobody at times.
    const { known, pools } = drawWorld(
      ranges,
      random.pick([1, 1, 0.9, 0.5]),
      random,
      mayBeUnknown.has(template) && random.chance(0.2) ? 'Larkholm' : null,
    )
    const [stranded = [], pearl = [], dyed = [], filament = [], beads = [], silk = [], wool = []] = pools
    // The templates write of Larkholm's stranded cotton; the same may be written of others, whose codes have other shapes.
    const plain = ofLarkholmAlone.has(template) ? stranded : random.pick([stranded, stranded, stranded, silk, wool])
    const [{ maker, threadLine } = { maker: 'Larkholm', threadLine: 'Stranded Cotton' }] = plain
    const written = write({ random, stranded: plain, pearl, dyed, filament, beads })
    const text = written.text
      .replaceAll('Larkholm', maker)
      .replaceAll('Stranded Cotton', threadLine)
      .replaceAll('stranded cotton', threadLine.toLowerCase())
    const { designs } = written
    settleMeant(designs, known)
    return { name: `train-text-${String(at).padStart(3, '0')}`, template, known, text, designs }
  })
}
