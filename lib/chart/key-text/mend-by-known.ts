import { editDistance } from '../likeness'
import type { KnownThread, NamedThread, ReadField, ReadKeyLine, ThreadMatch } from './reading'
import { nameKey, type Vocabulary } from './vocabulary'

/** Of a name's letters, so many may have been read wrong for it to be that name still. */
const mostLettersOff = 0.25
/** Code and name told apart from one another agree: neither is by chance. */
const agreeing = 0.95
/** One of the two exact, the other a slip away. */
const mended = 0.86
/** Code and name of two threads: one of them was read wrong. */
const atOdds = 0.7

/**
 * What a picture says a thread is called, held against the thread of the collection that it was found to be: an exact code with a name a letter
 * or two off has that thread's name, an exact name with a code a sign off has its code. Where both agree they are surer, where they are those of
 * two threads they are doubted. Only for what was read from a picture: what is typed says what it says.
 */
export function mendedByKnown(named: NamedThread, match: ThreadMatch, known: Vocabulary): NamedThread {
  if (match.kind !== 'known') return named
  const thread = known.threads.get(match.threadId)
  if (!thread) return named
  const { code, name } = named
  if (!name || !code) return code || !name ? named : { ...named, name: closest(name, calledNames(thread), 0.78) ?? name }
  const isCode = [thread.code, ...(thread.formerCodes ?? [])].includes(code.value)
  const [called] = calledNames(thread)
  if (called === undefined) return named
  const isName = nameKey(name.value) === nameKey(called) && isSpeltSo(name.value, called)
  if (isCode && isName) return { ...named, code: raised(code, agreeing), name: raised(name, agreeing) }
  if (isCode) {
    const told = closest(name, [called], mended)
    if (told) return { ...named, code: raised(code, agreeing), name: told }
    // A few letters of a longer name say nothing against its code.
    const isOther = name.value.length >= 4 && lettersOff(name.value, called) > 0.6
    return isOther ? { ...named, code: lowered(code, atOdds), name: lowered(name, atOdds) } : named
  }
  if (isName && /\d/.test(thread.code) && editDistance(code.value, thread.code, 2) <= (code.confidence < 0.6 ? 2 : 1))
    return { ...named, code: { ...code, value: thread.code, confidence: mended }, name: raised(name, agreeing) }
  return named
}

/** Of a list's threads, so many are known where it is one of well-known threads, and its list long enough to say so. */
const mostKnown = 0.7
const leastThreads = 5
/** A thread that nobody knows among such: as likely a code read wrong. */
const strange = 0.78

/**
 * A list that was read from a picture, with what its threads do not bear out doubted: to be looked at, not wrong. Where nearly all of them are
 * known, those that are not; and a thread line that none of them is known to be of: it may be other words of a heading.
 */
export function strangersDoubted(lines: readonly ReadKeyLine[], known: Vocabulary): ReadKeyLine[] {
  const threads = lines.flatMap((line) => line.threads)
  const found = threads.filter(({ match }) => match.kind !== 'new').length
  const isWellKnown = threads.length >= leastThreads && found >= threads.length * mostKnown
  const linesOfKnown = new Set(
    threads.flatMap(({ match }) => (match.kind === 'known' ? nameKey(known.threads.get(match.threadId)?.threadLine ?? '') : [])),
  )
  const lower = <T>(field: ReadField<T> | null) => field && lowered(field, strange)
  const doubted = ({ named, match }: ReadKeyLine['threads'][number]) => {
    const isStranger = isWellKnown && match.kind === 'new'
    const isBorneOut = named.threadLine !== null && linesOfKnown.has(nameKey(named.threadLine.value))
    return {
      match,
      named: {
        ...named,
        threadLine: isBorneOut ? named.threadLine : lower(named.threadLine),
        code: isStranger ? lower(named.code) : named.code,
        name: isStranger ? lower(named.name) : named.name,
      },
    }
  }
  return lines.map((line) => ({ ...line, threads: line.threads.map(doubted) }))
}

const calledNames = ({ name, code }: KnownThread): string[] => (name !== null ? [name] : /\d/.test(code) ? [] : [code])

const raised = <T>(field: ReadField<T>, to: number): ReadField<T> => ({ ...field, confidence: Math.max(field.confidence, to) })
const lowered = <T>(field: ReadField<T>, to: number): ReadField<T> => ({ ...field, confidence: Math.min(field.confidence, to) })

/** Accents count; so do spaces, which a picture loses. */
const isSpeltSo = (read: string, called: string): boolean => bare(read) === bare(called) && read.length === called.length

const bare = (text: string): string => text.toLocaleLowerCase('en').replace(/[^\p{L}\p{N}]/gu, '')

/** The name that was read as one it is a few letters off of; null where it is none of them. */
function closest(name: ReadField<string>, called: readonly string[], confidence: number): ReadField<string> | null {
  const found = called.find((one) => lettersOff(name.value, one) <= mostLettersOff)
  if (found === undefined) return null
  return isSpeltSo(name.value, found) ? name : { ...name, value: found, confidence }
}

const lettersOff = (read: string, called: string): number =>
  editDistance(bare(read), bare(called), read.length + called.length) / Math.max(1, bare(called).length)
