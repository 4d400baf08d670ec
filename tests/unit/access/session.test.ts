import { describe, expect, it } from 'vitest'
import { safeReturnPath } from '#lib/access/return-path'
import {
  endedCookie,
  isFormerGood,
  isRotationDue,
  isSessionOver,
  isUseToWrite,
  readCookie,
  sessionCookie,
  sessionCookieName,
} from '#lib/access/session'
import { addressKey } from '#lib/access/sign-in'

const minute = 60_000
const day = 24 * 60 * minute
const begun = Date.parse('2026-11-02T09:00:00Z')
const times = (over = {}) => ({
  ...{ createdAtMs: begun, usedAtMs: begun, rotatedAtMs: begun, expiresAtMs: begun + 30 * day },
  ...over,
})

describe('a device that is signed in', () => {
  it('is so for a week without use, and for a month in all', () => {
    expect(isSessionOver(times(), begun + 7 * day - 1)).toBe(false)
    expect(isSessionOver(times(), begun + 7 * day)).toBe(true)
    const used = times({ usedAtMs: begun + 29 * day })
    expect(isSessionOver(used, begun + 30 * day - 1)).toBe(false)
    expect(isSessionOver(used, begun + 30 * day)).toBe(true)
  })

  it('gets another secret daily, and the former is taken for a minute', () => {
    expect(isRotationDue(times(), begun + day - 1)).toBe(false)
    expect(isRotationDue(times(), begun + day)).toBe(true)
    expect(isFormerGood(times(), begun + minute - 1)).toBe(true)
    expect(isFormerGood(times(), begun + minute)).toBe(false)
  })

  it('has its last use written once in five minutes', () => {
    expect(isUseToWrite(times(), begun + 5 * minute - 1)).toBe(false)
    expect(isUseToWrite(times(), begun + 5 * minute)).toBe(true)
  })
})

/** A Set-Cookie line as RFC 6265bis, section 5.6 has a browser read it: attributes by their names in small letters. */
function attributesOf(line: string): { name: string; value: string; attributes: Record<string, string> } {
  const [pair = '', ...rest] = line.split(';').map((part) => part.trim())
  const at = pair.indexOf('=')
  const attributes = Object.fromEntries(
    rest.map((part) => {
      const [key = '', value = ''] = part.split('=')
      return [key.toLowerCase(), value]
    }),
  )
  return { name: pair.slice(0, at), value: pair.slice(at + 1), attributes }
}

describe('its cookie', () => {
  it('is kept from scripts and from other sites’ requests, over plain HTTP', () => {
    expect(attributesOf(sessionCookie('s3cret', { isHttps: false, lastsMs: 30 * day }))).toEqual({
      ...{ name: 'larder-session', value: 's3cret' },
      attributes: { path: '/', 'max-age': '2592000', httponly: '', samesite: 'Lax' },
    })
  })

  // RFC 6265bis, section 4.1.3.2: Secure, Path=/ and no Domain, or a browser does not take a cookie of that name.
  it('is, over HTTPS, of this host alone and sent by HTTPS alone', () => {
    const { name, attributes } = attributesOf(sessionCookie('s3cret', { isHttps: true, lastsMs: 1_500 }))
    expect(name).toBe('__Host-larder-session')
    expect(attributes).toEqual({ path: '/', 'max-age': '1', httponly: '', samesite: 'Lax', secure: '' })
    expect(attributes).not.toHaveProperty('domain')
  })

  it('is taken back under the name and path it was given', () => {
    for (const isHttps of [true, false])
      expect(attributesOf(endedCookie(isHttps))).toMatchObject({
        ...{ name: sessionCookieName(isHttps), value: '' },
        attributes: { path: '/', 'max-age': '0' },
      })
  })

  it('is read from among others, and not where two of its name say different things', () => {
    expect(readCookie('a=1; larder-session=abc ; b=2', 'larder-session')).toBe('abc')
    expect(readCookie('xlarder-session=abc', 'larder-session')).toBeNull()
    expect(readCookie('larder-session=abc; larder-session=abd', 'larder-session')).toBeNull()
    expect(readCookie(undefined, 'larder-session')).toBeNull()
  })
})

describe('where one goes after signing in', () => {
  it.each([
    ['/charts?page=2', '/charts?page=2'],
    ['/designs/d1', '/designs/d1'],
    ['/sign-in-sheet', '/sign-in-sheet'],
  ])('%s is a page of this server', (asked, path) => {
    expect(safeReturnPath(asked)).toBe(path)
  })

  it.each([
    'https://elsewhere.example/',
    '//elsewhere.example',
    '/\\elsewhere.example',
    '/\t/elsewhere.example',
    '/..//elsewhere.example',
    '/.//elsewhere.example',
    'javascript:alert(1)',
    'charts',
    '/sign-in?to=/',
    '/sign-out',
    '/api/v1/threads',
    '/charts\r\nset-cookie: a=b',
    `/${'x'.repeat(1_001)}`,
    '',
    null,
  ])('%s is not', (asked) => {
    expect(safeReturnPath(asked)).toBe('/')
  })
})

describe('whose tries are counted together', () => {
  // The first 64 bits of an address are what a provider gives a household (RFC 6177).
  it.each([
    ['192.0.2.7', '192.0.2.7'],
    ['::ffff:192.0.2.7', '192.0.2.7'],
    ['2001:db8:1:2:3:4:5:6', '2001:db8:1:2'],
    ['2001:0DB8:0001:0002::1', '2001:db8:1:2'],
    ['2001:db8::1', '2001:db8:0:0'],
    ['fe80::1%eth0', 'fe80:0:0:0'],
    ['::1', '0:0:0:0'],
  ])('%s counts as %s', (address, key) => {
    expect(addressKey(address)).toBe(key)
  })
})
