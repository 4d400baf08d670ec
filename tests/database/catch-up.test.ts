import { fork } from 'node:child_process'
import { once } from 'node:events'
import path from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import pg from 'pg'
import { afterEach, expect, it, vi } from 'vitest'
import { followChanges } from '#lib/db/answers/follow-changes'
import { getAnswers } from '#lib/db/answers/get-answers'
import { newId } from '#lib/db/new-id'
import { isListening } from '#lib/db/notices'
import { writeTo } from '#lib/db/write-gate'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'

describeOnEachEngine('answers that follow what others write', ({ name, open, openAnother }) => {
  if (name !== 'PostgreSQL') {
    it('need no following where one process has the database', () => {
      expect(followChanges()).toBeTypeOf('function')
    })
    return
  }
  let end = () => {}
  afterEach(() => {
    end()
    vi.restoreAllMocks()
  })
  const listening = async (isOn: boolean) => {
    while (isListening(open().url) !== isOn) await pause(20)
  }
  /** Another client of the database does, of which the answers know as little. */
  async function addByAnother(ownerName: string): Promise<number> {
    const written = await writeTo(openAnother(), async ({ tx, revision, touch }) => {
      const { id } = await tx.owner.create({ data: { id: newId(), name: ownerName, nameKey: ownerName.toLowerCase() } })
      touch('owner', id)
      return { ok: true, value: revision }
    })
    return granted(written)
  }
  /** Another process adds an owner, who is then among the answers without anybody asking for them. */
  async function addElsewhere(ownerName: string): Promise<number> {
    const child = fork(path.join(import.meta.dirname, 'job-hand.ts'), [ownerName], {
      execArgv: ['--import', 'tsx', '--conditions=react-server'],
      env: { ...process.env, DATABASE_URL: open().url },
    })
    await once(child, 'exit')
    return (await open().prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })).number
  }
  /** The very answers that are held are brought up to date in place. */
  const held = async (answers: { revision: number }, revision: number) => {
    for (let waited = 0; answers.revision < revision && waited < 10_000; waited += 20) await pause(20)
    expect(answers.revision).toBe(revision)
  }

  it('are brought up to date by a notice', { timeout: 120_000 }, async () => {
    const answers = await getAnswers()
    end = followChanges()
    await listening(true)
    // The first look, for what was missed before.
    await pause(200)
    await held(answers, await addElsewhere('Hanne Drewitt'))
    expect([...answers.world.owners.values()]).toContain('Hanne Drewitt')
  })

  it('are followed again after the connection was lost, what was written meanwhile included', async () => {
    const answers = await getAnswers()
    end = followChanges()
    await listening(true)
    const warned = vi.spyOn(console, 'warn').mockImplementation(() => {})
    const admin = new pg.Client({ connectionString: open().url })
    await admin.connect()
    await admin.query(`SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE application_name = 'chart-larder-notices'`)
    await admin.end()
    await listening(false)
    expect(warned).toHaveBeenCalledOnce()
    const revision = await addByAnother('The Oxmarsh Needle Room')
    await listening(true)
    await held(answers, revision)
  })

  it('are asked for now and then where the database has no notices', async () => {
    const original = pg.Client.prototype.query
    // As a database answers that speaks the protocol and knows no such statement.
    pg.Client.prototype.query = function (this: pg.Client, ...given: unknown[]) {
      if (typeof given[0] === 'string' && given[0].startsWith('LISTEN'))
        return Promise.reject(Object.assign(new Error('unimplemented'), { severity: 'ERROR', code: '0A000' }))
      return (original as (...all: unknown[]) => unknown).apply(this, given)
    } as typeof original
    try {
      const answers = await getAnswers()
      end = followChanges()
      const revision = await addByAnother('Nell Oxtoby')
      expect(isListening(open().url)).toBe(false)
      await held(answers, revision)
    } finally {
      pg.Client.prototype.query = original
    }
  })

  it('are told nothing of a write that was taken back', async () => {
    const heard: string[] = []
    const client = new pg.Client({ connectionString: open().url })
    await client.connect()
    client.on('notification', ({ payload }) => heard.push(payload ?? ''))
    await client.query('LISTEN larder_revision')
    const write = (ok: boolean) =>
      writeTo(openAnother(), async ({ revision }) => (ok ? { ok: true, value: revision } : { ok: false, error: newId() }))
    await write(false)
    const done = await write(true)
    for (let waited = 0; heard.length === 0 && waited < 5_000; waited += 20) await pause(20)
    await client.end()
    expect(heard).toEqual([String(done.ok && done.value)])
  })
})
