import { IntlMessageFormat } from 'intl-messageformat'
import { beforeAll, describe, expect, it } from 'vitest'
import { parseMessage } from '#language/message'
import { findMessages } from '../../../app/_language/gather.mjs'
import german from '../../../app/_language/german.json'

type Element = { type: number; value?: string; options?: Record<string, { value: Element[] }>; children?: Element[] }

const parse = (message: string): Element[] => new IntlMessageFormat(message, 'en').getAst() as Element[]

/** The names in a message, as the library for ICU messages reads it: the outside source. */
function namesIn(message: string): string[] {
  const names = new Set<string>()
  const walk = (elements: Element[]) => {
    for (const { type, value, options, children } of elements) {
      // Plain text, and # in a plural.
      if (type === 0 || type === 7) continue
      names.add(type === 8 ? `<${value}>` : (value as string))
      for (const option of Object.values(options ?? {})) walk(option.value)
      walk(children ?? [])
    }
  }
  walk(parse(message))
  return [...names].sort()
}

describe('the catalogue', () => {
  let code: Awaited<ReturnType<typeof findMessages>>
  const translations: [string, string][] = Object.entries(german)

  beforeAll(async () => {
    code = await findMessages()
  }, 300_000)

  it('has every message written out where it is said', () => {
    expect(code.messages.length).toBeGreaterThan(7_000)
    expect(code.unreadable).toEqual([])
  })

  it('is of messages that can be read, by the library too', () => {
    for (const message of code.messages) {
      parseMessage(message)
      parse(message)
    }
  })

  it('sends the browser what its own components say, and little else', () => {
    expect(code.inBrowser).toContain('needed')
    expect(code.inBrowser.length).toBeLessThan(code.messages.length / 5)
  })

  it('is German with the same names in braces and the same elements', () => {
    const differing = translations.filter(([message, said]) => {
      parseMessage(said)
      return String(namesIn(message)) !== String(namesIn(said))
    })
    expect(differing).toEqual([])
  })

  it('has no German for what is not said any more', () => {
    const said = new Set(code.messages)
    expect(translations.map(([message]) => message).filter((message) => !said.has(message))).toEqual([])
  })

  it('is German for all that is said', () => {
    expect(code.messages.filter((message) => !(message in german))).toEqual([])
  })
})
