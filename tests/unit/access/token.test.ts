import { describe, expect, it } from 'vitest'
import { readToken, writeToken } from '#lib/access/token'

const zeros = writeToken(new Uint8Array(32))

describe('a token', () => {
  it('is its mark, 256 bits in base64url, and the check', () => {
    expect(zeros).toMatch(/^larder_A{43}[\w-]{6}$/)
    expect(writeToken(new Uint8Array(32).fill(255))).toMatch(/^larder_(_{42}8)[\w-]{6}$/)
  })

  it('ends with CRC-32 of what stands before: a slow CRC, bit by bit, says the same', () => {
    // ITU-T V.42, section 8.1.1.6.2: polynomial 0xEDB88320 reflected, all ones before and after.
    const slowly = (text: string) => {
      let sum = 0xffffffff
      for (const byte of Buffer.from(text)) {
        sum ^= byte
        for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1
      }
      return (sum ^ 0xffffffff) >>> 0
    }
    // The check value every catalogue of CRCs gives for these nine digits.
    expect(slowly('123456789')).toBe(0xcbf43926)
    const check = Buffer.from(zeros.slice(-6), 'base64url').readUInt32BE()
    expect(check).toBe(slowly(zeros.slice(0, -6)))
  })

  it('reads back, white space around it left out', () => {
    expect(readToken(zeros)).toEqual({ ok: true, value: zeros })
    expect(readToken(` ${zeros}\n`)).toEqual({ ok: true, value: zeros })
  })

  it.each([
    ['a letter wrong', zeros.replace('AAAA', 'AABA')],
    ['two letters changed about', `${zeros.slice(0, -2)}${zeros.at(-1)}${zeros.at(-2)}`],
    ['cut short', zeros.slice(0, -1)],
    ['a letter too many', `${zeros}A`],
    ['a letter no token has', zeros.replace('AAAA', 'AA+A')],
    ['the mark alone', 'larder_'],
  ])('tells a slip of the hand: %s', (_, text) => {
    expect(readToken(text)).toEqual({ ok: false, error: { kind: 'mistyped' } })
  })

  it('tells what is something else altogether', () => {
    for (const text of ['', 'hunter2', zeros.slice(1), 'Larder_', zeros.toUpperCase()])
      expect(readToken(text)).toEqual({ ok: false, error: { kind: 'not-a-token' } })
  })

  it('is never made of too few bytes', () => {
    expect(() => writeToken(new Uint8Array(16))).toThrow(RangeError)
  })
})
