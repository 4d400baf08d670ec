import { numberText, plainFigure } from './figures'
import { language, translated } from './language'
import type { Language } from './languages'
import { chosenCase, type Part, parseMessage } from './message'

/** What stands in a message: texts and numbers, and what a case of it is chosen by. */
export type Words = Readonly<Record<string, string | number | boolean | null | undefined>>

/**
 * Say something in the language of whoever is being answered (language.ts). The English text is the message: what it is in another
 * language stands in that language's catalogue, under it. So it is always written out where it is said, whole, with what changes in it in
 * braces (message.ts): `say('{count, plural, one {# tick} other {# ticks}} waiting to be sent', { count })`.
 *
 * For text with elements in it there is `sayParts`; for tables of words that are made once, `sayings`.
 */
export function say(message: string, words?: Words): string {
  const spoken = language()
  const text = translated(message, spoken)
  return words === undefined && !/['{<]/.test(text) ? text : textOf(parseMessage(text), words ?? {}, spoken, null)
}

function textOf(parts: readonly Part[], words: Words, spoken: Language, hash: string | null): string {
  let text = ''
  for (const part of parts) {
    if (typeof part === 'string') text += part
    else if ('hash' in part) text += hash ?? '#'
    else if ('tag' in part) text += textOf(part.parts, words, spoken, hash)
    else if ('by' in part)
      text += textOf(chosenCase(part, words[part.name], spoken.tag), words, spoken, hashOf(part.by, words[part.name]))
    else text += wordText(words[part.name], spoken, part.isNumber)
  }
  return text
}

/** The number a case of a plural was chosen by, as `#` shows it. */
export const hashOf = (by: string, value: unknown): string | null => (by === 'select' ? null : numberText(Number(value)))

/** What stands in a message. Names and codes keep the way they run, and do not turn the words around them. */
export function wordText(value: unknown, { direction }: Language, isNumber?: boolean): string {
  if (value === null || value === undefined || typeof value === 'boolean') return ''
  const text = typeof value !== 'number' ? String(value) : isNumber ? numberText(value) : plainFigure(value)
  return direction === 'rtl' && text !== '' ? `\u2068${text}\u2069` : text
}

/** Words, in tables as deep as they are; a function in one says for itself. */
type Table = { readonly [key: string]: string | Table | readonly (string | Table)[] | ((...given: never[]) => unknown) }

/** A table of words that is made once and said anew whenever it is looked into. Every text in it is a message. */
export function sayings<const T extends Table | readonly (string | Table)[]>(table: T): Said<T> {
  const said: object = Array.isArray(table) ? [] : {}
  for (const [key, value] of Object.entries(table)) {
    const inner = typeof value === 'object' ? sayings(value as Table) : value
    Object.defineProperty(said, key, {
      enumerable: true,
      configurable: true,
      ...(typeof inner === 'string' ? { get: () => say(inner) } : { value: inner }),
    })
  }
  return said as Said<T>
}

type Said<T> = T extends string
  ? string
  : T extends (...given: never[]) => unknown
    ? T
    : { readonly [Key in keyof T]: Said<T[Key]> }
