import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { breakingOff, LampWentOut } from './breaking'
import { describeOnEachEngine } from './engines'
import { type ActName, acts, type Chance } from './larder-acts'
import { addSmallWorld, type SmallWorld } from './small-world'
import { faultsInBooks, readEverything } from './stock-books'

/** One act, or two at once; `breaksAt` is the statement of the write in which the lamp goes out. */
type Turn = { act: ActName; chance: Chance; withIt: { act: ActName; chance: Chance } | null; breaksAt: number | null }

const chance: fc.Arbitrary<Chance> = fc.record({
  first: fc.nat(997),
  second: fc.nat(991),
  many: fc.nat(3),
  yes: fc.boolean(),
  other: fc.boolean(),
})
// What leads on to other acts comes more often, what ends them less.
const often: ActName[] = [
  ...([
    'start a walk',
    'tick',
    'tick',
    'tick',
    'tick',
    'carry out',
    'carry out',
    'kit',
    'unpack',
    'unpack',
    'lend',
    'lend',
  ] as const),
  ...([
    'receive',
    'receive',
    'take',
    'return',
    'cut kits',
    'step bags',
    'step bags',
    'check bags',
    'count',
    'find',
    'merge',
  ] as const),
  ...(['stitch', 'start a project', 'start a project', 'start a project', 'promise again', 'take back'] as const),
  ...(['take a merge or split back', 'merge places', 'split a place', 'put a place back', 'send', 'finish'] as const),
]
const seldom: ActName[] = [
  'give a project up',
  'empty the kit',
  'promise no more',
  'end a walk',
  'take a place away',
  'look no more',
]
const usual = (Object.keys(acts) as ActName[]).filter((name) => !seldom.includes(name))
const act = fc.constantFrom(...usual, ...usual, ...often, ...often, ...seldom)
const turn: fc.Arbitrary<Turn> = fc.record({
  ...{ act, chance },
  withIt: fc.oneof({ weight: 7, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: fc.record({ act, chance }) }),
  breaksAt: fc.oneof({ weight: 7, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: fc.integer({ min: 2, max: 9 }) }),
})
const turnsADay = 20

describeOnEachEngine('random days', ({ name, open }) => {
  let world: SmallWorld
  let folder = ''
  const dataBefore = process.env.LARDER_DATA
  const held = globalThis as { larderDatabase?: unknown; larderAnswers?: unknown }

  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-days-'))
    process.env.LARDER_DATA = folder
    delete held.larderAnswers
    world = await addSmallWorld(open())
  })
  afterAll(() => {
    if (dataBefore === undefined) delete process.env.LARDER_DATA
    else process.env.LARDER_DATA = dataBefore
    delete held.larderAnswers
    rmSync(folder, { recursive: true, force: true })
  })

  const does = (one: { act: ActName; chance: Chance }) => acts[one.act]({ prisma: open().prisma, world, ...one.chance })

  /** @returns how it came out, in a word */
  async function take({ breaksAt, withIt, ...one }: Turn): Promise<string> {
    if (breaksAt === null) {
      const answers = await Promise.all([does(one), ...(withIt ? [does(withIt)] : [])])
      return answers
        .map((answer) =>
          answer ? (answer.ok ? 'done' : ((answer as { error: { kind: string } }).error.kind ?? 'refused')) : 'nothing',
        )
        .join(' and ')
    }
    const before = await readEverything(open().prisma)
    held.larderDatabase = breakingOff(open(), breaksAt)
    try {
      const answer = await does(one)
      return answer ? (answer.ok ? 'done' : 'refused') : 'nothing'
    } catch (error) {
      if (!(error instanceof LampWentOut)) throw error
      expect(await readEverything(open().prisma)).toBe(before)
      return 'broken off'
    } finally {
      held.larderDatabase = open()
    }
  }

  /** All that is answered from memory, in an order of its own. */
  function everyAnswer({ world: known, ...answers }: Answers, of: Answers) {
    const ownerIds = [...known.owners.keys()].sort()
    const sorted = <Row extends { id: string }>(rows: readonly Row[]) => [...rows].sort((a, b) => (a.id < b.id ? -1 : 1))
    const stock = <Row extends { id: string }>(rows: ReadonlyMap<string, readonly Row[]>) =>
      [...rows].flatMap(([threadId, some]) => (some.length > 0 ? [[threadId, sorted(some)]] : [])).sort()
    return {
      revision: answers.revision,
      batches: stock(known.stock.batches),
      promises: stock(known.stock.promises),
      pieces: sorted(known.pieces),
      notions: [...known.notions].sort(),
      places: [...known.places].sort(),
      projects: [...known.projects].sort(),
      designs: [...known.designs].sort(),
      covered: [...known.designs.keys()].sort().map((id) => of.coverage(ownerIds).answerFor(id)),
    }
  }

  it('of borrowing, kitting, returning, counting and crashing lose no skein', { timeout: 600_000 }, async () => {
    const days = fc.sample(fc.array(turn, { minLength: turnsADay, maxLength: turnsADay }), {
      seed: 20_261_129,
      numRuns: name === 'SQLite' ? 6 : 2,
    })
    await getAnswers()
    for (const [day, turns] of days.entries()) {
      const log: string[] = []
      for (const one of turns) {
        const said = `day ${day + 1}: ${one.act}${one.withIt ? ` and ${one.withIt.act}` : ''} ${JSON.stringify(one.chance)}`
        const outcome = await take(one).catch((error) => `${error instanceof Error ? error.stack : error}`)
        log.push(`${said} ${outcome}`)
        if (outcome.includes('\n')) expect.fail(log.join('\n'))
        const faults = await faultsInBooks(open().prisma)
        if (faults.length > 0) expect.fail(`${faults.join('\n')}\nafter\n${log.join('\n')}`)
      }
      const caughtUp = await getAnswers()
      const said = everyAnswer(caughtUp, caughtUp)
      delete held.larderAnswers
      const anew = await getAnswers()
      expect(said).toEqual(everyAnswer(anew, anew))
    }
  })
})
