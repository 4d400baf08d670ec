import { shareOf } from './filing-plan'
import { beyond, type DrawerSpan, type LeastMoves, leastMoves } from './least-moves'
import { evenPlace, leastShifts } from './least-shifts'

export const filingWays = ['forward', 'both', 'added', 'afresh'] as const
/** Push on to later drawers only; to earlier ones too; with one drawer more; or deal all out anew, each drawer to a share. */
export type FilingWay = (typeof filingWays)[number]

/** By thing in the order it is filed: the drawer it is in, counted from 0; null for one that has just come. */
export type Filed = readonly (number | null)[]

/** Compartments that are places of their own, where drawers have them. */
export type Compartments = {
  /** By thing, the place it lives in: a compartment, or the drawer itself; null for one that has just come. */
  at: readonly (string | null)[]
  /** By drawer, in walking order, the places that take one thing each; the same again where one takes more. */
  places: readonly (readonly string[])[]
  /** What those of a drawer put in would be called. */
  added: readonly string[]
}

export type FilingChoice = {
  way: FilingWay
  /** How many end in another drawer than the one they are in or, when they have just come, fall in. */
  moved: number
  /** How many stay in their drawer and end in another compartment of it. */
  shifted: number
  /** In order. `before`: which of the drawers it was, null for the one added. `items`: the things in it, by their place in the order. */
  drawers: { before: number | null; items: number[] }[]
  /** By thing, the compartment it ends in; null where drawers have none that are places. */
  placeOf: readonly string[] | null
}

export type Growth = {
  /** Those that can be, in the order of `filingWays`. */
  choices: FilingChoice[]
  /** The one with the fewest changes, and of equals the fewest shifts; then the first. Null when nothing fits. */
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

type Found = Pick<FilingChoice, 'moved' | 'shifted' | 'placeOf'> & { drawerOf: readonly number[] }

const choiceOf = (way: FilingWay, { drawerOf, ...found }: Found, befores: readonly (number | null)[]): FilingChoice => {
  const drawers = befores.map((before) => ({ before, items: [] as number[] }))
  for (const [item, drawer] of drawerOf.entries()) drawers[drawer]?.items.push(item)
  return { way, moved: found.moved, shifted: found.shifted, drawers, placeOf: found.placeOf }
}

/**
 * What a run of drawers can do to take what has just come, codes staying in order: the fewest changes of drawer pushing forward only,
 * both ways, and with one drawer more wherever it helps most (of equal places the one with the shortest ways, then the
 * fewest lifted of what is filed, then the last). Where drawers have compartments, each of these with the fewest shifts inside drawers that so few changes leave.
 *
 * @param rooms      by drawer, how many of these things it takes: with compartments, as many as it has places
 * @param addedRoom  how many a drawer put in would take
 */
export function planGrowth(
  filed: Filed,
  rooms: readonly number[],
  addedRoom: number,
  compartments: Compartments | null = null,
): Growth {
  const spans = spansOf(filed, rooms.length)
  const befores = rooms.map((_, index) => index)
  const choices: FilingChoice[] = []
  for (const way of ['forward', 'both'] as const) {
    const isForwardOnly = way === 'forward'
    const found = compartments
      ? leastShifts(spans, compartments.at, compartments.places, isForwardOnly)
      : withoutShifts(leastMoves(spans, rooms, isForwardOnly))
    if (found) choices.push(choiceOf(way, found, befores))
  }
  const added = withDrawerAdded({ spans, rooms, addedRoom, compartments })
  // An added drawer that stays empty is no choice of its own.
  if (added?.found.drawerOf.includes(added.at))
    choices.push(choiceOf('added', added.found, (befores as (number | null)[]).toSpliced(added.at, 0, null)))
  return { choices, recommended: recommendedOf(choices) }
}

const withoutShifts = (found: LeastMoves | null): Found | null => found && { ...found, shifted: 0, placeOf: null }

/** A drawer put in where it helps most. */
function withDrawerAdded(asked: {
  spans: readonly DrawerSpan[]
  rooms: readonly number[]
  addedRoom: number
  compartments: Compartments | null
}): { at: number; found: Found } | null {
  const { spans, rooms, addedRoom, compartments } = asked
  const isFiled = (item: number) => (compartments?.at[item] ?? null) !== null
  let best: { at: number; moves: LeastMoves; found: Found; lifted: number } | null = null
  for (let at = 0; at <= rooms.length; at++) {
    const shift = (drawer: number) => (drawer >= at ? drawer + 1 : drawer)
    const within = spans.map(({ first, last }) => ({ first: shift(first), last: shift(last) }))
    const moves = leastMoves(within, rooms.toSpliced(at, 0, addedRoom), false)
    const fewer = moves && best ? best.moves.moved - moves.moved || best.moves.distance - moves.distance : 1
    if (!moves || fewer < 0) continue
    const found = compartments
      ? leastShifts(within, compartments.at, compartments.places.toSpliced(at, 0, compartments.added), false)
      : withoutShifts(moves)
    if (!found) continue
    const leaves = (item: number) => isFiled(item) && beyond(within[item] as DrawerSpan, found.drawerOf[item] as number) > 0
    const lifted = compartments ? found.shifted + [...spans.keys()].filter(leaves).length : 0
    if (fewer > 0 || !best || lifted <= best.lifted) best = { at, moves, found, lifted }
  }
  return best
}

const recommendedOf = (choices: readonly FilingChoice[]): FilingWay | null =>
  choices.reduce<FilingChoice | null>(
    (least, choice) =>
      least === null || choice.moved < least.moved || (choice.moved === least.moved && choice.shifted < least.shifted)
        ? choice
        : least,
    null,
  )?.way ?? null

/**
 * Everything dealt out anew over the drawers there are, in order: each filled to a share of its room, the gaps spread evenly. Null when the
 * drawers are too few for that.
 *
 * @param percent  how full, 1 to 100; what it comes to is rounded down, and is at least one where there is room at all.
 */
export function planAfresh(
  filed: Filed,
  rooms: readonly number[],
  percent: number,
  compartments: Compartments | null = null,
): FilingChoice | null {
  const drawerOf: number[] = []
  const placeOf: string[] = []
  for (const [drawer, room] of rooms.entries()) {
    if (room === 0) continue
    const share = shareOf(room, percent)
    for (let turn = 0; turn < share && drawerOf.length < filed.length; turn++) {
      drawerOf.push(drawer)
      placeOf.push(compartments?.places[drawer]?.[evenPlace(turn, share, room)] ?? '')
    }
  }
  if (drawerOf.length < filed.length) return null
  const isAway = spansOf(filed, rooms.length).map((span, item) => beyond(span, drawerOf[item] as number) > 0)
  const isShifted = (item: number) => {
    const own = compartments?.at[item] ?? null
    return own !== null && !isAway[item] && own !== placeOf[item]
  }
  const found = {
    moved: isAway.filter(Boolean).length,
    shifted: [...filed.keys()].filter(isShifted).length,
    ...{ drawerOf, placeOf: compartments && placeOf },
  }
  return choiceOf(
    'afresh',
    found,
    rooms.map((_, drawer) => drawer),
  )
}

/**
 * Things that go from one drawer to another, in order; from a drawer to itself those that shift inside it. Drawers by their place in the
 * choice; `from` null: they have just come.
 */
export type FilingMove = { from: number | null; to: number; items: number[] }

/**
 * The moves of a choice as one walks the drawers: by the drawer things are taken from, what leaves it before what shifts inside it; then
 * what has just come, by where it goes. What shifts is listed so that each compartment is free when its turn comes, once what leaves is
 * lifted out (unless things lay out of order before).
 */
export function filingMoves(choice: FilingChoice, filed: Filed, compartments: Compartments | null = null): FilingMove[] {
  const { drawers, placeOf } = choice
  const nowAt = new Map(drawers.map(({ before }, index) => [before, index]))
  const moves = new Map<string, FilingMove>()
  for (const [to, { before, items }] of drawers.entries()) {
    for (const item of items) {
      const drawer = filed[item] ?? null
      if (drawer !== null && drawer === before && (!placeOf || placeOf[item] === compartments?.at[item])) continue
      const from = drawer === null ? null : (nowAt.get(drawer) ?? null)
      const move = moves.get(`${from} ${to}`)
      if (move) move.items.push(item)
      else moves.set(`${from} ${to}`, { from, to, items: [item] })
    }
  }
  for (const move of moves.values()) if (move.from === move.to) move.items = freeing(move.items)
  return [...moves.values()].sort(
    (a, b) =>
      (a.from ?? drawers.length) - (b.from ?? drawers.length) || Number(a.from === a.to) - Number(b.from === b.to) || a.to - b.to,
  )

  /** Those that go on, the last first; then those that go back, the first first. */
  function freeing(items: readonly number[]): number[] {
    const turnOf = new Map(compartments?.places.flat().map((place, turn) => [place, turn]))
    const goesOn = (item: number) =>
      (turnOf.get(placeOf?.[item] ?? '') ?? 0) > (turnOf.get(compartments?.at[item] ?? '') ?? Number.POSITIVE_INFINITY)
    return [...items.filter(goesOn).reverse(), ...items.filter((item) => !goesOn(item))]
  }
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

/**
 * The labels of a new drawer's compartments, numbered as those of the drawer beside it are: T5.1-01 beside T5.1 becomes T5.3-01. Numbering
 * that does not begin with the drawer's own label is not followed: then it is the new label, a dash and two digits.
 */
export function compartmentLabels(
  label: string,
  { beside, count }: { beside: { label: string; compartments: readonly string[] }; count: number },
): string[] {
  const [first = ''] = beside.compartments
  const own = first.startsWith(beside.label) ? /^(\D*)(\d+)$/su.exec(first.slice(beside.label.length)) : null
  const [, stem = '-', digits = '01'] = own ?? []
  return Array.from(
    { length: count },
    (_, turn) => `${label}${stem}${String(turn + Number(digits)).padStart(digits.length, '0')}`,
  )
}
