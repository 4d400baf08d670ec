import 'server-only'
import { type ChoiceDesign, type ChoiceWorld, lotsFor, type Placed, threadsLeft } from '#lib/planning/choice-world'
import { compareExact } from '#lib/stock/batch'
import type { CutTrials } from './cut-trials'

/**
 * A better choice by small steps: put a design that is left out on a piece with room; or in the place of one that counts less, or that
 * finds a place on another piece. Steps are taken, those worth most first, until none is left or the time is up.
 *
 * The model alone forgets what it had when it is solved again; this keeps what can be cut and adds to it.
 */
export async function improveChoice(
  world: ChoiceWorld,
  placed: readonly Placed[],
  trials: CutTrials,
  until: number,
): Promise<Placed[]> {
  const byWorth = [...world.designs].sort((a, b) => b.value - a.value || compareExact(a.id, b.id))
  let best = [...placed]
  let isBetter = true
  while (isBetter) {
    isBetter = false
    for (const design of byWorth) {
      if (performance.now() >= until) return best
      if (best.some(({ designId }) => designId === design.id)) continue
      const step = await stepFor(world, best, design, trials, until)
      if (step === null) continue
      best = step
      isBetter = true
    }
  }
  return best
}

/** The choice with one design more; null when no small step gets it in. */
async function stepFor(
  world: ChoiceWorld,
  placed: readonly Placed[],
  design: ChoiceDesign,
  trials: CutTrials,
  until: number,
): Promise<Placed[] | null> {
  const values = new Map(world.designs.map(({ id, value }) => [id, value]))
  const added = await withDesign(world, placed, design, trials, until)
  if (added) return added
  for (const out of placed) {
    if (performance.now() >= until) return null
    const others = placed.filter((one) => one !== out)
    const instead = await withDesign(world, others, design, trials, until, out.pieceId)
    if (!instead) continue
    if ((values.get(out.designId) ?? 0) < design.value) return instead
    const moved = world.designs.find(({ id }) => id === out.designId)
    const both = moved && (await withDesign(world, instead, moved, trials, until))
    if (both) return both
  }
  return null
}

/** A design put on the first piece that has room for it (or on the one named); null where none has, or a thread does not reach. */
async function withDesign(
  world: ChoiceWorld,
  placed: readonly Placed[],
  design: ChoiceDesign,
  trials: CutTrials,
  until: number,
  onlyPieceId?: string,
): Promise<Placed[] | null> {
  const left = threadsLeft(world, placed)
  const found = design.lists
    .map((list) => ({ listId: list.listId, lots: lotsFor(world, list, left) }))
    .find(({ lots }) => lots !== null)
  if (!found?.lots) return null
  for (const { id: pieceId } of world.pieces) {
    if (onlyPieceId !== undefined && pieceId !== onlyPieceId) continue
    if (performance.now() >= until) return null
    const beside = placed.filter((one) => one.pieceId === pieceId).map(({ designId }) => designId)
    if (await trials.canCut(pieceId, [...beside, design.id], until))
      return [...placed, { designId: design.id, listId: found.listId, pieceId, lots: found.lots }]
  }
  return null
}
