import { describe, expect, it } from 'vitest'
import { findPasskeyPlace, isCounterGoingOn, isLastWayIn, readChallenge } from '#lib/access/passkey'

describe('where passkeys can be made', () => {
  it.each([
    ['localhost:4270', 'http', 'localhost', 'http://localhost:4270'],
    ['localhost', 'https', 'localhost', 'https://localhost'],
    ['shop.localhost:4270', 'http', 'shop.localhost', 'http://shop.localhost:4270'],
    ['larder.oxmarsh.example', 'https', 'larder.oxmarsh.example', 'https://larder.oxmarsh.example'],
    ['Larder.Oxmarsh.Example:443', 'https', 'larder.oxmarsh.example', 'https://larder.oxmarsh.example'],
    ['larder.oxmarsh.example:8443', 'https', 'larder.oxmarsh.example', 'https://larder.oxmarsh.example:8443'],
  ])('%s by %s', (host, protocol, rpId, origin) => {
    expect(findPasskeyPlace(host, protocol)).toEqual({ ok: true, value: { rpId, origin } })
  })

  it.each([
    ['127.0.0.1:4270', 'http'],
    ['192.168.1.20:4270', 'http'],
    ['192.168.1.20', 'https'],
    ['[::1]:4270', 'http'],
    ['2130706433', 'https'],
  ])('not at numbers: %s by %s', (host, protocol) => {
    expect(findPasskeyPlace(host, protocol)).toMatchObject({ ok: false, error: { kind: 'no-name' } })
  })

  it.each(['larder.oxmarsh.example', 'larder', 'localhost.oxmarsh.example:4270'])('not without HTTPS: %s', (host) => {
    expect(findPasskeyPlace(host, 'http')).toMatchObject({ ok: false, error: { kind: 'not-secure' } })
  })

  it.each(['', ' ', 'a b', 'larder/evil', 'nell@larder', 'larder?', 'larder\\evil', 'larder:port', '['])('not at %j', (host) => {
    expect(findPasskeyPlace(host, 'https')).toEqual({ ok: false, error: { kind: 'no-host' } })
  })
})

// W3C Web Authentication Level 3, section 7.2, step 22, case by case.
it.each([
  [0, 0, true],
  [0, 1, true],
  [4, 5, true],
  [4, 900, true],
  [4, 4, false],
  [4, 3, false],
  [4, 0, false],
])('a counter kept as %i and sent as %i goes on: %s', (kept, sent, isGoingOn) => {
  expect(isCounterGoingOn(kept, sent)).toBe(isGoingOn)
})

it('tells the last way in', () => {
  expect(isLastWayIn({ hasPassword: false, passkeyIds: ['a'] }, 'a')).toBe(true)
  expect(isLastWayIn({ hasPassword: false, passkeyIds: ['a', 'b'] }, 'a')).toBe(false)
  expect(isLastWayIn({ hasPassword: true, passkeyIds: ['a'] }, 'a')).toBe(false)
})

it('reads what was to be signed, and nothing from what does not read', () => {
  const written = (value: unknown) => Buffer.from(JSON.stringify(value)).toString('base64url')
  expect(readChallenge(written({ type: 'webauthn.get', challenge: 'AbC-_1' }))).toBe('AbC-_1')
  for (const value of [{}, { challenge: 1 }, { challenge: '' }, { challenge: 'a b' }, { challenge: 'a'.repeat(201) }, null, []])
    expect(readChallenge(written(value))).toBeNull()
  expect(readChallenge('AAAA')).toBeNull()
})
