import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { weightOf } from '#lib/checking/fault'
import { checkCollection } from '#lib/db/checking/check-collection'
import { describeOnEachEngine } from '../database/engines'
import { addSmallWorld, type SmallWorld } from '../database/small-world'
import { faultsInBooks } from '../database/stock-books'
import type { Told } from './hand'
import { beginHand, bundleHand, forgetHand } from './hands'

/** So many acts by each of the two. */
const actsEach = Number(process.env.TWO_WRITERS_ACTS ?? 60)

const folder = mkdtempSync(path.join(tmpdir(), 'larder-two-'))
beforeAll(bundleHand)
afterAll(() => {
  forgetHand()
  rmSync(folder, { recursive: true, force: true })
})

describeOnEachEngine('two processes that do everything at once', ({ name, open }) => {
  let world: SmallWorld
  beforeAll(async () => {
    vi.stubEnv('LARDER_DATA', folder)
    world = await addSmallWorld(open())
  })
  afterAll(() => {
    vi.unstubAllEnvs()
  })

  it('leave books that add up, and nothing the check would not have', { timeout: 600_000 }, async () => {
    const { prisma, url } = open()
    const first = await prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })
    const hands = ['this', 'that'].map(() => beginHand({ url, folder }))
    await Promise.all(hands.map(({ isReady }) => isReady))
    const ends = hands.map(({ child }) => once(child, 'exit'))
    for (const [at, { child }] of hands.entries()) {
      const given = { everything: { world, seed: `${name} ${at}` } } as Told['given']
      child.send({ deed: 'everything', given, until: { kind: 'acts', count: actsEach } } satisfies Told)
    }
    for (const [at, end] of ends.entries()) expect(await end, hands[at]?.errors()).toEqual([0, null])
    const { number: revision } = await prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })
    // Most found something to do, and no two had the same number.
    expect(revision - first.number).toBeGreaterThan(actsEach / 2)
    expect(await prisma.change.count({ where: { revision: { gt: revision } } })).toBe(0)
    // A loan that is settled as kept by them leaves a chart's only copy with them, which the check minds and no more.
    const faults = await faultsInBooks(prisma)
    expect(faults.filter((fault) => !fault.endsWith('is with somebody and on no loan'))).toEqual([])
    const checked = await checkCollection(open(), { leaveOut: ['damage', 'answers'] })
    expect(checked.faults.filter(({ kind }) => weightOf(kind) === 'wrong')).toEqual([])
  })
})
