import { compareExact } from '#lib/stock/batch'
import { type ChoiceDesign, type ChoiceThread, type ChoiceWorld, costOfPutUp, mostBought, type Placed } from './choice-world'

/** Whole numbers from 0 to below `below`. */
export type Random = (below: number) => number

/** Equal seeds give equal numbers: the splitmix32 generator (public domain, Sebastiano Vigna's construction at 32 bits). */
export function randomFrom(seed: number): Random {
  let state = seed | 0
  return (below) => {
    state = (state + 0x9e3779b9) | 0
    let mixed = state ^ (state >>> 16)
    mixed = Math.imul(mixed, 0x21f0aaad)
    mixed ^= mixed >>> 15
    mixed = Math.imul(mixed, 0x735a2d97)
    mixed ^= mixed >>> 15
    return Math.floor(((mixed >>> 0) / 2 ** 32) * below)
  }
}

/** A list as numbers: which threads, and how much of each. */
type Option = { design: number; listId: string; threads: Int32Array; needs: Float64Array; weight: number }

/** After so many steps that bettered nothing, the search goes back to the best it has. Chosen by trial at 200 and 500 designs. */
const stepsAstray = 3_000
/** How much worse than where it stands a step may leave it, in parts of what a design counts on average. */
const slack = 0.6
/** How far in the order of worth two lists may change places before it is filled up again. */
const reach = 12

/**
 * The thread side of a choice as numbers, to be added to and taken from quickly; cloth is left aside.
 *
 * Where lots matter every lot is a store of its own, and so is the lot that is bought; else a thread is one store, held and bought alike.
 */
class Stash {
  readonly designs: readonly ChoiceDesign[]
  readonly options: Option[] = []
  /** By design. */
  readonly optionsOf: number[][]
  /** The option each design is worked from; −1 where it is not chosen. */
  readonly chosen: Int32Array
  value = 0
  spent = 0
  readonly #threads: ChoiceThread[]
  readonly #threadIds: string[]
  /** What is taken of each thread that is one store; of the bought lot of the others. */
  readonly #taken: Float64Array
  readonly #putUps: Int32Array
  readonly #costs: Float64Array
  readonly #lots: Float64Array[]
  /** Of which lot each chosen design's threads are, in the order of its option. */
  readonly #lotsOf: Int32Array[]
  readonly #limit: number
  /** Chosen designs by thread. */
  readonly users: Set<number>[]
  /** The thread that was in the way when `fits` last said no. */
  blocking = -1

  constructor(world: ChoiceWorld) {
    this.designs = world.designs.filter(({ pin, lists }) => pin !== 'out' && lists.length > 0)
    this.#threadIds = [...world.threads.keys()].sort(compareExact)
    this.#threads = this.#threadIds.map((id) => world.threads.get(id) as ChoiceThread)
    this.#limit = mostBought(world.buying)
    this.#costs = Float64Array.from(this.#threads, (thread) => costOfPutUp(world.buying, thread) ?? Number.POSITIVE_INFINITY)
    this.#taken = new Float64Array(this.#threads.length)
    this.#putUps = new Int32Array(this.#threads.length)
    this.#lots = this.#threads.map(({ lotsStrandTenths }) => Float64Array.from(lotsStrandTenths))
    this.users = this.#threads.map(() => new Set())
    const at = new Map(this.#threadIds.map((id, thread) => [id, thread]))
    this.optionsOf = this.designs.map(({ lists }, design) =>
      [...lists]
        .sort((a, b) => compareExact(a.listId, b.listId))
        .map(({ listId, needs }) => {
          const threads = Int32Array.from(needs, ({ threadId }) => at.get(threadId) as number)
          this.options.push({ design, listId, threads, needs: Float64Array.from(needs, (need) => need.strandTenths), weight: 0 })
          return this.options.length - 1
        }),
    )
    this.chosen = new Int32Array(this.designs.length).fill(-1)
    this.#lotsOf = this.designs.map(() => new Int32Array(0))
    this.#weigh()
  }

  /** How scarce a list's threads are: what it takes of each as a part of all there is, threads wanted beyond that alone. */
  #weigh(): void {
    const wanted = new Float64Array(this.#threads.length)
    for (const { threads, needs } of this.options)
      threads.forEach((thread, at) => {
        wanted[thread] = (wanted[thread] as number) + (needs[at] as number)
      })
    for (const option of this.options) {
      option.threads.forEach((thread, at) => {
        const { freeStrandTenths } = this.#threads[thread] as ChoiceThread
        const over = (wanted[thread] as number) / Math.max(1, freeStrandTenths)
        if (over > 1) option.weight += (option.needs[at] as number) / Math.max(option.needs[at] as number, freeStrandTenths)
      })
    }
  }

  /** The lot a need would be taken from: the tightest that holds it, else the bought one (the number after the last). */
  #lotFor(thread: number, need: number): number {
    const lots = this.#lots[thread] as Float64Array
    let tightest = -1
    for (let lot = 0; lot < lots.length; lot++) {
      const left = lots[lot] as number
      if (left >= need && (tightest < 0 || left < (lots[tightest] as number))) tightest = lot
    }
    return tightest < 0 ? lots.length : tightest
  }

  #putUpsWith(thread: number, more: number): number {
    const { lotsMatter, freeStrandTenths, putUpStrandTenths } = this.#threads[thread] as ChoiceThread
    const short = (this.#taken[thread] as number) + more - (lotsMatter ? 0 : freeStrandTenths)
    return short <= 0 ? 0 : Math.ceil(short / putUpStrandTenths)
  }

  /** Whether a list's threads reach beside what is chosen; where not, `blocking` is one that does not. */
  fits(index: number): boolean {
    const { threads, needs } = this.options[index] as Option
    let spent = this.spent
    for (let at = 0; at < threads.length; at++) {
      const [thread, need] = [threads[at] as number, needs[at] as number]
      const known = this.#threads[thread] as ChoiceThread
      if (known.lotsMatter && this.#lotFor(thread, need) < (this.#lots[thread] as Float64Array).length) continue
      const more = this.#putUpsWith(thread, need) - (this.#putUps[thread] as number)
      if (more <= 0) continue
      spent += more * (this.#costs[thread] as number)
      if (spent <= this.#limit) continue
      this.blocking = thread
      return false
    }
    return true
  }

  add(index: number): void {
    const { design, threads, needs } = this.options[index] as Option
    const lots = new Int32Array(threads.length).fill(-1)
    for (let at = 0; at < threads.length; at++) {
      const [thread, need] = [threads[at] as number, needs[at] as number]
      this.users[thread]?.add(design)
      if ((this.#threads[thread] as ChoiceThread).lotsMatter) {
        const own = this.#lots[thread] as Float64Array
        const lot = this.#lotFor(thread, need)
        lots[at] = lot
        if (lot < own.length) {
          own[lot] = (own[lot] as number) - need
          continue
        }
      }
      this.#take(thread, need)
    }
    this.#lotsOf[design] = lots
    this.chosen[design] = index
    this.value += (this.designs[design] as ChoiceDesign).value
  }

  remove(design: number): void {
    const { threads, needs } = this.options[this.chosen[design] as number] as Option
    const lots = this.#lotsOf[design] as Int32Array
    for (let at = 0; at < threads.length; at++) {
      const [thread, need, lot] = [threads[at] as number, needs[at] as number, lots[at] as number]
      this.users[thread]?.delete(design)
      const own = this.#lots[thread] as Float64Array
      if (lot >= 0 && lot < own.length) own[lot] = (own[lot] as number) + need
      else this.#take(thread, -need)
    }
    this.chosen[design] = -1
    this.value -= (this.designs[design] as ChoiceDesign).value
  }

  #take(thread: number, strandTenths: number): void {
    const before = this.#putUps[thread] as number
    this.#taken[thread] = (this.#taken[thread] as number) + strandTenths
    const putUps = this.#putUpsWith(thread, 0)
    this.#putUps[thread] = putUps
    if (putUps !== before) this.spent += (putUps - before) * (this.#costs[thread] as number)
  }

  /** Some chosen design that a put-up is bought for; −1 when there is none that may go. */
  someBuyer(random: Random, isPinned: (design: number) => boolean): number {
    const from = random(this.#putUps.length)
    for (let step = 0; step < this.#putUps.length; step++) {
      const thread = (from + step) % this.#putUps.length
      if ((this.#putUps[thread] as number) === 0) continue
      for (const user of this.users[thread] ?? []) if (!isPinned(user)) return user
    }
    return -1
  }

  /** What a chosen design takes of a thread. */
  needOf(design: number, thread: number): number {
    const { threads, needs } = this.options[this.chosen[design] as number] as Option
    const at = threads.indexOf(thread)
    return at < 0 ? 0 : (needs[at] as number)
  }

  /** Every design back to an option, or out. */
  setTo(chosen: Int32Array): void {
    for (let design = 0; design < chosen.length; design++)
      if (this.chosen[design] !== -1 && this.chosen[design] !== chosen[design]) this.remove(design)
    for (let design = 0; design < chosen.length; design++) {
      const index = chosen[design] as number
      if (index !== -1 && this.chosen[design] === -1 && this.fits(index)) this.add(index)
    }
  }

  placed(): Placed[] {
    return [...this.chosen].flatMap((index, design): Placed[] => {
      const option = this.options[index]
      if (!option) return []
      const lots = this.#lotsOf[design] as Int32Array
      const named = [...option.threads].flatMap((thread, at) => {
        const lot = lots[at] as number
        return lot < 0 ? [] : [[this.#threadIds[thread] as string, lot] as const]
      })
      const designId = (this.designs[design] as ChoiceDesign).id
      return [{ designId, listId: option.listId, pieceIds: [], lots: Object.fromEntries(named) }]
    })
  }
}

/**
 * Choose by hand, as it were: first greedily, what is worth most for the scarce thread it takes; then by forcing one design in, taking
 * out what is in its way, and filling up again, over and over (iterated local search). Cloth is left aside.
 *
 * Pinned designs come first and stay. Each `next()` is one step, of some tens of microseconds at 100 designs; it yields the best choice
 * when it is new, else null, and never ends: the caller holds the clock. The first that is yielded is the greedy choice.
 *
 * @param start  A choice to begin from beside the greedy one.
 */
export function* searchChoice(
  world: ChoiceWorld,
  random: Random,
  start: readonly Placed[] = [],
): Generator<{ placed: Placed[]; value: number } | null, never, void> {
  const stash = new Stash(world)
  const { designs, options, optionsOf } = stash
  const byWorth = Int32Array.from([...options.keys()].sort((a, b) => worthOf(b) - worthOf(a) || a - b))
  function worthOf(index: number): number {
    const { design, weight } = options[index] as Option
    return (designs[design] as ChoiceDesign).value / (weight + 1e-3)
  }
  const isPinned = (design: number) => designs[design]?.pin === 'in'
  const fill = (order: Int32Array) => {
    for (const index of order) {
      if (stash.chosen[(options[index] as Option).design] === -1 && stash.fits(index)) stash.add(index)
    }
  }
  const pinned = byWorth.filter((index) => isPinned((options[index] as Option).design))
  fill(pinned)
  fill(byWorth)
  let best = stash.chosen.slice()
  let bestValue = stash.value
  yield { placed: stash.placed(), value: stash.value }

  if (start.length > 0) {
    const listOf = new Map(start.map(({ designId, listId }) => [designId, listId]))
    const begun = Int32Array.from(
      designs,
      ({ id }, design) => (optionsOf[design] as number[]).find((index) => options[index]?.listId === listOf.get(id)) ?? -1,
    )
    stash.setTo(new Int32Array(designs.length).fill(-1))
    stash.setTo(begun)
    fill(byWorth)
    if (stash.value > bestValue) {
      best = stash.chosen.slice()
      bestValue = stash.value
      yield { placed: stash.placed(), value: stash.value }
    }
  }

  const mean = designs.reduce((sum, { value }) => sum + value, 0) / Math.max(1, designs.length)
  const outside = () => [...stash.chosen.keys()].filter((design) => stash.chosen[design] === -1)
  const order = new Int32Array(options.length)
  let current = stash.chosen.slice()
  let currentValue = stash.value
  let astray = 0
  for (;;) {
    const out = outside()
    if (out.length === 0) {
      yield null
      continue
    }
    for (let force = 1 + random(2); force > 0; force--) {
      const design = out[random(out.length)] as number
      if (stash.chosen[design] === -1) forceIn(stash, design, random, isPinned)
    }
    fillShuffled(stash, byWorth, random, order)
    if (stash.value > bestValue && isWhole(stash, isPinned)) {
      best = stash.chosen.slice()
      bestValue = stash.value
      astray = 0
      current = best.slice()
      currentValue = bestValue
      yield { placed: stash.placed(), value: bestValue }
      continue
    }
    astray++
    if (stash.value >= currentValue - slack * mean * (random(1_000) / 1_000)) {
      current = stash.chosen.slice()
      currentValue = stash.value
    } else {
      stash.setTo(current)
      currentValue = stash.value
    }
    if (astray >= stepsAstray) {
      astray = 0
      stash.setTo(best)
      current = stash.chosen.slice()
      currentValue = stash.value
    }
    yield null
  }
}

const isWhole = ({ designs, chosen }: Stash, isPinned: (design: number) => boolean): boolean =>
  designs.every((_, design) => !isPinned(design) || chosen[design] !== -1)

/** Take a design in, and out what is in its way: of those that use the thread that lacks, what counts least for what it frees. */
function forceIn(stash: Stash, design: number, random: Random, isPinned: (design: number) => boolean): void {
  const own = stash.optionsOf[design] as number[]
  const index = own[random(own.length)] as number
  const removed: number[] = []
  while (!stash.fits(index)) {
    const thread = stash.blocking
    let least = -1
    let leastWorth = Number.POSITIVE_INFINITY
    for (const user of stash.users[thread] ?? []) {
      if (isPinned(user)) continue
      const worth = ((stash.designs[user] as ChoiceDesign).value / stash.needOf(user, thread)) * (0.5 + random(1_000) / 1_000)
      if (worth < leastWorth) [least, leastWorth] = [user, worth]
    }
    // Nobody uses it, and it is to be bought: then what is bought for others is in the way.
    if (least < 0) least = stash.someBuyer(random, isPinned)
    if (least < 0) {
      for (const other of removed) {
        const back = stash.optionsOf[other]?.find((one) => stash.fits(one))
        if (back !== undefined) stash.add(back)
      }
      return
    }
    stash.remove(least)
    removed.push(least)
  }
  stash.add(index)
}

/** Fill up in the order of worth, a little out of order each time. */
function fillShuffled(stash: Stash, byWorth: Int32Array, random: Random, order: Int32Array): void {
  order.set(byWorth)
  for (let swaps = order.length >> 2; swaps > 0; swaps--) {
    const at = random(order.length)
    const other = Math.min(order.length - 1, at + random(reach))
    const index = order[at] as number
    order[at] = order[other] as number
    order[other] = index
  }
  for (const index of order) {
    if (stash.chosen[(stash.options[index] as Option).design] === -1 && stash.fits(index)) stash.add(index)
  }
}
