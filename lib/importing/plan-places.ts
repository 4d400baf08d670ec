import { grouped } from '#lib/grouped'
import { textKey } from '#lib/quantity/text-key'
import { agree } from './agree'
import type { DraftRow } from './drafts'
import type { PlanningDesk } from './planning-desk'
import type { UnknownRows } from './unknown-rows'

/** Places by label. Rows of one label speak of one place; a place may stand in one of a later row. */
export function planPlaces(desk: PlanningDesk, { rows }: UnknownRows<'places'>): void {
  const isOld = (row: DraftRow<'places'>) => desk.nowLabelled(row.draft.label) !== null
  // What a row says of a place that is another now is not true of that one.
  for (const row of rows.filter(isOld))
    desk.finish(row, 'same', 'place', desk.placeLabelled(row.draft.label, row.rowNumber, 'label'))
  const byLabel = grouped(
    rows.filter((row) => !isOld(row)),
    (row) => textKey(row.draft.label),
  )
  const insideOf = new Map<string, string | null>()
  for (const [key, group] of byLabel)
    insideOf.set(
      key,
      agree(desk, group, 'inside', (draft) => draft.inside),
    )

  for (const key of placesInsideThemselves(desk, insideOf)) {
    for (const row of byLabel.get(key) ?? []) {
      desk.refuse(row.rowNumber, 'inside', 'inside-itself', row.draft.inside ?? insideOf.get(key) ?? '')
    }
    byLabel.delete(key)
    insideOf.delete(key)
  }

  const planned = [...byLabel].map(([key, group]) => ({ key, group, ...planPlace(desk, group) }))
  for (const { key, group, id, outcome } of planned) {
    const [first, ...others] = group as [DraftRow<'places'>, ...DraftRow<'places'>[]]
    const inside = insideOf.get(key) ?? null
    const isMoved =
      inside !== null &&
      desk.change('place', id, { parentId: desk.placeLabelled(inside, first.rowNumber, 'inside') }, first.rowNumber)
    desk.finish(first, outcome === 'same' && isMoved ? 'changed' : outcome, 'place', id)
    for (const other of others) desk.finish(other, 'same', 'place', id)
  }
}

function planPlace(desk: PlanningDesk, group: DraftRow<'places'>[]): { id: string; outcome: 'added' | 'changed' | 'same' } {
  const [first] = group as [DraftRow<'places'>]
  const isKnown = desk.findPlace(first.draft.label) !== null
  const wasGone = isKnown && desk.get('place', desk.findPlace(first.draft.label) as string).isGone
  const id = desk.placeLabelled(first.draft.label, first.rowNumber, 'label')
  const isChanged = desk.change(
    'place',
    id,
    {
      kind: agree(desk, group, 'kind', (draft) => draft.kind) ?? undefined,
      name: agree(desk, group, 'name', (draft) => draft.name) ?? undefined,
      walkOrder: agree(desk, group, 'walkOrder', (draft) => draft.walkOrder) ?? undefined,
      capacity: agree(desk, group, 'capacity', (draft) => draft.capacity) ?? undefined,
      note: agree(desk, group, 'note', (draft) => draft.note) ?? undefined,
    },
    first.rowNumber,
  )
  return { id, outcome: !isKnown ? 'added' : isChanged || wasGone ? 'changed' : 'same' }
}

/** The places of the file that would stand inside themselves, through however many others: each one of a ring the file closes. */
function placesInsideThemselves(desk: PlanningDesk, insideOf: Map<string, string | null>): Set<string> {
  const parentOf = new Map<string, string | null>()
  for (const place of desk.list('place')) {
    parentOf.set(textKey(place.label), place.parentId === null ? null : textKey(desk.get('place', place.parentId).label))
  }
  for (const [key, inside] of insideOf) if (inside !== null) parentOf.set(key, textKey(desk.nowLabelled(inside) ?? inside))

  const inRing = new Set<string>()
  const settled = new Set<string>()
  for (const start of parentOf.keys()) {
    const way: string[] = []
    let at: string | null = start
    while (at !== null && !settled.has(at)) {
      settled.add(at)
      way.push(at)
      at = parentOf.get(at) ?? null
    }
    const ring: number = at === null ? -1 : way.indexOf(at)
    if (ring !== -1) for (const key of way.slice(ring)) if (insideOf.has(key)) inRing.add(key)
  }
  return inRing
}
