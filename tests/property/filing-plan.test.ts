import fc from 'fast-check'
import { expect, it } from 'vitest'
import { type Compartments, type FilingChoice, filingMoves, planAfresh, planGrowth } from '#lib/place/filing-moves'
import { planFiling } from '#lib/place/filing-plan'

const settings = { seed: 20261129, numRuns: 500 }

/** Drawers of 0 to 4, 0 to 8 things: those filed in drawers in order (or, one time in four, anyhow) and some that have just come. */
const world = fc
  .record({
    rooms: fc.array(fc.nat(4), { minLength: 1, maxLength: 4 }),
    added: fc.nat(4),
    draws: fc.array(fc.record({ drawer: fc.nat(3), isNew: fc.nat(2).map((n) => n === 0) }), { maxLength: 8 }),
    isInOrder: fc.nat(3).map((n) => n > 0),
  })
  .map(({ rooms, added, draws, isInOrder }) => {
    const at = draws.map(({ drawer }) => drawer % rooms.length)
    if (isInOrder) at.sort((a, b) => a - b)
    return { rooms, added, filed: at.map((drawer, index) => (draws[index]?.isNew ? null : drawer)) }
  })

/** Every way to share `count` things in order among drawers, each drawer's number written out. */
function* sharings(count: number, drawers: number): Generator<number[]> {
  if (drawers === 0) {
    if (count === 0) yield []
    return
  }
  for (let first = 0; first <= count; first++) for (const rest of sharings(count - first, drawers - 1)) yield [first, ...rest]
}

/** Whether a thing that goes to a drawer of the first numbering has changed drawer, and whether forward. */
function fate(filed: readonly (number | null)[], item: number, drawer: number, drawers: number) {
  const own = filed[item]
  const before = filed.slice(0, item).findLast((one) => one !== null)
  const after = filed.slice(item + 1).find((one) => one !== null)
  const ends = own === null || own === undefined ? [before ?? after ?? 0, after ?? before ?? drawers - 1] : [own, own]
  const [first, last] = [Math.min(...ends), Math.max(...ends)]
  const way = drawer < first ? first - drawer : drawer > last ? drawer - last : 0
  return { stays: way === 0, isBack: drawer < first, way }
}

/** The least that moves, and of equals the shortest way, in one figure: moves times a thousand and the way. */
function fewest(filed: readonly (number | null)[], rooms: readonly number[], names: readonly number[], isForwardOnly: boolean) {
  let least = Number.POSITIVE_INFINITY
  for (const counts of sharings(filed.length, rooms.length)) {
    if (counts.some((count, drawer) => count > (rooms[drawer] as number))) continue
    const drawerOf = counts.flatMap((count, drawer) => new Array<number>(count).fill(names[drawer] as number))
    const drawers = names.filter(Number.isInteger).length
    const fates = drawerOf.map((drawer, item) => fate(filed, item, drawer, drawers))
    if (isForwardOnly && fates.some(({ isBack }) => isBack)) continue
    least = Math.min(least, fates.filter(({ stays }) => !stays).length * 1_000 + fates.reduce((sum, { way }) => sum + way, 0))
  }
  return least
}

const movedOf = (choices: readonly FilingChoice[], way: string) =>
  choices.find((choice) => choice.way === way)?.moved ?? Number.POSITIVE_INFINITY

function costOf(choices: readonly FilingChoice[], way: string, filed: readonly (number | null)[]) {
  const choice = choices.find((one) => one.way === way)
  if (!choice) return Number.POSITIVE_INFINITY
  const ways = choice.drawers.flatMap(({ items }, drawer) =>
    items.map((item) => fate(filed, item, drawer, choice.drawers.length).way),
  )
  return choice.moved * 1_000 + ways.reduce((sum, one) => sum + one, 0)
}

it('changes as few as trying every sharing does: forward, both ways, and with one drawer more in every place', () => {
  fc.assert(
    fc.property(world, ({ rooms, added, filed }) => {
      const { choices } = planGrowth(filed, rooms, added)
      const names = rooms.map((_, drawer) => drawer)
      expect(costOf(choices, 'forward', filed)).toBe(fewest(filed, rooms, names, true))
      const both = fewest(filed, rooms, names, false)
      expect(costOf(choices, 'both', filed)).toBe(both)
      // The drawer put in lies between two: half a number, so that only what falls between them may be in it unmoved.
      const withOne = Math.min(
        both,
        ...[...names, rooms.length].map((at) =>
          fewest(filed, rooms.toSpliced(at, 0, added), names.toSpliced(at, 0, at - 0.5), false),
        ),
      )
      expect(Math.min(movedOf(choices, 'added'), movedOf(choices, 'both'))).toBe(Math.floor(withOne / 1_000))
    }),
    settings,
  )
})

it('keeps every thing once, in order, within the room, and its moves lead from where things are to where the plan has them', () => {
  fc.assert(
    fc.property(world, ({ rooms, added, filed }) => {
      for (const choice of planGrowth(filed, rooms, added).choices) {
        expect(choice.drawers.flatMap(({ items }) => items)).toEqual(filed.map((_, item) => item))
        for (const { before, items } of choice.drawers)
          expect(items.length).toBeLessThanOrEqual(before === null ? added : (rooms[before] as number))
        const at = filed.map((drawer) => (drawer === null ? null : choice.drawers.findIndex(({ before }) => before === drawer)))
        for (const { from, to, items } of filingMoves(choice, filed)) {
          for (const item of items) {
            expect(at[item]).toBe(from)
            at[item] = to
          }
        }
        expect(at).toEqual(choice.drawers.flatMap(({ items }, drawer) => items.map(() => drawer)))
      }
    }),
    settings,
  )
})

it('lays out afresh in order, each compartment once and none beyond the drawer', () => {
  fc.assert(
    fc.property(
      fc.nat(300),
      fc.integer({ min: 1, max: 60 }),
      fc.integer({ min: 1, max: 100 }),
      (count, compartments, percent) => {
        const items = Array.from({ length: count }, (_, index) => index)
        const { drawers, perDrawer } = planFiling(items, { compartments, percent })
        expect(drawers.flat().map(({ item }) => item)).toEqual(items)
        expect(perDrawer === 1 || perDrawer * 100 <= compartments * percent).toBe(true)
        for (const drawer of drawers) {
          const used = drawer.map(({ compartment }) => compartment)
          expect(used).toEqual([...new Set(used)].sort((a, b) => a - b))
          expect(used.at(0)).toBe(1)
          expect(used.at(-1)).toBeLessThanOrEqual(compartments)
        }
      },
    ),
    settings,
  )
})

/**
 * Drawers of 0 to 3 compartments, up to 6 things, some of which have just come and some of which lie loose in their drawer; one time in
 * four they lie anyhow.
 */
const compartmentWorld = fc
  .record({
    rooms: fc.array(fc.nat(3), { minLength: 1, maxLength: 3 }),
    added: fc.nat(3),
    draws: fc.array(
      fc.record({ turn: fc.nat(8), isNew: fc.nat(2).map((n) => n === 0), isLoose: fc.nat(5).map((n) => n === 0) }),
      {
        maxLength: 6,
      },
    ),
    isInOrder: fc.nat(3).map((n) => n > 0),
  })
  .map(({ rooms, added, draws, isInOrder }) => {
    const places = rooms.map((room, drawer) => Array.from({ length: room }, (_, turn) => `${drawer}-${turn}`))
    const row = places.flatMap((names, drawer) => names.map((name) => ({ drawer, name })))
    const free = [...row]
    const lies = draws.map(({ turn, isNew, isLoose }) => {
      const drawer = turn % rooms.length
      if (isNew || isLoose || free.length === 0) return { drawer, name: null, isNew }
      const [one] = free.splice(turn % free.length, 1)
      return { ...(one as { drawer: number; name: string }), isNew }
    })
    const turnOf = (name: string | null) => row.findIndex((one) => one.name === name)
    if (isInOrder) lies.sort((a, b) => a.drawer - b.drawer || turnOf(a.name) - turnOf(b.name))
    const compartments: Compartments = {
      at: lies.map(({ drawer, name, isNew }) => (isNew ? null : (name ?? `${drawer}`))),
      places,
      added: Array.from({ length: added }, (_, turn) => `new-${turn}`),
    }
    return { rooms, added, filed: lies.map(({ drawer, isNew }) => (isNew ? null : drawer)), compartments }
  })

/** Every way to put `count` things in order one to each of `places`, by the places' turns. */
function* puttings(count: number, places: number, from = 0): Generator<number[]> {
  if (count === 0) {
    yield []
    return
  }
  for (let turn = from; turn <= places - count; turn++)
    for (const rest of puttings(count - 1, places, turn + 1)) yield [turn, ...rest]
}

/** Changes of drawer, their ways, and shifts inside drawers, weighed one after the other, of things put in these places of these drawers. */
function weight(
  filed: readonly (number | null)[],
  at: Compartments['at'],
  put: readonly { name: string; drawer: number }[],
  drawers: number,
) {
  const fates = put.map(({ drawer }, item) => fate(filed, item, drawer, drawers))
  const shifts = put.filter(({ name }, item) => fates[item]?.stays && at[item] !== null && at[item] !== name).length
  return fates.filter(({ stays }) => !stays).length * 1_000_000 + fates.reduce((sum, { way }) => sum + way, 0) * 1_000 + shifts
}

function lightest(
  filed: readonly (number | null)[],
  { at, places }: Pick<Compartments, 'at' | 'places'>,
  isForwardOnly: boolean,
) {
  const row = places.flatMap((inside, drawer) => inside.map((name) => ({ name, drawer })))
  let least = Number.POSITIVE_INFINITY
  for (const turns of puttings(filed.length, row.length)) {
    const put = turns.map((turn) => row[turn] as { name: string; drawer: number })
    if (isForwardOnly && put.some(({ drawer }, item) => fate(filed, item, drawer, places.length).isBack)) continue
    least = Math.min(least, weight(filed, at, put, places.length))
  }
  return least
}

it('with compartments changes as few drawers, and of those plans shifts as few inside, as trying every compartment for every thing', () => {
  fc.assert(
    fc.property(compartmentWorld, ({ rooms, added, filed, compartments }) => {
      const { choices } = planGrowth(filed, rooms, added, compartments)
      const weigh = (way: string, lie: readonly (number | null)[], drawers: number) => {
        const choice = choices.find((one) => one.way === way)
        if (!choice) return Number.POSITIVE_INFINITY
        const drawerOf = new Map(choice.drawers.flatMap(({ items }, drawer) => items.map((item) => [item, drawer] as const)))
        const put = lie.map((_, item) => ({ name: choice.placeOf?.[item] as string, drawer: drawerOf.get(item) as number }))
        const found = weight(lie, compartments.at, put, drawers)
        expect([choice.moved, choice.shifted]).toEqual([Math.floor(found / 1_000_000), found % 1_000])
        return found
      }
      expect(weigh('forward', filed, rooms.length)).toBe(lightest(filed, compartments, true))
      expect(weigh('both', filed, rooms.length)).toBe(lightest(filed, compartments, false))
      const withOne = choices.find(({ way }) => way === 'added')
      if (!withOne || filed.every((drawer) => drawer === null)) return
      const lies = (at: number) => filed.map((drawer) => (drawer !== null && drawer >= at ? drawer + 1 : drawer))
      const everywhere = [...rooms.keys(), rooms.length].map((at) =>
        lightest(lies(at), { at: compartments.at, places: compartments.places.toSpliced(at, 0, compartments.added) }, false),
      )
      const at = withOne.drawers.findIndex(({ before }) => before === null)
      const found = weigh('added', lies(at), rooms.length + 1)
      expect(found).toBe(everywhere[at])
      // Of places that are equal in changes and ways another may have fewer shifts, and lift more of what is filed.
      expect(Math.floor(found / 1_000)).toBe(Math.floor(Math.min(...everywhere) / 1_000))
    }),
    settings,
  )
})

it('with compartments keeps order, one to each, and lists moves so that what was in order always finds its compartment free', () => {
  fc.assert(
    fc.property(compartmentWorld, ({ rooms, added, filed, compartments }) => {
      const { choices } = planGrowth(filed, rooms, added, compartments)
      const afresh = planAfresh(filed, rooms, 75, compartments)
      for (const choice of afresh ? [...choices, afresh] : choices) {
        const row = choice.drawers.flatMap(({ before }) =>
          before === null ? compartments.added : (compartments.places[before] ?? []),
        )
        const turns = choice.placeOf?.map((name) => row.indexOf(name)) ?? []
        expect(turns).toEqual([...new Set(turns)].sort((a, b) => a - b))
        expect(turns).not.toContain(-1)
        const moves = filingMoves(choice, filed, compartments)
        const moving = moves.flatMap(({ items }) => items)
        expect(new Set(moving).size).toBe(moving.length)
        const stays = filed.flatMap((_, item) => (compartments.at[item] === choice.placeOf?.[item] ? [item] : []))
        expect([...moving, ...stays].sort((a, b) => a - b)).toEqual([...filed.keys()])
        // What leaves its drawer and what comes in lie on the tray; then the shifts inside, one after the other.
        const inside = moves.filter(({ from, to }) => from === to).flatMap(({ items }) => items)
        const lifted = new Set(moving.filter((item) => !inside.includes(item)))
        const lies = compartments.at.map((place, item) => (lifted.has(item) ? null : place))
        const before = lies.map((place) => row.indexOf(place ?? '')).filter((turn) => turn >= 0)
        if (before.some((turn, index) => turn < (before[index - 1] ?? -1))) continue
        for (const item of inside) {
          expect(lies).not.toContain(choice.placeOf?.[item])
          lies[item] = choice.placeOf?.[item] ?? null
        }
      }
    }),
    settings,
  )
})
