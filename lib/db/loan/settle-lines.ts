import 'server-only'
import type { Transaction } from '../client'

/** One thing as a loan's line names it. */
export type LentThing = { chartId: string } | { batchId: string } | { clothPieceId: string } | { notionId: string }

/**
 * What was put back where it lives is back from whoever had it: its line is ticked, and a loan of which nothing is out any more is closed.
 * For writes that put things back by other ways than the loan.
 *
 * @param fromPlaceId  where it was: of a chart in several copies only a loan with them is meant
 * @param on           yyyy-mm-dd
 */
export async function settleLines(
  tx: Transaction,
  thing: LentThing,
  { fromPlaceId, on }: { fromPlaceId: string | null; on: string },
): Promise<void> {
  const lines = await tx.loanLine.findMany({
    where: { ...thing, backOn: null, loan: { closedOn: null } },
    select: { id: true, loanId: true, chart: { select: { copies: true } }, loan: { select: { kind: true, placeId: true } } },
  })
  const isMeant = ({ chart, loan }: (typeof lines)[number]) =>
    (chart?.copies ?? 1) <= 1 || loan.kind === 'borrow' || loan.placeId === fromPlaceId
  await tick(tx, lines.filter(isMeant), { on, note: null })
}

/** A batch before and after a write; `toPlaceId` null is gone, laid together with another at home. */
export type MovedBatch = { batchId: string; fromPlaceId: string | null; toPlaceId: string | null; isHome: boolean }

/**
 * As `settleLines`, for thread, which goes by many ways: whoever takes it from the one who had it has it back for them. What is not found
 * there is still theirs to bring; what was borrowed is back only at home.
 */
export async function settleMoved(tx: Transaction, moved: readonly MovedBatch[], on: string): Promise<void> {
  if (moved.length === 0) return
  const lines = await tx.loanLine.findMany({
    where: { batchId: { in: moved.map(({ batchId }) => batchId) }, backOn: null, loan: { closedOn: null } },
    select: { id: true, batchId: true, loanId: true, loan: { select: { kind: true, placeId: true } } },
  })
  if (lines.length === 0) return
  const notFound = new Set((await tx.place.findMany({ where: { kind: 'not found' }, select: { id: true } })).map(({ id }) => id))
  const moveOf = new Map(moved.map((move) => [move.batchId, move]))
  const back = lines.filter(({ batchId, loan }) => {
    const move = moveOf.get(batchId ?? '')
    if (!move) return false
    if (move.isHome || move.toPlaceId === null) return true
    return loan.kind !== 'borrow' && move.fromPlaceId === loan.placeId && !notFound.has(move.toPlaceId)
  })
  await tick(tx, back, { on, note: null })
}

/**
 * As `settleMoved`, for a piece of cloth or a notion as its row is now, and for a chart that is gone. For the journal, which every way of
 * moving them goes by.
 */
export async function settleThing(tx: Transaction, thing: Exclude<LentThing, { batchId: string }>, on: string): Promise<void> {
  const housing = { goneAt: true, homePlaceId: true, currentPlaceId: true, currentPlace: { select: { kind: true } } } as const
  const lines = await tx.loanLine.findMany({
    where: { ...thing, backOn: null, loan: { closedOn: null } },
    select: {
      ...{ id: true, loanId: true, loan: { select: { kind: true, placeId: true } } },
      ...{ clothPiece: { select: housing }, notion: { select: housing }, chart: { select: { goneAt: true } } },
    },
  })
  const isBack = ({ clothPiece, notion, loan }: (typeof lines)[number]) => {
    const row = clothPiece ?? notion
    if (!row || row.currentPlace?.kind === 'not found') return false
    // Laid with its like at home, a notion's own row is gone.
    if (row.homePlaceId !== null && row.currentPlaceId === row.homePlaceId) return true
    return loan.kind !== 'borrow' && row.currentPlaceId !== loan.placeId
  }
  const isGone = (line: (typeof lines)[number]) => (line.clothPiece ?? line.notion ?? line.chart)?.goneAt !== null
  await tick(tx, lines.filter(isBack), { on, note: null })
  await tick(
    tx,
    lines.filter((line) => isGone(line) && !isBack(line)),
    { on, note: 'no longer held' },
  )
}

/** Tick these lines off, and close a loan of which every line is back. */
export async function tick(
  tx: Transaction,
  lines: readonly { id: string; loanId: string }[],
  { on, note }: { on: string; note: string | null },
): Promise<void> {
  if (lines.length === 0) return
  const data = { backOn: on, ...(note !== null && { backNote: note }) }
  await tx.loanLine.updateMany({ where: { id: { in: lines.map(({ id }) => id) } }, data })
  await closeWhenBack(
    tx,
    lines.map(({ loanId }) => loanId),
    on,
  )
}

/** Raise these loans' versions, and close those of which every line is back. A loan never closes before it began. */
async function closeWhenBack(tx: Transaction, loanIds: readonly string[], on: string): Promise<void> {
  const these = { id: { in: [...new Set(loanIds)] } }
  await tx.loan.updateMany({ where: these, data: { version: { increment: 1 } } })
  const allBack = { ...these, closedOn: null, lines: { none: { backOn: null } } }
  await tx.loan.updateMany({ where: { ...allBack, fromOn: { lte: on } }, data: { closedOn: on } })
}
