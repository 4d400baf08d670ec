import { addTicks, removeTicks, type WaitingTick, waitingTicks } from './tick-queue'

/** Something found that is not on a count's sheet, waiting on this device. Its `lineId` is a key of its own, so that it is written down once. */
export type WaitingFound = WaitingTick & { placeId: string; found: string; counted: number }

const listOf = (countId: string) => ({ kind: 'found', id: countId }) as const

export const waitingFound = (countId: string): readonly WaitingFound[] => waitingTicks(listOf(countId)) as readonly WaitingFound[]
export const keepFound = (countId: string, found: WaitingFound): void => addTicks(listOf(countId), [found])
export const dropFound = (countId: string, found: WaitingFound): void => removeTicks(listOf(countId), [found])

const patienceMs = 10_000

export type FoundSent = { kind: 'sent'; written: number } | { kind: 'refused'; detail: string } | { kind: 'no-connection' }

/** Send what was found, one after another; what is refused stays, to be read. */
export async function sendFound(countId: string): Promise<FoundSent> {
  let written = 0
  for (const thing of waitingFound(countId)) {
    const { lineId, by, placeId, found, counted } = thing
    try {
      const response = await fetch(`/api/v1/counts/${encodeURIComponent(countId)}/enter`, {
        method: 'POST',
        // Sent again because no answer came, it is not written down twice.
        headers: { 'content-type': 'application/json', 'idempotency-key': lineId },
        body: JSON.stringify({ by, found: [{ placeId, found, counted }] }),
        signal: AbortSignal.timeout(patienceMs),
      })
      if (response.status >= 500 || response.status === 408 || response.status === 429) return { kind: 'no-connection' }
      const body = await response.json()
      if (!response.ok) return { kind: 'refused', detail: typeof body?.detail === 'string' ? body.detail : '' }
      dropFound(countId, thing)
      written += 1
    } catch {
      return { kind: 'no-connection' }
    }
  }
  return { kind: 'sent', written }
}
