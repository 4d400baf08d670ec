import { IntlMessageFormat } from 'intl-messageformat'
import { afterEach, describe, expect, it } from 'vitest'
import { keepCatalogues } from '#language/catalogues'
import { chooseLanguage } from '#language/choose'
import { formatDate } from '#language/day'
import { dayText, listText, numberText } from '#language/figures'
import { findLanguage, type Language } from '#language/languages'
import { formatClothLength, formatThreadLength } from '#language/lengths'
import { parseMessage } from '#language/message'
import { say, sayings } from '#language/say'
import { trialMessage } from '#language/trial'
import { whileAsking } from '#lib/db/access/asking'
import { parseCount } from '#lib/quantity/count'
import { counted, plural, putUpMeant, singular } from '#words/amounts'
import { countWords } from '#words/cloth-count'

type Kept = { larderMessages?: Record<string, Record<string, string>> }
const kept = globalThis as Kept

/** As somebody whose pages are in a language, with these messages in its catalogue. */
const inLanguage = <T>(language: string, messages: Record<string, string>, work: () => T): T => {
  kept.larderMessages = { ...kept.larderMessages, [language]: messages }
  return whileAsking({ who: { kind: 'program' }, address: '', onceKey: null, language }, work)
}
afterEach(() => {
  delete kept.larderMessages
})

/** What the library for ICU messages makes of one: the outside source. */
const byLibrary = (message: string, tag: string, values: Record<string, unknown>): unknown =>
  new IntlMessageFormat(message, tag).format(values as never)

describe('a message', () => {
  const cases: [string, Record<string, string | number>[]][] = [
    ['Nothing is left on this list.', [{}]],
    [
      'Kept by {name} since {day}',
      [
        { name: 'Nell', day: 'Tue 8 Sep 2026' },
        { name: "O'Hara {x}", day: '' },
      ],
    ],
    ['{count, number} in all', [{ count: 0 }, { count: 1_240.5 }]],
    ['{count, plural, one {# tick} other {# ticks}} waiting', [0, 1, 2, 5, 21, 1_000].map((count) => ({ count }))],
    ['{count, plural, =0 {none} =1 {a lone one} other {all #}}', [0, 1, 2].map((count) => ({ count }))],
    ['{n, selectordinal, one {#st} two {#nd} few {#rd} other {#th}}', [1, 2, 3, 4, 11, 22, 103].map((n) => ({ n }))],
    [
      '{who, select, own {yours, {name}} other {theirs}}',
      [
        { who: 'own', name: 'x' },
        { who: 'else', name: 'x' },
      ],
    ],
    [
      '{a, plural, one {{b, plural, one {# of one} other {# of #}}} other {#}} end',
      [
        { a: 1, b: 1 },
        { a: 1, b: 7 },
        { a: 3, b: 1 },
      ],
    ],
    ["It's ''quoted'', '{'braces'}' and a < b", [{}]],
    ["{n, plural, other {'#' is #}}", [{ n: 3 }]],
  ]

  it.each(cases)('says %j as the library does', (message, given) => {
    for (const values of given) expect(say(message, values)).toBe(byLibrary(message, 'en-GB', values))
  })

  it('chooses by the plural rules of its language, as CLDR has them', () => {
    const german = '{count, plural, one {# Docke} other {# Docken}}'
    for (const count of [-1, 0, 1, 1.5, 2, 999, 1_000])
      expect(inLanguage('de', { m: german }, () => say('m', { count }))).toBe(byLibrary(german, 'de', { count }))
    // Intl knows more rules than two: the trial language’s own tag is Arabic, which has all six.
    const six = '{count, plural, zero {zero} one {one} two {two} few {few} many {many} other {other}}'
    for (const count of [0, 1, 2, 3, 11, 100])
      expect(inLanguage('trial', { m: six }, () => say('m', { count }))).toBe(byLibrary(six, 'ar', { count }))
  })

  it.each(['{', '{a', '{a, plural}', '{a, plural, one {x}}', '<b>x', 'x</b>', '<b>x</i>', '{a, select, other {x}', 'x}'])(
    'is refused where it is none: %j',
    (message) => {
      expect(() => parseMessage(message)).toThrow(RangeError)
      if (message !== 'x}') expect(() => byLibrary(message, 'en', {})).toThrow()
    },
  )

  it('is English where nobody is answered, and where there is no translation', () => {
    expect(say('Find')).toBe('Find')
    expect(inLanguage('de', { Find: 'Suchen' }, () => [say('Find'), say('Charts')])).toEqual(['Suchen', 'Charts'])
  })

  it('isolates what stands in it where words run from right to left', () => {
    expect(inLanguage('trial', {}, () => say('Kept by {name}', { name: 'Nell' }))).toBe('Kept by \u2068Nell\u2069')
  })
})

describe('what is counted', () => {
  it('may be called by any word', () => {
    expect([counted(1, 'skein'), counted(1_240, 'box'), counted(2, "a{b}'s <i>#")]).toEqual([
      '1 skein',
      '1,240 boxes',
      "2 a{b}'s <i>#s",
    ])
    expect(["a{b}'s <i>#", 'box'].map((word) => [singular(word), plural(word)])).toEqual([
      ["a{b}'s <i>#", "a{b}'s <i>#s"],
      ['box', 'boxes'],
    ])
    const german = { '{as, select, other {skein}}': 'Docke', '{as, select, other {skeins}}': 'Docken' }
    expect(inLanguage('de', german, () => [singular('skein'), plural('skein'), plural('bag')])).toEqual([
      'Docke',
      'Docken',
      'bags',
    ])
    // What is typed in one language is stored in the other.
    expect(inLanguage('de', german, () => ['docke', 'skein', 'Beutel'].map(putUpMeant))).toEqual(['skein', 'skein', 'Beutel'])
  })

  it('is a count that is read again in its language', () => {
    const count = { threads: 28, perUm: 25_400 }
    const said = () => [countWords(count, count), say('{count} over {over}', { count: '28', over: 2 })]
    const german = { '{figures} count': '{figures} ct', '{count} over {over}': '{count} über {over}' }
    for (const [ends, over] of [said(), inLanguage('de', german, said)]) {
      expect(parseCount(ends as string)?.ends).toEqual(count)
      expect(parseCount(over as string)?.over).toBe(2)
    }
  })
})

describe('a table of words', () => {
  const words = sayings({ open: 'open', inner: { many: 'many', by: (count: number) => say('{count, number} of it', { count }) } })

  it('is said anew whenever it is looked into', () => {
    expect(words.open).toBe('open')
    inLanguage('de', { open: 'offen', many: 'viele', '{count, number} of it': '{count, number} davon' }, () => {
      expect(words.open).toBe('offen')
      expect(words.inner.many).toBe('viele')
      expect(words.inner.by(1_240)).toBe('1.240 davon')
      expect({ ...words }.open).toBe('offen')
    })
  })
})

describe('figures and days', () => {
  it('are as the language writes them', () => {
    const written = () => [
      numberText(1_240.5),
      say('{gap} apart', { gap: 12.5 }),
      listText(['a', 'b', 'c']),
      formatClothLength(406_000, 'cm'),
      formatThreadLength(131_600, 'm'),
      dayText(new Date('2026-09-08T00:00Z'), { day: 'numeric', month: 'long', year: 'numeric', timeZone: 'UTC' }),
    ]
    expect(written()).toEqual(['1,240.5', '12.5 apart', 'a, b and c', '40.6 cm', '13.16 m', '8 September 2026'])
    // Duden, "Zahlen und Ziffern" and "Komma": the comma before parts of a whole, none before "und"; DIN 5008: the day with a full stop.
    expect(inLanguage('de', {}, written)).toEqual([
      '1.240,5',
      '12,5 apart',
      'a, b und c',
      '40,6 cm',
      '13,16 m',
      '8. September 2026',
    ])
    expect(inLanguage('de', {}, () => formatDate('2026-09-08'))).toMatch(/^Di\.?, 8\. Sept?\.? 2026$/)
    expect(formatDate('2026-09-08')).toBe('Tue 8 Sep 2026')
  })

  it.each(['en', 'de', 'trial'] as const)('have small counts written in %s as Intl writes them', (key) => {
    const { tag, figuresTag } = findLanguage(key) as Language
    const intl = new Intl.NumberFormat(figuresTag ?? tag)
    for (let count = 0; count <= 1_000; count++) expect(inLanguage(key, {}, () => numberText(count))).toBe(intl.format(count))
  })
})

describe('the language to answer in', () => {
  const asked = (acceptLanguage: string | null, cookie: string | null = null) => chooseLanguage({ cookie, acceptLanguage }).key

  it('is the one chosen on the device, else the first the browser asks for that there is, else English', () => {
    expect(asked('de', 'en')).toBe('en')
    expect(asked('en-GB,en;q=0.9', 'de')).toBe('de')
    expect(asked('de-AT,de;q=0.9,en;q=0.8')).toBe('de')
    // RFC 9110, 12.5.4: a weight says how much it is wished for, nought that it is not.
    expect(asked('en;q=0.2, fr;q=0.9, de;q=0.5')).toBe('de')
    expect(asked('de;q=0, en')).toBe('en')
    expect(asked('fr')).toBe('en')
    expect(asked('den')).toBe('en')
    expect(asked(null)).toBe('en')
    expect(asked('de', 'xx')).toBe('de')
  })

  it('is the trial one only where tests allow it', () => {
    expect(asked(null, 'trial')).toBe('en')
    expect(chooseLanguage({ cookie: 'trial', acceptLanguage: null }, true).direction).toBe('rtl')
  })
})

describe('the trial language', () => {
  it('marks and lengthens every word, and leaves what stands in a message', () => {
    const message = "{count, plural, one {# tick} other {# ticks}} of <b>{name}</b>, '{'that'}'"
    const made = trialMessage(message)
    const b = (parts: string[]) => parts.join('')
    expect(byLibrary(made, 'en', { count: 2, name: 'Nell', b })).toBe('2 tîçksøø õfø Nell, {thàtøø}')
  })
})

describe('catalogues', () => {
  it('are kept for the server when the program starts', () => {
    keepCatalogues()
    expect(Object.keys(kept.larderMessages ?? {})).toEqual(['de'])
  })
})
