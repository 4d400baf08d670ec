import type { ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import path from 'node:path'
import fc from 'fast-check'
import { beforeAll, expect, it } from 'vitest'
import { describeOnEachEngine } from './engines'
import type { Errand } from './larder-hand'
import { startOwnProcess } from './own-process'
import { addSmallWorld, type SmallWorld } from './small-world'
import { faultsInBooks } from './stock-books'

describeOnEachEngine('a process that is killed', ({ name, open }) => {
  let world: SmallWorld

  beforeAll(async () => {
    world = await addSmallWorld(open())
  })

  /** Begin a process that waits to be told what to do. */
  const begin = async (): Promise<ChildProcess> => {
    const child = await startOwnProcess(path.join(import.meta.dirname, 'larder-hand.ts'), { DATABASE_URL: open().url })
    await once(child, 'message')
    return child
  }

  /** Let one process work, and kill it after so many milliseconds of work. */
  async function letWorkAndKill(child: ChildProcess, errand: Errand, afterMs: number): Promise<void> {
    const isAtWork = once(child, 'message')
    child.send(errand)
    await isAtWork
    await new Promise((resolve) => setTimeout(resolve, afterMs))
    const ended = once(child, 'exit')
    child.kill('SIGKILL')
    // It was at work until then, and did not fall over by itself.
    expect(await ended).toEqual([null, 'SIGKILL'])
  }

  it('in the middle of a walk, of cutting kits or of merging places leaves no half thing', { timeout: 600_000 }, async () => {
    const { prisma } = open()
    const [kits, wrens] = await prisma.project.findMany({
      where: { ownerId: world.ownerIds[0] as string },
      orderBy: { id: 'asc' },
    })
    const placeOf = async (label: string) => (await prisma.place.findUniqueOrThrow({ where: { labelKey: label } })).id
    const [placeId, intoId] = [await placeOf('t1-1'), await placeOf('t2-2')]
    const kinds = ['walk', 'kits', 'places'] as const
    const moments = fc.sample(fc.integer({ min: 1, max: 250 }), { seed: 20_261_129, numRuns: name === 'SQLite' ? 3 : 1 })
    let revision = (await prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })).number
    const first = revision
    let waiting: ChildProcess[] = []
    for (const [turn, afterMs] of moments.entries()) {
      if (waiting.length === 0) {
        waiting = await Promise.all(kinds.map(begin))
      }
      const child = waiting.shift() as ChildProcess
      const kind = kinds[turn % kinds.length] as Errand['kind']
      const projectId = (kind === 'kits' ? kits : wrens)?.id as string
      await letWorkAndKill(child, { kind, projectId, placeId, intoId }, afterMs)
      expect(await faultsInBooks(prisma), `${kind}, killed after ${afterMs} ms`).toEqual([])
      const now = await prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })
      // Every change row is of a write that was finished.
      expect(await prisma.change.count({ where: { revision: { gt: now.number } } })).toBe(0)
      expect(now.number).toBeGreaterThanOrEqual(revision)
      revision = now.number
    }
    expect(revision).toBeGreaterThan(first)
  })
})
