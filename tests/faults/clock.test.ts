import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, afterEach, beforeAll, expect, it, vi } from 'vitest'
import { onlyOnce } from '#lib/db/access/once'
import { getAnswers } from '#lib/db/answers/get-answers'
import { backUpWhenOverdue } from '#lib/db/backup/backup-clock'
import { listBackups } from '#lib/db/backup/list-backups'
import { writeBackup } from '#lib/db/backup/write-backup'
import { listMovements } from '#lib/db/movement/list-movements'
import { newId } from '#lib/db/new-id'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { recordUse } from '#lib/db/stock/record-use'
import { carryOut } from '#lib/db/walk/carry-out'
import { startPull } from '#lib/db/walk/start-pull'
import { tickLines } from '#lib/db/walk/tick-lines'
import { describeOnEachEngine } from '../database/engines'
import { granted } from '../database/granted'
import { addSmallWorld, type SmallWorld } from '../database/small-world'
import { faultsInBooks } from '../database/stock-books'
import { goods } from '../database/things'

const hourMs = 60 * 60_000
const dayMs = 24 * hourMs

describeOnEachEngine('a clock that is moved', ({ open }) => {
  let world: SmallWorld
  const folder = mkdtempSync(path.join(tmpdir(), 'larder-clock-'))
  beforeAll(async () => {
    vi.stubEnv('LARDER_DATA', folder)
    vi.stubEnv('DATABASE_URL', open().url)
    world = await addSmallWorld(open())
  })
  afterEach(() => {
    vi.useRealTimers()
  })
  afterAll(() => {
    vi.unstubAllEnvs()
    rmSync(folder, { recursive: true, force: true })
  })
  /** The clock alone is moved; what waits goes on waiting. */
  const moveClock = (byMs: number) => vi.useFakeTimers({ toFake: ['Date'], now: Date.now() + byMs })

  it('never makes an id that sorts before one made earlier, nor the same twice', () => {
    const ids: string[] = []
    for (const byMs of [0, 3 * dayMs, -10 * dayMs, -1, 400 * dayMs, -400 * dayMs]) {
      moveClock(byMs)
      for (let turn = 0; turn < 300; turn++) ids.push(newId())
    }
    expect(new Set(ids).size).toBe(ids.length)
    expect([...ids].sort()).toEqual(ids)
  })

  it('back and forward in the middle of work loses nothing: the journal stands in the order of its revisions', async () => {
    const received = { threadId: world.threadIds[0] as string, ownerId: world.ownerIds[0] as string, homePlaceId: null }
    const { batchId } = granted(await receiveThread(goods({ ...received, wholePutUps: 9, lot: 'clock' })))
    const moves = [-40 * dayMs, 90 * dayMs, -1 * hourMs, 400 * dayMs, -700 * dayMs]
    for (const byMs of moves) {
      moveClock(byMs)
      granted(await recordUse({ batchId, strandTenths: 10_000 }))
    }
    vi.useRealTimers()
    const shown = await listMovements({ batchId }, { limit: 20 })
    const rows = await open().prisma.movement.findMany({ where: { batchId }, orderBy: { revision: 'desc' } })
    expect(shown?.map(({ id }) => id)).toEqual(rows.map(({ id }) => id))
    expect(rows.map(({ kind }) => kind)).toEqual([...moves.map(() => 'use'), 'receive'])
    expect(await faultsInBooks(open().prisma)).toEqual([])
    // Answers in memory go by revisions, never by the clock.
    const [batch] = (await getAnswers()).world.stock.batches.get(received.threadId)?.filter(({ id }) => id === batchId) ?? []
    expect((batch?.wholePutUps ?? 0) * 480_000 + (batch?.partStrandTenths ?? 0)).toBe(9 * 480_000 - moves.length * 10_000)
  })

  it('lets ticks of a phone with a wrong clock stand as ticks do: the later one, whichever comes first; nothing is moved twice', async () => {
    const { prisma } = open()
    const [, wrens] = await prisma.project.findMany({ where: { ownerId: world.ownerIds[0] as string }, orderBy: { id: 'asc' } })
    const projectId = wrens?.id as string
    const { walkId } = granted(await startPull({ projectIds: [projectId] }))
    const lines = await prisma.walkLine.findMany({ where: { walkId } })
    const tick = (status: 'done' | 'open', byMs: number) =>
      tickLines({
        walkId,
        ticks: lines.map(({ id }) => ({ lineId: id, status, tickedAt: new Date(Date.now() + byMs), by: 'Nell Oxtoby' })),
      })
    granted(await tick('done', 0))
    granted(await tick('open', -5 * dayMs))
    expect(await prisma.walkLine.count({ where: { walkId, status: 'done' } })).toBe(lines.length)
    moveClock(-3 * dayMs)
    granted(await carryOut({ walkId, bags: [{ projectId, label: 'K-02' }], who: null }))
    const moved = await prisma.movement.count()
    await carryOut({ walkId, bags: [{ projectId, label: 'K-02' }], who: null })
    expect(await prisma.movement.count()).toBe(moved)
    expect(await faultsInBooks(prisma)).toEqual([])
  })

  it('keeps keys from being done twice while it is wrong by hours, and forgets them in the end', async () => {
    let done = 0
    const receive = () =>
      receiveThread(
        goods({
          ...{ threadId: world.threadIds[1] as string, ownerId: world.ownerIds[0] as string, homePlaceId: null },
          ...{ wholePutUps: 1, lot: `clock ${++done}` },
        }),
      )
    const key = { scope: 'clock', fingerprint: 'f' }
    const send = () => onlyOnce(key, receive, { pack: () => '1' })
    expect((await send()).kind).toBe('done')
    for (const byMs of [-20 * hourMs, 30 * hourMs]) {
      moveClock(byMs)
      expect((await send()).kind).toBe('answered')
    }
    moveClock(30 * hourMs)
    expect((await send()).kind).toBe('done')
  })

  it('does not take a backup from days to come for today’s', async () => {
    const backups = path.join(folder, 'backups')
    mkdirSync(backups, { recursive: true })
    // Made while the clock was a year ahead.
    const ahead = new Date(Date.now() + 365 * dayMs)
    granted(await writeBackup({ url: open().url, folder: backups, kind: 'scheduled', at: ahead }))
    expect(await listBackups()).toHaveLength(1)
    await backUpWhenOverdue()
    const now = Date.now()
    expect((await listBackups()).filter(({ madeAt }) => Math.abs(madeAt.getTime() - now) < hourMs)).toHaveLength(1)
    // And the one that was made is enough for today.
    await backUpWhenOverdue()
    expect(await listBackups()).toHaveLength(2)
  })
})
