import { describe, expect, it } from 'vitest'
import type { CutWay } from '#lib/cloth/cut-plan'
import { boughtFor, type ChoiceThread, type ChoiceWorld, lotsFor, threadsLeft } from '#lib/planning/together/choice-world'
import { isBeyond, shareRows } from '#lib/planning/together/cloth-limits'
import { modelChoice } from '#lib/planning/together/model-choice'
import { takersOf, threadsTaken } from '#lib/planning/together/why-not'
import { solveMilp } from '#lib/solver/solve-milp'

const inch = 25_400
const square = (inches: number): CutWay[] => [{ widthUm: inches * inch, heightUm: inches * inch, isTurned: false }]

const one = { copies: 1, pin: 'may' as const }
/** In put-ups of 500 for 3.60. */
const sold = { putUpStrandTenths: 500, priceMinor: 360 }

/** Three designs on one fat quarter; two of them want the same lot. */
const world: ChoiceWorld = {
  pieces: [{ id: 'quarter', widthUm: 18 * inch, heightUm: 27 * inch }],
  gapUm: 0,
  buying: { kind: 'nothing' },
  threads: new Map([
    ['tarn blue', { lotsMatter: true, freeStrandTenths: 900, lotsStrandTenths: [600, 300], ...sold }],
    ['0311', { lotsMatter: false, freeStrandTenths: 1_000, lotsStrandTenths: [1_000], ...sold }],
  ]),
  designs: [
    { ...one, id: 'barge', value: 3, lists: [list('barge', { 'tarn blue': 400 })], ways: { quarter: square(10) } },
    { ...one, id: 'jugs', value: 3, lists: [list('jugs', { 'tarn blue': 400 })], ways: { quarter: square(8) } },
    { ...one, id: 'wrens', value: 1, lists: [list('wrens', { '0311': 100, 'tarn blue': 200 })], ways: { quarter: square(8) } },
  ],
}

function list(design: string, needs: Record<string, number>) {
  return {
    listId: `${design} cotton`,
    needs: Object.entries(needs).map(([threadId, strandTenths]) => ({ threadId, strandTenths })),
  }
}

const solve = async (asked: ChoiceWorld) => {
  const model = modelChoice(asked, [])
  const answer = model && (await solveMilp(model.lpText, { timeLimitSeconds: 20 }))
  if (!model || !answer || !('columns' in answer)) throw new Error('no answer')
  return { placed: model.read(answer.columns), objective: answer.objective }
}

describe('the model of a choice', () => {
  it('takes what one lot holds for each design, not what all lots hold together', async () => {
    const { placed, objective } = await solve(world)
    // 400 twice is less than 900, but no lot has both and the other lot has none of 400 left.
    expect(objective).toBeCloseTo(4, 6)
    expect(placed).toHaveLength(2)
    expect(placed.map(({ designId }) => designId)).toContain('wrens')
    const left = threadsLeft(world, placed)
    expect(left.get('tarn blue')?.freeStrandTenths).toBe(300)
  })

  it('leaves out threads that reach for all', () => {
    const thread = { lotsMatter: true, freeStrandTenths: 5_000, lotsStrandTenths: [5_000], ...sold }
    const model = modelChoice({ ...world, threads: new Map([...world.threads, ['tarn blue', thread]]) }, [])
    expect(model?.lpText).not.toMatch(/z\d/)
    const all = new Map([...(model?.lpText.match(/x\d+_\d+/g) ?? [])].map((name) => [name, 1] as const))
    expect(model?.read(all).map(({ lots }) => lots['tarn blue'])).toEqual([0, 0, 0])
  })

  it('says the same whatever order it is handed', () => {
    const turned = {
      ...world,
      designs: [...world.designs].reverse().map((design) => ({
        ...design,
        lists: design.lists.map((one) => ({ ...one, needs: [...one.needs].reverse() })),
      })),
      threads: new Map([...world.threads].reverse()),
    }
    expect(modelChoice(turned, [])?.lpText).toBe(modelChoice(world, [])?.lpText)
  })

  it('keeps to a limit that was found', async () => {
    const free = {
      ...world,
      threads: new Map(
        [...world.threads.keys()].map((id) => [
          id,
          { lotsMatter: false, freeStrandTenths: 9_000, lotsStrandTenths: [], ...sold },
        ]),
      ),
    }
    const all = await solve(free)
    expect(all.objective).toBeCloseTo(7, 6)
    const model = modelChoice(free, [{ pieceId: 'quarter', unitIds: ['barge', 'jugs'], most: 1 }])
    const answer = model && (await solveMilp(model.lpText, { timeLimitSeconds: 20 }))
    expect(answer && 'objective' in answer && answer.objective).toBeCloseTo(4, 6)
  })

  it('has nothing to choose from where no design lies on any piece', () => {
    expect(modelChoice({ ...world, designs: world.designs.map((design) => ({ ...design, ways: {} })) }, [])).toBeNull()
    expect(modelChoice({ ...world, pieces: [] }, [])).toBeNull()
  })
})

describe('shares of a piece', () => {
  it('forbid two that are each more than half both ways, though their areas would do', () => {
    const designs = [1, 2].map((id) => ({ ...one, id: `d${id}`, value: 1, lists: [], ways: { p: square(11) } }))
    const rows = shareRows({
      designs,
      pieces: [{ id: 'p', widthUm: 20 * inch, heightUm: 20 * inch }],
      gapUm: 0,
    })
    expect(2 * 11 * 11).toBeLessThan(20 * 20)
    expect(isBeyond(rows, ['d1', 'd2'])).toBe(true)
    expect(isBeyond(rows, ['d1'])).toBe(false)
  })

  it('let through what fills a piece exactly', () => {
    const designs = [1, 2, 3, 4, 5].map((id) => ({ ...one, id: `d${id}`, value: 1, lists: [], ways: { p: square(9) } }))
    const rows = shareRows({
      designs,
      pieces: [{ id: 'p', widthUm: 18 * inch, heightUm: 18 * inch }],
      gapUm: 0,
    })
    expect(isBeyond(rows, ['d1', 'd2', 'd3', 'd4'])).toBe(false)
    expect(isBeyond(rows, ['d1', 'd2', 'd3', 'd4', 'd5'])).toBe(true)
  })
})

describe('what is left of the thread', () => {
  const barge = { designId: 'barge', listId: 'barge cotton', pieceIds: ['quarter'], lots: { 'tarn blue': 0 } }

  it('is told by lot, and the next takes the tightest that holds it', () => {
    const left = threadsLeft(world, [barge])
    expect(left.get('tarn blue')).toEqual({ freeStrandTenths: 500, lotsStrandTenths: [200, 300, 0], boughtPutUps: 0 })
    const [, jugs, wrens] = world.designs.map(({ lists }) => lists[0])
    expect(jugs && lotsFor(world, jugs, left)).toBeNull()
    expect(wrens && lotsFor(world, wrens, left)).toEqual({ 'tarn blue': 0 })
  })

  it('says which thread keeps a design out, and who takes it', () => {
    const left = threadsLeft(world, [barge])
    expect(threadsTaken(world, takersOf(world, [barge]), left, world.designs[1] as ChoiceWorld['designs'][number])).toEqual([
      {
        ...{ threadId: 'tarn blue', needStrandTenths: 400, leftStrandTenths: 300, isOneLot: true, morePutUps: 1 },
        takenBy: [{ designId: 'barge', strandTenths: 400 }],
      },
    ])
  })

  it('refuses to give out more than there is', () => {
    expect(() => threadsLeft(world, [barge, { ...barge, designId: 'jugs', listId: 'jugs cotton' }])).toThrow(RangeError)
  })
})

describe('what is bought', () => {
  const bargeAndJugs = world.designs.filter(({ id }) => id !== 'wrens')
  const buying = (limit: ChoiceWorld['buying']): ChoiceWorld => ({ ...world, designs: bargeAndJugs, buying: limit })

  it('is a lot of its own where lots matter: one put-up of 500 for the second that wants 400', async () => {
    const { placed, objective } = await solve(buying({ kind: 'put-ups', most: 1 }))
    expect(objective).toBeCloseTo(6, 6)
    const left = threadsLeft(buying({ kind: 'put-ups', most: 1 }), placed)
    expect(boughtFor(world, left)).toEqual([{ threadId: 'tarn blue', putUps: 1, minor: 360, isOneLot: true }])
  })

  it('keeps to a budget, and a thread without a price is not bought with money', async () => {
    expect((await solve(buying({ kind: 'budget', mostMinor: 359 }))).objective).toBeCloseTo(3, 6)
    expect((await solve(buying({ kind: 'budget', mostMinor: 360 }))).objective).toBeCloseTo(6, 6)
    const tarnBlue = { ...(world.threads.get('tarn blue') as ChoiceThread), priceMinor: null }
    const free = { ...buying({ kind: 'budget', mostMinor: 99_999 }), threads: new Map([['tarn blue', tarnBlue]]) }
    expect((await solve(free)).objective).toBeCloseTo(3, 6)
  })

  it('is summed before it is rounded up where lots do not matter', () => {
    const plain = { ...sold, lotsMatter: false, freeStrandTenths: 0, lotsStrandTenths: [] }
    const asked = { ...buying({ kind: 'put-ups', most: 2 }), threads: new Map([['tarn blue', plain]]) }
    const placed = bargeAndJugs.map(({ id }) => ({ designId: id, listId: `${id} cotton`, pieceIds: [], lots: {} }))
    // 400 and 400 of put-ups of 500: 800 are 2, not 1 and 1 with something over each.
    expect(threadsLeft(asked, placed).get('tarn blue')).toMatchObject({ boughtPutUps: 2, freeStrandTenths: 200 })
  })
})

describe('copies', () => {
  it('are cut all or none: of three 10 in squares 18 × 27 holds two', async () => {
    const lanterns = { id: 'lanterns', value: 5, lists: [list('lanterns', { '0311': 30 })], ways: { quarter: square(10) } }
    const copies = (count: number) => ({ ...world, designs: [{ ...one, ...lanterns, copies: count }] })
    expect(shareRows(copies(3)).length).toBeGreaterThan(0)
    expect((await solve(copies(3))).placed).toEqual([])
    expect((await solve(copies(2))).placed).toEqual([
      { designId: 'lanterns', listId: 'lanterns cotton', pieceIds: ['quarter', 'quarter'], lots: {} },
    ])
  })
})
