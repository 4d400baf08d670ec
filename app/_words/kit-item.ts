import { say, sayings } from '#language/say'
import type { KitItemRefusal } from '#lib/db/kit/kit-item-refusal'
import type { KitItemKind } from '#lib/project/kit/item'

/** What goes into a kit besides thread, cloth and chart, by kind. */
export const itemKindWords: Record<KitItemKind, string> = sayings({
  needle: 'Needle',
  beads: 'Beads',
  finding: 'Finding',
  sheet: 'Class sheet',
  other: 'Something else',
})

export function describeKitItemRefusal(refusal: KitItemRefusal): string {
  switch (refusal.kind) {
    case 'no-such-project':
      return say('That project is not there any more.')
    case 'kit-closed':
      return say('This project is finished or given up; its kits stay as they were.')
    case 'no-such-item':
      return say('That line is not on the list any more. Look at the list again.')
    case 'no-such-notion':
      return say('That stock was taken off the list of notions. Choose another.')
    case 'other-owner':
      return say('That stock belongs to somebody else than the one whose goods these kits are made from.')
    case 'bags-packed':
      return say(
        '{bags, plural, one {# bag} other {# bags}} {bags, plural, one {is} other {are}} packed by this list. Unpack {bags, plural, one {it} other {them}} first.',
        { bags: refusal.bags },
      )
    case 'too-many-items':
      return say('A kit can have {most} of these lines, and has them.', { most: refusal.most })
    case 'changed-meanwhile':
      return say('Somebody changed this project meanwhile. Look at it again, then make your change.')
  }
}
