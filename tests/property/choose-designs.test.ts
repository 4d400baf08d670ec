import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { CutFrom, CutNode, CutWay } from '#lib/cloth/cut-plan'
import { nodesOf } from '#lib/cloth/cut-plan'
import { chooseDesigns } from '#lib/db/planning/together/choose-designs'
import { type Buying, type ChoiceDesign, type ChoiceWorld, threadsLeft } from '#lib/planning/together/choice-world'
import { type CutLimit, type CutUnit, cutUnits, spreadLimit } from '#lib/planning/together/cloth-limits'
import { randomFrom, searchChoice } from '#lib/planning/together/search-choice'

/** Everything in steps of one inch, so that the slow way comes to an end. */
const inch = 25_400

type Box = readonly [number, number]

/** Whether boxes come out of a sheet by cuts from edge to edge: every way of every box at every cut, one after another. */
function canCut(wide: number, high: number, boxes: readonly (readonly Box[])[], gap: number): boolean {
  if (boxes.length === 0) return true
  if (boxes.length === 1) return (boxes[0] as Box[]).some(([w, h]) => w <= wide && h <= high)
  for (let part = 1; part < 2 ** boxes.length - 1; part++) {
    const inPart = boxes.filter((_, at) => part & (1 << at))
    const others = boxes.filter((_, at) => !(part & (1 << at)))
    for (let cut = 1; cut < wide; cut++)
      if (canCut(cut, high, inPart, gap) && canCut(wide - cut - gap, high, others, gap)) return true
    for (let cut = 1; cut < high; cut++)
      if (canCut(wide, cut, inPart, gap) && canCut(wide, high - cut - gap, others, gap)) return true
  }
  return false
}

const inInches = ({ widthUm, heightUm }: CutWay): Box => [widthUm / inch, heightUm / inch]

function fitsPiece({ gapUm }: ChoiceWorld, piece: CutFrom, designs: readonly Pick<ChoiceDesign, 'ways'>[]): boolean {
  const boxes = designs.map(({ ways }) => (ways[piece.id] ?? []).map(inInches))
  return canCut(piece.widthUm / inch, piece.heightUm / inch, boxes, gapUm / inch)
}

/** What the threads of some designs cost at least, lot by lot where lots matter, whichever list each is worked from; null past the limit. */
function reaches({ threads, buying }: ChoiceWorld, designs: readonly ChoiceDesign[]): boolean {
  const left = new Map([...threads].map(([id, thread]) => [id, { lots: [...thread.lotsStrandTenths], loose: 0, ownLot: 0 }]))
  const costs = (): number => {
    let cost = 0
    for (const [id, { loose, ownLot }] of left) {
      const thread = threads.get(id)
      if (!thread) return Number.POSITIVE_INFINITY
      const short = thread.lotsMatter ? ownLot : loose - thread.freeStrandTenths
      const putUps = Math.max(0, Math.ceil(short / thread.putUpStrandTenths))
      if (putUps === 0) continue
      if (buying.kind === 'nothing' || (buying.kind === 'budget' && thread.priceMinor === null)) return Number.POSITIVE_INFINITY
      cost += putUps * (buying.kind === 'budget' ? (thread.priceMinor ?? 0) : 1)
    }
    return cost
  }
  const limit = buying.kind === 'budget' ? buying.mostMinor : buying.kind === 'put-ups' ? buying.most : 0
  const take = (needs: { threadId: string; strandTenths: number }[], rest: () => boolean): boolean => {
    const [need, ...others] = needs
    if (!need) return rest()
    const { threadId, strandTenths } = need
    const thread = left.get(threadId)
    if (!thread) return false
    const with1 = (add: (sign: 1 | -1) => void): boolean => {
      add(1)
      const found = take(others, rest)
      add(-1)
      return found
    }
    if (!threads.get(threadId)?.lotsMatter) return with1((sign) => (thread.loose += sign * strandTenths))
    if (with1((sign) => (thread.ownLot += sign * strandTenths))) return true
    return thread.lots.some(
      (held, lot) =>
        held >= strandTenths && with1((sign) => (thread.lots[lot] = (thread.lots[lot] as number) - sign * strandTenths)),
    )
  }
  const from = (at: number): boolean => {
    const design = designs[at]
    if (!design) return costs() <= limit
    return design.lists.some(({ needs }) => take([...needs], () => from(at + 1)))
  }
  return from(0)
}

/** The most that any choice is worth, every copy of every design on every piece or none; null where the pinned ones cannot be. */
function bestValue(world: ChoiceWorld): number | null {
  let best: number | null = null
  const fits = new Map<string, boolean>()
  type OnPiece = ReadonlyMap<string, ChoiceDesign[]>
  const choose = (at: number, onPiece: OnPiece, chosen: ChoiceDesign[]): void => {
    const design = world.designs[at]
    if (!design) {
      const value = chosen.reduce((sum, one) => sum + one.value, 0)
      if ((best === null || value > best) && reaches(world, chosen)) best = value
      return
    }
    if (design.pin !== 'in') choose(at + 1, onPiece, chosen)
    if (design.pin === 'out') return
    const place = (copies: number, from: number, on: OnPiece): void => {
      if (copies === 0 || world.pieces === null) {
        choose(at + 1, on, [...chosen, design])
        return
      }
      for (let piece = from; piece < world.pieces.length; piece++) {
        const { id } = world.pieces[piece] as CutFrom
        if ((design.ways[id] ?? []).length === 0) continue
        const own = [...(on.get(id) ?? []), design]
        const key = [id, ...own.map((one) => one.id)].join()
        if (!fits.has(key)) fits.set(key, fitsPiece(world, world.pieces[piece] as CutFrom, own))
        if (fits.get(key)) place(copies - 1, piece, new Map(on).set(id, own))
      }
    }
    place(design.copies, 0, onPiece)
  }
  choose(0, new Map(), [])
  return best
}

const pieceIds = ['p1', 'p2']
const threadIds = ['t1', 't2', 't3']

const aWay = (w: number, h: number, isTurned: boolean): CutWay => ({ widthUm: w * inch, heightUm: h * inch, isTurned })

const limits: fc.Arbitrary<Buying> = fc.oneof(
  fc.constant({ kind: 'nothing' } as const),
  fc.record({ kind: fc.constant('put-ups' as const), most: fc.integer({ min: 1, max: 3 }) }),
  fc.record({ kind: fc.constant('budget' as const), mostMinor: fc.integer({ min: 1, max: 9 }) }),
)

const worlds: fc.Arbitrary<ChoiceWorld> = fc
  .record({
    pieces: fc.array(fc.tuple(fc.integer({ min: 3, max: 7 }), fc.integer({ min: 3, max: 7 })), { minLength: 1, maxLength: 2 }),
    designs: fc.array(
      fc.record({
        side: fc.tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 5 })),
        value: fc.integer({ min: 1, max: 5 }),
        mayTurn: fc.boolean(),
        copies: fc.constantFrom(1, 1, 1, 2),
        pin: fc.constantFrom('may' as const, 'may' as const, 'may' as const, 'may' as const, 'in' as const, 'out' as const),
        notOn: fc.constantFrom(null, null, 'p1', 'p2'),
        lists: fc.array(fc.dictionary(fc.constantFrom(...threadIds), fc.integer({ min: 1, max: 4 })), {
          minLength: 1,
          maxLength: 2,
        }),
      }),
      { minLength: 1, maxLength: 5 },
    ),
    threads: fc.tuple(
      ...threadIds.map(() =>
        fc.record({
          lotsMatter: fc.boolean(),
          lots: fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 1, maxLength: 2 }),
          putUpStrandTenths: fc.integer({ min: 2, max: 5 }),
          priceMinor: fc.constantFrom(1, 2, 3, null),
        }),
      ),
    ),
    gap: fc.constantFrom(0, 0, 1),
    buying: limits,
    isClothAside: fc.boolean(),
  })
  .map(({ pieces, designs, threads, gap, buying, isClothAside }) => ({
    buying,
    pieces: isClothAside
      ? null
      : pieces.map(([w, h], at) => ({ id: pieceIds[at] as string, widthUm: w * inch, heightUm: h * inch })),
    gapUm: gap * inch,
    designs: designs.map(({ side: [w, h], value, mayTurn, copies, pin, notOn, lists }, at) => ({
      ...{ copies, pin },
      id: `d${at}`,
      value,
      lists: lists.map((needs, list) => ({
        listId: `l${at}.${list}`,
        needs: Object.entries(needs).map(([threadId, strandTenths]) => ({ threadId, strandTenths })),
      })),
      ways: Object.fromEntries(
        pieces.flatMap(([wide, high], piece) => {
          if (pieceIds[piece] === notOn) return []
          const ways = [aWay(w, h, false), ...(mayTurn ? [aWay(h, w, true)] : [])].filter(
            ({ widthUm, heightUm }) => widthUm <= wide * inch && heightUm <= high * inch,
          )
          return [[pieceIds[piece] as string, ways]]
        }),
      ),
    })),
    threads: new Map(
      threads.map(({ lots, ...thread }, at) => {
        const sorted = [...lots].sort((a, b) => b - a)
        return [
          threadIds[at] as string,
          { ...thread, freeStrandTenths: sorted.reduce((sum, lot) => sum + lot, 0), lotsStrandTenths: sorted },
        ]
      }),
    ),
  }))

/** The layout is cuts from edge to edge, inside the piece, and each design has a way of its own size in it. */
function expectLaidOut(world: ChoiceWorld, root: CutNode, pieceId: string, designIds: readonly string[]): void {
  const cut = [...nodesOf(root)].flatMap((node) => (node.kind === 'wanted' ? [node] : []))
  expect(cut.map(({ wishId }) => wishId).sort()).toEqual([...designIds].sort())
  for (const { wishId, widthUm, heightUm, isTurned } of cut) {
    const ways = world.designs.find(({ id }) => id === wishId)?.ways[pieceId] ?? []
    expect(ways).toContainEqual({ widthUm, heightUm, isTurned })
  }
}

it('a choice is worth as much as the best of all choices, and keeps to cloth, thread, what may be bought and pins', async () => {
  await fc.assert(
    fc.asyncProperty(worlds, async (world) => {
      const best = bestValue(world)
      fc.pre(best !== null)
      const { choice } = await chooseDesigns(world, { timeLimitSeconds: 30 })
      expect(choice).toMatchObject({ isProved: true, endedBy: 'proof', value: best })
      expect(choice.bound).toBe(choice.value)
      const chosen = choice.placed.map(({ designId }) => world.designs.find(({ id }) => id === designId) as ChoiceDesign)
      expect(chosen.reduce((sum, { value }) => sum + value, 0)).toBe(choice.value)
      expect(world.designs.filter(({ id, pin }) => pin === 'in' && !chosen.some((one) => one.id === id))).toEqual([])
      expect(chosen.filter(({ pin }) => pin === 'out')).toEqual([])
      expect(() => threadsLeft(world, choice.placed)).not.toThrow()
      for (const { pieceId, designIds, layout } of choice.cuts) expectLaidOut(world, layout.root, pieceId, designIds)
      const wanted = world.pieces === null ? [] : chosen.flatMap(({ id, copies }) => Array.from({ length: copies }, () => id))
      expect(choice.cuts.flatMap(({ designIds }) => designIds).sort()).toEqual(wanted.sort())
      if (world.buying.kind === 'put-ups') expect(choice.spent).toBeLessThanOrEqual(world.buying.most)
    }),
    { seed: 20_260_907, numRuns: 25 },
  )
})

it('nothing less bought is worth the same, with cloth aside', async () => {
  await fc.assert(
    fc.asyncProperty(worlds, async (drawn) => {
      const world = { ...drawn, pieces: null }
      fc.pre(world.buying.kind !== 'nothing' && bestValue(world) !== null)
      const { choice } = await chooseDesigns(world, { timeLimitSeconds: 30 })
      fc.pre(choice.spent > 0)
      const less: Buying =
        world.buying.kind === 'budget'
          ? { kind: 'budget', mostMinor: choice.spent - 1 }
          : { kind: 'put-ups', most: choice.spent - 1 }
      expect(bestValue({ ...world, buying: less }) ?? -1).toBeLessThan(choice.value)
    }),
    { seed: 20_261_130, numRuns: 8 },
  )
})

it('choosing by hand keeps to the thread, begins with the greedy choice and only gets better, up to the best there is', () => {
  fc.assert(
    fc.property(worlds, (drawn) => {
      const world = { ...drawn, pieces: null }
      const best = bestValue(world)
      fc.pre(best !== null)
      const search = searchChoice(world, randomFrom(1))
      let last = -1
      for (let step = 0; step < 300; step++) {
        const found = search.next().value
        if (!found) continue
        expect(() => threadsLeft(world, found.placed)).not.toThrow()
        expect(found.value).toBeGreaterThan(last)
        last = found.value
      }
      expect(last).toBeGreaterThanOrEqual(0)
    }),
    { seed: 20_261_130, numRuns: 100 },
  )
})

it('what follows from a limit forbids nothing that can be cut', () => {
  fc.assert(
    fc.property(worlds, fc.nat(), (world, pick) => {
      // The slow way tries every set of cuts.
      fc.pre(world.pieces !== null && cutUnits(world).length <= 5)
      const pieces = world.pieces as readonly CutFrom[]
      const piece = pieces[pick % pieces.length] as CutFrom
      const on = cutUnits(world).filter(({ ways }) => (ways[piece.id] ?? []).length > 0)
      const sets = Array.from({ length: 2 ** on.length }, (_, set) => on.filter((_, at) => set & (1 << at)))
      const excluded = sets.filter((set) => set.length > 1 && !fitsPiece(world, piece, set))
      fc.pre(excluded.length > 0)
      const set = excluded[pick % excluded.length] as CutUnit[]
      const most = Math.max(
        ...sets
          .filter((part) => part.every((one) => set.includes(one)) && fitsPiece(world, piece, part))
          .map(({ length }) => length),
      )
      const found: CutLimit = { pieceId: piece.id, unitIds: set.map(({ id }) => id), most }
      const limits = spreadLimit(world, found)
      expect(limits).toContainEqual(expect.objectContaining({ pieceId: piece.id, most }))
      for (const limit of limits) {
        const at = pieces.find(({ id }) => id === limit.pieceId) as CutFrom
        const members = cutUnits(world).filter(({ id }) => limit.unitIds.includes(id))
        for (let part = 0; part < 2 ** members.length; part++) {
          const some = members.filter((_, index) => part & (1 << index))
          if (some.length > limit.most) expect(fitsPiece(world, at, some)).toBe(false)
        }
      }
    }),
    { seed: 20_260_907, numRuns: 100 },
  )
})
