import 'server-only'
import type { KeyReading, ReadList } from '#lib/chart/key-text/reading'
import { type KeyLineDraft, type LineRefusal, toThreadList } from '#lib/chart/key-text/to-thread-list'
import type { Vocabulary } from '#lib/chart/key-text/vocabulary'
import { unknownKey } from '#lib/chart/unknown-threads'
import { textKey } from '#lib/quantity/text-key'
import { ok, type Result, refused } from '#lib/result'
import { type AddChartRefusal, addChartIn, type ChartInput } from '../chart/add-chart'
import { type DesignInput, designData, writeDesign } from '../chart/add-design'
import type { ChartRefusal } from '../chart/chart-refusal'
import { unnamedLine, usualLine } from '../chart/ensure-threads'
import { type SaveListRefusal, saveThreadListIn } from '../chart/save-thread-list'
import { eraseFile, storeFile } from '../file/file-store'
import { type KeepFileRefusal, keepFileIn } from '../file/keep-file'
import type { PreparedFile } from '../file/prepare-file'
import { newId } from '../new-id'
import { coverHash } from '../photo/cover-hash'
import { preparePhoto } from '../photo/prepare-photo'
import { withPhoto } from '../photo/with-photo'
import { ensureMaker } from '../thread/ensure-maker'
import { write } from '../write'
import type { Write } from '../write-gate'
import { factsToDesign } from './facts-to-design'
import { readVocabulary } from './read-vocabulary'
import type { ReadingSaved } from './reading-change'
import { changeReading, findStagedReading, readStagedBytes, readStagedCover, type StagedReading } from './reading-store'

/** A list of the reading by its index, and the name it is saved under. */
export type ListToSave = { index: number; name: string }

/** A design of the reading by its index (null where nothing was read and only the file is kept), and what it is called. */
export type DesignToSave = { index: number | null; title: string; lists: readonly ListToSave[] }

export type ReadingTarget =
  | { kind: 'chart'; chart: ChartInput & { placeLabel: string | null; isAnother: boolean }; designs: readonly DesignToSave[] }
  /** `fillsFacts`: what the design lacks and the text says is filled in. */
  | {
      kind: 'designs'
      designs: readonly { index: number; designId: string; fillsFacts: boolean; lists: readonly ListToSave[] }[]
    }

/** A line of a maker that is new: what all its threads are like. `lineName` null: the maker's only one, without a name. */
export type NewLineFacts = { makerName: string; lineName: string | null; strands: number; putUpTenths: number }

export type SaveReading = {
  id: string
  version: number
  ownerIds: readonly string[]
  target: ReadingTarget
  /** By `unknownKey`: threads that are new and known to be meant. */
  mayAdd: ReadonlySet<string>
  newLines: readonly NewLineFacts[]
  /** Lines that lack something, or whose new thread is not to be added, are left out, and their list says that it is not whole. */
  leavesOut: boolean
  keepsFile: boolean
  isAnotherFile: boolean
  keepsCover: boolean
  who: string | null
}

/** A line that cannot be saved as it stands, by its design and list. */
export type LineLacking = { design: number; list: number; why: LineRefusal | { kind: 'not-to-be-added'; line: number } }

export type SaveReadingRefusal =
  | { kind: 'no-such-reading' }
  | { kind: 'changed-meanwhile' }
  | { kind: 'not-under-review' }
  | { kind: 'nothing-to-save' }
  | { kind: 'lines-lack'; lines: LineLacking[] }
  | AddChartRefusal
  | Exclude<SaveListRefusal, { kind: 'changed-meanwhile' }>
  | Extract<ChartRefusal, { kind: 'design-taken' }>
  | Exclude<KeepFileRefusal, { kind: 'no-such-thing' | 'only-charts' }>

export type SavedReading = {
  changeId: string
  chartId: string
  designIds: string[]
  listIds: string[]
  lineCount: number
  leftOut: number
  addedThreads: number
}

/**
 * Write a reading down, in one change that `undoSavedReading` takes back: as a new chart with its designs, or as thread lists of designs that
 * are there; the file it came from is kept as its owner's digital chart, its first page as the cover. Two people who review the same
 * reading cannot both save it.
 */
export async function saveReading(input: SaveReading): Promise<Result<SavedReading, SaveReadingRefusal>> {
  if (!(await findStagedReading(input.id, input.ownerIds))) return refused({ kind: 'no-such-reading' })
  const done = await changeReading<Result<SavedReading, SaveReadingRefusal>>(input.id, async (staged) => {
    if (staged.version !== input.version) return { next: null, value: refused({ kind: 'changed-meanwhile' }) }
    if (staged.state.kind !== 'read' && staged.state.kind !== 'refused')
      return { next: null, value: refused({ kind: 'not-under-review' }) }
    const value = await saveStaged(staged, input)
    if (!value.ok) return { next: null, value }
    const { changeId, chartId, designIds, lineCount, leftOut } = value.value
    return { next: { ...staged, state: { kind: 'saved', changeId, chartId, designIds, lineCount, leftOut } }, value }
  })
  return done?.value ?? refused({ kind: 'no-such-reading' })
}

async function saveStaged(staged: StagedReading, input: SaveReading): Promise<Result<SavedReading, SaveReadingRefusal>> {
  const drafted = draftLists(staged.review?.reading ?? null, input, await readVocabulary())
  if (!drafted.ok) return drafted
  const { source } = staged
  const bytes = input.keepsFile && source.kind !== 'text' ? await readStagedBytes(staged.id) : null
  const file: PreparedFile | null =
    bytes && source.kind !== 'text' ? { name: staged.name, mime: source.mime, sha256: source.sha256, bytes } : null
  const cover = input.keepsCover && staged.hasCover ? await readStagedCover(staged.id) : null
  const photo = cover && (await preparePhoto(cover))
  const hash = cover && (await coverHash(cover))
  const fileName = file && (await storeFile(file.bytes, file.mime))
  try {
    const saved = await withPhoto(photo?.ok ? photo.value : null, (coverFile) =>
      write<SavedReading, SaveReadingRefusal>(
        (open) =>
          writeReading(open, {
            ...{ staged, input, lists: drafted.value },
            file: file && fileName ? { file, fileName } : null,
            cover: coverFile === null ? null : { coverFile, coverHash: hash },
          }),
        timeoutMs,
      ),
    )
    if (!saved.ok && fileName) await eraseFile(fileName)
    return saved
  } catch (error) {
    if (fileName) await eraseFile(fileName)
    throw error
  }
}

const timeoutMs = 120_000

type DraftedList = { design: number; index: number; name: string; keyLines: KeyLineDraft[]; leftOut: number }

/** The lists that are to be saved, as key lines; refused with every line that lacks something, unless these are to be left out. */
function draftLists(
  reading: KeyReading | null,
  { target, mayAdd, leavesOut }: SaveReading,
  vocabulary: Vocabulary,
): Result<DraftedList[], SaveReadingRefusal> {
  const lacking: LineLacking[] = []
  const drafted: DraftedList[] = []
  for (const { index: design, lists } of target.designs) {
    if (design === null) continue
    for (const { index, name } of lists) {
      const list = reading?.designs[design]?.lists[index]
      if (!list) return refused({ kind: 'changed-meanwhile' })
      const { keyLines, why } = draftList(list, mayAdd, vocabulary)
      lacking.push(...why.map((one) => ({ design, list: index, why: one })))
      drafted.push({ design, index, name, keyLines, leftOut: list.lines.length - keyLines.length })
    }
  }
  if (lacking.length > 0 && !leavesOut) return refused({ kind: 'lines-lack', lines: lacking })
  return ok(drafted)
}

function draftList(
  list: ReadList,
  mayAdd: ReadonlySet<string>,
  vocabulary: Vocabulary,
): { keyLines: KeyLineDraft[]; why: LineLacking['why'][] } {
  const why: LineLacking['why'][] = list.lines.flatMap(({ threads }, line) =>
    threads.some((thread) => {
      const key = unknownKey(thread)
      return key !== null && !mayAdd.has(key)
    })
      ? [{ kind: 'not-to-be-added', line }]
      : [],
  )
  const whole = toThreadList(list, vocabulary)
  if (!whole.ok) why.push(...whole.error)
  if (whole.ok && why.length === 0) return { keyLines: whole.value, why }
  const leftOut = new Set(why.map(({ line }) => line))
  const rest = toThreadList({ ...list, lines: list.lines.filter((_, line) => !leftOut.has(line)) }, vocabulary)
  return { keyLines: rest.ok ? rest.value : [], why }
}

type Writing = {
  staged: StagedReading
  input: SaveReading
  lists: DraftedList[]
  file: { file: PreparedFile; fileName: string } | null
  cover: { coverFile: string; coverHash: string | null } | null
}

async function writeReading(open: Write, writing: Writing): Promise<Result<SavedReading, SaveReadingRefusal>> {
  const { tx, at, touch } = open
  const { staged, input, lists, file, cover } = writing
  // Ids grow with time: what has a greater one was made by this write.
  const before = newId()
  const put =
    input.target.kind === 'chart' ? await putChart(open, writing, input.target) : await putOnDesigns(open, writing, input.target)
  if (!put.ok) return put
  const { chartId, designIds, steps } = put.value

  const goneBefore = await readGoneThreads(open, lists)
  for (const line of input.newLines) await ensureLine(open, line)
  let added = 0
  for (const { design, name, keyLines, leftOut } of lists) {
    const designId = designIds.get(design) as string
    const saved = await saveThreadListIn(open, { designId, list: null, name, keyLines, mayAdd: 'all' })
    if (!saved.ok) return saved.error.kind === 'changed-meanwhile' ? refused({ kind: 'changed-meanwhile' }) : refused(saved.error)
    added += saved.value.added.length
    if (leftOut > 0) await tx.threadList.update({ where: { id: saved.value.listId }, data: { isIncomplete: true } })
    steps.lists.push({ id: saved.value.listId, version: 0, designId })
  }

  if (file) {
    const kept = await keepFileIn(open, {
      ...{ thing: { noun: 'chart', id: chartId }, role: 'chart', isAnother: input.isAnotherFile },
      ...{ pages: staged.pageCount, ...file },
    })
    if (!kept.ok) {
      if (kept.error.kind === 'no-such-thing' || kept.error.kind === 'only-charts') return refused({ kind: 'no-such-design' })
      return refused(kept.error)
    }
    steps.fileIds.push(kept.value.fileId)
  }
  if (cover) {
    const covered = await tx.chart.updateMany({ where: { id: chartId, coverFile: null }, data: cover })
    if (covered.count > 0) {
      steps.covered.push(chartId)
      touch('chart', chartId)
    }
  }

  const threads = await tx.keyLineThread.findMany({
    where: { keyLine: { threadListId: { in: steps.lists.map(({ id }) => id) } } },
    select: { threadId: true },
    distinct: ['threadId'],
  })
  steps.threadIds = threads.map(({ threadId }) => threadId).filter((id) => id > before || goneBefore.has(id))
  const changeId = newId()
  const what = `${staged.name} read and saved`
  await tx.bulkEdit.create({ data: { id: changeId, at, who: input.who, what, stepsJson: JSON.stringify(steps) } })
  return ok({
    ...{ changeId, chartId, designIds: [...designIds.values()], listIds: steps.lists.map(({ id }) => id) },
    lineCount: lists.reduce((sum, { keyLines }) => sum + keyLines.length, 0),
    leftOut: lists.reduce((sum, list) => sum + list.leftOut, 0),
    addedThreads: added,
  })
}

const codesAtOnce = 500

/** Threads that were removed and have a code that is saved: one that comes back by this write goes again when it is taken back. */
async function readGoneThreads({ tx }: Write, lists: readonly DraftedList[]): Promise<Set<string>> {
  const codes = [...new Set(lists.flatMap(({ keyLines }) => keyLines.flatMap(({ threads }) => threads.map(({ code }) => code))))]
  const gone = new Set<string>()
  for (let from = 0; from < codes.length; from += codesAtOnce) {
    const rows = await tx.thread.findMany({
      where: { code: { in: codes.slice(from, from + codesAtOnce) }, goneAt: { not: null } },
      select: { id: true },
    })
    for (const { id } of rows) gone.add(id)
  }
  return gone
}

/** `designIds`: by the design's index in the reading. */
type Put = Result<{ chartId: string; designIds: Map<number, string>; steps: ReadingSaved }, SaveReadingRefusal>

const stepsOf = ({ id, name }: StagedReading): ReadingSaved => ({
  ...{ reading: { id, name }, chart: null, designs: [], lists: [], facts: [], threadIds: [], fileIds: [], covered: [] },
})

async function putChart(
  open: Write,
  { staged }: Writing,
  { chart, designs }: Extract<ReadingTarget, { kind: 'chart' }>,
): Promise<Put> {
  const [first, ...others] = designs
  if (!first) return refused({ kind: 'nothing-to-save' })
  const taken = designs.find(({ title }, index) => designs.findIndex((other) => textKey(other.title) === textKey(title)) < index)
  if (taken) return refused({ kind: 'design-taken', title: taken.title })
  const reading = staged.review?.reading ?? null
  const added = await addChartIn(open, { ...chart, design: designOf(reading, first) })
  if (!added.ok) return added
  const { chartId, designId } = added.value
  const ids = [{ index: first.index, id: designId }]
  for (const [at, design] of others.entries()) {
    const id = newId()
    await writeDesign(open, { id, chartId, position: at + 1, design: designOf(reading, design) })
    ids.push({ index: design.index, id })
  }
  const steps = stepsOf(staged)
  steps.chart = { id: chartId, version: 0 }
  steps.designs = ids.map(({ id }) => ({ id, version: 0 }))
  return ok({ chartId, designIds: new Map(ids.map(({ index, id }) => [index ?? -1, id])), steps })
}

function designOf(reading: KeyReading | null, { index, title }: DesignToSave): DesignInput {
  const facts = index === null ? undefined : reading?.designs[index]?.facts
  const read = facts && factsToDesign(facts)
  return {
    title,
    ...{ size: read?.size ?? { kind: 'unknown' }, advised: read?.advised ?? null, weave: read?.weave ?? null },
    ...{ insistsOnWeave: false, clothName: read?.clothName ?? null, coverKind: null, allowance: null, note: null },
    themes: { season: [], subject: [], form: [] },
  }
}

async function putOnDesigns(
  open: Write,
  { staged }: Writing,
  { designs }: Extract<ReadingTarget, { kind: 'designs' }>,
): Promise<Put> {
  const { tx, touch } = open
  const [first] = designs
  if (!first || designs.every(({ lists, fillsFacts }) => lists.length === 0 && !fillsFacts))
    return refused({ kind: 'nothing-to-save' })
  const steps = stepsOf(staged)
  let chartId = ''
  for (const { index, designId, fillsFacts } of designs) {
    const design = await tx.design.findFirst({ where: { id: designId, chart: { goneAt: null } } })
    if (!design) return refused({ kind: 'no-such-design' })
    if (designId === first.designId) chartId = design.chartId
    const facts = staged.review?.reading.designs[index]?.facts
    if (!facts) return refused({ kind: 'changed-meanwhile' })
    if (!fillsFacts) continue
    const lacked = lackedOf(design, factsToDesign(facts))
    if (Object.keys(lacked).length === 0) continue
    await tx.design.update({ where: { id: designId }, data: { ...lacked, version: { increment: 1 } } })
    touch('design', designId)
    const was = Object.fromEntries(Object.keys(lacked).map((column) => [column, design[column as keyof typeof design]]))
    steps.facts.push({ id: designId, version: design.version + 1, before: was as ReadingSaved['facts'][number]['before'] })
  }
  return ok({ chartId, designIds: new Map(designs.map(({ index, designId }) => [index, designId])), steps })
}

type DesignColumns = ReturnType<typeof designData>
const factGroups = [
  ['widthStitches', 'heightStitches', 'measuredWidthUm', 'measuredHeightUm'],
  ['advisedThreads', 'advisedPerUm', 'advisedOver'],
  ['advisedWeave'],
  ['advisedCloth'],
] as const satisfies readonly (readonly (keyof DesignColumns)[])[]

/** The columns a design has nothing in and the text says something of; size and count go each as a whole. */
function lackedOf(
  design: { [Column in keyof DesignColumns]?: unknown },
  read: ReturnType<typeof factsToDesign>,
): Partial<DesignColumns> {
  const said = designData({
    ...{ ...read, title: '', insistsOnWeave: false, coverKind: null, allowance: null, note: null },
    themes: { season: [], subject: [], form: [] },
  })
  const lacked: Partial<DesignColumns> = {}
  for (const columns of factGroups) {
    if (columns.some((column) => design[column] != null) || columns.every((column) => said[column] === null)) continue
    for (const column of columns) if (said[column] !== null) Object.assign(lacked, { [column]: said[column] })
  }
  return lacked
}

/** A new line as the person says it is; one that is there meanwhile stays as it is. */
async function ensureLine(open: Write, { makerName, lineName, strands, putUpTenths }: NewLineFacts): Promise<void> {
  const { tx, touch } = open
  const maker = await ensureMaker(open, makerName)
  const name = lineName ?? unnamedLine
  const lines = await tx.threadLine.findMany({ where: { makerId: maker.id }, select: { nameKey: true } })
  if (lines.some(({ nameKey }) => nameKey === textKey(name)) || (lineName === null && lines.length > 0)) return
  const id = newId()
  await tx.threadLine.create({
    data: {
      ...usualLine,
      id,
      makerId: maker.id,
      name,
      nameKey: textKey(name),
      strands,
      putUpStrandTenths: putUpTenths * strands,
    },
  })
  touch('line', id)
}
