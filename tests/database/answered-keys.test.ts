import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { z } from 'zod'
import { operation } from '#api/operation'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import type { FormAction, FormState } from '#forms/form-state'
import type { Who } from '#lib/access/who'
import { whileAsking } from '#lib/db/access/asking'
import { onlyOnce } from '#lib/db/access/once'
import { addOwner } from '#lib/db/owner/owners'
import { receiveThread } from '#lib/db/stock/receive-thread'
import { refused } from '#lib/result'
import { ask } from '#tests/unit/api/ask'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addSmallWorld, type SmallWorld } from './small-world'
import { goods } from './things'

vi.mock('next/cache', () => ({ revalidatePath: () => {} }))
// Files of a group share what is loaded: the stand-in is seen by what is loaded anew, and by nothing after this file.
vi.resetModules()
const { sendOnce } = await import('../../app/_forms/send-once')
const { write } = await import('#lib/db/write')
const { redirect } = await import('next/navigation')
afterAll(() => {
  vi.resetModules()
})

const hourMs = 60 * 60 * 1000
const inMemory = globalThis as { larderIdempotency?: unknown }

const declared = operation({
  method: 'post',
  path: '/try/{tryId}',
  id: 'try',
  group: 'Service',
  summary: 'Try',
  pathParameters: z.strictObject({ tryId: z.string() }),
  body: z.strictObject({ count: z.int() }),
  answer: z.strictObject({ sum: z.int() }),
  answerMeans: 'Tried.',
  takesIdempotencyKey: true,
  example: { answer: { sum: 1 } },
})

describeOnEachEngine('what carries a key', ({ open }) => {
  let world: SmallWorld
  let lots = 0
  beforeAll(async () => {
    world = await addSmallWorld(open())
  })
  /** One skein, in a lot of its own. */
  const receive = async () => {
    const [threadId, ownerId] = [world.threadIds[0] as string, world.ownerIds[0] as string]
    return receiveThread(goods({ threadId, ownerId, wholePutUps: 1, homePlaceId: null, lot: `key ${++lots}` }))
  }
  const received = () => open().prisma.batch.count({ where: { lot: { startsWith: 'key ' } } })
  const keys = () => open().prisma.answeredKey.count()
  /** As a process that was started since has it. */
  const startAnew = () => {
    delete inMemory.larderIdempotency
  }

  const { POST } = endpoint({
    POST: serve(declared, async ({ body }) => {
      if (body.count < 0) return new Problem('refused', `call ${++lots}`)
      granted(await receive())
      if (body.count === 0) throw new Error('after the write')
      return { sum: await received() }
    }),
  })
  const send = (key: string, count = 1, id = 'a') =>
    ask(POST, { path: `try/${id}`, body: { count }, parts: { tryId: id }, headers: { 'idempotency-key': key } })

  it('is done once, and a repeat is answered as the first was, after a new start too', async () => {
    const before = await received()
    const [first, meanwhile] = await Promise.all([send('one'), send('one')])
    const later = await send('one')
    startAnew()
    const muchLater = await send('one')
    expect(await received()).toBe(before + 1)
    expect(first.body).toEqual({ sum: before + 1 })
    for (const repeat of [meanwhile, later, muchLater]) {
      expect([repeat.status, repeat.body]).toEqual([200, first.body])
      expect(repeat.headers.get('idempotent-replay')).toBe('true')
    }
    // Another key, another address and another account are other deeds.
    await send('two')
    await send('one', 1, 'b')
    const by = (accountId: string): Who => ({
      ...{ kind: 'account', accountId, name: accountId, role: 'helper', ownerIds: null },
      by: { kind: 'session', sessionId: 's' },
    })
    for (const accountId of ['nell', 'corrie', 'nell'])
      await whileAsking({ who: by(accountId), address: '', onceKey: null }, () => send('one'))
    expect(await received()).toBe(before + 5)
  })

  it('is refused with something else under it, in memory and after a new start', async () => {
    await send('three', 3)
    expect((await send('three', 4)).body).toMatchObject({ type: '/reference#problem-key-reused', status: 422 })
    startAnew()
    expect((await send('three', 4)).body).toMatchObject({ type: '/reference#problem-key-reused', status: 422 })
    expect((await send('with space', 4)).status).toBe(400)
  })

  it('is not done again where the answer was lost with the process, and is tried again where nothing was written', async () => {
    const log = vi.spyOn(console, 'error').mockImplementation(() => {})
    const before = await received()
    expect((await send('four', 0)).status).toBe(500)
    await open().prisma.answeredKey.updateMany({
      where: { answerJson: null },
      data: { createdAt: new Date(Date.now() - 10_000) },
    })
    startAnew()
    const again = await send('four', 0)
    expect(again.body).toMatchObject({ type: '/reference#problem-internal', status: 500 })
    expect(await received()).toBe(before + 1)
    log.mockRestore()

    // A refusal keeps no key in the database: nothing was done.
    const held = await keys()
    const first = await send('five', -1)
    expect(first.status).toBe(409)
    expect((await send('five', -1)).body).toEqual(first.body)
    expect(await keys()).toBe(held)

    const claimed = await onlyOnce({ scope: 'x', fingerprint: 'f' }, receive, { pack: () => JSON.stringify('kept') })
    expect(claimed.kind).toBe('done')
    await open().prisma.answeredKey.update({
      where: { scope: 'x' },
      data: { answerJson: null, createdAt: new Date(Date.now() - 10_000) },
    })
    expect(await onlyOnce({ scope: 'x', fingerprint: 'f' }, receive, { pack: () => 'again' })).toEqual({ kind: 'answer-lost' })
    expect(await received()).toBe(before + 2)
  })

  it('is done once by two processes at once, whichever comes first', async () => {
    const before = await received()
    const key = { scope: 'both', fingerprint: 'f' }
    const both = await Promise.all(
      ['this', 'that'].map((name) =>
        onlyOnce(key, async () => (await receive()).ok && name, { pack: (answer) => JSON.stringify(answer) }),
      ),
    )
    expect(both.map(({ kind }) => kind).sort()).toEqual(['answered', 'done'])
    const answers = both.map((once) =>
      once.kind === 'answered' ? JSON.parse(once.answerJson) : once.kind === 'done' && once.answer,
    )
    expect(answers[0]).toBe(answers[1])
    expect(await received()).toBe(before + 1)
  })

  it('keeps its key in the write’s own transaction: what is refused or breaks keeps none', async () => {
    const key = { scope: 'own', fingerprint: 'f' }
    const nothing = await onlyOnce(key, () => write(async () => refused('no')), { pack: () => 'x' })
    expect(nothing).toEqual({ kind: 'done', answer: refused('no') })
    const broken = onlyOnce(
      key,
      () =>
        write(async () => {
          throw new Error('broken')
        }),
      { pack: () => 'x' },
    )
    await expect(broken).rejects.toThrow('broken')
    expect(await open().prisma.answeredKey.count({ where: { scope: 'own' } })).toBe(0)
    // Several writes of one request share it.
    const three = await onlyOnce(key, () => Promise.all([receive(), receive(), receive()]), { pack: () => '3' })
    expect(three.kind).toBe('done')
    const row = await open().prisma.answeredKey.findUniqueOrThrow({ where: { scope: 'own' } })
    expect(await open().prisma.movement.count({ where: { revision: row.revision as number } })).toBe(1)
  })

  it('is forgotten after a day', async () => {
    const before = await received()
    await onlyOnce({ scope: 'day', fingerprint: 'f' }, receive, { pack: () => '1' })
    await open().prisma.answeredKey.update({ where: { scope: 'day' }, data: { createdAt: new Date(Date.now() - 25 * hourMs) } })
    expect(await onlyOnce({ scope: 'day', fingerprint: 'f' }, receive, { pack: () => '2' })).toMatchObject({ kind: 'done' })
    expect(await received()).toBe(before + 2)
  })

  const idle: FormState = { status: 'idle' }
  const aForm = (fields: Record<string, string>) => {
    const form = new FormData()
    for (const [name, value] of Object.entries(fields)) form.append(name, value)
    return form
  }
  const digestOf = (work: Promise<unknown>) =>
    work.then(
      () => 'it answered',
      (error: { digest?: string }) => String(error.digest),
    )

  it('as a form pressed twice is done once, and the second press shows what the first came to', async () => {
    const before = await received()
    const add: FormAction = async () => {
      granted(await receive())
      return { status: 'done', message: `${await received()} are there.` }
    }
    const onceKey = 'a'.repeat(32)
    const first = await sendOnce(add, idle, aForm({ onceKey, skeins: '1' }))
    expect(first).toEqual({ status: 'done', message: `${before + 1} are there.` })
    expect(await sendOnce(add, idle, aForm({ onceKey, skeins: '1', $ACTION_KEY: 'k' }))).toEqual(first)
    expect(await received()).toBe(before + 1)
    // Gone back and changed, it is another deed; without a key it is done as it comes.
    await sendOnce(add, idle, aForm({ onceKey, skeins: '2' }))
    await sendOnce(add, idle, aForm({ skeins: '2' }))
    expect(await received()).toBe(before + 3)

    const addAndGo: FormAction = async () => {
      granted(await addOwner({ name: `Owner ${++lots}`, kind: 'own' }))
      return redirect(`/charts/${lots}?tab=a;b`)
    }
    const other = 'b'.repeat(32)
    const gone = await digestOf(sendOnce(addAndGo, idle, aForm({ onceKey: other })))
    expect(gone).toContain(`/charts/${lots}?tab=a;b`)
    expect(await digestOf(sendOnce(addAndGo, idle, aForm({ onceKey: other })))).toBe(gone)
  })

  it('as a form that began work in the background leads to the same work again, and that work has no key', async () => {
    const before = await received()
    let begun = 0
    let work: Promise<unknown> = Promise.resolve()
    const begin: FormAction = async () => {
      begun += 1
      work = new Promise((resolve) => setTimeout(resolve, 20)).then(receive)
      return redirect(`/bring-in/job/${begun}`)
    }
    const onceKey = 'e'.repeat(32)
    const first = await digestOf(sendOnce(begin, idle, aForm({ onceKey })))
    expect(await digestOf(sendOnce(begin, idle, aForm({ onceKey })))).toBe(first)
    await work
    expect([begun, await received()]).toEqual([1, before + 1])
  })

  it('as a form that was refused may be sent again, and what the action gets is the form without the key', async () => {
    const seen: string[][] = []
    const refuse: FormAction = async (_, form) => {
      seen.push([...form.keys()])
      granted(await receive())
      return { status: 'refused', message: `No ${seen.length}.` }
    }
    const fields = { onceKey: 'c'.repeat(32), skeins: '1' }
    expect(await sendOnce(refuse, idle, aForm(fields))).toMatchObject({ message: 'No 1.' })
    expect(await sendOnce(refuse, idle, aForm(fields))).toMatchObject({ message: 'No 2.' })
    expect(seen).toEqual([['skeins'], ['skeins']])
  })

  it('as a form says what is in the way, and keeps what was typed', async () => {
    const log = vi.spyOn(console, 'warn').mockImplementation(() => {})
    const fullDisk: FormAction = async () => {
      throw Object.assign(new Error('write: no space'), { code: 'ENOSPC' })
    }
    const answer = await sendOnce(fullDisk, idle, aForm({ onceKey: 'd'.repeat(32), skeins: '7' }))
    expect(answer).toMatchObject({ status: 'refused', values: { skeins: '7' } })
    expect(answer.message).toContain('no room left on the disk')
    log.mockRestore()
  })
})
