import { grouped } from '#lib/grouped'
import { isSquareCount, sameCount } from '#lib/quantity/count'
import { textKey } from '#lib/quantity/text-key'
import { weaveOfCount } from './check-cloth'
import type { DraftRow } from './drafts'
import { pairRows } from './pair-rows'
import type { PlanningDesk } from './planning-desk'
import type { ClothRow } from './snapshot'
import type { Steps } from './steps'
import type { UnknownRows } from './unknown-rows'

type Row = DraftRow<'cloth'>

/** Pieces by owner and label; those without a label by owner, name, colour, count, size and place, and their turn among equals. */
export function* planCloth(desk: PlanningDesk, { rows, known }: UnknownRows<'cloth'>): Steps<void> {
  const claimed = new Set(known.map(({ nounId }) => nounId))
  const [labelled, plain] = [rows.filter(({ draft }) => draft.label !== null), rows.filter(({ draft }) => draft.label === null)]
  planLabelled(desk, labelled, claimed)
  yield
  planPlain(desk, plain, claimed)
}

const labelKey = (owner: string, label: string): string => JSON.stringify([textKey(owner), textKey(label)])

function planLabelled(desk: PlanningDesk, rows: Row[], claimed: Set<string>): void {
  const held = new Map<string, ClothRow>()
  for (const piece of desk.list('cloth')) {
    if (piece.label !== null) held.set(labelKey(desk.get('owner', piece.ownerId).name, piece.label), piece)
  }
  for (const [key, group] of grouped(rows, ({ draft }) => labelKey(draft.owner, draft.label as string))) {
    const there = held.get(key) ?? null
    const said = new Set(group.map(({ draft }) => JSON.stringify(draft)))
    // Two pieces of one label cannot both be right, and which is cannot be told from the file.
    if (said.size > 1 || (there && claimed.has(there.id))) {
      for (const row of group) {
        const others = group.filter((other) => other !== row).map((other) => String(other.rowNumber))
        desk.refuse(row.rowNumber, 'label', 'repeated-label', row.draft.label as string, others)
      }
      continue
    }
    const [first, ...repeats] = group as [Row, ...Row[]]
    const id = planPiece(desk, first, there)
    claimed.add(id)
    for (const repeat of repeats) {
      desk.warn(repeat.rowNumber, 'label', 'repeated-row', repeat.draft.label as string, [String(first.rowNumber)])
      desk.finish(repeat, 'same', 'cloth', id)
    }
  }
}

function planPlain(desk: PlanningDesk, rows: Row[], claimed: Set<string>): void {
  const pieces = desk.list('cloth').filter((piece) => !claimed.has(piece.id) && !piece.isGone)
  const held = grouped(
    // A piece that has no label is the likelier one.
    [...pieces.filter((piece) => piece.label === null), ...pieces.filter((piece) => piece.label !== null)],
    (piece) => pieceKey(desk.get('owner', piece.ownerId).name, piece),
  )
  for (const [key, group] of grouped(rows, ({ draft }) => pieceKey(draft.owner, draft))) {
    const homeOf = ({ draft }: Row) => (draft.place === null ? null : desk.findPlace(draft.place))
    const colourFits = ({ draft }: Row, piece: ClothRow) =>
      draft.colour === null || piece.colourName === null || textKey(draft.colour) === textKey(piece.colourName)
    const sameColour = ({ draft }: Row, piece: ClothRow) => textKey(draft.colour ?? '') === textKey(piece.colourName ?? '')
    const pairs = pairRows(group, held.get(key) ?? [], [
      (row, piece) =>
        sameColour(row, piece) && isHome(row, piece, homeOf) && textKey(row.draft.note ?? '') === textKey(piece.note ?? ''),
      (row, piece) => sameColour(row, piece) && isHome(row, piece, homeOf),
      (row, piece) =>
        colourFits(row, piece) && (row.draft.place === null || piece.homePlaceId === null || isHome(row, piece, homeOf)),
    ])
    for (const [row, piece] of pairs) planPiece(desk, row, piece)
  }
}

const isHome = (row: Row, piece: ClothRow, homeOf: (row: Row) => string | null): boolean =>
  row.draft.place === null ? piece.homePlaceId === null : homeOf(row) !== null && piece.homePlaceId === homeOf(row)

type KeyFacts = Pick<ClothRow, 'name' | 'ends' | 'picks' | 'widthUm' | 'heightUm'>

const pieceKey = (owner: string, { name, ends, picks, widthUm, heightUm }: KeyFacts): string =>
  JSON.stringify([textKey(owner), textKey(name), ends.threads, ends.perUm, picks.threads, picks.perUm, widthUm, heightUm])

function planPiece(desk: PlanningDesk, row: Row, there: ClothRow | null): string {
  const { draft, rowNumber } = row
  const homePlaceId = draft.place === null ? null : desk.placeLabelled(draft.place, rowNumber, 'place')
  const nowAt = draft.nowAt === null ? null : desk.placeLabelled(draft.nowAt, rowNumber, 'nowAt')
  const { ends, picks, widthUm, heightUm, name } = draft
  if (there === null) {
    const id = desk.add(
      'cloth',
      {
        ownerId: desk.ownerNamed(draft.owner, rowNumber),
        label: draft.label,
        makerName: draft.maker,
        name,
        colourName: draft.colour,
        lab: draft.lab,
        weave: draft.weave ?? weaveOfCount(ends),
        ends,
        picks,
        widthUm,
        heightUm,
        isSquared: draft.isSquared ?? false,
        sizeCertainty: draft.isSquared ? 'measured' : 'label',
        countCertainty: draft.countCertainty ?? 'label',
        isCountStale: false,
        isTurnable: draft.isTurnable ?? isSquareCount(ends, picks),
        oneWayBecause: draft.oneWayBecause ?? (draft.isTurnable === null && !isSquareCount(ends, picks) ? 'count' : null),
        dyeing: draft.dyeing,
        washState: draft.washState ?? 'unknown',
        homePlaceId,
        currentPlaceId: nowAt ?? homePlaceId,
        note: draft.note,
        isGone: false,
      },
      rowNumber,
    )
    const { currentPlaceId, ownerId } = desk.get('cloth', id)
    desk.move({
      kind: 'receive',
      noun: 'cloth',
      nounId: id,
      wholeDelta: 1,
      toPlaceId: currentPlaceId,
      toOwnerId: ownerId,
      rowNumber,
    })
    desk.finish(row, 'added', 'cloth', id)
    return id
  }
  const isHomeMoved = homePlaceId !== null && homePlaceId !== there.homePlaceId
  const wasHome = there.currentPlaceId === null || there.currentPlaceId === there.homePlaceId
  const currentPlaceId = nowAt ?? (isHomeMoved && wasHome ? homePlaceId : there.currentPlaceId)
  const isChanged = desk.change(
    'cloth',
    there.id,
    {
      label: draft.label ?? undefined,
      makerName: draft.maker ?? undefined,
      name,
      colourName: draft.colour ?? undefined,
      lab: draft.lab ?? undefined,
      weave: draft.weave ?? undefined,
      ends,
      picks,
      widthUm,
      heightUm,
      isSquared: draft.isSquared ?? undefined,
      sizeCertainty: draft.isSquared ? 'measured' : undefined,
      countCertainty: draft.countCertainty ?? undefined,
      // Another count is a fresh one; the same one again says nothing.
      isCountStale: sameCount(ends, there.ends) && sameCount(picks, there.picks) ? undefined : false,
      isTurnable: draft.isTurnable ?? undefined,
      oneWayBecause: draft.isTurnable === true ? null : (draft.oneWayBecause ?? undefined),
      dyeing: draft.dyeing ?? undefined,
      washState: draft.washState ?? undefined,
      homePlaceId: homePlaceId ?? undefined,
      currentPlaceId: currentPlaceId ?? undefined,
      note: draft.note ?? undefined,
      isGone: false,
    },
    rowNumber,
  )
  if (there.isGone)
    desk.move({ kind: 'correct', noun: 'cloth', nounId: there.id, wholeDelta: 1, toPlaceId: currentPlaceId, rowNumber })
  else if (currentPlaceId !== there.currentPlaceId) {
    desk.move({
      kind: 'move',
      noun: 'cloth',
      nounId: there.id,
      fromPlaceId: there.currentPlaceId,
      toPlaceId: currentPlaceId,
      rowNumber,
    })
  }
  desk.finish(row, isChanged ? 'changed' : 'same', 'cloth', there.id)
  return there.id
}
