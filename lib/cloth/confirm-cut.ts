import { ok, type Result, refused } from '#lib/result'
import { type CutRefusal, checkCut, type PieceSize } from './check-cut'
import { type CutBox, type CutLayout, nodesOf } from './cut-plan'

/** What comes of cutting a piece by its layout, beside waste. The key names it among the parts of its piece. */
export type CutYield = CutBox & { key: string } & (
    | { kind: 'wanted'; wishId: string; copy: number; isTurned: boolean }
    /** Numbered from 1 in the order `listOffcuts` has them. */
    | { kind: 'offcut'; number: number }
  )

const sizeOf = ({ widthUm, heightUm }: PieceSize): PieceSize => ({ widthUm, heightUm })

/** What is wanted in the order it lies, then the offcuts by their numbers. */
export function listYield({ root }: CutLayout): CutYield[] {
  const wanted: CutYield[] = []
  const offcuts: CutYield[] = []
  for (const node of nodesOf(root)) {
    const { xUm, yUm, widthUm, heightUm } = node
    const box = { xUm, yUm, widthUm, heightUm }
    if (node.kind === 'wanted') {
      const { wishId, copy, isTurned } = node
      wanted.push({ kind: 'wanted', key: `${wishId}-${copy}`, wishId, copy, isTurned, ...box })
    }
    if (node.kind === 'offcut') {
      const number = offcuts.length + 1
      offcuts.push({ kind: 'offcut', key: `offcut-${number}`, number, ...box })
    }
  }
  return [...wanted, ...offcuts]
}

/** A part as it came off the shears, by its key; one that is left out is waste. */
export type ConfirmedPart = PieceSize & { key: string }

export type ConfirmRefused =
  | CutRefusal
  | { kind: 'no-such-part'; key: string }
  /** The piece is of another size than when the plan was made. */
  | { kind: 'size-changed'; was: PieceSize; is: PieceSize }

/**
 * Hold what is said to have been cut against the plan and the piece: every part is one of the plan's, comes out of the piece, and all
 * together are no more cloth than it was.
 *
 * @param held     the piece as it is
 * @param planned  the piece as it was when the plan was made
 * @returns        the parts with what they are, in the order of `listYield`, and what is left of the cloth
 */
export function confirmCut<Part extends ConfirmedPart>(
  layout: CutLayout,
  { held, planned, parts }: { held: PieceSize; planned: PieceSize; parts: readonly Part[] },
): Result<{ parts: { part: Part; planned: CutYield }[]; wasteUm2: number }, ConfirmRefused> {
  if (held.widthUm !== planned.widthUm || held.heightUm !== planned.heightUm)
    return refused({ kind: 'size-changed', was: sizeOf(planned), is: sizeOf(held) })
  const byKey = new Map(parts.map((part) => [part.key, part]))
  const expected = listYield(layout)
  const isTwice = (key: string, at: number) => parts.findIndex((one) => one.key === key) !== at
  const stray = parts.find(({ key }, at) => !expected.some((one) => one.key === key) || isTwice(key, at))
  if (stray) return refused({ kind: 'no-such-part', key: stray.key })
  const named = expected.flatMap((one) => {
    const part = byKey.get(one.key)
    return part ? [{ part, planned: one }] : []
  })
  if (named.length === 0) return refused({ kind: 'nothing-cut' })
  const cut = checkCut(
    held,
    null,
    named.map(({ part }) => part),
  )
  return cut.ok ? ok({ parts: named, wasteUm2: cut.value.wasteUm2 }) : cut
}
