import type { ChartKind, DesignSize } from '#lib/chart/design'
import { grouped } from '#lib/grouped'
import { textKey } from '#lib/quantity/text-key'
import type { AllowanceChoice } from '#lib/thread/allowance'
import { agree } from './agree'
import type { ChartDraft, DraftRow } from './drafts'
import type { PlanningDesk } from './planning-desk'
import type { ChartRow, DesignRow, ThemeAxis } from './snapshot'
import { rowsAStep, type Steps } from './steps'
import type { UnknownRows } from './unknown-rows'

type Row = DraftRow<'charts'>

/**
 * Charts by owner, title, kind and designers, with a design for each row by its title. A row that leaves out kind or designers belongs to
 * the chart of the file, or the chart there is, that it fits; when it fits several it is refused.
 */
export function* planCharts(desk: PlanningDesk, { rows, known }: UnknownRows<'charts'>): Steps<void> {
  const designOf = new Map(known.map(({ row, nounId }) => [row, desk.find('design', nounId)]))
  const unknown = new Set(rows)
  const designsOf = grouped(desk.list('design'), (design) => design.chartId)
  const held = grouped(desk.list('chart'), (chart) => titleKey(desk.get('owner', chart.ownerId).name, chart.title))
  const all = [...rows, ...known.map(({ row }) => row)]
  let at = 0
  for (const [key, sameTitle] of grouped(all, ({ draft }) => titleKey(draft.owner, draft.chart))) {
    if (++at % rowsAStep === 0) yield
    if (!sameTitle.some((row) => unknown.has(row))) continue
    const { charts, unclear } = partIntoCharts(sameTitle)
    for (const row of unclear.filter((one) => unknown.has(one))) {
      desk.refuse(row.rowNumber, 'chart', 'which-chart', row.draft.chart, charts.map(describe))
    }
    const there = held.get(key) ?? []
    for (const group of charts) {
      const planned = group.rows.filter((row) => unknown.has(row))
      if (planned.length === 0) continue
      const broughtIn = new Set(group.rows.flatMap((row) => designOf.get(row)?.chartId ?? []))
      const match =
        broughtIn.size === 1
          ? desk.get('chart', [...broughtIn][0] as string)
          : matchChart(desk, group, there, charts.length === 1)
      if (match === 'several') {
        for (const row of planned)
          desk.refuse(
            row.rowNumber,
            'chart',
            'which-chart',
            row.draft.chart,
            there.map((chart) => describe(signatureOf(desk, chart))),
          )
        continue
      }
      planChart(desk, { rows: planned, group, there: match, designs: match === null ? [] : (designsOf.get(match.id) ?? []) })
    }
  }
}

const titleKey = (owner: string, title: string): string => JSON.stringify([textKey(owner), textKey(title)])

/** What tells charts of one owner and title apart; null where nothing is said. */
type Signature = { kind: ChartKind | null; designers: string[] | null }
type Group = Signature & { rows: Row[] }

const signatureOfRow = ({ draft }: Row): Signature => ({
  kind: draft.kind,
  designers: draft.designers.length === 0 ? null : draft.designers.map(textKey).sort(),
})

const signatureOf = (desk: PlanningDesk, chart: ChartRow): Signature => ({
  kind: chart.kind,
  designers: chart.designerIds.length === 0 ? null : chart.designerIds.map((id) => textKey(desk.get('designer', id).name)).sort(),
})

const describe = ({ kind, designers }: Signature): string => [kind, designers?.join('; ')].filter(Boolean).join(', ')

const sameDesigners = (left: Signature, right: Signature): boolean => left.designers?.join('\n') === right.designers?.join('\n')

const fits = (left: Signature, right: Signature): boolean =>
  (left.kind === null || right.kind === null || left.kind === right.kind) &&
  (left.designers === null || right.designers === null || sameDesigners(left, right))

const isWhole = ({ kind, designers }: Signature): boolean => kind !== null && designers !== null

/** Rows of one owner and title as charts. When all fit together they are one; else each whole signature is, and the others join what they fit. */
function partIntoCharts(rows: Row[]): { charts: Group[]; unclear: Row[] } {
  const signed = [...grouped(rows, (row) => JSON.stringify(signatureOfRow(row))).values()].map(
    (group): Group => ({ ...signatureOfRow(group[0] as Row), rows: group }),
  )
  if (signed.every((left) => signed.every((right) => fits(left, right)))) {
    const kind = signed.find((one) => one.kind !== null)?.kind ?? null
    const designers = signed.find((one) => one.designers !== null)?.designers ?? null
    return { charts: [{ kind, designers, rows }], unclear: [] }
  }
  const whole = signed.filter(isWhole).map((group) => ({ ...group, rows: [...group.rows] }))
  const alone: Group[] = []
  const unclear: Row[] = []
  for (const part of signed.filter((one) => !isWhole(one))) {
    const fitting = whole.filter((one) => fits(one, part))
    if (fitting.length === 1) fitting[0]?.rows.push(...part.rows)
    else if (fitting.length > 1 || signed.some((other) => other !== part && !isWhole(other) && fits(other, part)))
      unclear.push(...part.rows)
    else alone.push(part)
  }
  return { charts: [...whole, ...alone], unclear }
}

/** The chart there is that a group means: one it fits, or, when the file has one chart of the title, one whose designers nobody noted. */
function matchChart(desk: PlanningDesk, group: Group, there: ChartRow[], isOnly: boolean): ChartRow | null | 'several' {
  const known = there.map((chart) => ({ chart, signature: signatureOf(desk, chart) }))
  const fitting = known.filter(
    ({ signature }) =>
      (group.kind === null || group.kind === signature.kind) && (group.designers === null || sameDesigners(group, signature)),
  )
  if (fitting.length === 1) return fitting[0]?.chart ?? null
  if (fitting.length > 1) return 'several'
  if (!isOnly || group.designers === null) return null
  const unsigned = known.filter(({ signature }) => signature.designers === null && fits(group, signature))
  return unsigned.length === 1 ? (unsigned[0]?.chart ?? null) : null
}

type PlannedChart = { rows: Row[]; group: Group; there: ChartRow | null; designs: DesignRow[] }

function planChart(desk: PlanningDesk, { rows, group, there, designs }: PlannedChart): void {
  const [first] = rows as [Row]
  const { rowNumber } = first
  const facts = factsOfChart(desk, rows, group)
  const id = there?.id ?? addChart(desk, rows, facts, rowNumber)
  let isChartChanged = there !== null && changeChart(desk, there, facts, rowNumber)

  const byTitle = [...grouped(rows, ({ draft }) => textKey(draft.design))].sort(([left], [right]) => (left < right ? -1 : 1))
  for (const [key, same] of byTitle) {
    const [row, ...others] = same as [Row, ...Row[]]
    const design = designs.find((one) => textKey(one.title) === key) ?? null
    const designId = design?.id ?? addDesign(desk, id, row, designs)
    const isChanged = changeDesign(desk, designId, same)
    desk.finish(row, design === null ? 'added' : isChanged || isChartChanged ? 'changed' : 'same', 'design', designId)
    if (design !== null) isChartChanged = false
    for (const other of others) desk.finish(other, 'same', 'design', designId)
  }
}

type ChartFacts = ReturnType<typeof factsOfChart>

function factsOfChart(desk: PlanningDesk, rows: Row[], group: Group) {
  const say = <Fact>(field: string, pick: (draft: ChartDraft) => Fact | null) => agree(desk, rows, field, pick)
  const [{ rowNumber }] = rows as [Row]
  const place = say('place', (draft) => draft.place)
  const nowAt = say('nowAt', (draft) => draft.nowAt)
  // Rows of one chart name the same designers; the order and spelling most of them use is kept.
  const designers = say('designer', (draft) => (draft.designers.length === 0 ? null : draft.designers)) ?? []
  return {
    kind: group.kind,
    designerIds: designers.map((name) => desk.designerNamed(name, rowNumber)),
    copies: say('copies', (draft) => draft.copies),
    edition: say('edition', (draft) => draft.edition),
    partsNeeded: say('partsNeeded', (draft) => draft.partsNeeded),
    partsHeld: say('partsHeld', (draft) => draft.partsHeld),
    homePlaceId: place === null ? null : desk.placeLabelled(place, rowNumber, 'place'),
    nowAtPlaceId: nowAt === null ? null : desk.placeLabelled(nowAt, rowNumber, 'nowAt'),
    boughtOn: say('bought', (draft) => draft.boughtOn),
    priceMinor: say('price', (draft) => draft.priceMinor),
  }
}

function addChart(desk: PlanningDesk, rows: Row[], facts: ChartFacts, rowNumber: number): string {
  const { owner, chart } = (rows[0] as Row).draft
  const { nowAtPlaceId, ...kept } = facts
  const id = desk.add(
    'chart',
    {
      ...kept,
      title: chart,
      kind: facts.kind ?? 'leaflet',
      ownerId: desk.ownerNamed(owner, rowNumber),
      copies: facts.copies ?? 1,
      partsNeeded: facts.partsNeeded ?? facts.partsHeld ?? 1,
      partsHeld: facts.partsHeld ?? facts.partsNeeded ?? 1,
      currentPlaceId: nowAtPlaceId ?? facts.homePlaceId,
      note: null,
    },
    rowNumber,
  )
  const { copies, currentPlaceId, ownerId } = desk.get('chart', id)
  desk.move({
    kind: 'receive',
    noun: 'chart',
    nounId: id,
    wholeDelta: copies,
    toPlaceId: currentPlaceId,
    toOwnerId: ownerId,
    rowNumber,
  })
  return id
}

function changeChart(desk: PlanningDesk, there: ChartRow, facts: ChartFacts, rowNumber: number): boolean {
  const wasHome = there.currentPlaceId === null || there.currentPlaceId === there.homePlaceId
  const isHomeMoved = facts.homePlaceId !== null && facts.homePlaceId !== there.homePlaceId
  const currentPlaceId = facts.nowAtPlaceId ?? (isHomeMoved && wasHome ? facts.homePlaceId : there.currentPlaceId)
  const isSameSet = [...facts.designerIds].sort().join() === [...there.designerIds].sort().join()
  const isChanged = desk.change(
    'chart',
    there.id,
    {
      designerIds: facts.designerIds.length === 0 || isSameSet ? undefined : facts.designerIds,
      copies: facts.copies ?? undefined,
      edition: facts.edition ?? undefined,
      partsNeeded: facts.partsNeeded ?? undefined,
      partsHeld: facts.partsHeld ?? undefined,
      homePlaceId: facts.homePlaceId ?? undefined,
      currentPlaceId: currentPlaceId ?? undefined,
      boughtOn: facts.boughtOn ?? undefined,
      priceMinor: facts.priceMinor ?? undefined,
    },
    rowNumber,
  )
  const more = (facts.copies ?? there.copies) - there.copies
  if (more !== 0) desk.move({ kind: 'correct', noun: 'chart', nounId: there.id, wholeDelta: more, rowNumber })
  if (currentPlaceId !== there.currentPlaceId) {
    desk.move({
      kind: 'move',
      noun: 'chart',
      nounId: there.id,
      fromPlaceId: there.currentPlaceId,
      toPlaceId: currentPlaceId,
      rowNumber,
    })
  }
  return isChanged
}

function addDesign(desk: PlanningDesk, chartId: string, row: Row, designs: DesignRow[]): string {
  const id = desk.add(
    'design',
    {
      chartId,
      title: row.draft.design,
      position: Math.max(-1, ...designs.map((design) => design.position)) + 1,
      ...sizeOf({ kind: 'unknown' }),
      advisedCount: null,
      advisedOver: null,
      advisedWeave: null,
      insistsOnWeave: false,
      advisedCloth: null,
      coverKind: null,
      ...allowanceColumns(null),
      note: null,
      themeIds: [],
    },
    row.rowNumber,
  )
  designs.push(desk.get('design', id))
  return id
}

function changeDesign(desk: PlanningDesk, id: string, rows: Row[]): boolean {
  const say = <Fact>(field: string, pick: (draft: ChartDraft) => Fact | null) => agree(desk, rows, field, pick)
  const [{ rowNumber }] = rows as [Row]
  const size = say('size', (draft) => (draft.size.kind === 'unknown' ? null : draft.size))
  const advised = say('count', (draft) => draft.advised)
  const allowance = say('allowance', (draft) => draft.allowance)
  return desk.change(
    'design',
    id,
    {
      ...(size && sizeOf(size)),
      advisedCount: advised?.count,
      advisedOver: advised?.over,
      advisedWeave: say('weave', (draft) => draft.weave) ?? undefined,
      insistsOnWeave: say('insists', (draft) => draft.insists) ?? undefined,
      advisedCloth: say('cloth', (draft) => draft.cloth) ?? undefined,
      coverKind: say('cover', (draft) => draft.cover) ?? undefined,
      ...(allowance && allowanceColumns(allowance)),
      note: say('note', (draft) => draft.note) ?? undefined,
      themeIds: themesOf(desk, id, rows),
    },
    rowNumber,
  )
}

/** The themes of an axis a row speaks of take the place of those there; an axis it leaves blank stays as it is. Sets, so kept in order of id. */
function themesOf(desk: PlanningDesk, designId: string, rows: Row[]): string[] {
  const axes: [ThemeAxis, (draft: ChartDraft) => string[]][] = [
    ['season', (draft) => draft.seasons],
    ['subject', (draft) => draft.subjects],
    ['form', (draft) => draft.forms],
  ]
  const [{ rowNumber }] = rows as [Row]
  const there = desk.get('design', designId).themeIds
  return axes
    .flatMap(([axis, pick]) => {
      const names = rows.flatMap((row) => pick(row.draft))
      if (names.length === 0) return there.filter((id) => desk.get('theme', id).axis === axis)
      return [...new Set(names.map((name) => desk.themeNamed(axis, name, rowNumber)))]
    })
    .sort()
}

type SizeColumns = Pick<DesignRow, 'widthStitches' | 'heightStitches' | 'measuredWidthUm' | 'measuredHeightUm'>

function sizeOf(size: DesignSize): SizeColumns {
  const unknown = { widthStitches: null, heightStitches: null, measuredWidthUm: null, measuredHeightUm: null }
  if (size.kind === 'stitches') return { ...unknown, widthStitches: size.width, heightStitches: size.height }
  return size.kind === 'measured' ? { ...unknown, measuredWidthUm: size.widthUm, measuredHeightUm: size.heightUm } : unknown
}

const allowanceColumns = (choice: AllowanceChoice | null): Pick<DesignRow, 'allowanceProfile' | 'allowanceHundredths'> => ({
  allowanceProfile: choice?.profile ?? null,
  allowanceHundredths: choice?.profile === 'own' ? choice.hundredths : null,
})
