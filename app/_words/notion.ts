import type { NotionRefusal } from '#lib/db/notion/notion-refusal'
import type { NotionCard, NotionKind } from '#lib/notion/notion'
import type { ToBuy } from '#lib/notion/to-buy'
import { counted } from './amounts'
import { keptByRecordWords } from './kept-by-record'

export const notionKindWords: Record<NotionKind, { one: string; many: string }> = {
  hoop: { one: 'hoop', many: 'Hoops' },
  frame: { one: 'frame', many: 'Frames' },
  needle: { one: 'needles', many: 'Needles' },
  scissors: { one: 'scissors', many: 'Scissors' },
  beads: { one: 'beads', many: 'Beads' },
  ribbon: { one: 'ribbon', many: 'Ribbons' },
  'needle minder': { one: 'needle minder', many: 'Needle minders' },
  'laying tool': { one: 'laying tool', many: 'Laying tools' },
  magnifier: { one: 'magnifier', many: 'Magnifiers' },
  bag: { one: 'project bag', many: 'Project bags' },
  finding: { one: 'finding', many: 'Findings' },
  other: { one: 'something else', many: 'Other things' },
}

/** What a notion is called: Big hoop, 10 in. */
export const notionTitle = ({ name, size }: Pick<NotionCard, 'name' | 'size'>): string => [name, size].filter(Boolean).join(', ')

/** What is to be bought of it: 3 packs to buy, 13 short. */
export function toBuyWords({ short, packs }: ToBuy): string {
  return packs === null ? `${short} to buy` : `${counted(packs, 'pack')} to buy, ${short} short`
}

export function describeNotionRefusal(refusal: NotionRefusal): string {
  switch (refusal.kind) {
    case 'no-such-owner':
      return 'That owner is not there any more. Choose another.'
    case 'no-such-project':
      return 'That project is not under way any more. Choose another.'
    case 'other-owner':
      return 'It belongs to somebody else than the one whose goods that project is stitched from.'
    case 'in-use':
      return `It is in use for ${refusal.title}. Put it back first.`
    case 'not-enough':
      return `There ${refusal.count === 1 ? 'is' : 'are'} only ${refusal.count} of it. Count again.`
    case 'kept-by-record':
      return keptByRecordWords(refusal.label)
    case 'already-there':
      return 'It is there already.'
    case 'changed-meanwhile':
      return 'Somebody moved or changed it meanwhile. Look at it again, then make your change.'
  }
}
