import { addTicks, exchangeTicks, removeTicks, type Sent, type WaitingTick, waitingTicks } from './tick-queue'

/**
 * What somebody said is in the bags, or back, of a walk, and that could not be written on the record at once. Its `lineId` is a key of its
 * own, so that it is done once. It names the lines they had in hand: what others tick meanwhile is for others to say.
 */
export type WaitingCarryOut = WaitingTick & {
  lineIds: readonly string[]
  bags: readonly { projectId: string; label: string }[]
  /** What the record had against it, once it was asked; it is sent no more. */
  refusal?: string
  /** Lines that stayed as they were, and why: read, and let go. */
  left?: readonly { lineId: string; why: string }[]
}

const listOf = (walkId: string) => ({ kind: 'carry', id: walkId }) as const

export const waitingCarryOuts = (walkId: string): readonly WaitingCarryOut[] =>
  waitingTicks(listOf(walkId)) as readonly WaitingCarryOut[]
export const keepCarryOut = (walkId: string, carry: WaitingCarryOut): void => addTicks(listOf(walkId), [carry])
export const dropCarryOut = (walkId: string, carry: WaitingCarryOut): void => removeTicks(listOf(walkId), [carry])
/** It was asked for and answered: only what is to be read is left of it. */
export const isSettled = ({ refusal, left }: WaitingCarryOut): boolean => refusal !== undefined || left !== undefined

const patienceMs = 20_000

/** All ticks of a walk that wait here, batch by batch; null once none is left. */
async function sendTicksFirst(walkId: string): Promise<Exclude<Sent['kind'], 'answered'> | null> {
  const list = { kind: 'walk', id: walkId } as const
  while (waitingTicks(list).length > 0) {
    const sent = await exchangeTicks(list, 0)
    if (sent.kind !== 'answered') return sent.kind
  }
  return null
}

/** Sending is under way, from whatever part of the page. */
const underWay = new Set<string>()

export type CarrySent = { kind: 'done' | 'settled' | 'no-connection' }

/**
 * Send the ticks of a walk, then write on the record what was said to be in the bags, or back. What was refused, and lines that were left as
 * they were, stay here until somebody has read it.
 */
export async function sendCarryOut(walkId: string): Promise<CarrySent> {
  if (underWay.has(walkId)) return { kind: 'no-connection' }
  underWay.add(walkId)
  try {
    for (const carry of waitingCarryOuts(walkId).filter((one) => !isSettled(one))) {
      if ((await sendTicksFirst(walkId)) !== null) return { kind: 'no-connection' }
      const { lineId, lineIds, bags, by } = carry
      const response = await fetch(`/api/v1/walks/${encodeURIComponent(walkId)}/carry-out`, {
        method: 'POST',
        headers: { 'content-type': 'application/json', 'idempotency-key': lineId },
        body: JSON.stringify({ lineIds, bags, ...(by !== null && { by }) }),
        signal: AbortSignal.timeout(patienceMs),
      })
      if (response.status >= 500 || response.status === 408 || response.status === 429) return { kind: 'no-connection' }
      const body = await response.json()
      // Asked again as another page may have taken it back meanwhile.
      if (!waitingCarryOuts(walkId).some((one) => one.lineId === lineId)) continue
      if (!response.ok) keepCarryOut(walkId, { ...carry, refusal: typeof body?.detail === 'string' ? body.detail : '' })
      else if (body.left.length > 0) keepCarryOut(walkId, { ...carry, left: body.left })
      else dropCarryOut(walkId, carry)
    }
    return { kind: waitingCarryOuts(walkId).length > 0 ? 'settled' : 'done' }
  } catch {
    return { kind: 'no-connection' }
  } finally {
    underWay.delete(walkId)
  }
}
