import { createElement, Fragment, type ReactNode } from 'react'
import { language, translated } from './language'
import type { Language } from './languages'
import { chosenCase, type Part, parseMessage } from './message'
import { hashOf, wordText } from './say'

/** What stands in a message, or what an element of it is made into: `<link>words</link>` is `link: (words) => <Link …>{words}</Link>`. */
export type Pieces = Readonly<Record<string, ReactNode | ((words: ReactNode) => ReactNode)>>

/** Say something that has elements in it; otherwise as `say` does. */
export function sayParts(message: string, pieces: Pieces): ReactNode {
  const spoken = language()
  return together(nodesOf(parseMessage(translated(message, spoken)), pieces, spoken, null))
}

const together = (nodes: ReactNode[]): ReactNode => (nodes.length === 1 ? nodes[0] : createElement(Fragment, null, ...nodes))

function nodesOf(parts: readonly Part[], pieces: Pieces, spoken: Language, hash: string | null): ReactNode[] {
  return parts.flatMap((part): ReactNode[] => {
    if (typeof part === 'string') return [part]
    if ('hash' in part) return [hash ?? '#']
    if ('tag' in part) {
      const inside = together(nodesOf(part.parts, pieces, spoken, hash))
      const make = pieces[part.tag]
      return [typeof make === 'function' ? make(inside) : inside]
    }
    const value = pieces[part.name]
    if ('by' in part) return nodesOf(chosenCase(part, value, spoken.tag), pieces, spoken, hashOf(part.by, value))
    if (typeof value === 'function') return []
    return [typeof value === 'object' && value !== null ? value : wordText(value, spoken, part.isNumber)]
  })
}
