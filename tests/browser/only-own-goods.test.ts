import { createHash, randomBytes } from 'node:crypto'
import { cpSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, describe, expect, inject, it } from 'vitest'
import { openDatabase } from '#lib/db/client'
import { newId } from '#lib/db/new-id'
import { goodsOf, markGoods, type Row } from '../database/whose-goods'
import { listRoutes } from './screens'
import { type RunningServer, startServer } from './server'

/** Which rows a step of an address names. */
const modelOfStep: Record<string, string> = {
  ...{ chartId: 'Chart', designId: 'Design', pieceId: 'ClothPiece', projectId: 'Project', loanId: 'Loan', notionId: 'Notion' },
  ...{ walkId: 'Walk', countId: 'StockCount', missingId: 'MissingThing', orderId: 'ThreadOrder', planId: 'CutPlan' },
  ...{ batchId: 'Batch', importId: 'ImportBatch', changeId: 'BulkEdit', bulkEditId: 'BulkEdit', mergingId: 'BulkEdit' },
}
/** So many addresses alike but for their ids are looked at: the sample has hundreds of each. */
const ofEachShape = 1

type Side = { ownerId: string; mark: string; goods: Map<string, Map<string, Row>>; cookie: string }

let folder: string
let server: RunningServer
let sides: [Side, Side]
let cookieOfNone: string

beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'larder-own-goods-'))
  cpSync(inject('sampleFolder'), folder, { recursive: true })
  const database = openDatabase(`file:${path.join(folder, 'larder.db')}`)
  const { prisma } = database
  const signIn = async (name: string, ownerIds: string[]): Promise<string> => {
    const [accountId, secret, now] = [newId(), randomBytes(32).toString('base64url'), new Date()]
    await prisma.account.create({
      data: { id: accountId, name, nameKey: name.toLowerCase(), role: 'helper', seesEveryOwner: false, createdAt: now },
    })
    await prisma.accountOwner.createMany({ data: ownerIds.map((ownerId) => ({ accountId, ownerId })) })
    await prisma.session.create({
      data: {
        ...{ id: newId(), accountId, secretHash: createHash('sha256').update(secret).digest('base64url') },
        ...{ rotatedAt: now, createdAt: now, usedAt: now, expiresAt: new Date(now.getTime() + 86_400_000) },
        ...{ device: 'a test', address: '127.0.0.1' },
      },
    })
    return `larder-session=${secret}`
  }
  await prisma.account.create({
    data: { id: newId(), name: 'Nell Oxtoby', nameKey: 'nell oxtoby', role: 'keeper', createdAt: new Date() },
  })
  const owners = await prisma.owner.findMany({ orderBy: { id: 'asc' } })
  const side = async (at: number, name: string): Promise<Side> => {
    const { id: ownerId } = owners[at] as { id: string }
    const mark = ['zqx', 'wjk'][at] as string
    await prisma.owner.update({ where: { id: ownerId }, data: { name: `${mark} owner`, nameKey: `${mark} owner` } })
    const goods = await goodsOf(database, ownerId)
    await markGoods(database, goods, mark)
    return { ownerId, mark, goods, cookie: await signIn(name, [ownerId]) }
  }
  sides = [await side(0, 'Joss Tarrow'), await side(1, 'Hanne Drewitt')]
  cookieOfNone = await signIn('Abel Crome', [])
  await prisma.$disconnect()
  server = await startServer({ dataFolder: folder })
}, 300_000)

afterAll(async () => {
  await server?.stop()
  rmSync(folder, { recursive: true, force: true })
})

/** Names the build gave its files and numbers of the answer are random letters, a mark's among them. */
const withoutMadeUp = (text: string): string =>
  text.replace(/\/_next\/static\/[\w./~-]+|static\/chunks\/[\w./~-]+|nonce=\\?"[^"]*"/g, '')

const get = async (address: string, cookie: string) => {
  const response = await fetch(new URL(address, server.url), {
    headers: { cookie, accept: 'text/html', 'sec-fetch-site': 'same-origin' },
    redirect: 'manual',
  })
  return { status: response.status, text: withoutMadeUp(await response.text()), to: response.headers.get('location') }
}

/** Addresses alike but for what stands in them for one thing or another. */
const shapeOf = (address: string): string =>
  address
    .replace(/[0-9a-f]{8}-[0-9a-f-]{27}/g, ':id')
    .replace(/=[^&]*/g, '=')
    .replace(/\/\d+/g, '/:n')

const around = (text: string, at: number): string => text.slice(Math.max(0, at - 160), at + 60).replace(/\s+/g, ' ')

/** Walk through every page that a link leads to, and every sheet and list, by what is sent: what a page's scripts are handed as well. */
async function crawl(cookie: string, foreign: string | null): Promise<{ faults: string[]; looked: string[] }> {
  const waiting = listRoutes().filter((route) => !route.includes('['))
  const shapes = new Map<string, number>()
  const known = new Set(waiting)
  const faults: string[] = []
  const looked: string[] = []
  for (let address = waiting.shift(); address !== undefined; address = waiting.shift()) {
    const { status, text, to } = await get(address, cookie)
    looked.push(address)
    if (status >= 500) faults.push(`${status} at ${address}`)
    if (foreign && text.includes(foreign)) faults.push(`${address}: …${around(text, text.indexOf(foreign))}…`)
    const links = [...text.matchAll(/href="(\/[^"#]*)/g)].map(([, href]) => (href as string).replaceAll('&amp;', '&'))
    for (const link of [...links, ...(to ? [new URL(to, server.url).pathname] : [])]) {
      if (known.has(link) || /^\/(_next|photos|api|sign-out)|\.(css|js|woff2?|svg|png)(\?|$)/.test(link)) continue
      const shape = shapeOf(link)
      const count = shapes.get(shape) ?? 0
      if (count >= ofEachShape) continue
      shapes.set(shape, count + 1)
      known.add(link)
      waiting.push(link)
    }
  }
  return { faults, looked }
}

describe('whoever is to see one owner’s goods', () => {
  it.each([0, 1])(
    'comes upon none of the other’s by any link (%i)',
    async (at) => {
      const [own, other] = [sides[at] as Side, sides[1 - at] as Side]
      const { faults, looked } = await crawl(own.cookie, other.mark)
      expect(faults).toEqual([])
      // The walk came somewhere, and saw what is its own.
      expect(looked.length).toBeGreaterThan(90)
      expect((await get('/charts', own.cookie)).text).toContain(own.mark)
    },
    600_000,
  )

  it.each([0, 1])(
    'finds nothing of the other’s at its own address (%i)',
    async (at) => {
      const [own, other] = [sides[at] as Side, sides[1 - at] as Side]
      const idOf = (model: string): string | undefined => [...(other.goods.get(model)?.keys() ?? [])][0]
      const faults: string[] = []
      let asked = 0
      for (const route of listRoutes().filter((one) => one.includes('['))) {
        const batch = [...(other.goods.get('Batch')?.values() ?? [])][0]
        const steps: Record<string, string | undefined> = {
          ...{ threadId: String(batch?.threadId), verb: 'take', bagNumber: '1', year: '2026' },
          listId: route.startsWith('/buy') ? idOf('BuyList') : idOf('ThreadList'),
        }
        const named = [...route.matchAll(/\[(\w+)\]/g)].map(([, name]) => name as string)
        if (!named.some((name) => name in modelOfStep || name === 'listId')) continue
        const ids = named.map((name) => steps[name] ?? idOf(modelOfStep[name] ?? ''))
        if (ids.some((id) => id === undefined)) continue
        const address = named.reduce((made, name, turn) => made.replace(`[${name}]`, ids[turn] as string), route)
        const { status, text } = await get(address, own.cookie)
        asked++
        if (text.includes(other.mark)) faults.push(`${address}: …${around(text, text.indexOf(other.mark))}…`)
        if (![403, 404].includes(status)) faults.push(`${status} at ${address}`)
      }
      expect(faults).toEqual([])
      expect(asked).toBeGreaterThan(20)
    },
    300_000,
  )
})

it('is calm where nobody’s goods are to be seen', async () => {
  const faults: string[] = []
  for (const route of listRoutes().filter((one) => !one.includes('['))) {
    const { status, text } = await get(route, cookieOfNone)
    if (status >= 500) faults.push(`${status} at ${route}`)
    for (const { mark } of sides) if (text.includes(mark)) faults.push(`${route}: …${around(text, text.indexOf(mark))}…`)
  }
  expect(faults).toEqual([])
}, 300_000)
