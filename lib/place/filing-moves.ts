import { type DrawerSpan, type LeastMoves, leastMoves } from './least-moves'

export const filingWays = ['forward', 'both', 'added'] as const
/** Push on to later drawers only; to earlier ones too; or with one drawer more. */
export type FilingWay = (typeof filingWays)[number]

/** By thing in the order it is filed: the drawer it is in, counted from 0; null for one that has just come. */
export type Filed = readonly (number | null)[]

export type FilingChoice = {
  way: FilingWay
  /** How many end in another drawer than the one they are in or, when they have just come, fall in. */
  moved: number
  /** In order. `before`: which of the drawers it was, null for the one added. `items`: the things in it, by their place in the order. */
  drawers: { before: number | null; items: number[] }[]
}

export type Growth = {
  /** Those that can be, in the order of `filingWays`. */
  choices: FilingChoice[]
  /** The one with the fewest changes; of equals the first. Null when nothing fits. */
  recommended: FilingWay | null
}

/**
 * The drawers each thing may be in without having changed drawer. What has just come falls between its neighbours: from the drawer of
 * the one before it to the drawer of the one after.
 */
function spansOf(filed: Filed, drawerCount: number): DrawerSpan[] {
  const after = new Array<number | null>(filed.length).fill(null)
  for (let i = filed.length - 1, next: number | null = null; i >= 0; i--) {
    after[i] = next
    next = filed[i] ?? next
  }
  let before: number | null = null
  return filed.map((drawer, i) => {
    if (drawer !== null) {
      before = drawer
      return { first: drawer, last: drawer }
    }
    const [one, other] = [before ?? after[i] ?? 0, after[i] ?? before ?? drawerCount - 1]
    return { first: Math.min(one, other), last: Math.max(one, other) }
  })
}

const choiceOf = (
  way: FilingWay,
  moved: number,
  drawerOf: readonly number[],
  befores: readonly (number | null)[],
): FilingChoice => {
  const drawers = befores.map((before) => ({ before, items: [] as number[] }))
  for (const [item, drawer] of drawerOf.entries()) drawers[drawer]?.items.push(item)
  return { way, moved, drawers }
}

/**
 * What a run of drawers can do to take what has just come, codes staying in order: the fewest changes of drawer pushing forward only,
 * both ways, and with one drawer more wherever it helps most (of equal places the one with the shortest ways, then the last).
 *
 * @param rooms      by drawer, how many of these things it takes
 * @param addedRoom  how many a drawer put in would take
 */
export function planGrowth(filed: Filed, rooms: readonly number[], addedRoom: number): Growth {
  const spans = spansOf(filed, rooms.length)
  const befores = rooms.map((_, index) => index)
  const choices: FilingChoice[] = []
  for (const way of ['forward', 'both'] as const) {
    const found = leastMoves(spans, rooms, way === 'forward')
    if (found) choices.push(choiceOf(way, found.moved, found.drawerOf, befores))
  }
  let best: (LeastMoves & { at: number }) | null = null
  for (let at = 0; at <= rooms.length; at++) {
    const shift = (drawer: number) => (drawer >= at ? drawer + 1 : drawer)
    const shifted = spans.map(({ first, last }) => ({ first: shift(first), last: shift(last) }))
    const found = leastMoves(shifted, rooms.toSpliced(at, 0, addedRoom), false)
    if (found && (!best || found.moved < best.moved || (found.moved === best.moved && found.distance <= best.distance)))
      best = { ...found, at }
  }
  // An added drawer that stays empty is no choice of its own.
  if (best?.drawerOf.includes(best.at))
    choices.push(choiceOf('added', best.moved, best.drawerOf, (befores as (number | null)[]).toSpliced(best.at, 0, null)))
  const recommended = choices.reduce<FilingChoice | null>(
    (least, choice) => (least === null || choice.moved < least.moved ? choice : least),
    null,
  )
  return { choices, recommended: recommended?.way ?? null }
}

/** Things that go from one drawer to another, in order. Drawers by their place in the choice; `from` null: they have just come. */
export type FilingMove = { from: number | null; to: number; items: number[] }

/** The moves of a choice as one walks the drawers: by the drawer things are taken from, then what has just come, by where it goes. */
export function filingMoves({ drawers }: FilingChoice, filed: Filed): FilingMove[] {
  const nowAt = new Map(drawers.map(({ before }, index) => [before, index]))
  const moves = new Map<string, FilingMove>()
  for (const [to, { before, items }] of drawers.entries()) {
    for (const item of items) {
      const drawer = filed[item] ?? null
      if (drawer !== null && drawer === before) continue
      const from = drawer === null ? null : (nowAt.get(drawer) ?? null)
      const move = moves.get(`${from} ${to}`)
      if (move) move.items.push(item)
      else moves.set(`${from} ${to}`, { from, to, items: [item] })
    }
  }
  return [...moves.values()].sort((a, b) => (a.from ?? drawers.length) - (b.from ?? drawers.length) || a.to - b.to)
}

/** Drawers of a choice whose first or last thing is another than before: their labels, which name both, are to be printed anew. */
export function frontsChanged({ drawers }: FilingChoice, filed: Filed): number[] {
  const ends = (items: readonly number[]) => `${items[0]} ${items.at(-1)}`
  const had: number[][] = drawers.map(() => [])
  for (const [item, drawer] of filed.entries()) if (drawer !== null) had[drawer]?.push(item)
  return drawers.flatMap(({ before, items }, index) =>
    ends(items) === ends(before === null ? [] : (had[before] ?? [])) ? [] : [index],
  )
}

/**
 * The label for a drawer put in after another: its label with the last number raised past all that are taken (T5.1 becomes T5.3 where
 * there is a T5.2). The new number is as wide as the old.
 */
export function nextLabel(label: string, isTaken: (label: string) => boolean): string {
  const [, stem = `${label}-`, digits = ''] = /^(.*?)(\d+)$/s.exec(label) ?? []
  for (let number = Number(digits || '1') + 1; ; number++) {
    const next = `${stem}${String(number).padStart(digits.length, '0')}`
    if (!isTaken(next)) return next
  }
}
