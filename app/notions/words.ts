import { say, sayings } from '#language/say'
import type { CountChange } from '#lib/db/notion/count-notion'
import type { NotionMovement } from '#lib/db/notion/queries'

export const countChangeWords: Record<CountChange, string> = sayings({
  received: 'So many more came in',
  used: 'So many were used up, worn out or broken',
  counted: 'I counted: so many are there',
})

/** What happened to a notion, for its history. */
export function describeMovement({ kind, wholeDelta, isOffList, reason, from, to }: NotionMovement): string {
  const many = Math.abs(wholeDelta)
  const where = to ? say(' to {label}', { label: to.label }) : ''
  const moved = `${from ? say(' from {label}', { label: from.label }) : ''}${where}`
  switch (kind) {
    case 'receive':
      return say('{many} came in{rest}', { many, rest: to ? say(', in {label}', { label: to.label }) : '' })
    case 'use':
      return say('{many} used up', { many })
    case 'move':
      return say('moved{moved}', { moved })
    case 'take':
      return wholeDelta > 0 ? say('{many} taken{moved}', { many, moved }) : say('taken{moved}', { moved })
    case 'split':
      return say('{many} of them taken{where}', { many, where })
    case 'return':
      return say('put back{moved}', { moved })
    case 'merge':
      return say('{many} put back with them', { many })
    case 'correct':
      if (isOffList) return say('taken off the list, {many} of it', { many })
      if (wholeDelta !== 0)
        return say('{many} {wholeDeltaCase, select, yes {more} other {fewer}} than on record', {
          many,
          wholeDeltaCase: wholeDelta > 0,
        })
      return reason?.startsWith('counted ') ? say('counted') : say('its card was changed')
    case 'undo':
      return say('put back on the list{where}', { where })
    default:
      return kind
  }
}
