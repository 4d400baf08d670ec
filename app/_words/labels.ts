import { formatDate } from '#language/day'
import { formatClothSize } from '#language/lengths'
import { say, sayings } from '#language/say'
import type { LabelThing } from '#lib/db/label/list-label-things'
import type { Label, LabelNoun } from '#lib/label/label'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { countWords } from '#words/cloth-count'
import { counted } from './amounts'
import { pieceName } from './cloth'

const joined = (...words: readonly (string | null | undefined | false)[]): string => words.filter(Boolean).join(' · ')

/** What stands on the label of a thing, and the page its code opens. A batch's is that of its thread. */
export function labelOf(thing: LabelThing, unit: LengthUnit): Label {
  const of = { noun: thing.noun, thingId: thing.id }
  switch (thing.noun) {
    case 'place': {
      const { label, name } = thing.place
      const above = thing.above.map((place) => place.label).join(' › ')
      return { ...of, title: label, note: joined(name, above), path: `/places/${thing.id}` }
    }
    case 'chart':
      return {
        ...of,
        title: thing.title,
        note: joined(thing.designerNames.join(', '), thing.home?.label),
        path: `/charts/${thing.id}`,
      }
    case 'batch':
      return {
        ...of,
        title: thing.code,
        note: joined(
          thing.makerName,
          thing.name !== thing.code && thing.name,
          thing.lot !== null && say('lot {lot}', { lot: thing.lot }),
          thing.home?.label,
        ),
        path: `/threads/${thing.threadId}`,
      }
    case 'cloth':
      return {
        ...of,
        title: pieceName(thing),
        note: joined(
          thing.label !== null && [thing.name, thing.colourName].filter(Boolean).join(', '),
          countWords(thing.ends, thing.picks),
          formatClothSize(thing, unit),
          thing.home?.label,
        ),
        path: `/cloth/${thing.id}`,
      }
    case 'project':
      return {
        ...of,
        title: thing.title,
        note: joined(
          thing.quantity > 1 && counted(thing.quantity, 'kit'),
          thing.forWhom && say('for {forWhom}', { forWhom: thing.forWhom }),
          thing.dueOn && say('due {dueOn}', { dueOn: formatDate(thing.dueOn) }),
        ),
        path: `/projects/${thing.id}`,
      }
  }
}

export const labelNounWords: Record<LabelNoun, string> = sayings({
  place: 'Places',
  batch: 'Threads, by lot',
  cloth: 'Pieces of cloth',
  chart: 'Charts',
  project: 'Projects under way',
})
