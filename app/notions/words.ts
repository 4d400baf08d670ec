import type { CountChange } from '#lib/db/notion/count-notion'
import type { NotionMovement } from '#lib/db/notion/queries'

export const countChangeWords: Record<CountChange, string> = {
  received: 'So many more came in',
  used: 'So many were used up, worn out or broken',
  counted: 'I counted: so many are there',
}

/** What happened to a notion, for its history. */
export function describeMovement({ kind, wholeDelta, isOffList, reason, from, to }: NotionMovement): string {
  const many = Math.abs(wholeDelta)
  const where = to ? ` to ${to.label}` : ''
  const moved = `${from ? ` from ${from.label}` : ''}${where}`
  switch (kind) {
    case 'receive':
      return `${many} came in${to ? `, in ${to.label}` : ''}`
    case 'use':
      return `${many} used up`
    case 'move':
      return `moved${moved}`
    case 'take':
      return wholeDelta > 0 ? `${many} taken${moved}` : `taken${moved}`
    case 'split':
      return `${many} of them taken${where}`
    case 'return':
      return `put back${moved}`
    case 'merge':
      return `${many} put back with them`
    case 'correct':
      if (isOffList) return `taken off the list, ${many} of it`
      if (wholeDelta !== 0) return `${many} ${wholeDelta > 0 ? 'more' : 'fewer'} than on record`
      return reason?.startsWith('counted ') ? 'counted' : 'its card was changed'
    case 'undo':
      return `put back on the list${where}`
    default:
      return kind
  }
}
