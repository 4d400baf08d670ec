import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { operations } from '#api/operations'
import type { Handler } from '#api/serve'
import type { SignedIn } from '#lib/access/who'
import { archiveTables } from '#lib/archive/tables'
import { whileAsking } from '#lib/db/access/asking'
import { type Database, database } from '#lib/db/client'
import { newId } from '#lib/db/new-id'
import { type Cell, readSnapshot } from '#lib/db/read-snapshot'
import { seededRandom } from '#seed/random'
import { describeOnEachEngine } from '../database/engines'
import { addOneOfEverything } from '../database/one-of-everything'
import { addSmallWorld } from '../database/small-world'
import { faultsInBooks } from '../database/stock-books'
import { anyCall, apiHandlers, poolOf, send } from './any-call'

/** Stands in every word of the shop's goods, and in nobody else's. */
const marker = 'zqx'
/** So many calls of each operation. */
const callsEach = Number(process.env.HOSTILE_CALLS ?? 6)

/** Words somebody wrote or reads; not what the program tells kinds and states by. */
const wordColumns =
  /^(title|titleKey|note|backNote|lot|matchLot|label|labelKey|name|nameKey|forWhom|reason|edition|text|supplier|makerName|colourName|symbol|listName|found|soldTo|who|what|fileName|coverFile|photoFile|finishing|startedBy|closedBy|askedBy|tickedBy)$/
/** Of these, what is filled in where it is empty. */
const filledIn = /^(note|forWhom|edition|lot|colourName|supplier)$/
/** Rows of their own kind that tell of the whole collection. */
const tellOfAll = new Set(['BulkEdit', 'ImportBatch', 'ImportRow', 'ImportStep'])

type Row = Record<string, Cell>

async function readRows(database: Database, table: string): Promise<Row[]> {
  const { columns } = archiveTables.find(({ name }) => name === table) as { columns: Record<string, string> }
  const names = Object.keys(columns)
  const found: Row[] = []
  await readSnapshot(database, async (rows) => {
    const sql = `SELECT ${names.map((name) => `CAST("${name}" AS TEXT)`).join(', ')} FROM "${table}" ORDER BY 1`
    for await (const some of rows(sql))
      for (const row of some) found.push(Object.fromEntries(names.map((name, at) => [name, row[at] ?? null])))
  })
  return found
}

const keyOf = (table: (typeof archiveTables)[number], row: Row): string => table.key.map((name) => row[name]).join(' ')

/** Everything that is an owner's, and all that hangs on it, found by following every column that names another row. */
async function allOf(database: Database, ownerId: string): Promise<Map<string, Map<string, Row>>> {
  const found = new Map<string, Map<string, Row>>([['Owner', new Map([[ownerId, {}]])]])
  for (const table of archiveTables) {
    if (table.name === 'Owner') continue
    const isTheirs = (row: Row) =>
      tellOfAll.has(table.name) ||
      Object.entries(table.refersTo).some(([column, to]) => to !== table.name && found.get(to)?.has(String(row[column])))
    const theirs = (await readRows(database, table.name)).filter(isTheirs)
    found.set(table.name, new Map(theirs.map((row) => [keyOf(table, row), row])))
  }
  // A plan, a walk or a count is what its lines are.
  for (const [lines, column, whole] of [
    ['CutPlanPiece', 'cutPlanId', 'CutPlan'],
    ['WalkLine', 'walkId', 'Walk'],
    ['WalkProject', 'walkId', 'Walk'],
    ['StockCountLine', 'countId', 'StockCount'],
  ] as const) {
    const ids = new Set([...(found.get(lines)?.values() ?? [])].map((row) => row[column]))
    for (const row of await readRows(database, whole)) if (ids.has(row.id as Cell)) found.get(whole)?.set(String(row.id), row)
  }
  return found
}

/** Write the marker into every word of these rows that may be changed: a movement stands as it was written. */
async function markAll(database: Database, theirs: Map<string, Map<string, Row>>): Promise<void> {
  for (const table of archiveTables) {
    if (table.name === 'Movement') continue
    const words = Object.keys(table.columns).filter((name) => wordColumns.test(name) && !/Hash$/.test(name))
    const rows = [...(theirs.get(table.name)?.values() ?? [])].filter((row) => Object.keys(row).length > 0)
    if (words.length === 0) continue
    for (const row of rows) {
      const sets = words
        .filter((name) => row[name] !== null || filledIn.test(name))
        .map((name) => `"${name}" = '${marker} ' || COALESCE("${name}", '')`)
      const at = table.key.map((name) => `"${name}" = '${row[name]}'`).join(' AND ')
      if (sets.length > 0) await database.prisma.$executeRawUnsafe(`UPDATE "${table.name}" SET ${sets.join(', ')} WHERE ${at}`)
    }
  }
}

const looker = (ownerIds: string[], role: SignedIn['role'] = 'keeper'): SignedIn => ({
  ...{ kind: 'account', accountId: newId(), name: 'Ines Coldwell', role, ownerIds },
  by: { kind: 'session', sessionId: newId() },
})

describeOnEachEngine('an account that sees one owner’s goods', ({ name, open }) => {
  const data = mkdtempSync(path.join(tmpdir(), 'larder-own-'))
  let handlers: Map<string, Handler>
  let shopId: string
  let hanneId: string
  let shops: Map<string, Map<string, Row>>
  let asHanne: <T>(work: () => T) => T
  let before: string[]

  beforeAll(async () => {
    vi.stubEnv('LARDER_DATA', data)
    vi.stubEnv('DATABASE_URL', open().url)
    const { prisma } = open()
    const world = await addSmallWorld(open())
    ;[shopId, hanneId] = world.ownerIds as [string, string]
    await addOneOfEverything(open())
    // Made by hand, its plan is no plan.
    await prisma.cutPlan.updateMany({ data: { status: 'dropped', closedAt: new Date() } })
    const batch = await prisma.batch.findFirstOrThrow({ where: { ownerId: shopId, goneAt: null } })
    await prisma.movement.create({
      data: { id: newId(), revision: 1, at: new Date(), kind: 'move', batchId: batch.id, who: marker, reason: marker },
    })
    await prisma.owner.update({ where: { id: shopId }, data: { name: `${marker} shop`, nameKey: `${marker} shop` } })
    shops = await allOf(open(), shopId)
    await markAll(open(), shops)
    shops = await allOf(open(), shopId)
    const request = { who: looker([hanneId]), address: '127.0.0.1', onceKey: null }
    asHanne = (work) => whileAsking(request, work)
    before = await faultsInBooks(prisma)
    handlers = await apiHandlers()
  })
  afterAll(() => {
    vi.unstubAllEnvs()
    rmSync(data, { recursive: true, force: true })
  })

  it('finds the rows of its own and of nobody, and none else, whichever way they are read', async () => {
    const wrong: string[] = []
    for (const table of archiveTables) {
      const theirs = shops.get(table.name) ?? new Map()
      const delegate = `${table.name[0]?.toLowerCase()}${table.name.slice(1)}` as 'batch'
      const all = (await readRows(open(), table.name)).map((row) => keyOf(table, row)).sort()
      const own = all.filter((key) => !theirs.has(key))
      const asked = (await asHanne(() => database().prisma[delegate].findMany())) as unknown as Row[]
      const byPrisma = asked.map((row) => keyOf(table, row)).sort()
      const counted = await asHanne(() => database().prisma[delegate].count())
      const bySql = (await asHanne(() => readRows(database(), table.name))).map((row) => keyOf(table, row)).sort()
      if (String(byPrisma) !== String(own)) wrong.push(`${table.name} by the client`)
      if (counted !== own.length) wrong.push(`${table.name} counted`)
      if (String(bySql) !== String(own)) wrong.push(`${table.name} by SQL`)
    }
    expect(wrong).toEqual([])
  })

  it('is answered nothing of another’s by any operation, and changes nothing of it', async () => {
    const faults: string[] = []
    const log = vi.spyOn(console, 'error').mockImplementation((...said) => {
      faults.push(
        said
          .map((one) => (one instanceof Error ? one.stack : String(one)))
          .join(' ')
          .slice(0, 900),
      )
    })
    const random = seededRandom(`own goods ${name}`)
    const pool = await poolOf(open())
    const theirs = new Set([...shops.values()].flatMap((rows) => [...rows.keys()]))
    for (let turn = 0; turn < callsEach; turn++)
      for (const declared of operations) {
        if (declared.takesFile) continue
        const call = anyCall(declared, { random, pool })
        // First as plain as it may be asked.
        if (turn === 0) call.query = new URLSearchParams()
        const known = faults.length
        const response = await asHanne(() => send(handlers, declared, call))
        const text = await response.text()
        const asked = `${declared.id} ${JSON.stringify(call.parts)} ${call.query} ${call.body?.slice(0, 300) ?? ''}`
        if (response.status >= 500 || faults.length > known) faults.push(`${response.status} of ${asked}: ${text.slice(0, 300)}`)
        // What was asked for is said again by some refusals.
        if (text.includes(marker) && !asked.includes(marker)) {
          const at = text.indexOf(marker)
          faults.push(`told by ${asked}: …${text.slice(Math.max(0, at - 200), at + 100)}`)
        }
        const namesTheirs = Object.values(call.parts).some((id) => theirs.has(id))
        if (namesTheirs && response.status < 300)
          faults.push(`${response.status} for another’s of ${asked}: ${text.slice(0, 200)}`)
      }
    log.mockRestore()
    expect(faults).toEqual([])
    const after = await allOf(open(), shopId)
    for (const [table, rows] of shops) expect([table, [...(after.get(table) ?? [])]]).toEqual([table, [...rows]])
    expect(await faultsInBooks(open().prisma)).toEqual(before)
  }, 600_000)
})
