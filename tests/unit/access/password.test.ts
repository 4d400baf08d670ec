import { describe, expect, it } from 'vitest'
import { refusePassword, sameText } from '#lib/access/password'

// NIST SP 800-63B-4, section 3.1.1.2: length counts, no mixture is asked for, any character is taken, what is guessed first is refused.
describe('a password', () => {
  it.each([
    'correct horse battery staple',
    'rooks over the linen press',
    'жёлтая нитка семь',
    '🧵🪡🧶🪢🧵🪡🧶🪢🧵🪡🧶🪢 and so on',
    '!?%&/()=+*#~!?%',
  ])('may be %s', (password) => {
    expect(refusePassword(password, 'Nell Oxtoby')).toBeNull()
  })

  it('has twelve characters or more, as a person counts them', () => {
    expect(refusePassword('linen press', 'Nell')).toEqual({ kind: 'too-short', least: 12 })
    expect(refusePassword('linen pressx', 'Nell')).toBeNull()
    // Eleven needles are 22 units of UTF-16.
    expect(refusePassword('🪡'.repeat(11), 'Nell')).toEqual({ kind: 'too-short', least: 12 })
  })

  it('has two hundred at most', () => {
    const own = Array.from({ length: 200 }, (_, at) => String.fromCodePoint(0x4e00 + at * 7)).join('')
    expect(refusePassword(own, 'Nell')).toBeNull()
    expect(refusePassword(`${own}x`, 'Nell')).toEqual({ kind: 'too-long', most: 200 })
  })

  it.each([
    ['the name', 'Nell Oxtoby Nell'],
    ['the name with a year', 'nelloxtoby2026'],
    ['its parts the other way round', 'Oxtoby, Nell!!'],
    ['the program', 'Chart Larder 1'],
    ['the program and the name', 'chartlarder-nell'],
    ['a well-known word with figures', 'Password1234!'],
    ['a word with its letters accented', 'pässwörd 12345'],
    ['one character over and over', 'aaaaaaaaaaaaaa'],
    ['two taking turns', 'ababababababab'],
    ['one piece over and over', 'ab1!ab1!ab1!ab1!'],
    ['figures in their order', '123456789012'],
    ['letters in their order', 'abcdefghijklmnop'],
    ['letters in their order, spaced', 'a b c d e f g h i j k l m n o'],
    ['letters the other way', 'zyxwvutsrqponm'],
    ['a row of keys', 'qwertyuiop12345'],
    ['rows of keys', 'asdfghjklzxcvbnm'],
  ])('is not %s', (_what, password) => {
    expect(refusePassword(password, 'Nell Oxtoby')).toEqual({ kind: 'too-plain' })
  })

  it('is one text however two keyboards write its letters', () => {
    expect(sameText('café au lait ①')).toBe(sameText('cafe\u0301 au lait 1'))
  })
})
