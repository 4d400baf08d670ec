import type { KitItemRefusal } from '#lib/db/kit/kit-item-refusal'
import type { KitItemKind } from '#lib/project/kit/item'
import { counted } from './amounts'

/** What goes into a kit besides thread, cloth and chart, by kind. */
export const itemKindWords: Record<KitItemKind, string> = {
  needle: 'Needle',
  beads: 'Beads',
  finding: 'Finding',
  sheet: 'Class sheet',
  other: 'Something else',
}

export function describeKitItemRefusal(refusal: KitItemRefusal): string {
  switch (refusal.kind) {
    case 'no-such-project':
      return 'That project is not there any more.'
    case 'kit-closed':
      return 'This project is finished or given up; its kits stay as they were.'
    case 'no-such-item':
      return 'That line is not on the list any more. Look at the list again.'
    case 'no-such-notion':
      return 'That stock was taken off the list of notions. Choose another.'
    case 'other-owner':
      return 'That stock belongs to somebody else than the one whose goods these kits are made from.'
    case 'bags-packed':
      return `${counted(refusal.bags, 'bag')} ${refusal.bags === 1 ? 'is' : 'are'} packed by this list. Unpack ${refusal.bags === 1 ? 'it' : 'them'} first.`
    case 'too-many-items':
      return `A kit can have ${refusal.most} of these lines, and has them.`
    case 'changed-meanwhile':
      return 'Somebody changed this project meanwhile. Look at it again, then make your change.'
  }
}
