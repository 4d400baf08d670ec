import { describe, expect, it } from 'vitest'
import { admit, type House, isLoopbackHost, type Knock } from '#lib/access/admit'
import { roles, type SignedIn, type Who } from '#lib/access/who'

const atHome: House = { hasAccounts: false, isOnNetwork: false, isDevelopment: false }
const withPeople: House = { hasAccounts: true, isOnNetwork: true, isDevelopment: false }

const aKnock = (over: Partial<Knock> = {}): Knock => ({
  ...{ method: 'GET', target: '/charts?page=2', host: '127.0.0.1:4270', site: null, origin: null, accept: 'text/html' },
  ...{ isRouterFetch: false, isFormFetch: false, hasToken: false, isForwarded: false, contentLength: null },
  ...over,
})
const alone: Who = { kind: 'alone' }
const nobody: Who = { kind: 'nobody' }
const account = (over: Partial<SignedIn> = {}): SignedIn => ({
  ...{ kind: 'account', accountId: 'a1', name: 'Joss Tarrow', role: 'helper', ownerIds: null },
  by: { kind: 'session', sessionId: 's1' },
  ...over,
})
const byToken = account({ by: { kind: 'token', tokenId: 't1', scope: 'change' } })

describe('without accounts', () => {
  it.each(['127.0.0.1:4270', '127.0.0.1', 'localhost:4270', 'LOCALHOST', '[::1]:4270', '127.4.5.6:80'])(
    '%s is let in',
    (host) => {
      expect(admit(aKnock({ host }), alone, atHome)).toEqual({ kind: 'in' })
    },
  )

  // DNS rebinding: a name of somebody else's made to lead to 127.0.0.1.
  it.each([
    'larder.example',
    'localhost.example',
    '127.0.0.1.example:4270',
    '192.168.1.7:4270',
    '[::2]',
    '128.0.0.1',
    '',
    'localhost:x',
    null,
  ])('%s is not', (host) => {
    expect(admit(aKnock({ host }), alone, atHome)).toEqual({ kind: 'refused', why: 'foreign-host' })
  })

  it('nothing that came through another server is', () => {
    expect(admit(aKnock({ isForwarded: true }), alone, atHome)).toEqual({ kind: 'refused', why: 'forwarded' })
  })

  it('nothing at all is, where a network hears it', () => {
    for (const host of ['127.0.0.1:4270', '192.168.1.7'])
      expect(admit(aKnock({ host }), alone, { ...atHome, isOnNetwork: true })).toEqual({ kind: 'refused', why: 'no-keeper' })
  })
})

describe('what changes something', () => {
  const post = { method: 'POST', target: '/charts/c1', host: 'larder.example', contentLength: 200 }

  it.each([
    ['cross-site by the browser’s own word', { site: 'cross-site', origin: null }],
    ['from a sibling of this host', { site: 'same-site', origin: 'https://other.larder.example' }],
    ['of another origin', { site: null, origin: 'https://elsewhere.example' }],
    ['of another port', { site: null, origin: 'http://larder.example:8080' }],
    ['of no origin that can be told', { site: null, origin: 'null' }],
  ])('is refused to a page %s, whoever sits there', (_what, from) => {
    const why = { kind: 'refused', why: 'other-site' }
    for (const method of ['POST', 'PUT', 'PATCH', 'DELETE', 'PROPFIND'])
      expect(admit(aKnock({ ...post, ...from, method }), account(), withPeople)).toEqual(why)
    expect(admit(aKnock({ ...post, ...from, host: '127.0.0.1:4270' }), alone, atHome)).toEqual(why)
    expect(admit(aKnock({ ...post, ...from, target: '/sign-in/enter' }), nobody, withPeople)).toEqual(why)
  })

  it('is let through from this server’s own pages, from the person’s own hand, and from programs', () => {
    for (const from of [
      { site: 'same-origin', origin: 'https://larder.example' },
      { site: 'none', origin: null },
      { site: null, origin: null },
      { site: null, origin: 'http://LARDER.example' },
    ])
      expect(admit(aKnock({ ...post, ...from }), account(), withPeople)).toEqual({ kind: 'in' })
  })

  it('needs no such word of a program that signs in by its token alone', () => {
    expect(admit(aKnock({ ...post, origin: 'https://elsewhere.example', hasToken: true }), byToken, withPeople)).toEqual({
      kind: 'in',
    })
  })

  it('is not larger than what is taken there', () => {
    const large = { method: 'POST', contentLength: 64_000_001 }
    const refused = { kind: 'refused', why: 'too-large' }
    expect(admit(aKnock({ ...large, target: '/charts/c1' }), account(), withPeople)).toEqual(refused)
    expect(admit(aKnock({ ...large, target: '/archive/given' }), account(), withPeople)).toEqual({ kind: 'in' })
    expect(admit(aKnock({ ...large, target: '/api/v1/backups/brought-in' }), account(), withPeople)).toEqual({ kind: 'in' })
  })
})

describe('whoever has not signed in', () => {
  it('is led to the sign-in page, and back to where they were going', () => {
    expect(admit(aKnock(), nobody, withPeople)).toEqual({ kind: 'sign-in', returnTo: '/charts?page=2' })
    expect(admit(aKnock({ target: '//elsewhere.example/' }), nobody, withPeople)).toEqual({ kind: 'sign-in', returnTo: '/' })
    const part = { accept: '*/*', isRouterFetch: true }
    expect(admit(aKnock(part), nobody, withPeople)).toEqual({ kind: 'sign-in', returnTo: '/charts?page=2' })
  })

  it.each(['/api/v1/threads', '/API', '/api', '//api/v1/threads', '/photos/p1-large.webp', '/archive/files/a.zip'])(
    'gets a sentence at %s where a program asks',
    (target) => {
      expect(admit(aKnock({ target, accept: '*/*' }), nobody, withPeople).kind).toBe('refused')
    },
  )

  it.each([
    '/sign-in',
    '/sign-in?to=%2Fcharts',
    '/_next/static/chunks/main.js',
    '/icon.svg',
    '/icons/larder-192.png',
    '/worker.js',
    '/manifest.webmanifest',
    '/api/v1/health',
    '/api/v1/ready',
    '/calendar/feed/abcDEF_-123.ics',
  ])('gets %s', (target) => {
    expect(admit(aKnock({ target, accept: '*/*' }), nobody, withPeople)).toEqual({ kind: 'in' })
  })

  it.each([
    '/_next/static/../../settings',
    '/_next/static/%2e%2e/%2e%2e/settings',
    '/_next/static/..%2f..%2fsettings',
    '/_next/static\\..\\..\\settings',
    '/_next/static//settings',
    '/_next/image?url=%2Fphotos%2Fp1.webp',
    '/_next/webpack-hmr',
    '/calendar/feed/../../settings.ics',
    '/calendar/feed/abc.ics/more',
    '/api/v1/health/../threads',
    '/api/v1/healthy',
    '/sign-in/',
    '/sign-inn',
    '/%73ign-in',
  ])('does not get past by %s', (target) => {
    expect(admit(aKnock({ target, accept: '*/*' }), nobody, withPeople).kind).toBe('refused')
  })

  it('can send no page’s form, to the sign-in page either: any form may be sent to any page', () => {
    for (const target of ['/sign-in', '/charts', '/sign-in/enter'])
      expect(admit(aKnock({ method: 'POST', target, isFormFetch: true, contentLength: 90 }), nobody, withPeople).kind).not.toBe(
        'in',
      )
    expect(admit(aKnock({ method: 'POST', target: '/sign-in', contentLength: 90 }), nobody, withPeople).kind).not.toBe('in')
  })

  it('can send a name and a password, and nothing that would fill the memory', () => {
    const enter = { method: 'POST', target: '/sign-in/enter', site: 'same-origin' }
    expect(admit(aKnock({ ...enter, contentLength: 90 }), nobody, withPeople)).toEqual({ kind: 'in' })
    for (const contentLength of [30_001, null])
      expect(admit(aKnock({ ...enter, contentLength }), nobody, withPeople)).toEqual({ kind: 'refused', why: 'too-large' })
  })

  it('is told so where a token was sent that is none', () => {
    expect(admit(aKnock({ target: '/api/v1/threads', hasToken: true }), nobody, withPeople)).toEqual({
      kind: 'refused',
      why: 'bad-token',
    })
  })
})

it.each(roles)('a %s is let in everywhere: what they may do there is asked where it is done', (role) => {
  for (const target of ['/', '/settings/backups', '/api/v1/backups', '/_next/image?url=x'])
    expect(admit(aKnock({ target, host: 'larder.example' }), account({ role }), withPeople)).toEqual({ kind: 'in' })
})

it('tells an address of this machine from a name that begins like one', () => {
  expect(['localhost', '127.0.0.1:1', '[::1]'].every(isLoopbackHost)).toBe(true)
  expect(['localhost.evil.example', '127.0.0.1@evil.example', '0.0.0.0', '[::]', '127.1'].some(isLoopbackHost)).toBe(false)
})
