import 'server-only'
import type { ChartKind } from '#lib/chart/design'
import { type Choices, freeListName, type MergingChart, mergedChart, pairDesigns } from '#lib/chart/doubles-merged'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { isOut } from '#lib/stock/batch'
import { type StitchTally, stitches } from '#lib/thread/stitches'
import { requireWhole } from '../access/whole'
import type { Transaction } from '../client'
import type { Prisma } from '../generated/sqlite/client'
import { newId } from '../new-id'
import { write } from '../write'
import { journalCopies } from './journal'
import { readRows, StepKeeper, type Values } from './keep-steps'
import { keepMerging } from './merging'
import type { MergingRefusal } from './merging-refusal'

type Refusal = Extract<
  MergingRefusal,
  { kind: 'no-such-thing' | 'same-thing' | 'changed-meanwhile' | 'other-owner' | 'file-and-paper' | 'is-out' | 'is-missing' }
>

export type MergeChartsInput = {
  keptId: string
  goneId: string
  /** What the person saw of each; left out, as they stand. */
  keptVersion?: number | undefined
  goneVersion?: number | undefined
  /** Whose word stands in what differs; what nobody chose stays as the kept one says, and a gap is filled from the other. */
  choices?: Choices
  /** Designs of the chart given up whose size, advice and the like stand, where they become one with a design of the kept chart. */
  factsOfDesignIds?: readonly string[]
  who?: string | null
}

export type ChartsMerged = { mergingId: string; keptId: string }

const timeoutMs = 180_000

export const mergingColumns = {
  id: true,
  title: true,
  titleKey: true,
  kind: true,
  ownerId: true,
  copies: true,
  edition: true,
  partsNeeded: true,
  partsHeld: true,
  homePlaceId: true,
  currentPlaceId: true,
  outSince: true,
  boughtOn: true,
  priceMinor: true,
  isOutOfPrint: true,
  coverFile: true,
  coverHash: true,
  note: true,
  version: true,
  owner: { select: { name: true } },
  currentPlace: { select: { label: true } },
  designers: { select: { designerId: true }, orderBy: { position: 'asc' } },
  designs: { select: { id: true, title: true, titleKey: true, position: true }, orderBy: [{ position: 'asc' }, { id: 'asc' }] },
} as const satisfies Prisma.ChartSelect

export type MergingRow = Prisma.ChartGetPayload<{ select: typeof mergingColumns }>

export const mergingChartOf = ({ kind, designers, ...row }: MergingRow): MergingChart => ({
  ...row,
  kind: kind as ChartKind,
  designerIds: designers.map(({ designerId }) => designerId),
})

/** Why these two cannot become one; null when they can. */
export async function checkCharts(tx: Transaction, kept: MergingRow, gone: MergingRow): Promise<Refusal | null> {
  if (kept.id === gone.id) return { kind: 'same-thing' }
  if (kept.ownerId !== gone.ownerId) return { kind: 'other-owner', ownerName: kept.owner.name, otherOwnerName: gone.owner.name }
  if ((kept.kind === 'file') !== (gone.kind === 'file')) return { kind: 'file-and-paper' }
  for (const chart of [kept, gone]) {
    if ((await tx.missingThing.count({ where: { chartId: chart.id, status: 'open' } })) > 0)
      return { kind: 'is-missing', title: chart.title }
    if (!isOut(chart)) continue
    const lent = await tx.loanLine.count({
      where: { chartId: chart.id, backOn: null, loan: { closedOn: null, placeId: chart.currentPlaceId as string } },
    })
    if (lent === 0) return { kind: 'is-out', title: chart.title, label: chart.currentPlace?.label ?? '' }
  }
  return null
}

/**
 * Two charts of one owner become one: copies are added up, designs of the same title united with their lists, projects and finishes, the
 * others moved over; files, loans and open questions go along; the title given up is remembered, and finds the kept one. Nobody's journal is
 * rewritten: the chart given up keeps its lines, and the kept one tells them with its own. `undoMerging` takes it back.
 */
export function mergeCharts(input: MergeChartsInput): Promise<Result<ChartsMerged, Refusal>> {
  requireWhole()
  return write<ChartsMerged, Refusal>(async (open) => {
    const { tx, at } = open
    const { keptId, goneId, choices = {}, factsOfDesignIds = [], who = null } = input
    const read = (id: string) => tx.chart.findFirst({ where: { id, goneAt: null }, select: mergingColumns })
    const [kept, gone] = [await read(keptId), await read(goneId)]
    if (!kept || !gone) return refused({ kind: 'no-such-thing', noun: 'chart', id: kept ? goneId : keptId })
    if (input.keptVersion !== undefined && input.keptVersion !== kept.version) return refused({ kind: 'changed-meanwhile' })
    if (input.goneVersion !== undefined && input.goneVersion !== gone.version) return refused({ kind: 'changed-meanwhile' })
    const problem = await checkCharts(tx, kept, gone)
    if (problem) return refused(problem)

    const keeper = new StepKeeper(open)
    const before = mergingChartOf(kept)
    const { chart, givenUpTitle } = mergedChart(before, mergingChartOf(gone), choices)
    for (const design of [...kept.designs, ...gone.designs]) keeper.touch('design', design.id)
    const counts = await mergeDesigns(keeper, { kept, gone, title: chart.title, factsOfDesignIds })
    await setDesigners(keeper, kept, chart.designerIds)
    const titles = [...counts.titles, ...(givenUpTitle === null ? [] : [givenUpTitle])]
    await setTitles(keeper, { keptId, goneId, title: chart.title, titles })
    for (const table of ['keptFile', 'loanLine', 'walkLine', 'missingThing'] as const) {
      const rows = await readRows(tx, table, { chartId: goneId })
      // A copy that comes back from somebody meanwhile is at home in the one chart: it cannot be at two again without being asked.
      const isLent = (row: Values) => table === 'loanLine' && row.backOn === null
      const keys = (some: readonly Values[]) => some.map(({ id }) => ({ id: String(id) }))
      const [lent, others] = [rows.filter(isLent), rows.filter((row) => !isLent(row))]
      await keeper.change(table, keys(others), { chartId: goneId }, { chartId: keptId })
      await keeper.change(table, keys(lent), { chartId: goneId, backOn: null }, { chartId: keptId, backOn: null })
      counts[table] = rows.length
    }
    await writeChart(keeper, kept, chart)
    await keeper.change('chart', [{ id: goneId }], { goneAt: null, outSince: gone.outSince }, { goneAt: at, outSince: null })
    keeper.touch('chart', keptId)
    keeper.touch('chart', goneId)

    const mergingId = newId()
    const merged = { noun: 'chart' as const, goneId, goneName: gone.title, keptId, keptName: kept.title }
    await journalCopies(
      open,
      { fromId: goneId, toId: keptId, count: gone.copies },
      { kind: 'merge', who, reason: `${gone.title} merged into ${kept.title}` },
    )
    const { titles: _titles, ...told } = counts
    await keepMerging(open, keeper, { id: mergingId, merged, who, counts: told, copies: gone.copies })
    return ok({ mergingId, keptId })
  }, timeoutMs)
}

/** Only the columns that change are written and kept: what was changed elsewhere since does not stand in the way of an undo. */
async function writeChart(keeper: StepKeeper, row: MergingRow, chart: ReturnType<typeof mergedChart>['chart']): Promise<void> {
  const { designerIds: _designers, ...values } = chart
  const after: Values = { ...values, titleKey: textKey(chart.title) }
  const before = row as unknown as Values
  const changed = Object.keys(after).filter((name) => String(after[name]) !== String(before[name]))
  const pick = (from: Values): Values => Object.fromEntries(changed.map((name) => [name, from[name] ?? null]))
  await keeper.change('chart', [{ id: row.id }], pick(before), pick(after))
}

async function setDesigners(keeper: StepKeeper, kept: MergingRow, designerIds: readonly string[]): Promise<void> {
  const before = kept.designers.map(({ designerId }) => designerId)
  if (before.join() === designerIds.join()) return
  for (const row of await readRows(keeper.write.tx, 'chartDesigner', { chartId: kept.id }))
    await keeper.drop('chartDesigner', row)
  for (const [position, designerId] of designerIds.entries())
    await keeper.add('chartDesigner', { chartId: kept.id, designerId, position })
}

async function setTitles(
  keeper: StepKeeper,
  { keptId, goneId, title, titles }: { keptId: string; goneId: string; title: string; titles: readonly string[] },
): Promise<void> {
  const { tx } = keeper.write
  const known = new Set([textKey(title)])
  for (const row of await readRows(tx, 'formerTitle', { chartId: keptId })) {
    if (known.has(String(row.titleKey))) await keeper.drop('formerTitle', row)
    known.add(String(row.titleKey))
  }
  for (const row of await readRows(tx, 'formerTitle', { chartId: goneId })) {
    if (known.has(String(row.titleKey))) continue
    known.add(String(row.titleKey))
    await keeper.change('formerTitle', [{ id: String(row.id) }], { chartId: goneId }, { chartId: keptId })
  }
  for (const one of titles) {
    const titleKey = textKey(one)
    if (known.has(titleKey)) continue
    known.add(titleKey)
    await keeper.add('formerTitle', { id: newId(), chartId: keptId, title: one, titleKey })
  }
}

/** Columns of a design that stand or fall together. */
const factGroups: readonly (readonly string[])[] = [
  ['widthStitches', 'heightStitches', 'measuredWidthUm', 'measuredHeightUm'],
  ['advisedThreads', 'advisedPerUm', 'advisedOver'],
  ['advisedWeave', 'insistsOnWeave'],
  ['advisedCloth'],
  ['coverKind'],
  ['allowanceProfile', 'allowanceHundredths'],
  ['note'],
]

const says = (row: Values, group: readonly string[]): boolean => group.some((name) => row[name] !== null && row[name] !== false)

/** Whether two designs that become one say different things of their size, cloth or the like: then it is to be chosen. */
export const factsDiffer = (kept: Values, other: Values): boolean =>
  factGroups.some((group) => says(kept, group) && says(other, group) && group.some((name) => kept[name] !== other[name]))

/** What a design says once it is one with another: a gap is filled; where both say something, `takesOther` decides. */
function unitedFacts(kept: Values, other: Values, takesOther: boolean): { before: Values; after: Values } {
  const before: Values = {}
  const after: Values = {}
  for (const group of factGroups) {
    if (!says(other, group) || (says(kept, group) && !takesOther)) continue
    for (const name of group) {
      if (kept[name] === other[name]) continue
      before[name] = kept[name] ?? null
      after[name] = other[name] ?? null
    }
  }
  return { before, after }
}

type Counts = Record<string, number> & { titles: string[] }

async function mergeDesigns(
  keeper: StepKeeper,
  asked: { kept: MergingRow; gone: MergingRow; title: string; factsOfDesignIds: readonly string[] },
): Promise<Counts> {
  const { kept, gone, title } = asked
  const { tx } = keeper.write
  const counts = { united: 0, designs: 0, lists: 0, projects: 0, titles: [] as string[] } as unknown as Counts
  let position = Math.max(-1, ...kept.designs.map((design) => design.position)) + 1
  for (const { otherId, keptId } of pairDesigns(kept.designs, gone.designs)) {
    const other = gone.designs.find(({ id }) => id === otherId) as MergingRow['designs'][number]
    if (keptId === null) {
      const before = { chartId: gone.id, position: other.position }
      await keeper.change('design', [{ id: otherId }], before, { chartId: kept.id, position })
      position++
      counts.designs = (counts.designs ?? 0) + 1
      continue
    }
    const united = kept.designs.find(({ id }) => id === keptId) as MergingRow['designs'][number]
    if (united.titleKey !== other.titleKey) counts.titles.push(other.title)
    const [mine] = await readRows(tx, 'design', { id: keptId })
    const [theirs] = await readRows(tx, 'design', { id: otherId })
    const { before, after } = unitedFacts(mine as Values, theirs as Values, asked.factsOfDesignIds.includes(otherId))
    // A design that has its name from the chart takes the new one along.
    const isNamedAnew = united.titleKey === kept.titleKey && title !== united.title
    const isTaken = kept.designs.some(({ id, titleKey }) => id !== keptId && titleKey === textKey(title))
    if (isNamedAnew && !isTaken) {
      Object.assign(before, { title: united.title, titleKey: united.titleKey })
      Object.assign(after, { title, titleKey: textKey(title) })
    }
    if (Object.keys(after).length > 0) await keeper.change('design', [{ id: keptId }], before, after)
    counts.united = (counts.united ?? 0) + 1
    await uniteThemes(keeper, { keptId, otherId })
    const lists = await uniteLists(keeper, { keptId, otherId, mark: gone.title })
    counts.lists = (counts.lists ?? 0) + lists.moved
    counts.projects = (counts.projects ?? 0) + (await uniteProjects(keeper, { keptId, otherId, listOf: lists.listOf }))
  }
  return counts
}

async function uniteThemes(keeper: StepKeeper, { keptId, otherId }: { keptId: string; otherId: string }): Promise<void> {
  const { tx } = keeper.write
  const mine = new Set((await readRows(tx, 'designTheme', { designId: keptId })).map(({ themeId }) => themeId))
  for (const { themeId } of await readRows(tx, 'designTheme', { designId: otherId }))
    if (!mine.has(themeId as string)) await keeper.add('designTheme', { designId: keptId, themeId: themeId as string })
}

/** What a key says, whatever its order, symbols and notes. */
async function keyOf(tx: Transaction, threadListId: string): Promise<string> {
  const lines = await tx.keyLine.findMany({ where: { threadListId } })
  const threads = await tx.keyLineThread.findMany({ where: { keyLine: { threadListId } } })
  const said = lines.map(({ id, hasTally, ...line }) => {
    const tally: StitchTally = Object.fromEntries(stitches.map((stitch) => [stitch, line[stitch]]))
    const named = threads
      .filter(({ keyLineId }) => keyLineId === id)
      .map(({ threadId, strands, statedHundredths, statedPutUpTenths }) =>
        JSON.stringify([threadId, strands, statedHundredths, statedPutUpTenths]),
      )
    return JSON.stringify([hasTally, hasTally ? tally : null, named.sort()])
  })
  return said.sort().join('\n')
}

/** The lists of a design go over to the one it is one with; one that says the same as one there is that one. */
async function uniteLists(
  keeper: StepKeeper,
  { keptId, otherId, mark }: { keptId: string; otherId: string; mark: string },
): Promise<{ listOf: Map<string, string>; moved: number }> {
  const { tx } = keeper.write
  const read = (designId: string) =>
    tx.threadList.findMany({
      where: { designId },
      select: { id: true, name: true, nameKey: true, position: true },
      orderBy: [{ position: 'asc' }, { id: 'asc' }],
    })
  const [mine, theirs] = [await read(keptId), await read(otherId)]
  const keys = new Map<string, string>()
  for (const { id } of mine) keys.set(await keyOf(tx, id), id)
  const listOf = new Map<string, string>()
  const taken = mine.map(({ name }) => name)
  let position = Math.max(-1, ...mine.map((list) => list.position)) + 1
  let moved = 0
  for (const list of theirs) {
    keeper.touch('list', list.id)
    const key = await keyOf(tx, list.id)
    const same = key === '' ? undefined : keys.get(key)
    if (same !== undefined) {
      listOf.set(list.id, same)
      continue
    }
    const name = freeListName(list.name, mark, taken)
    taken.push(name)
    await keeper.change(
      'threadList',
      [{ id: list.id }],
      { designId: otherId, name: list.name, nameKey: list.nameKey, position: list.position },
      { designId: keptId, name, nameKey: textKey(name), position },
    )
    position++
    moved++
  }
  return { listOf, moved }
}

async function uniteProjects(
  keeper: StepKeeper,
  { keptId, otherId, listOf }: { keptId: string; otherId: string; listOf: ReadonlyMap<string, string> },
): Promise<number> {
  const projects = await keeper.write.tx.project.findMany({
    where: { designId: otherId },
    select: { id: true, threadListId: true },
  })
  for (const { id, threadListId } of projects) {
    const list = threadListId === null ? undefined : listOf.get(threadListId)
    await keeper.change(
      'project',
      [{ id }],
      { designId: otherId, ...(list !== undefined && { threadListId }) },
      { designId: keptId, ...(list !== undefined && { threadListId: list }) },
    )
    keeper.touch('project', id)
  }
  const boughtFor = await readRows(keeper.write.tx, 'buyListFor', { designId: otherId })
  const keys = boughtFor.map(({ id }) => ({ id: String(id) }))
  await keeper.change('buyListFor', keys, { designId: otherId }, { designId: keptId })
  return projects.length
}
