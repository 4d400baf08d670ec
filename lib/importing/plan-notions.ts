import { grouped } from '#lib/grouped'
import { sizeKeyOf } from '#lib/notion/size'
import { textKey } from '#lib/quantity/text-key'
import type { DraftRow } from './drafts'
import { pairRows } from './pair-rows'
import type { PlanningDesk } from './planning-desk'
import type { NotionRow } from './snapshot'
import { rowsAStep, type Steps } from './steps'
import type { UnknownRows } from './unknown-rows'

type Row = DraftRow<'notions'>

/** What a row is taken for where neither it nor what is there says more. */
const kindOf = ({ draft }: Row) => draft.kind ?? 'other'

/** Notions by owner, kind, name, size and place, and their turn among equals. What a project has is left to it. */
export function* planNotions(desk: PlanningDesk, { rows, known }: UnknownRows<'notions'>): Steps<void> {
  const claimed = new Set(known.map(({ nounId }) => nounId))
  const free = desk.list('notion').filter(({ id }) => !claimed.has(id))
  const held = grouped(free, (notion) => notionKey(desk.get('owner', notion.ownerId).name, notion))
  yield
  let at = 0
  for (const [key, group] of grouped(rows, (row) => notionKey(row.draft.owner, { ...row.draft, kind: kindOf(row) }))) {
    // Places that rows make are not there yet; a label nobody knows is where nothing lies.
    const placeOf = (label: string | null) => (label === null ? null : desk.findPlace(label))
    const homeOf = new Map(group.map((row) => [row, placeOf(row.draft.place)]))
    const isHome = (row: Row, { homePlaceId }: NotionRow) =>
      row.draft.place === null ? homePlaceId === null : homePlaceId !== null && homeOf.get(row) === homePlaceId
    const isHere = (row: Row, notion: NotionRow) =>
      isHome(row, notion) && (row.draft.nowAt === null ? notion.homePlaceId : placeOf(row.draft.nowAt)) === notion.currentPlaceId
    const isSame = (row: Row, notion: NotionRow) =>
      isHere(row, notion) &&
      (row.draft.count ?? 1) === notion.count &&
      textKey(row.draft.note ?? '') === textKey(notion.note ?? '')
    const pairs = pairRows(group, held.get(key) ?? [], [
      isSame,
      (row, notion) => !notion.isInUse && isHere(row, notion),
      (row, notion) => !notion.isInUse && isHome(row, notion),
      (row, notion) => !notion.isInUse && (row.draft.place === null || notion.homePlaceId === null),
    ])
    for (const [row, there] of pairs) {
      planNotion(desk, row, there)
      if (++at % rowsAStep === 0) yield
    }
  }
}

const notionKey = (owner: string, { kind, name, size }: Pick<NotionRow, 'kind' | 'name' | 'size'>): string =>
  JSON.stringify([textKey(owner), kind, textKey(name), sizeKeyOf({ kind, size })])

function planNotion(desk: PlanningDesk, row: Row, there: NotionRow | null): void {
  const { draft, rowNumber } = row
  const homePlaceId = draft.place === null ? null : desk.placeLabelled(draft.place, rowNumber, 'place')
  const nowAt = draft.nowAt === null ? null : desk.placeLabelled(draft.nowAt, rowNumber, 'nowAt')
  const { name, size, packOf, minimum, priceMinor, note } = draft
  if (there === null) {
    const ownerId = desk.ownerNamed(draft.owner, rowNumber)
    const count = draft.count ?? 1
    const currentPlaceId = nowAt ?? homePlaceId
    const id = desk.add(
      'notion',
      {
        ...{ ownerId, kind: kindOf(row), name, size, count, minimum, packOf, priceMinor },
        ...{ homePlaceId, currentPlaceId, isInUse: false, note },
      },
      rowNumber,
    )
    const came = { wholeDelta: count, toPlaceId: currentPlaceId, toOwnerId: ownerId }
    desk.move({ kind: 'receive', noun: 'notion', nounId: id, ...came, rowNumber })
    desk.finish(row, 'added', 'notion', id)
    return
  }
  const isHomeMoved = homePlaceId !== null && homePlaceId !== there.homePlaceId
  const wasHome = there.currentPlaceId === null || there.currentPlaceId === there.homePlaceId
  const currentPlaceId = nowAt ?? (isHomeMoved && wasHome ? homePlaceId : there.currentPlaceId)
  const isChanged = desk.change(
    'notion',
    there.id,
    {
      count: draft.count ?? undefined,
      minimum: minimum ?? undefined,
      packOf: packOf ?? undefined,
      priceMinor: priceMinor ?? undefined,
      homePlaceId: homePlaceId ?? undefined,
      currentPlaceId: currentPlaceId ?? undefined,
      note: note ?? undefined,
    },
    rowNumber,
  )
  const wholeDelta = (draft.count ?? there.count) - there.count
  if (wholeDelta !== 0) {
    desk.move({ kind: 'correct', noun: 'notion', nounId: there.id, wholeDelta, toPlaceId: currentPlaceId, rowNumber })
  }
  if (currentPlaceId !== there.currentPlaceId) {
    const places = { fromPlaceId: there.currentPlaceId, toPlaceId: currentPlaceId }
    desk.move({ kind: 'move', noun: 'notion', nounId: there.id, ...places, rowNumber })
  }
  desk.finish(row, isChanged ? 'changed' : 'same', 'notion', there.id)
}
