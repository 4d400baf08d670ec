import 'server-only'
import { asProgram } from '../access/asking'

type Drawings = { waiting: Map<string, () => Promise<unknown>>; failed: Set<string>; atWork: Promise<void> | null }

// Everything Next bundles apart shares one, so that nothing is drawn twice at once.
const shared = globalThis as unknown as { larderDrawings?: Drawings }
shared.larderDrawings ??= { waiting: new Map(), failed: new Set(), atWork: null }
const drawings = shared.larderDrawings

/** More than any screen shows; what finds no room is asked for again. */
const mostWaiting = 500

/**
 * Draw something for photos when there is time, one after another: nobody waits for it, and it comes to nothing by itself when it fails, for
 * whoever asks next begins it again. What failed is not tried again by this process.
 *
 * @param key  what is drawn, so that it waits once only
 */
export function drawLater(key: string, draw: () => Promise<unknown>): void {
  if (drawings.waiting.has(key) || drawings.failed.has(key) || drawings.waiting.size >= mostWaiting) return
  drawings.waiting.set(key, draw)
  drawings.atWork ??= asProgram(drawAll).finally(() => {
    drawings.atWork = null
  })
}

async function drawAll(): Promise<void> {
  for (;;) {
    const [next] = drawings.waiting
    if (!next) return
    const [key, draw] = next
    await draw().catch(() => drawings.failed.add(key))
    drawings.waiting.delete(key)
  }
}

/** Until nothing waits to be drawn any more. */
export const drawingsDone = async (): Promise<void> => (await drawings.atWork) ?? undefined
