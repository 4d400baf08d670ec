import 'server-only'
import { type ChoiceWorld, type Placed, threadsLeft } from '#lib/planning/choice-world'
import { type ThreadTaken, threadsTaken } from '#lib/planning/why-not'
import type { CutTrials } from './cut-trials'

/** Why a design that could be stitched by itself is not among those chosen. */
export type LeftOut = {
  designId: string
  /** Threads the chosen ones leave too little of; none where they would reach. */
  threads: ThreadTaken[]
  /** `none`: beside what is cut from each piece there is no room for it. `unknown`: there was no time to try them all. */
  room: 'some' | 'none' | 'unknown'
  /** Where there is room, or else the pieces it could lie on alone, with what is cut from each. */
  pieces: { pieceId: string; cutFor: string[] }[]
}

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
  const left = threadsLeft(world, placed)
  const chosen = new Set(placed.map(({ designId }) => designId))
  const leftOut: LeftOut[] = []
  const roomFor = async (pieceId: string, designIds: readonly string[]): Promise<LeftOut['room']> => {
    try {
      return (await trials.canCut(pieceId, designIds, until)) ? 'some' : 'none'
    } catch (error) {
      if (!signal.aborted) throw error
      return 'unknown'
    }
  }
  for (const design of world.designs) {
    if (chosen.has(design.id)) continue
    const pieces = world.pieces
      .filter(({ id }) => (design.ways[id] ?? []).length > 0)
      .map(({ id }) => ({
        pieceId: id,
        cutFor: placed.filter(({ pieceId }) => pieceId === id).map(({ designId }) => designId),
      }))
    let room: LeftOut['room'] = 'none'
    for (const { pieceId, cutFor } of pieces) {
      if (signal.aborted || performance.now() >= until) room = 'unknown'
      else room = await roomFor(pieceId, [...cutFor, design.id])
      if (room !== 'none') break
    }
    leftOut.push({ designId: design.id, threads: threadsTaken(world, placed, left, design), room, pieces })
  }
  return leftOut
}
