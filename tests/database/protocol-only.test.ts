import { randomUUID } from 'node:crypto'
import pg from 'pg'
import { afterEach, expect, inject, it } from 'vitest'
import { openDatabase } from '#lib/db/client'
import { newId } from '#lib/db/new-id'
import { each, readSnapshot } from '#lib/db/read-snapshot'
import { writeTo } from '#lib/db/write-gate'
import { migrate } from '../../prisma/migrate.mjs'
import { openEmpty } from './engines'

const postgresql = inject('postgresql')
const original = pg.Client.prototype.query

/** From here on the server answers as one that speaks PostgreSQL's protocol and lacks some of its statements. */
function refuse(statement: RegExp): void {
  pg.Client.prototype.query = function (this: pg.Client, ...given: unknown[]) {
    const [asked] = given as [string | { text?: string }]
    const text = typeof asked === 'string' ? asked : (asked?.text ?? '')
    // Sent on as what no server takes, so that it fails as a statement does, within a transaction too.
    const callback = given.filter((one) => typeof one === 'function')
    if (statement.test(text)) return Reflect.apply(original, this, ['SELECT this_function_does_not_exist()', ...callback])
    return Reflect.apply(original, this, given)
  } as typeof original
}

afterEach(() => {
  pg.Client.prototype.query = original
})

const itWithServer = it.skipIf('missing' in postgresql)

itWithServer('a database without notices is written to all the same', async () => {
  const made = await openEmpty('postgresql')
  if (!made) throw new Error('there is a server')
  refuse(/pg_notify/)
  for (const name of ['Hanne Drewitt', 'Nell Oxtoby']) {
    const written = await writeTo(made.database, async ({ tx, touch }) => {
      const owner = await tx.owner.create({ data: { id: newId(), name, nameKey: name.toLowerCase() } })
      touch('owner', owner.id)
      return { ok: true, value: null }
    })
    expect(written.ok).toBe(true)
  }
  expect(await made.database.prisma.owner.count()).toBe(2)
  await made.drop()
})

itWithServer('a database without cursors is read all the same, with its values and in its order', async () => {
  const made = await openEmpty('postgresql')
  if (!made) throw new Error('there is a server')
  const ids = Array.from({ length: 12 }, () => newId())
  await made.database.prisma.owner.createMany({
    data: ids.map((id, at) => ({ id, name: `Owner ${at}`, nameKey: `owner ${at}` })),
  })
  const read = () =>
    readSnapshot(made.database, async (rows) => {
      const found: unknown[] = []
      const sql = 'SELECT "name", "version" FROM "Owner" WHERE "id" > ? ORDER BY "id"'
      for await (const row of each(rows, sql, [ids[1] as string])) found.push(row)
      return found
    })
  refuse(/^DECLARE/)
  const whole = await read()
  expect(whole).toEqual(Array.from({ length: 10 }, (_, at) => [`Owner ${at + 2}`, 0]))
  await made.drop()
})

itWithServer('a database without advisory locks is migrated by one process at a time', async () => {
  if ('missing' in postgresql) return
  const name = `larder_${randomUUID().replaceAll('-', '')}`
  const admin = new pg.Client({ connectionString: postgresql.urlOf.replace('{database}', 'postgres') })
  await admin.connect()
  await admin.query(`CREATE DATABASE ${name}`)
  const url = postgresql.urlOf.replace('{database}', name)
  const applied = await Promise.all([1, 2, 3].map(() => migrate(url, { lock: 'row' })))
  // All of it by whoever was first.
  expect(applied.map((names) => names.length > 0).sort()).toEqual([false, false, true])
  const database = openDatabase(url)
  expect(await database.prisma.revision.count()).toBe(1)
  expect(await database.prisma.$queryRawUnsafe('SELECT 1 AS n FROM "_larder_migrating"')).toEqual([])
  await database.prisma.$disconnect()
  await admin.query(`DROP DATABASE ${name} WITH (FORCE)`)
  await admin.end()
})
