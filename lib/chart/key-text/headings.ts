import type { Stitch } from '#lib/thread/stitches'
import { findAmounts } from './amounts'
import { phraseAt, type Token } from './tokens'
import { nameKey, nameWords, type PhraseBook, type Vocabulary } from './vocabulary'
import { headingFiller, lineWords, numberWords, putUpWords, sentenceWords, stitchPhrases, weakStitchWords } from './words'

/** What a line without threads says of those that follow it. */
export type Heading = {
  makers: { maker: string; threadLine: string | null; certainty: number }[]
  stitches: Stitch[]
  /** Strands as they are said, each with the stitches it is for; none: for all. */
  strands: { value: number; stitches: Stitch[] }[]
  /** Words that none of this took. */
  left: string[]
  /** It tells one to do something, or speaks of everything: it holds beyond the next heading. */
  isSaid: boolean
  /** Only words of headings, such as KEY or Metallic. */
  isPlain: boolean
  /** Whether it names a kind of thread: Metallic, Beads. */
  namesKind: boolean
}

const saying = new Set([
  'use',
  'using',
  'work',
  'worked',
  'stitch',
  'stitched',
  'throughout',
  'all',
  'unless',
  'where',
  'otherwise',
  'everything',
  'work',
  'sew',
])
const sayingFiller = new Set(
  'throughout all unless where otherwise said stated noted everything use using uses used work worked stitched designs design are is were be it those them except given shown model embroidery this in both every one as or each please sew sewn make made done whole everywhere dyed hand hand-dyed skein skeins hanks amount amounts quantity quantities first last before after behind brackets given name names also total other others main another named up made unless noted maker makers brand'.split(
    ' ',
  ),
)

/** Take a line apart into makers, stitches, strands and what is left of it. */
export function headingOf(tokens: readonly Token[], makers: PhraseBook<string>, known: Vocabulary): Heading {
  const used: boolean[] = tokens.map(() => false)
  const isTaken = (at: number) => used[at] === true
  const take = (first: number, last: number) => {
    for (let at = first; at <= last; at++) used[at] = true
  }
  const heading: Heading = { makers: [], stitches: [], strands: [], left: [], isSaid: false, isPlain: false, namesKind: false }
  for (let at = 0; at < tokens.length; at++) {
    const maker = phraseAt(makers, tokens, at)
    if (!maker) continue
    let last = at + maker.count - 1
    const certainty = tokens.slice(at, last + 1).reduce((least, token) => Math.min(least, token.certainty), 1)
    take(at, last)
    const line = lineAfter(tokens, last + 1, maker.means, known)
    if (line) {
      take(last + 1, line.last)
      last = line.last
    }
    heading.makers.push({ maker: maker.means, threadLine: line?.name ?? null, certainty })
    if (line && /bead/i.test(line.name)) heading.stitches.push('bead')
    at = last
  }
  const amounts = findAmounts(tokens, isTaken)
  const strandsAt: { at: number; value: number }[] = []
  for (const amount of amounts) {
    if (amount.kind !== 'strands') continue
    take(amount.first, amount.last)
    strandsAt.push({ at: amount.first, value: amount.values[0] ?? 1 })
  }
  const stitchesAt: { at: number; stitch: Stitch }[] = []
  for (let at = 0; at < tokens.length; at++) {
    if (used[at]) continue
    const phrase = phraseAt(stitchPhrases, tokens, at, isTaken)
    if (!phrase) continue
    const isWeak = phrase.count === 1 && weakStitchWords.has(tokens[at]?.key ?? '')
    if (isWeak && tokens.length > 8) continue
    // "1 for backstitch" after strands were spoken of.
    const before = tokens[at - 1]
    const figure = tokens[at - 2]
    const value = figure?.figure?.value ?? numberWords[figure?.key ?? '']
    if (before && /^(for|in)$/.test(before.key) && value !== undefined && value <= 6 && !used[at - 2] && strandsAt.length > 0) {
      take(at - 2, at - 1)
      strandsAt.push({ at: at - 2, value })
    }
    stitchesAt.push({ at, stitch: phrase.means })
    take(at, at + phrase.count - 1)
    at += phrase.count - 1
  }
  strandsAt.sort((a, b) => a.at - b.at)
  for (const { stitch } of stitchesAt) if (!heading.stitches.includes(stitch)) heading.stitches.push(stitch)
  heading.strands = strandsFor(strandsAt, stitchesAt)
  let isPlain = true
  tokens.forEach((token, at) => {
    if (used[at] || token.kind === 'mark') return
    if (saying.has(token.key)) heading.isSaid = true
    if (lineWords.has(token.key) && !headingFiller.has(token.key)) heading.namesKind = true
    if (headingFiller.has(token.key) || lineWords.has(token.key) || sayingFiller.has(token.key)) return
    isPlain = false
    heading.left.push(token.text)
  })
  heading.isPlain = isPlain
  return heading
}

/** Strands go with the stitches named in the same breath: those nearest to them, before or behind. */
function strandsFor(
  strands: readonly { at: number; value: number }[],
  stitches: readonly { at: number; stitch: Stitch }[],
): Heading['strands'] {
  if (strands.length === 0) return []
  if (strands.length === 1)
    return [{ value: (strands[0] as { value: number }).value, stitches: [...new Set(stitches.map(({ stitch }) => stitch))] }]
  const found = strands.map(({ value }) => ({ value, stitches: [] as Stitch[] }))
  const isStitchFirst = (stitches[0]?.at ?? 0) < (strands[0]?.at ?? 0)
  for (const { at, stitch } of stitches) {
    let index = isStitchFirst ? strands.findIndex((one) => one.at > at) : strands.findLastIndex((one) => one.at < at)
    if (index < 0) index = isStitchFirst ? strands.length - 1 : 0
    found[index]?.stitches.push(stitch)
  }
  return found
}

function lineAfter(
  tokens: readonly Token[],
  from: number,
  maker: string,
  known: Vocabulary,
): { name: string; last: number } | null {
  const lines = known.makers.get(nameKey(maker))?.lines
  const words: string[] = []
  let found: { name: string; last: number } | null = null
  let loose: { name: string; last: number } | null = null
  for (let at = from; at < tokens.length && words.length < 6 && tokens[at]?.kind === 'word'; at++) {
    words.push(...(tokens[at] as Token).words)
    const line = lines?.get(words.join(' '))
    if (line) found = { name: line, last: at }
    if (!words.every((word) => lineWords.has(word) || word === 'hand' || word === 'over' || word === 'space')) continue
    const isNamed = words.some((word) => lineWords.has(word) && !headingFiller.has(word))
    // "Brindlequay hand-dyed" says what kind it is, and names no line.
    if (isNamed && at > from && !/^(threads?|floss(es)?)$/.test((tokens[at] as Token).key))
      loose = {
        name: tokens
          .slice(from, at + 1)
          .map(({ text }) => text)
          .join(' '),
        last: at,
      }
  }
  if (found) return found
  // A part of the name of one line alone means that line.
  const kind = words.filter((word) => !headingFiller.has(word) || lineWords.has(word)).slice(0, loose ? undefined : 2)
  const whole = [...(lines ?? [])].filter(([key]) => isWithin(loose ? nameWords(loose.name) : kind, key.split(' ')))
  const [only] = whole
  if (only && whole.length === 1) {
    const last = loose?.last ?? from
    return { name: only[1], last }
  }
  return loose
}

const isWithin = (words: readonly string[], others: readonly string[]): boolean =>
  words.length > 0 &&
  words.some((word) => lineWords.has(word) || word === 'dyed') &&
  words.every((word) => others.some((other) => singular(other) === singular(word)))
const singular = (word: string): string => word.replace(/s$/, '')

const capitalised = /^\p{Lu}/u

/** "All shades are Brindlequay", "Silks by Brindlequay": a name behind small words that lead to it. */
function saidOf(tokens: readonly Token[]): { maker: string; threadLine: string | null; isSure: boolean } | null {
  const at = tokens.findIndex(({ key }) => /^(by|from|are|is|in)$/.test(key))
  if (at < 1 || at > 8) return null
  const isLed = tokens
    .slice(0, at)
    .every(({ key, words }) => words.every((word) => lineWords.has(word) || headingFiller.has(word) || sayingFiller.has(key)))
  const behind = tokens.slice(at + 1).filter(({ kind }) => kind === 'word')
  const name = behind.slice(
    Math.max(
      0,
      behind.findIndex(({ key }) => !/^(?:those|of|all|the|from|by)$/.test(key)),
    ),
  )
  const end = name.findIndex(({ key }) => lineWords.has(key) || headingFiller.has(key))
  const maker = end < 0 ? name : name.slice(0, end)
  const isName = maker.length > 0 && maker.length <= 3 && maker.every(({ text }) => capitalised.test(text))
  const rest = end < 0 ? [] : name.slice(end)
  if (!isLed || !isName || !rest.every(({ key }) => lineWords.has(key) || headingFiller.has(key))) return null
  const line = rest.filter(({ key }) => lineWords.has(key) && !headingFiller.has(key)).map(({ text }) => text)
  return { maker: maker.map(({ text }) => text).join(' '), threadLine: line.length > 1 ? line.join(' ') : null, isSure: true }
}

/** A maker nobody knows yet, named in a heading: capitalised words, and then what its line is made of. */
export function unknownMaker(
  tokens: readonly Token[],
): { maker: string; threadLine: string | null; isSure: boolean; isStatement?: true } | null {
  const words = tokens.filter(({ kind }) => kind === 'word')
  if (
    words.length === 0 ||
    words.length > 7 ||
    tokens.some(
      ({ kind, text }, at) =>
        kind === 'figure' || kind === 'code' || (/[.!?;"“]/.test(text) && !(text === '.' && at === tokens.length - 1)),
    )
  )
    return null
  const labelled = tokens.findIndex(({ text }) => text === ':')
  const isLabel =
    labelled > 0 &&
    labelled < tokens.length - 1 &&
    tokens.slice(0, labelled).every((token) => headingFiller.has(token.key) || token.key === 'maker' || token.key === 'brand')
  const said = saidOf(tokens)
  if (said) return { ...said, isStatement: true }
  const named = isLabel ? tokens.slice(labelled + 1).filter(({ kind }) => kind === 'word') : words
  const start = isLabel ? 0 : named.findIndex((token) => !headingFiller.has(token.key))
  if (start < 0) return null
  const isLineWord = (token: Token) =>
    token.words.every((word) => lineWords.has(word) || word === 'hand' || word === 'over' || word === 'space')
  let end = start
  while (end < named.length && !isLineWord(named[end] as Token) && !headingFiller.has((named[end] as Token).key)) end += 1
  const maker = named.slice(start, end)
  if (
    maker.length === 0 ||
    maker.length > 3 ||
    !maker.every(({ text }) => capitalised.test(text)) ||
    maker.some(({ key }) => sentenceWords.has(key))
  )
    return null
  const line = named.slice(end)
  if (!line.every((token) => isLineWord(token) || headingFiller.has(token.key))) return null
  const lineNamed = line
    .filter(isLineWord)
    .map(({ text }) => text)
    .join(' ')
  const isLine = lineNamed !== '' && line.some((token) => isLineWord(token) && !headingFiller.has(token.key))
  // "Hand-dyed" alone says what kind it is, and names no line.
  const isNamed = isLine && line.filter(isLineWord).length > 1
  return { maker: maker.map(({ text }) => text).join(' '), threadLine: isNamed ? lineNamed : null, isSure: isLabel || isLine }
}

/** What numbers without a word are, where the text says so: those in brackets, or all of them. */
export function numbersSaid(text: string): { which: 'brackets' | 'all'; mean: 'strands' | 'put-ups' } | null {
  const folded = text.slice(0, 300).toLowerCase()
  const which = /\b(brackets|parenthes[ie]s|bracketed)\b/.test(folded)
    ? 'brackets'
    : /\b(figures?|numbers?|digits?|amounts?)\b/.test(folded) &&
        /\b(after|behind|before|follow\w*|last|stroke|slash|end|right|beside|each line|denotes?|shows?|gives?|says?|indicates?|is|are)\b/.test(
          folded,
        ) &&
        !/\d/.test(folded)
      ? 'all'
      : isShortOfAmounts(folded)
        ? 'all'
        : null
  if (which === null) return null
  if (/\b(strands?|ply)\b/.test(folded)) return { which, mean: 'strands' }
  return /skein|hank|spool|reel|put-up|how many|quantit|packet/.test(folded) ? { which, mean: 'put-ups' } : null
}

/** "Shade list, with the skeins wanted": a short line without figures that says what is counted. */
const isShortOfAmounts = (folded: string): boolean =>
  !/\d/.test(folded) &&
  folded.split(' ').length <= 10 &&
  /\b(skeins?|hanks?|spools?|reels?|strands?)\b/.test(folded) &&
  /\b(wanted|needed|required|to buy|quantit\w+|number of|no\.? of|numbers of|how many|with (?:the|their) \w+)\b/.test(folded)

/** What a sign before or behind a number makes it: "x = strands in the needle", "* means skeins". */
export function signSaid(text: string): { sign: string; mean: 'strands' | 'put-ups' } | null {
  const said =
    /^\s*[([]?\s*["“']?([^\s\p{N}"“']{1,2})["”']?\s*(?:=|:|–|-|means?|is|stands for)\s*(?:the )?(?:number of |no\.? of )?(\p{L}+)/u.exec(
      text.slice(0, 120),
    )
  if (!said) return null
  const [, sign = '', word = ''] = said
  if (/^(strands?|ply|threads?)$/iu.test(word)) return { sign, mean: 'strands' }
  return putUpWords.has(word.toLowerCase()) ? { sign, mean: 'put-ups' } : null
}

/** Several sentence words, or many words: prose, in which a thread is named by chance. */
export function isProse(tokens: readonly Token[]): boolean {
  const words = tokens.filter(({ kind }) => kind === 'word')
  const plain = words.filter(({ key }) => sentenceWords.has(key)).length
  const isClosed = /^[.!?]$/.test(tokens.at(-1)?.text ?? '')
  return plain >= 3 || (plain >= 2 && words.length >= 7) || (isClosed && words.length >= 5 && plain >= 1) || words.length >= 16
}
