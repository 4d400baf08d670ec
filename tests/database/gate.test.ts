import { request as ask, createServer, type IncomingHttpHeaders, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { addAccount } from '#lib/db/access/accounts'
import { asking } from '#lib/db/access/asking'
import { accountsChanged } from '#lib/db/access/known-accounts'
import { startSession } from '#lib/db/access/sessions'
import { makeToken } from '#lib/db/access/tokens'
import { type Gate, type Listening, registerGate } from '../../app/_gate/gate'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'

const dayMs = 24 * 3_600_000

describeOnEachEngine('the gate', ({ open }) => {
  let listening: Listening = { host: '127.0.0.1', isDevelopment: false, proxies: 0, isInner: false }
  let server: Server
  let seen: { who: string; address: string; headers: IncomingHttpHeaders } | null = null

  beforeAll(async () => {
    accountsChanged()
    registerGate()
    const { larderGate } = globalThis as unknown as { larderGate: Gate }
    server = createServer((incoming, response) => {
      void larderGate.admit(incoming, response, listening, async () => {
        await open().prisma.owner.count()
        const request = asking()
        const name = request?.who.kind === 'account' ? request.who.name : (request?.who.kind ?? '')
        seen = { who: name, address: request?.address ?? '', headers: { ...incoming.headers } }
        response.end('let in')
      })
    })
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve))
  })
  afterAll(async () => {
    delete (globalThis as unknown as { larderGate?: Gate }).larderGate
    await new Promise((resolve) => server.close(resolve))
    accountsChanged()
  })

  type Answer = { status: number; headers: IncomingHttpHeaders; body: string }
  function get(headers: Record<string, string> = {}, target = '/places', method = 'GET'): Promise<Answer> {
    seen = null
    const { port } = server.address() as AddressInfo
    return new Promise((resolve, reject) => {
      const sent = ask(
        { host: '127.0.0.1', port, path: target, method, headers: { connection: 'close', ...headers } },
        (answer) => {
          let body = ''
          answer.setEncoding('utf8')
          answer.on('data', (text) => {
            body += text
          })
          answer.on('end', () => resolve({ status: answer.statusCode ?? 0, headers: answer.headers, body }))
        },
      )
      sent.on('error', reject)
      sent.end()
    })
  }
  const asPage = { accept: 'text/html' }

  it('lets the program ask itself for the page a form leads to, as whoever sent the form, and nobody else at that door', async () => {
    const origin = { 'sec-fetch-site': 'same-origin', host: '127.0.0.1' }
    await get({ ...origin, 'next-action': 'a1' }, '/places/new', 'POST')
    const word = String(seen?.headers['larder-inside'])
    expect(word).toMatch(/^[\w-]{24}$/)
    // Asked for outside, a page does not learn it.
    await get({ ...asPage, 'larder-inside': word })
    expect(seen?.headers).not.toHaveProperty('larder-inside')
    const before = listening
    listening = { ...before, isInner: true }
    try {
      // As Next sends it on: the form's own headers and what the gate and Next said of where it came from.
      const within = {
        rsc: '1',
        'x-forwarded-for': '203.0.113.9',
        'x-forwarded-proto': 'https',
        'x-forwarded-host': '127.0.0.1:4270',
      }
      expect(await get({ ...within, 'larder-inside': word })).toMatchObject({ status: 200, body: 'let in' })
      expect(seen).toMatchObject({ who: 'alone', address: '203.0.113.9', headers: { 'x-forwarded-proto': 'https' } })
      expect((await get(within)).status).toBe(403)
      expect((await get({ ...within, 'larder-inside': 'guessed' })).status).toBe(403)
      expect((await get({ ...asPage, 'larder-inside': word })).status).toBe(403)
      expect((await get({ ...within, 'larder-inside': word }, '/places', 'POST')).status).toBe(403)
      expect((await get({ ...within, 'larder-inside': word, 'x-forwarded-host': 'larder.example' })).status).toBe(403)
      expect(seen).toBeNull()
    } finally {
      listening = before
    }
  })

  it('takes whoever sits at this machine as alone, by this machine’s own addresses and by nothing between', async () => {
    expect(await get(asPage)).toMatchObject({ status: 200, body: 'let in' })
    expect(seen).toMatchObject({ who: 'alone', address: '127.0.0.1' })
    // By it a device keeps apart what different people saw; what is built is everybody's.
    expect((await get(asPage)).headers['larder-whose']).toBe('alone')
    expect((await get({}, '/_next/static/chunks/a.js')).headers).not.toHaveProperty('larder-whose')
    const rebound = await get({ ...asPage, host: 'larder.example' })
    expect(rebound).toMatchObject({ status: 403, headers: { 'content-type': 'text/plain; charset=utf-8' } })
    expect(rebound.body).toContain('npm run account')
    expect((await get({ ...asPage, 'x-forwarded-for': '203.0.113.9' })).status).toBe(403)
    expect(seen).toBeNull()
  })

  it('lets nobody in by a network while nobody keeps house', async () => {
    listening = { ...listening, host: '0.0.0.0' }
    const answer = await get({}, '/api/v1/owners')
    expect(answer.status).toBe(503)
    expect(JSON.parse(answer.body)).toMatchObject({ type: '/reference#problem-not-open' })
  })

  it('knows a device by its cookie and a program by its token, and shows neither to what is behind it', async () => {
    const account = granted(
      await addAccount({ name: 'Nell Oxtoby', role: 'keeper', password: 'rooks over the linen press', ownerIds: null }),
    )
    const { secret } = granted(await startSession({ accountId: account.id, how: 'password', device: '', address: '' }))
    const { text } = granted(await makeToken({ accountId: account.id, label: 'Till', scope: 'read', expiresAt: null }))

    expect(await get(asPage)).toMatchObject({ status: 303, headers: { location: '/sign-in?to=%2Fplaces' } })
    expect((await get(asPage)).headers['larder-whose']).toBe('nobody')
    const refused = await get({ host: 'larder.example' }, '/api/v1/owners')
    expect(refused).toMatchObject({ status: 401, headers: { 'www-authenticate': 'Bearer', 'cache-control': 'no-store' } })

    expect((await get({ ...asPage, host: 'larder.example', cookie: `larder-session=${secret}` })).status).toBe(200)
    expect(seen?.who).toBe('Nell Oxtoby')
    const whose = async () => (await get({ ...asPage, cookie: `larder-session=${secret}` })).headers['larder-whose']
    const before = await whose()
    expect(before).toMatch(/^[\w-]{22}$/)
    expect(account.id).not.toContain(before)
    // The same person with less to see is somebody else to a device.
    await open().prisma.account.update({ where: { id: account.id }, data: { role: 'looker' } })
    accountsChanged()
    expect(await whose()).not.toBe(before)
    await open().prisma.account.update({ where: { id: account.id }, data: { role: 'keeper' } })
    accountsChanged()
    expect(
      (await get({ authorization: `Bearer ${text}`, origin: 'https://elsewhere.example' }, '/api/v1/owners', 'POST')).status,
    ).toBe(200)
    expect(seen?.headers.authorization).toBeUndefined()
    // A cookie does not make up for a token that is none.
    expect((await get({ authorization: 'Bearer none', cookie: `larder-session=${secret}` })).status).toBe(401)
    expect(
      (await get({ cookie: `larder-session=${secret}`, origin: 'https://elsewhere.example' }, '/places', 'POST')).status,
    ).toBe(403)
  })

  it('believes servers in front of it as far as it was told of them', async () => {
    const { id } = await open().prisma.account.findFirstOrThrow({ select: { id: true } })
    const { secret, sessionId } = granted(await startSession({ accountId: id, how: 'password', device: '', address: '' }))
    const through = {
      ...{ ...asPage, host: 'inside:4270', 'x-forwarded-host': 'larder.example', 'x-forwarded-proto': 'https' },
      'x-forwarded-for': '198.51.100.1, 203.0.113.9',
    }
    listening = { ...listening, proxies: 0 }
    await get({ ...through, cookie: `larder-session=${secret}` })
    expect(seen).toMatchObject({ address: '127.0.0.1', headers: { host: 'inside:4270', 'x-forwarded-proto': 'http' } })
    expect(seen?.headers).not.toHaveProperty('x-forwarded-for')

    listening = { ...listening, proxies: 1 }
    // Over HTTPS only the cookie counts that a browser sends by HTTPS alone.
    expect((await get({ ...through, cookie: `larder-session=${secret}` })).status).toBe(303)
    const answer = await get({ ...through, cookie: `__Host-larder-session=${secret}` })
    expect(answer).toMatchObject({ status: 200, headers: { 'strict-transport-security': 'max-age=31536000' } })
    expect(seen).toMatchObject({
      ...{ who: 'Nell Oxtoby', address: '203.0.113.9' },
      headers: { host: 'larder.example', 'x-forwarded-proto': 'https' },
    })

    await open().prisma.session.update({ where: { id: sessionId }, data: { rotatedAt: new Date(Date.now() - dayMs) } })
    accountsChanged()
    const [line = ''] = (await get({ ...through, cookie: `__Host-larder-session=${secret}` })).headers['set-cookie'] ?? []
    expect(line).toMatch(/^__Host-larder-session=[\w-]{43}; Path=\/; Max-Age=\d+; HttpOnly; SameSite=Lax; Secure$/)
    expect(line).not.toContain(secret)
    listening = { ...listening, proxies: 0 }
  })
})
