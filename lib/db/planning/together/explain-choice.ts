import 'server-only'
import { setImmediate } from 'node:timers/promises'
import { type ChoiceDesign, type ChoiceWorld, type Placed, threadsLeft } from '#lib/planning/together/choice-world'
import { unitId, unitsOn } from '#lib/planning/together/cloth-limits'
import { type ThreadTaken, takersOf, threadsTaken } from '#lib/planning/together/why-not'
import type { CutTrials } from './cut-trials'

/** Why a design that could be stitched by itself is not among those chosen. */
export type LeftOut = {
  designId: string
  /** Threads the chosen ones leave too little of; none where they would reach. */
  threads: ThreadTaken[]
  /**
   * `none`: beside what is cut from each piece there is no room for it. `unknown`: there was no time to try them all. `aside`: cloth was
   * not asked about.
   */
  room: 'some' | 'none' | 'unknown' | 'aside'
  /** Where there is room, or else the pieces it could lie on alone, with what is cut from each. */
  pieces: { pieceId: string; cutFor: string[] }[]
}

/** Others get their turn after so many designs. */
const designsATurn = 20

/**
 * For every design of the world that was not chosen: what is in its way as things were chosen. Stopped, or out of time, it tries no more
 * cuts.
 */
export async function explainChoice(
  world: ChoiceWorld,
  placed: readonly Placed[],
  trials: CutTrials,
  { timeLimitMs, signal }: { timeLimitMs: number; signal: AbortSignal },
): Promise<LeftOut[]> {
  const until = performance.now() + timeLimitMs
  const [left, takers] = [threadsLeft(world, placed), takersOf(world, placed)]
  const chosen = new Set(placed.map(({ designId }) => designId))
  const leftOut: LeftOut[] = []
  const canCut = async (pieceId: string, unitIds: readonly string[]): Promise<LeftOut['room']> => {
    if (signal.aborted || performance.now() >= until) return 'unknown'
    try {
      return (await trials.canCut(pieceId, unitIds, until)) ? 'some' : 'none'
    } catch (error) {
      if (!signal.aborted) throw error
      return 'unknown'
    }
  }
  /** Copies go on as many pieces as it takes. */
  const roomForAll = async ({ id, copies }: ChoiceDesign, pieces: readonly { pieceId: string }[]): Promise<LeftOut['room']> => {
    let wanted = copies
    for (const { pieceId } of pieces) {
      const own = unitsOn(placed, pieceId)
      for (let copy = 0; wanted > 0; copy++, wanted--) {
        own.push(unitId(id, copy))
        const room = await canCut(pieceId, own)
        if (room === 'unknown') return room
        if (room === 'none') break
      }
      if (wanted === 0) return 'some'
    }
    return 'none'
  }
  for (const [at, design] of world.designs.entries()) {
    if (at % designsATurn === designsATurn - 1) await setImmediate()
    if (chosen.has(design.id) || design.pin === 'out') continue
    const pieces = (world.pieces ?? [])
      .filter(({ id }) => (design.ways[id] ?? []).length > 0)
      .map(({ id }) => ({
        pieceId: id,
        cutFor: placed.filter(({ pieceIds }) => pieceIds.includes(id)).map(({ designId }) => designId),
      }))
    const room = world.pieces === null ? 'aside' : await roomForAll(design, pieces)
    leftOut.push({ designId: design.id, threads: threadsTaken(world, takers, left, design), room, pieces })
  }
  return leftOut
}
