import { codeLike, symbolLike } from './looks'
import type { Piece } from './pieces'
import type { Row } from './rows'

/** A head is no single line: that may be the header of a table. */
const leastHeadRows = 2
const leastKeyRows = 3
const unitWord = /^(strands?|ply|skeins?|hanks?|spools?|stitch|stitches|crosses|each|and|over|count|inch|inches)$/i

/** How a row of a key begins; null for a row that is none. */
function lookOf({ pieces }: Row): 'mark' | 'code' | null {
  const [first, second, third] = pieces
  if (!first) return null
  const isNamed = pieces.some(({ text }) => /\p{L}{3}/u.test(text) && !unitWord.test(text) && !codeLike(text))
  const isCode = (piece: Piece | undefined) => piece !== undefined && codeLike(piece.text) && !/^\d{1,2}$/.test(piece.text)
  if (symbolLike(first.text) && (isCode(second) || isCode(third))) return 'mark'
  // A mark may be a figure.
  if (/^\d$/.test(first.text) && isCode(second) && isNamed) return 'mark'
  return isCode(first) && isNamed && !unitWord.test(second?.text ?? '') ? 'code' : null
}

/**
 * Whether two sides of a strip are designs of their own: each has words at its top, a title and more, and a key of its own below them whose rows
 * begin alike. The columns of one table have but one head, and begin with different things.
 */
export function areDesigns(left: readonly Row[], right: readonly Row[]): boolean {
  const [one, other] = [partsOf(left), partsOf(right)]
  return one !== null && other !== null && one === other
}

/** How the rows of a side's key begin, where it has a head and a key. */
function partsOf(rows: readonly Row[]): 'mark' | 'code' | null {
  const looks = rows.map(lookOf)
  const first = looks.findIndex((look, at) => look !== null && looks.slice(at, at + 3).filter((one) => one !== null).length >= 2)
  if (first < leastHeadRows) return null
  const worded = rows.slice(0, first).filter(({ pieces }) => pieces.some(({ text }) => /\p{L}{3}/u.test(text)))
  const key = looks.slice(first)
  const marks = key.filter((look) => look === 'mark').length
  const codes = key.filter((look) => look === 'code').length
  if (worded.length < leastHeadRows || marks + codes < Math.max(leastKeyRows, key.length * 0.5)) return null
  return marks > codes ? 'mark' : 'code'
}
