import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { CutFrom, CutNode, CutWay } from '#lib/cloth/cut-plan'
import { nodesOf } from '#lib/cloth/cut-plan'
import { chooseDesigns } from '#lib/db/planning/choose-designs'
import { type ChoiceDesign, type ChoiceWorld, type Placed, threadsLeft } from '#lib/planning/choice-world'
import { type CutLimit, spreadLimit } from '#lib/planning/cloth-limits'

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

function fitsPiece({ gapUm }: ChoiceWorld, piece: CutFrom, designs: readonly ChoiceDesign[]): boolean {
  const boxes = designs.map(({ ways }) => (ways[piece.id] ?? []).map(inInches))
  return canCut(piece.widthUm / inch, piece.heightUm / inch, boxes, gapUm / inch)
}

/** Whether the threads reach, lot by lot where lots matter, whichever list each is worked from. */
function threadsReach(world: ChoiceWorld, designs: readonly ChoiceDesign[]): boolean {
  const left = new Map(
    [...world.threads].map(([id, { freeStrandTenths, lotsStrandTenths }]) => [
      id,
      { free: freeStrandTenths, lots: [...lotsStrandTenths] },
    ]),
  )
  const take = (needs: { threadId: string; strandTenths: number }[], rest: () => boolean): boolean => {
    const [need, ...others] = needs
    if (!need) return rest()
    const thread = left.get(need.threadId)
    if (!thread || thread.free < need.strandTenths) return false
    thread.free -= need.strandTenths
    const lots = world.threads.get(need.threadId)?.lotsMatter ? [...thread.lots.keys()] : [null]
    const reaches = lots.some((lot) => {
      if (lot === null) return take(others, rest)
      if ((thread.lots[lot] as number) < need.strandTenths) return false
      thread.lots[lot] = (thread.lots[lot] as number) - need.strandTenths
      const found = take(others, rest)
      thread.lots[lot] = (thread.lots[lot] as number) + need.strandTenths
      return found
    })
    thread.free += need.strandTenths
    return reaches
  }
  const from = (at: number): boolean => {
    const design = designs[at]
    return !design || design.lists.some(({ needs }) => take([...needs], () => from(at + 1)))
  }
  return from(0)
}

/** The most that any choice is worth, every design on every piece or on none. */
function bestValue(world: ChoiceWorld): number {
  let best = 0
  const fits = new Map<string, boolean>()
  const choose = (at: number, onPiece: ReadonlyMap<string, ChoiceDesign[]>, chosen: ChoiceDesign[]): void => {
    const design = world.designs[at]
    if (!design) {
      const value = chosen.reduce((sum, one) => sum + one.value, 0)
      if (value > best && threadsReach(world, chosen)) best = value
      return
    }
    choose(at + 1, onPiece, chosen)
    for (const piece of world.pieces) {
      if ((design.ways[piece.id] ?? []).length === 0) continue
      const own = [...(onPiece.get(piece.id) ?? []), design]
      const key = [piece.id, ...own.map(({ id }) => id)].join()
      if (!fits.has(key)) fits.set(key, fitsPiece(world, piece, own))
      if (fits.get(key)) choose(at + 1, new Map(onPiece).set(piece.id, own), [...chosen, design])
    }
  }
  choose(0, new Map(), [])
  return best
}

const pieceIds = ['p1', 'p2']
const threadIds = ['t1', 't2', 't3']

const aWay = (w: number, h: number, isTurned: boolean): CutWay => ({ widthUm: w * inch, heightUm: h * inch, isTurned })

const worlds: fc.Arbitrary<ChoiceWorld> = fc
  .record({
    pieces: fc.array(fc.tuple(fc.integer({ min: 3, max: 7 }), fc.integer({ min: 3, max: 7 })), { minLength: 1, maxLength: 2 }),
    designs: fc.array(
      fc.record({
        side: fc.tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 5 })),
        value: fc.integer({ min: 1, max: 5 }),
        mayTurn: fc.boolean(),
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
        fc.record({ lotsMatter: fc.boolean(), lots: fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 1, maxLength: 2 }) }),
      ),
    ),
    gap: fc.constantFrom(0, 0, 1),
  })
  .map(({ pieces, designs, threads, gap }) => ({
    pieces: pieces.map(([w, h], at) => ({ id: pieceIds[at] as string, widthUm: w * inch, heightUm: h * inch })),
    gapUm: gap * inch,
    designs: designs.map(({ side: [w, h], value, mayTurn, notOn, lists }, at) => ({
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
      threads.map(({ lotsMatter, lots }, at) => {
        const sorted = [...lots].sort((a, b) => b - a)
        return [
          threadIds[at] as string,
          { lotsMatter, freeStrandTenths: sorted.reduce((sum, lot) => sum + lot, 0), lotsStrandTenths: sorted },
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

it('a choice is worth as much as the best of all choices, and keeps to cloth and thread', async () => {
  await fc.assert(
    fc.asyncProperty(worlds, async (world) => {
      const { choice } = await chooseDesigns(world, { timeLimitSeconds: 30 })
      expect(choice).toMatchObject({ isProved: true, endedBy: 'proof', value: bestValue(world) })
      expect(choice.bound).toBe(choice.value)
      const worth = (placed: readonly Placed[]) =>
        placed.reduce((sum, { designId }) => sum + (world.designs.find(({ id }) => id === designId)?.value ?? 0), 0)
      expect(worth(choice.placed)).toBe(choice.value)
      expect(() => threadsLeft(world, choice.placed)).not.toThrow()
      for (const { pieceId, designIds, layout } of choice.cuts) expectLaidOut(world, layout.root, pieceId, designIds)
      expect(choice.cuts.flatMap(({ designIds }) => designIds).sort()).toEqual(
        choice.placed.map(({ designId }) => designId).sort(),
      )
    }),
    { seed: 20_260_907, numRuns: 25 },
  )
})

it('what follows from a limit forbids nothing that can be cut', () => {
  fc.assert(
    fc.property(worlds, fc.nat(), (world, pick) => {
      const piece = world.pieces[pick % world.pieces.length] as CutFrom
      const on = world.designs.filter(({ ways }) => (ways[piece.id] ?? []).length > 0)
      const sets = Array.from({ length: 2 ** on.length }, (_, set) => on.filter((_, at) => set & (1 << at)))
      const excluded = sets.filter((set) => set.length > 1 && !fitsPiece(world, piece, set))
      fc.pre(excluded.length > 0)
      const set = excluded[pick % excluded.length] as ChoiceDesign[]
      const most = Math.max(
        ...sets
          .filter((part) => part.every((one) => set.includes(one)) && fitsPiece(world, piece, part))
          .map(({ length }) => length),
      )
      const found: CutLimit = { pieceId: piece.id, designIds: set.map(({ id }) => id), most }
      const limits = spreadLimit(world, found)
      expect(limits).toContainEqual(expect.objectContaining({ pieceId: piece.id, most }))
      for (const limit of limits) {
        const at = world.pieces.find(({ id }) => id === limit.pieceId) as CutFrom
        const members = world.designs.filter(({ id }) => limit.designIds.includes(id))
        for (let part = 0; part < 2 ** members.length; part++) {
          const some = members.filter((_, index) => part & (1 << index))
          if (some.length > limit.most) expect(fitsPiece(world, at, some)).toBe(false)
        }
      }
    }),
    { seed: 20_260_907, numRuns: 150 },
  )
})
