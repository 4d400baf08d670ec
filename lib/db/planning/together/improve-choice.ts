import 'server-only'
import { setImmediate } from 'node:timers/promises'
import { type ChoiceDesign, type ChoiceWorld, lotsFor, type Placed, threadsLeft } from '#lib/planning/together/choice-world'
import { unitId, unitsOn } from '#lib/planning/together/cloth-limits'
import { compareExact } from '#lib/stock/batch'
import type { CutTrials } from './cut-trials'

/** Others get their turn after so much work on end. */
const turnMs = 10

/** What every step goes by. */
class Steps {
  readonly byId: ReadonlyMap<string, ChoiceDesign>
  #turnBegan = performance.now()

  constructor(
    readonly world: ChoiceWorld,
    readonly trials: CutTrials,
    readonly until: number,
  ) {
    this.byId = new Map(world.designs.map((design) => [design.id, design]))
  }

  get isOver(): boolean {
    return performance.now() >= this.until
  }

  async giveWay(): Promise<void> {
    if (performance.now() - this.#turnBegan < turnMs) return
    await setImmediate()
    this.#turnBegan = performance.now()
  }
}

/**
 * A better choice by small steps: put a design that is left out on a piece with room; or in the place of one that counts less, or that
 * finds a place on another piece. Steps are taken, pinned designs and then those worth most first, until none is left or the time is up.
 *
 * The model alone forgets what it had when it is solved again; this keeps what can be cut and adds to it.
 */
export async function improveChoice(
  world: ChoiceWorld,
  placed: readonly Placed[],
  trials: CutTrials,
  until: number,
): Promise<Placed[]> {
  const steps = new Steps(world, trials, until)
  const isPinned = ({ pin }: ChoiceDesign) => Number(pin === 'in')
  const byWorth = world.designs
    .filter(({ pin }) => pin !== 'out')
    .sort((a, b) => isPinned(b) - isPinned(a) || b.value - a.value || compareExact(a.id, b.id))
  let best = [...placed]
  let isBetter = true
  while (isBetter) {
    isBetter = false
    for (const design of byWorth) {
      if (steps.isOver) return best
      if (best.some(({ designId }) => designId === design.id)) continue
      const step = await stepFor(steps, best, design)
      if (step === null) continue
      best = step
      isBetter = true
    }
  }
  return best
}

/** The choice with one design more; null when no small step gets it in. */
async function stepFor(steps: Steps, placed: readonly Placed[], design: ChoiceDesign): Promise<Placed[] | null> {
  const added = await withDesign(steps, placed, design)
  if (added) return added
  for (const out of placed) {
    if (steps.isOver) return null
    const others = placed.filter((one) => one !== out)
    const moved = steps.byId.get(out.designId)
    // One piece was freed: only there is anything new to be had.
    const onlyPieceId = out.pieceIds.length === 1 ? out.pieceIds[0] : undefined
    const instead = moved && (await withDesign(steps, others, design, onlyPieceId))
    if (!instead) continue
    const isBetter = moved.pin === design.pin ? moved.value < design.value : design.pin === 'in'
    if (isBetter) return instead
    const both = await withDesign(steps, instead, moved)
    if (both) return both
  }
  return null
}

/**
 * A design put on the first pieces that have room for its copies (or on the one named); null where there is none for some of them, or a
 * thread does not reach.
 */
async function withDesign(
  steps: Steps,
  placed: readonly Placed[],
  design: ChoiceDesign,
  onlyPieceId?: string,
): Promise<Placed[] | null> {
  const { world, trials, until } = steps
  await steps.giveWay()
  const left = threadsLeft(world, placed)
  const found = design.lists
    .map((list) => ({ listId: list.listId, lots: lotsFor(world, list, left) }))
    .find(({ lots }) => lots !== null)
  if (!found?.lots) return null
  const pieceIds: string[] = []
  for (const { id: pieceId } of world.pieces ?? []) {
    if (onlyPieceId !== undefined && pieceId !== onlyPieceId) continue
    const beside = unitsOn(placed, pieceId)
    for (let copy = 0; pieceIds.length < design.copies; copy++) {
      if (steps.isOver) return null
      const own = Array.from({ length: copy + 1 }, (_, at) => unitId(design.id, at))
      if (!(await trials.canCut(pieceId, [...beside, ...own], until))) break
      pieceIds.push(pieceId)
    }
    if (pieceIds.length === design.copies)
      return [...placed, { designId: design.id, listId: found.listId, pieceIds, lots: found.lots }]
  }
  return null
}
