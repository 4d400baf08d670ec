import { addTicks, removeTicks, type WaitingTick, waitingTicks } from './tick-queue'

/** Why a figure that was sent is not on the record: somebody counted otherwise meanwhile, or took the line off. */
export type FigureConflict = { kind: 'counted'; counted: number; at: string | null; by: string | null } | { kind: 'gone' }

/** What was counted of a line, waiting on this device until it is sent; with a conflict it waits for a person to choose. */
export type WaitingFigure = WaitingTick & {
  counted: number
  /** When the figure was counted that stood in the box before; null when none did. */
  saw: string | null
  conflict?: FigureConflict
}

/** What the server answers to figures. */
export type FiguresAnswer = {
  conflicts: readonly { lineId: string; counted: number; countedAt: string | null; countedBy: string | null }[]
  entered: readonly { lineId: string; countedAt: string }[]
  unknownLineIds: readonly string[]
}

/**
 * What becomes of the figures that were sent: those on the record are done with; those counted otherwise by somebody else, or whose line is
 * gone, stay with what there is to choose from, so that none is lost.
 */
export function settleFigures(
  sent: readonly WaitingFigure[],
  answer: FiguresAnswer,
): { done: WaitingFigure[]; conflicting: WaitingFigure[] } {
  const others = new Map(answer.conflicts.map((line) => [line.lineId, line]))
  const gone = new Set(answer.unknownLineIds)
  const conflicting = sent.flatMap((figure): WaitingFigure[] => {
    const other = others.get(figure.lineId)
    if (other)
      return [{ ...figure, conflict: { kind: 'counted', counted: other.counted, at: other.countedAt, by: other.countedBy } }]
    return gone.has(figure.lineId) ? [{ ...figure, conflict: { kind: 'gone' } }] : []
  })
  const held = new Set(conflicting.map(({ lineId }) => lineId))
  return { done: sent.filter(({ lineId }) => !held.has(lineId)), conflicting }
}

/** One's own figure put in the other's place, having seen theirs. */
export function insist({ conflict, ...figure }: WaitingFigure, nowIso: string): WaitingFigure {
  return { ...figure, saw: conflict?.kind === 'counted' ? conflict.at : figure.saw, tickedAt: nowIso }
}

const listOf = (countId: string) => ({ kind: 'count', id: countId }) as const

export const waitingFigures = (countId: string): readonly WaitingFigure[] =>
  waitingTicks(listOf(countId)) as readonly WaitingFigure[]
export const keepFigure = (countId: string, figure: WaitingFigure): void => addTicks(listOf(countId), [figure])
export const dropFigures = (countId: string, figures: readonly WaitingFigure[]): void => removeTicks(listOf(countId), figures)

const patienceMs = 10_000

export type FiguresSent =
  | { kind: 'nothing' }
  | { kind: 'sent'; answer: FiguresAnswer; done: WaitingFigure[] }
  | { kind: 'refused'; detail: string }
  | { kind: 'no-connection' }

/** Send what waits for a count. Figures of several people go each under their own name. */
export async function sendFigures(countId: string): Promise<FiguresSent> {
  const waiting = waitingFigures(countId).filter(({ conflict, by }) => !conflict && by)
  const [first] = waiting
  if (!first) return { kind: 'nothing' }
  const figures = waiting.filter(({ by }) => by === first.by).slice(0, 1_000)
  try {
    const response = await fetch(`/api/v1/counts/${encodeURIComponent(countId)}/enter`, {
      method: 'POST',
      headers: { 'content-type': 'application/json' },
      body: JSON.stringify({
        by: first.by,
        lines: figures.map(({ lineId, counted, saw, tickedAt }) => ({ lineId, counted, sawCountedAt: saw, countedAt: tickedAt })),
        sentAt: new Date().toISOString(),
      }),
      signal: AbortSignal.timeout(patienceMs),
    })
    if (response.status >= 500 || response.status === 408 || response.status === 429) return { kind: 'no-connection' }
    const body = await response.json()
    if (!response.ok) return { kind: 'refused', detail: typeof body?.detail === 'string' ? body.detail : '' }
    const answer = body as FiguresAnswer
    const { done, conflicting } = settleFigures(figures, answer)
    dropFigures(countId, done)
    // Counted once more while it was on its way: that figure is sent next, and meets the same conflict.
    const still = new Map(waitingFigures(countId).map((figure) => [figure.lineId, figure.tickedAt]))
    for (const figure of conflicting) if (still.get(figure.lineId) === figure.tickedAt) keepFigure(countId, figure)
    return { kind: 'sent', answer, done }
  } catch {
    return { kind: 'no-connection' }
  }
}
