import { type Part, parseMessage } from './message'

const marked: Record<string, string> = Object.fromEntries(
  [...'aeiouyncAEIOUYNC'].map((letter, at) => [letter, [...'àéîõüýñçÀÉÎÕÜÝÑÇ'][at] as string]),
)

/** A message in the tests' own language: every word of it with marks on its letters and a third longer, what stands in it as it was. */
export const trialMessage = (message: string): string => written(parseMessage(message))

const written = (parts: readonly Part[]): string =>
  parts
    .map((part) => {
      if (typeof part === 'string') return quoted(part.replace(/\p{L}{2,}/gu, longer))
      if ('hash' in part) return '#'
      if ('tag' in part) return `<${part.tag}>${written(part.parts)}</${part.tag}>`
      if (!('by' in part)) return part.isNumber ? `{${part.name}, number}` : `{${part.name}}`
      const cases = Object.entries(part.cases).map(([key, inner]) => `${key} {${written(inner)}}`)
      return `{${part.name}, ${part.by}, ${cases.join(' ')}}`
    })
    .join('')

const longer = (word: string): string =>
  [...word].map((letter) => marked[letter] ?? letter).join('') + 'ø'.repeat(Math.ceil(word.length / 3))

const quoted = (text: string): string => text.replaceAll("'", "''").replace(/[{}<>#]+/g, "'$&'")
