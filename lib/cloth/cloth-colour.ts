import { type ColourFamily, colourFamilies, familyNamed, familyOf } from '#lib/colour/family'
import type { Lab } from '#lib/colour/lab'
import { textKey } from '#lib/quantity/text-key'
import type { ClothPiece } from './cloth-piece'

type Coloured = Pick<ClothPiece, 'colourName' | 'lab'>

/** Words in the names of cloth colours, and the families one would look for them among. Chosen, no published source. */
const familiesOfWord: Readonly<Record<string, readonly ColourFamily[]>> = {
  gray: ['grey'],
  silver: ['grey'],
  pewter: ['grey'],
  charcoal: ['grey', 'black'],
  slate: ['grey', 'blue'],
  smoke: ['grey'],
  ivory: ['white'],
  chalk: ['white'],
  cream: ['white', 'yellow'],
  ecru: ['white', 'brown'],
  natural: ['brown'],
  raw: ['brown'],
  flax: ['brown'],
  oat: ['brown'],
  oatmeal: ['brown'],
  sand: ['brown'],
  tan: ['brown'],
  fawn: ['brown'],
  taupe: ['brown', 'grey'],
  parchment: ['brown', 'yellow'],
  honey: ['yellow', 'brown'],
  gold: ['yellow'],
  rust: ['orange', 'brown'],
  rose: ['pink'],
  blush: ['pink'],
  wine: ['red'],
  plum: ['purple'],
  lilac: ['purple'],
  lavender: ['purple'],
  violet: ['purple'],
  navy: ['blue'],
  sky: ['blue'],
  denim: ['blue'],
  bluegreen: ['blue-green'],
  teal: ['blue-green'],
  turquoise: ['blue-green'],
  aqua: ['blue-green'],
  sage: ['green'],
  moss: ['green', 'olive'],
  mint: ['green'],
}

/** Say nothing of a colour when one asks for "anything in a greyish blue". */
const emptyWords = new Set([
  'any',
  'anything',
  'something',
  'in',
  'a',
  'an',
  'the',
  'of',
  'and',
  'or',
  'cloth',
  'colour',
  'color',
])

const familiesNamedBy = (word: string): readonly ColourFamily[] => {
  const family = familyNamed(word)
  return family ? [family] : (familiesOfWord[word] ?? [])
}

/** `Greyish`, `bluish`, `reddish` without the -ish. */
function withoutIsh(word: string): string {
  const stem = /^(.+)ish$/u.exec(word)?.[1]
  if (stem === undefined) return word
  return [stem, `${stem}e`, stem.slice(0, -1)].find((each) => familiesNamedBy(each).length > 0) ?? word
}

/** `Grey-blue` are two words; the family between blue and green is one. */
const wordsOf = (text: string): string[] =>
  textKey(text)
    .replace(/blue[\s-]+green|green[\s-]+blue/gu, 'bluegreen')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '' && !emptyWords.has(word))
    .map(withoutIsh)

/** How far about a colour its neighbours are looked for: to the eye, cloth so near a border is of either family. Chosen by eye. */
const besideDelta = 5
const compass = Array.from({ length: 8 }, (_, turn) => (turn * Math.PI) / 4)

/** The family a colour is of and those it lies beside: a greyish blue is of the blues and beside the greys. */
function familiesAround({ L, a, b }: Lab): Set<ColourFamily> {
  const beside = compass.map((angle) =>
    familyOf({ L, a: a + besideDelta * Math.cos(angle), b: b + besideDelta * Math.sin(angle) }),
  )
  return new Set([familyOf({ L, a, b }), ...beside])
}

/** The families a piece may be looked for under: by its recorded colour and by the words of its colour's name; in the families' order. */
export function clothFamilies({ colourName, lab }: Coloured): ColourFamily[] {
  const families = new Set([
    ...(lab ? familiesAround(lab) : []),
    ...wordsOf(colourName ?? '').flatMap((word) => [...familiesNamedBy(word)]),
  ])
  return colourFamilies.filter((family) => families.has(family))
}

/**
 * Whether a piece is of a colour asked for in words: `grey-blue` is what is both among the greys and among the blues, `oat` what is named
 * so or begins so. Each word has to hold.
 */
export function isOfColour(piece: Coloured, words: string): boolean {
  const families = clothFamilies(piece)
  const own = wordsOf(piece.colourName ?? '')
  return wordsOf(words).every((word) => {
    const family = askedFamily[word] ?? familyNamed(word)
    return own.some((name) => name.startsWith(word)) || (family !== null && families.includes(family))
  })
}

/** Families by other words than their own. */
const askedFamily: Readonly<Record<string, ColourFamily>> = { gray: 'grey', bluegreen: 'blue-green' }
