import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it, vi } from 'vitest'
import { operations } from '#api/operations'
import { problemSchema } from '#api/problem'
import type { Handler } from '#api/serve'
import { seededRandom } from '#seed/random'
import { describeOnEachEngine } from '../database/engines'
import { addOneOfEverything } from '../database/one-of-everything'
import { addSmallWorld } from '../database/small-world'
import { faultsInBooks } from '../database/stock-books'
import { anyCall, apiHandlers, describedAs, poolOf, send } from './any-call'

/** So many calls of each operation: HOSTILE_CALLS for a longer run, HOSTILE_SEED for another. */
const callsEach = Number(process.env.HOSTILE_CALLS ?? 8)
const seed = process.env.HOSTILE_SEED ?? 'hostile'
/** These begin work in the background, one at a time: other tests break it off. */
const leftOut = new Set(['writeArchive', 'makeBackup', 'checkBackup', 'restoreBackup', 'startCheck'])

const told = (value: unknown): string => JSON.stringify(value)?.slice(0, 1_000) ?? 'undefined'

describeOnEachEngine('the API, asked for anything', ({ name, open }) => {
  const data = mkdtempSync(path.join(tmpdir(), 'larder-hostile-'))
  let calls: Map<string, Handler>
  /** A row made by hand has no movement. */
  let before: string[] = []

  beforeAll(async () => {
    vi.stubEnv('LARDER_DATA', data)
    vi.stubEnv('DATABASE_URL', open().url)
    await addSmallWorld(open())
    await addOneOfEverything(open())
    // Made by hand, its plan is no plan.
    await open().prisma.cutPlan.deleteMany({})
    before = await faultsInBooks(open().prisma)
    calls = await apiHandlers()
  })
  afterAll(() => {
    vi.unstubAllEnvs()
    rmSync(data, { recursive: true, force: true })
  })

  it(`answers or refuses, ${callsEach} times each operation, and never breaks`, async () => {
    const faults: string[] = []
    const log = vi.spyOn(console, 'error').mockImplementation((...said) => {
      faults.push(
        `logged ${said
          .map((one) => (one instanceof Error ? one.stack : String(one)))
          .join(' ')
          .slice(0, 1_500)}`,
      )
    })
    const random = seededRandom(`${seed} ${name}`)
    let pool = await poolOf(open())
    for (let turn = 0; turn < callsEach; turn++) {
      // What the calls before have made is asked about too.
      if (turn % 8 === 7) pool = await poolOf(open())
      for (const declared of operations) {
        if (declared.takesFile || leftOut.has(declared.id)) continue
        const call = anyCall(declared, { random, pool })
        const { parts, query, body } = call
        const asked = `${declared.id} ${told(parts)} ${query.toString().slice(0, 300)} ${body?.slice(0, 1_500) ?? ''}`
        const known = faults.length
        const response = await send(calls, declared, call)
        const text = await response.text()
        // Said in good order while the answers are built anew: try again.
        const isNotReady = response.status === 503 && declared.id === 'getReady'
        if ((response.status >= 500 && !isNotReady) || faults.length > known) faults.push(`${response.status} of ${asked}`)
        else if (!(String(response.status) in describedAs(declared).responses))
          faults.push(`${response.status}, which is not declared, of ${asked}: ${text.slice(0, 300)}`)
        else if (response.status >= 400) {
          if (!problemSchema.safeParse(JSON.parse(text)).success || /\n\s+at |node_modules|prisma/i.test(text))
            faults.push(`a refusal that is no problem of ${asked}: ${text.slice(0, 300)}`)
        } else if (/json/.test(response.headers.get('content-type') ?? '')) {
          const read = declared.answer.safeParse(JSON.parse(text))
          if (!read.success) faults.push(`an answer other than declared of ${asked}: ${told(read.error.issues.slice(0, 3))}`)
        }
      }
    }
    log.mockRestore()
    expect(faults).toEqual([])
  }, 3_600_000)

  it('has books that still add up', async () => {
    expect(await faultsInBooks(open().prisma)).toEqual(before)
  })
})
