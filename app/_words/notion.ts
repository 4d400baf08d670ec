import { say, sayings } from '#language/say'
import type { NotionRefusal } from '#lib/db/notion/notion-refusal'
import type { NotionCard, NotionKind } from '#lib/notion/notion'
import type { ToBuy } from '#lib/notion/to-buy'
import { keptByRecordWords } from './kept-by-record'

export const notionKindWords: Record<NotionKind, { one: string; many: string }> = sayings({
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
})

/** What a notion is called: Big hoop, 10 in. */
export const notionTitle = ({ name, size }: Pick<NotionCard, 'name' | 'size'>): string => [name, size].filter(Boolean).join(', ')

/** What is to be bought of it: 3 packs to buy, 13 short. */
export function toBuyWords({ short, packs }: ToBuy): string {
  return packs === null
    ? say('{short} to buy', { short })
    : say('{packs, plural, one {# pack} other {# packs}} to buy, {short} short', { packs, short })
}

export function describeNotionRefusal(refusal: NotionRefusal): string {
  switch (refusal.kind) {
    case 'no-such-owner':
      return say('That owner is not there any more. Choose another.')
    case 'no-such-project':
      return say('That project is not under way any more. Choose another.')
    case 'other-owner':
      return say('It belongs to somebody else than the one whose goods that project is stitched from.')
    case 'in-use':
      return say('It is in use for {title}. Put it back first.', { title: refusal.title })
    case 'not-enough':
      return say('There {count, plural, one {is} other {are}} only {count} of it. Count again.', { count: refusal.count })
    case 'kept-by-record':
      return keptByRecordWords(refusal.label)
    case 'already-there':
      return say('It is there already.')
    case 'changed-meanwhile':
      return say('Somebody moved or changed it meanwhile. Look at it again, then make your change.')
  }
}
