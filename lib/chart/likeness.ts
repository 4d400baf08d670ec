import { textKey } from '#lib/quantity/text-key'

const littleWords = new Set(['a', 'an', 'the', 'and', 'of', 'in', 'at', 'on', 'by', 'for', 'to'])
const numberWords = new Map<string, string>(
  [
    'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty',
    'zeroth first second third fourth fifth sixth seventh eighth ninth tenth eleventh twelfth',
  ].flatMap((row) => row.split(' ').map((word, value) => [word, String(value)] as const)),
)
const romans = new Map(
  ['ii', 'iii', 'iv', 'vi', 'vii', 'viii', 'ix', 'xi', 'xii'].map((word, at) => [
    word,
    String([2, 3, 4, 6, 7, 8, 9, 11, 12][at]),
  ]),
)
/** What a designer's or maker's name has besides the name. */
const tradeWords = new Set([
  'design',
  'designs',
  'designer',
  'studio',
  'studios',
  'sampler',
  'samplers',
  'needlework',
  'needleworks',
  'press',
  'co',
  'company',
  'ltd',
  'threads',
  'thread',
  'stitching',
  'charts',
])

const wordsOf = (text: string): string[] =>
  textKey(text)
    .replace(/&/gu, ' and ')
    .replace(/['’`]s?\b/gu, '')
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '')

const withoutPlural = (word: string): string =>
  word.length > 4 && word.endsWith('s') && !word.endsWith('ss') ? word.slice(0, -1) : word

/** A text without its little words, to look a title up by that may be on record without them; nothing where it has no others. */
export const withoutLittleWords = (text: string): string =>
  wordsOf(text)
    .filter((word) => !littleWords.has(word))
    .join(' ')

/** A title as titles are held against each other. */
export type TitleForm = {
  /** Its words that say something, numbers as figures, in their order: "The Three Jugs" and "3 jugs" share it. */
  key: string
  words: readonly string[]
  /** The figures in it, in order: two parts of a series differ in nothing else. */
  numbers: string
}

/** Accents, case, signs, articles and little words, plural s, and whether a number is a word make no difference. */
export function titleForm(title: string): TitleForm {
  const all = wordsOf(title).map((word) => numberWords.get(word) ?? romans.get(word) ?? word.replace(/^0+(?=\d)/u, ''))
  const telling = all.filter((word) => !littleWords.has(word)).map(withoutPlural)
  const words = telling.length > 0 ? telling : all
  return { key: words.join(' '), words, numbers: words.filter((word) => /\d/u.test(word)).join(' ') }
}

/** A designer's or maker's name as names are held against each other: also without the words of the trade, in any order. */
export function nameForm(name: string): TitleForm {
  const all = wordsOf(name).filter((word) => word !== 'and' && word !== 'the')
  const telling = all.filter((word) => !tradeWords.has(word))
  const words = (telling.length > 0 ? telling : all).slice().sort()
  return { key: words.join(' '), words, numbers: words.filter((word) => /\d/u.test(word)).join(' ') }
}

/**
 * How many letters were put in, left out, changed or swapped with their neighbour between two texts (optimal string alignment); `most` + 1
 * when it is more than `most`. Time and memory go with the length times `most`.
 */
export function editDistance(a: string, b: string, most: number): number {
  const [left, right] = [[...a], [...b]]
  if (Math.abs(left.length - right.length) > most) return most + 1
  let before: number[] = []
  let above = right.map((_, at) => at + 1)
  above.unshift(0)
  for (let i = 1; i <= left.length; i++) {
    const row = [i]
    let least = i
    for (let j = 1; j <= right.length; j++) {
      const same = left[i - 1] === right[j - 1]
      let cost = Math.min((above[j] as number) + 1, (row[j - 1] as number) + 1, (above[j - 1] as number) + (same ? 0 : 1))
      if (i > 1 && j > 1 && left[i - 1] === right[j - 2] && left[i - 2] === right[j - 1])
        cost = Math.min(cost, (before[j - 2] as number) + 1)
      row.push(cost)
      least = Math.min(least, cost)
    }
    if (least > most) return most + 1
    before = above
    above = row
  }
  return Math.min(above[right.length] as number, most + 1)
}

/** Wrong letters that a hand slips in so long a text (chosen by trial on the invented titles: none of them comes near another). */
const slipsIn = (length: number): number => (length < 6 ? 0 : length < 10 ? 1 : length < 18 ? 2 : 3)

export type Likeness = 'same' | 'near' | 'part' | 'far'

/**
 * Whether two titles, or two names, may be one: the `same` once folded; `near`, some letters apart; `part`, all words of the one, two at
 * least, in the other. Other numbers are another title, however alike the rest.
 */
export function likenessOf(a: TitleForm, b: TitleForm): Likeness {
  if (a.key === b.key && a.key !== '') return 'same'
  if (a.numbers !== b.numbers) return 'far'
  const [left, right] = [a.words.join(''), b.words.join('')]
  if (left === right && left !== '') return 'same'
  const most = slipsIn(Math.min(left.length, right.length))
  if (most > 0 && editDistance(left, right, most) <= most) return 'near'
  if (a.words.slice().sort().join(' ') === b.words.slice().sort().join(' ')) return 'near'
  const [few, many] = a.words.length <= b.words.length ? [a.words, b.words] : [b.words, a.words]
  if (few.length >= 2 && many.length > few.length && few.every((word) => many.includes(word))) return 'part'
  return 'far'
}

/** Whether one name is the other with first names shortened to a letter: "M. Stoat" and "Mirabel Stoat". */
export function isInitialled(a: TitleForm, b: TitleForm): boolean {
  if (a.words.length !== b.words.length || a.words.length < 2) return false
  const [left, right] = [new Set(a.words), new Set(b.words)]
  const onlyLeft = a.words.filter((word) => !right.has(word))
  const onlyRight = b.words.filter((word) => !left.has(word))
  if (onlyLeft.length === 0 || onlyLeft.length === a.words.length || onlyLeft.length !== onlyRight.length) return false
  return onlyLeft.every((word, at) => {
    const other = onlyRight[at] as string
    return (word.length === 1 || other.length === 1) && word[0] === other[0]
  })
}

/** What texts that are near share one of: words, beginning and end. Each key begins with `kind`. */
export function* formKeys(kind: string, form: TitleForm): Generator<string, void, void> {
  if (form.key === '') return
  yield `${kind} is ${form.words.join('')}`
  for (const word of new Set(form.words)) if (word.length > 2) yield `${kind} has ${word}`
  const whole = form.words.join('')
  if (whole.length < 6) return
  yield `${kind} begins ${whole.slice(0, 4)}`
  yield `${kind} ends ${whole.slice(-4)}`
}

/**
 * Pairs that share a key, each once, found without holding everything against everything: a key that more than `mostSharing` things have
 * tells nothing and is passed over.
 */
export function* pairsSharing(
  keysOf: readonly Iterable<string>[],
  mostSharing: number,
): Generator<readonly [number, number], void, void> {
  const sharing = new Map<string, number[]>()
  for (const [at, keys] of keysOf.entries()) {
    for (const key of new Set(keys)) {
      const known = sharing.get(key)
      if (known === undefined) sharing.set(key, [at])
      else if (known.length <= mostSharing) known.push(at)
    }
  }
  const seen = new Set<number>()
  const count = keysOf.length
  for (const things of sharing.values()) {
    if (things.length < 2 || things.length > mostSharing) continue
    for (let i = 1; i < things.length; i++)
      for (let j = 0; j < i; j++) {
        const pair = (things[j] as number) * count + (things[i] as number)
        if (seen.has(pair)) continue
        seen.add(pair)
        yield [things[j] as number, things[i] as number]
      }
  }
}
