import 'server-only'
import { hashWords } from '#lib/chart/cover-hash'
import type { ChartKind } from '#lib/chart/design'
import { stitchSize } from '#lib/chart/design-size'
import { type NameReason, suggestNames } from '#lib/chart/doubles-names'
import { type ComparedChart, type SuggestedDouble, suggestDoubles } from '#lib/chart/doubles-suggested'
import { titleForm } from '#lib/chart/likeness'
import { grouped } from '#lib/grouped'
import { suggestThreads, type ThreadReason } from '#lib/thread/doubles'
import type { Answers } from '../answers/answers'
import { getAnswers } from '../answers/get-answers'
import { database } from '../client'
import type { labOf } from '../lab-of'
import { readToldApart } from './tell-apart'

/** A chart as its card among doubles shows it. */
export type DoubleCard = {
  id: string
  title: string
  alsoCalled: string[]
  kind: ChartKind
  designers: string[]
  copies: number
  ownerName: string
  placeLabel: string | null
  edition: string | null
  hasCover: boolean
  designCount: number
  /** In stitches, of each design whose size is known. */
  sizes: { width: number; height: number }[]
}

export type ChartPair = { pair: SuggestedDouble; first: DoubleCard; second: DoubleCard }

const cards = new WeakMap<object, { revision: number; pairs: SuggestedDouble[] }>()

type Extra = { edition: string | null; coverHash: string | null; fileHashes: string[] }

async function readExtras(): Promise<Map<string, Extra>> {
  const { prisma } = database()
  const [charts, files] = await Promise.all([
    prisma.chart.findMany({
      where: { goneAt: null, OR: [{ edition: { not: null } }, { coverHash: { not: null } }] },
      select: { id: true, edition: true, coverHash: true },
    }),
    prisma.keptFile.findMany({
      where: { goneAt: null, role: 'chart', chartId: { not: null } },
      select: { chartId: true, sha256: true },
    }),
  ])
  const extras = new Map<string, Extra>(charts.map(({ id, ...said }) => [id, { ...said, fileHashes: [] }]))
  for (const { chartId, sha256 } of files) {
    const known = extras.get(chartId as string) ?? { edition: null, coverHash: null, fileHashes: [] }
    known.fileHashes.push(sha256)
    extras.set(chartId as string, known)
  }
  return extras
}

const isHash = (text: string | null | undefined): text is string => text != null && /^[0-9a-f]{16}$/u.test(text)

/** Every chart held, as the search for doubles sees it. */
function comparedCharts({ world, needs }: Answers, extras: ReadonlyMap<string, Extra>): ComparedChart[] {
  return [...grouped(world.designs.values(), ({ design }) => design.chartId)].map(([id, its]) => {
    const [first] = its as [(typeof its)[number]]
    const threads = new Set<number>()
    const sizes: string[] = []
    for (const { design } of its) {
      const size = stitchSize(design)
      if (size && !size.isEstimated) sizes.push([size.width, size.height].sort((a, b) => a - b).join('×'))
      for (const row of needs.rowsOf(design.id)) {
        const { threads: column, start, end } = needs.needsOf(row)
        for (let at = start; at < end; at++) threads.add(column[at] as number)
      }
    }
    const extra = extras.get(id)
    return {
      id,
      ownerId: first.ownerId,
      isFile: first.kind === 'file',
      titles: [first.chartTitle, ...(world.formerTitles.get(id) ?? [])].map(titleForm),
      designerIds: first.designerIds,
      sizes: sizes.sort(),
      designCount: its.length,
      threads: Uint32Array.from(threads).sort(),
      cover: isHash(extra?.coverHash) ? hashWords(extra.coverHash) : null,
      fileHashes: extra?.fileHashes ?? [],
      edition: extra?.edition ?? null,
    }
  })
}

/** Charts that may be one entered twice, of these owners, the surest first. Kept until something is written. */
export async function listChartDoubles(ownerIds: readonly string[]): Promise<ChartPair[]> {
  const [answers, extras, toldApart] = [await getAnswers(), await readExtras(), await readToldApart('chart')]
  let known = cards.get(answers.world)
  if (known?.revision !== answers.revision) {
    known = { revision: answers.revision, pairs: suggestDoubles(comparedCharts(answers, extras), toldApart) }
    cards.set(answers.world, known)
  }
  const { world } = answers
  const designsOf = grouped(world.designs.values(), ({ design }) => design.chartId)
  const cardOf = (id: string): DoubleCard => {
    const its = designsOf.get(id) ?? []
    const facts = its[0] as (typeof its)[number]
    const placeId = facts.currentPlaceId ?? facts.homePlaceId
    return {
      id,
      title: facts.chartTitle,
      alsoCalled: world.formerTitles.get(id) ?? [],
      kind: facts.kind,
      designers: facts.designerIds.flatMap((designerId) => world.designers.get(designerId) ?? []),
      copies: facts.copies,
      ownerName: world.owners.get(facts.ownerId) ?? '',
      placeLabel: world.places.get(placeId ?? '')?.label ?? null,
      edition: extras.get(id)?.edition ?? null,
      hasCover: isHash(extras.get(id)?.coverHash),
      designCount: its.length,
      sizes: its.flatMap(({ design }) => {
        const size = stitchSize(design)
        return size ? [{ width: Math.round(size.width), height: Math.round(size.height) }] : []
      }),
    }
  }
  const isTheirs = (id: string) => ownerIds.includes(designsOf.get(id)?.[0]?.ownerId ?? '')
  return known.pairs
    .filter(({ firstId, secondId }) => isTheirs(firstId) && isTheirs(secondId))
    .map((pair) => ({ pair, first: cardOf(pair.firstId), second: cardOf(pair.secondId) }))
}

export type NamedCount = { id: string; name: string; count: number }
export type NamePair = { first: NamedCount; second: NamedCount; reason: NameReason }

/** Two spellings of a designer, with how many charts each has. */
export async function listDesignerDoubles(): Promise<NamePair[]> {
  const designers = await database().prisma.designer.findMany({
    select: { id: true, name: true, _count: { select: { charts: { where: { chart: { goneAt: null } } } } } },
  })
  const byId = new Map(designers.map(({ id, name, _count }) => [id, { id, name, count: _count.charts }]))
  return namePairs([...byId.values()], await readToldApart('designer'))
}

function namePairs(names: readonly NamedCount[], toldApart: ReadonlySet<string>): NamePair[] {
  const byId = new Map(names.map((name) => [name.id, name]))
  return suggestNames(names, toldApart).map(({ firstId, secondId, reason }) => ({
    first: byId.get(firstId) as NamedCount,
    second: byId.get(secondId) as NamedCount,
    reason,
  }))
}

export type ThreadCard = {
  id: string
  makerName: string
  lineName: string
  code: string
  name: string | null
  lab: ReturnType<typeof labOf>
  /** Batches of anybody's, and lists that name it. */
  batches: number
  lists: number
}
export type ThreadPair = { first: ThreadCard; second: ThreadCard; reasons: ThreadReason[] }

/** Threads of one line that may be one entered twice. */
export async function listThreadDoubles(): Promise<ThreadPair[]> {
  const { world, needs } = await getAnswers()
  const pairs = suggestThreads([...world.threads.values()], await readToldApart('thread'))
  const cardOf = (id: string): ThreadCard => {
    const thread = world.threads.get(id) as NonNullable<ReturnType<typeof world.threads.get>>
    const line = world.lines.get(thread.lineId)
    return {
      id,
      makerName: line?.makerName ?? '',
      lineName: line?.name ?? '',
      code: thread.code,
      name: thread.name,
      lab: thread.lab,
      batches: world.stock.batches.get(id)?.length ?? 0,
      lists: needs.findThread(id) === null ? 0 : needs.usesOf(id).length,
    }
  }
  return pairs.map(({ firstId, secondId, reasons }) => ({ first: cardOf(firstId), second: cardOf(secondId), reasons }))
}

/** Two spellings of a maker, and of a line within its maker, with how many threads each has. */
export async function listMakerDoubles(): Promise<{ makers: NamePair[]; lines: (NamePair & { makerName: string })[] }> {
  const makers = await database().prisma.maker.findMany({
    select: {
      id: true,
      name: true,
      lines: { select: { id: true, name: true, _count: { select: { threads: { where: { goneAt: null } } } } } },
    },
  })
  const toldApart = await readToldApart('maker')
  const counted = makers.map(({ lines, ...maker }) => ({
    ...maker,
    count: lines.reduce((sum, { _count }) => sum + _count.threads, 0),
  }))
  return {
    makers: namePairs(counted, toldApart),
    lines: makers.flatMap(({ name: makerName, lines }) =>
      namePairs(
        lines.map(({ id, name, _count }) => ({ id, name, count: _count.threads })),
        toldApart,
      ).map((pair) => ({ ...pair, makerName })),
    ),
  }
}
