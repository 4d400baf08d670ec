import { grouped } from '#lib/grouped'
import { textKey } from '#lib/quantity/text-key'
import { DesignFinder } from './design-finder'
import type { DraftRow } from './drafts'
import { nearTitles } from './near-titles'
import { pairRows } from './pair-rows'
import type { PlanningDesk } from './planning-desk'
import type { DesignRow, ProjectRow } from './snapshot'
import type { UnknownRows } from './unknown-rows'

type Row = DraftRow<'projects'>
type Told = { row: Row; design: DesignRow; threadListId: string | null; clothPieceId: string | null; ownerKey: string }

/** Projects by design, owner and the days they were begun and finished; a row may add a day to a project that has none yet. */
export function planProjects(desk: PlanningDesk, { rows, known }: UnknownRows<'projects'>): void {
  const finder = new DesignFinder(desk)
  const listsOf = grouped(desk.list('list'), (list) => list.designId)
  const clothOf = clothByLabel(desk)
  const told = rows.flatMap((row): Told[] => {
    const design = designFor(desk, finder, row)
    if (design === null) return []
    const { draft, rowNumber } = row
    const lists = listsOf.get(design.id) ?? []
    const list =
      draft.list === null
        ? lists.length === 1
          ? lists[0]
          : null
        : lists.find((one) => textKey(one.name) === textKey(draft.list as string))
    if (list === undefined) {
      desk.refuse(rowNumber, 'list', 'unknown-list', draft.list ?? '', lists.map((one) => one.name).sort())
    }
    const cloth = draft.cloth === null ? null : clothOf(draft.owner, draft.cloth)
    if (cloth === undefined) {
      const labels = desk.list('cloth').flatMap((piece) => piece.label ?? [])
      desk.refuse(rowNumber, 'cloth', 'unknown-cloth', draft.cloth ?? '', nearTitles(draft.cloth ?? '', labels))
    }
    if (list === undefined || cloth === undefined) return []
    return [{ row, design, threadListId: list?.id ?? null, clothPieceId: cloth, ownerKey: textKey(draft.owner) }]
  })

  const claimed = new Set(known.map(({ nounId }) => nounId))
  const held = grouped(
    desk.list('project').filter((project) => !claimed.has(project.id)),
    (project) => `${project.designId} ${textKey(desk.get('owner', project.ownerId).name)}`,
  )
  for (const [key, group] of grouped(told, ({ design, ownerKey }) => `${design.id} ${ownerKey}`)) {
    const pairs = pairRows(group, held.get(key) ?? [], [
      ({ row: { draft } }, there) =>
        sameDays(draft, there) && (draft.status === null || draft.status === there.status) && draft.forWhom === there.forWhom,
      ({ row: { draft } }, there) => sameDays(draft, there),
      ({ row: { draft } }, there) => draft.startedOn === there.startedOn && there.finishedOn === null,
      ({ row: { draft } }, there) => there.startedOn === null && there.finishedOn === null && draft.startedOn !== null,
    ])
    for (const [one, there] of pairs) planProject(desk, one, there)
  }
}

const sameDays = (draft: Row['draft'], there: ProjectRow): boolean =>
  draft.startedOn === there.startedOn && draft.finishedOn === there.finishedOn

/** Of several copies of the chart the owner's own, else the first there is. */
function designFor(desk: PlanningDesk, finder: DesignFinder, { draft, rowNumber }: Row): DesignRow | null {
  const answer = finder.find({ chart: draft.chart, design: draft.design, designers: [] })
  if (!('designs' in answer)) {
    desk.refuse(rowNumber, answer.field, answer.kind, answer.raw, answer.accepted)
    return null
  }
  const own = answer.designs.find(
    (design) => textKey(desk.get('owner', finder.chartOf(design).ownerId).name) === textKey(draft.owner),
  )
  return own ?? (answer.designs[0] as DesignRow)
}

/** The piece of that label, the owner's own before another's; undefined when there is none or, of others', several. */
function clothByLabel(desk: PlanningDesk): (owner: string, label: string) => string | undefined {
  const pieces = grouped(
    desk.list('cloth').filter((piece) => piece.label !== null),
    (piece) => textKey(piece.label as string),
  )
  return (owner, label) => {
    const labelled = pieces.get(textKey(label)) ?? []
    const own = labelled.find((piece) => textKey(desk.get('owner', piece.ownerId).name) === textKey(owner))
    return own?.id ?? (labelled.length === 1 ? labelled[0]?.id : undefined)
  }
}

/** How many are on record, the spares among them; what the row does not say stays. */
const numbersOf = ({ kits, spares }: Row['draft'], there: Pick<ProjectRow, 'quantity' | 'spares'>) => ({
  quantity: (kits ?? there.quantity - there.spares) + (spares ?? there.spares),
  spares: spares ?? there.spares,
})

function planProject(desk: PlanningDesk, { row, design, threadListId, clothPieceId }: Told, there: ProjectRow | null): void {
  const { draft, rowNumber } = row
  const placeId = draft.place === null ? null : desk.placeLabelled(draft.place, rowNumber, 'place')
  const { forWhom, startedOn, finishedOn, dueOn, finishing, note } = draft
  if (there === null) {
    const id = desk.add(
      'project',
      {
        designId: design.id,
        threadListId,
        ownerId: desk.ownerNamed(draft.owner, rowNumber),
        clothPieceId,
        ...numbersOf(draft, { quantity: 1, spares: 0 }),
        status: draft.status ?? (finishedOn !== null ? 'finished' : startedOn !== null ? 'stitching' : 'planned'),
        placeId,
        forWhom,
        startedOn,
        finishedOn,
        dueOn,
        hoursTenths: draft.hoursTenths ?? 0,
        stitchesDone: draft.stitchesDone ?? 0,
        finishing,
        note,
      },
      rowNumber,
    )
    desk.finish(row, 'added', 'project', id)
    return
  }
  const isNowFinished = finishedOn !== null && there.finishedOn === null
  const isChanged = desk.change(
    'project',
    there.id,
    {
      threadListId: draft.list === null ? undefined : threadListId,
      clothPieceId: clothPieceId ?? undefined,
      ...numbersOf(draft, there),
      status: draft.status ?? (isNowFinished ? 'finished' : undefined),
      placeId: placeId ?? undefined,
      forWhom: forWhom ?? undefined,
      startedOn: startedOn ?? undefined,
      finishedOn: finishedOn ?? undefined,
      dueOn: dueOn ?? undefined,
      hoursTenths: draft.hoursTenths ?? undefined,
      stitchesDone: draft.stitchesDone ?? undefined,
      finishing: finishing ?? undefined,
      note: note ?? undefined,
    },
    rowNumber,
  )
  desk.finish(row, isChanged ? 'changed' : 'same', 'project', there.id)
}
