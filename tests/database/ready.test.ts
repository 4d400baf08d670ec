import { expect, it } from 'vitest'
import { problemSchema } from '#api/problem'
import { getHealth, getReady } from '#api/service'
import { ask } from '#tests/unit/api/ask'
import { GET as health } from '../../app/api/v1/health/route'
import { GET as ready } from '../../app/api/v1/ready/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'

describeOnEachEngine('whether it can serve', ({ open }) => {
  it('is no until the answers are built, which being asked begins, then yes', async () => {
    const first = await ask(ready)
    expect([first.status, first.headers.get('retry-after')]).toEqual([503, '2'])
    expect(problemSchema.parse(first.body)).toMatchObject({ type: '/reference#problem-not-ready', status: 503 })
    while ((await ask(ready)).status !== 200) await new Promise((resolve) => setTimeout(resolve, 50))
    expect(await answer(getReady, ready)).toEqual({ status: 'ready' })
  })

  it('is no while the database has a migration that this version does not know; it is up all the same', async () => {
    const { prisma } = open()
    await prisma.$executeRawUnsafe(
      `INSERT INTO "_prisma_migrations" ("id", "checksum", "migration_name", "finished_at", "applied_steps_count")
       VALUES ('later', 'c', '29990101000000_later', CURRENT_TIMESTAMP, 1)`,
    )
    expect(await problem(ready, {})).toMatchObject({ status: 503, detail: expect.stringContaining('another version') })
    expect(await answer(getHealth, health)).toEqual({ status: 'ok' })
    await prisma.$executeRawUnsafe(`DELETE FROM "_prisma_migrations" WHERE "id" = 'later'`)
    expect(await answer(getReady, ready)).toEqual({ status: 'ready' })
  })
})
