import 'server-only'
import { hashDistance } from '#lib/chart/cover-hash'
import type { ChartKind } from '#lib/chart/design'
import {
  editDistance,
  type Likeness,
  likenessOf,
  nameForm,
  type TitleForm,
  titleForm,
  withoutLittleWords,
} from '#lib/chart/likeness'
import { grouped } from '#lib/grouped'
import { getAnswers } from '../answers/get-answers'
import { database } from '../client'

/** Why a chart may be the one that is meant. */
export type HadReason =
  | { kind: 'title' }
  | { kind: 'near-title' }
  /** It went by this title too. */
  | { kind: 'other-title'; title: string }
  /** A design in it has the title. */
  | { kind: 'design'; title: string }
  | { kind: 'designer'; name: string }
  | { kind: 'words' }
  /** In how many of 64 bits the covers differ. */
  | { kind: 'cover'; bits: number }

export type HadChart = {
  chartId: string
  /** The design that is meant, where it is one of several. */
  designId: string | null
  title: string
  kind: ChartKind
  designers: string[]
  edition: string | null
  ownerName: string
  copies: number
  reason: HadReason
  coverFile: string | null
  /** Where it is now, and with whom. */
  place: { id: string; label: string } | null
  lentTo: { label: string; dueOn: string | null; copies: number }[]
  isMissing: boolean
  /** yyyy-mm-dd of each finish. */
  finishedOn: (string | null)[]
  /** It is held no more: what was said, and the day. */
  left: { reason: string | null; on: Date } | null
}

export type HadAnswer = {
  /** The title itself, or a cover as good as the same. */
  sure: HadChart[]
  /** What comes near, the nearest first. */
  near: HadChart[]
  /** Charts that have a cover to be found by. */
  covers: number
}

/** A photo held in a hand is never quite the cover: by trial photos at a slant of 2° and with some table round come within 10, others not under 20. */
const nearPhoto = 16
const surePhoto = 10
const mostShown = 12

type Wanted = { chartId: string; designId: string | null; reason: HadReason; rank: number }

/** Charts held, or held once, that a half-remembered title, a design in a booklet or a designer may mean. */
export async function findHadByWords(words: string): Promise<HadAnswer> {
  const { world, search } = await getAnswers()
  const asked = titleForm(words)
  const askedName = nameForm(words)
  const found = new Map<string, Wanted>()
  const take = (wanted: Wanted) => {
    const known = found.get(wanted.chartId)
    if (!known || wanted.rank < known.rank) found.set(wanted.chartId, wanted)
  }
  // What has all words as they were typed hides what has all but “the”; so both are looked for.
  const looks = [...new Set([words, withoutLittleWords(words)])].filter((text) => text !== '')
  const answers = looks.map((text) => search.search(text, { limit: 60, noun: 'design' }))
  const hasAllWords = answers.some((one) => one.hasAllWords)
  const hits = answers.filter((one) => one.hasAllWords || !hasAllWords).flatMap((one) => one.hits)
  hits.forEach((hit, turn) => {
    const facts = world.designs.get(hit.id.slice('design:'.length))
    if (!facts) return
    const { chartId, title, id } = facts.design
    const other = world.formerTitles.get(chartId) ?? []
    const designers = facts.designerIds.flatMap((one) => world.designers.get(one) ?? [])
    const { reason, rank } = reasonFor(asked, askedName, { title: facts.chartTitle, design: title, other, designers })
    take({ chartId, designId: id, reason, rank: rank + turn / 1_000 })
  })
  const all = [...found.values(), ...(await findGone(asked, askedName))]
  // One word of several says little where something comes nearer.
  const isNearer = all.some(({ reason }) => reason.kind !== 'words')
  const told = all.filter(({ reason }) => reason.kind !== 'words' || hasAllWords || !isNearer)
  return answer(told, isSureReason)
}

const isSureReason = ({ reason }: Wanted): boolean => reason.kind === 'title' || reason.kind === 'other-title'

const rankOf: Record<Likeness, number> = { same: 0, near: 1, part: 2, far: 9 }

function reasonFor(
  asked: TitleForm,
  askedName: TitleForm,
  said: { title: string; design: string; other: readonly string[]; designers: readonly string[] },
): { reason: HadReason; rank: number } {
  const choices: { reason: HadReason; rank: number }[] = []
  const consider = (text: string, same: HadReason, near: HadReason, less: number) => {
    const alike = likenessOf(asked, titleForm(text))
    if (alike === 'same') choices.push({ reason: same, rank: less })
    else if (alike !== 'far') choices.push({ reason: near, rank: rankOf[alike] + less })
  }
  consider(said.title, { kind: 'title' }, { kind: 'near-title' }, 0)
  if (said.design !== said.title)
    consider(said.design, { kind: 'design', title: said.design }, { kind: 'design', title: said.design }, 0.3)
  for (const title of said.other) consider(title, { kind: 'other-title', title }, { kind: 'other-title', title }, 0.2)
  for (const name of said.designers) {
    const form = nameForm(name)
    const isNamed =
      likenessOf(askedName, form) !== 'far' || (askedName.words.length === 1 && form.words.includes(askedName.words[0] as string))
    if (isNamed) choices.push({ reason: { kind: 'designer', name }, rank: 3 })
  }
  return choices.sort((a, b) => a.rank - b.rank)[0] ?? { reason: { kind: 'words' }, rank: 4 }
}

/** Whether all words asked for, or all but one of three and more, are among a text's, give or take a letter. */
function hasWords(asked: TitleForm, text: string): boolean {
  const words = titleForm(text).words
  const there = asked.words.filter((word) =>
    words.some((other) => other === word || (word.length > 3 && (other.startsWith(word) || editDistance(word, other, 1) <= 1))),
  )
  return asked.words.length > 0 && there.length >= (asked.words.length > 2 ? asked.words.length - 1 : asked.words.length)
}

/** Charts that are held no more, but for those merged into one that is. */
async function findGone(asked: TitleForm, askedName: TitleForm): Promise<Wanted[]> {
  const rows = await database().prisma.chart.findMany({
    where: { goneAt: { not: null }, designs: { some: {} } },
    select: { id: true, title: true },
    orderBy: { goneAt: 'desc' },
    take: 5_000,
  })
  return rows.flatMap(({ id, title }) => {
    const { reason, rank } = reasonFor(asked, askedName, { title, design: title, other: [], designers: [] })
    if (reason.kind === 'words' && !hasWords(asked, title)) return []
    return [{ chartId: id, designId: null, reason, rank: rank + 0.5 }]
  })
}

/** Charts whose cover looks like one of these hashes of a photo (lib/db/photo/cover-hash.ts). */
export async function findHadByCover(hashes: readonly string[]): Promise<HadAnswer> {
  const rows = await database().prisma.chart.findMany({
    where: { coverHash: { not: null } },
    select: { id: true, coverHash: true },
  })
  const wanted = rows.flatMap(({ id, coverHash }): Wanted[] => {
    const bits = Math.min(...hashes.map((hash) => hashDistance(hash, coverHash as string)))
    return bits <= nearPhoto ? [{ chartId: id, designId: null, reason: { kind: 'cover', bits }, rank: bits }] : []
  })
  return answer(wanted, ({ rank }) => rank <= surePhoto)
}

async function answer(all: readonly Wanted[], isSure: (wanted: Wanted) => boolean): Promise<HadAnswer> {
  const { prisma } = database()
  const wanted = [...all].sort((a, b) => a.rank - b.rank || (a.chartId < b.chartId ? -1 : 1)).slice(0, mostShown * 2)
  const ids = wanted.map(({ chartId }) => chartId)
  const [charts, loans, missing, finishes, endings, covers] = await Promise.all([
    prisma.chart.findMany({
      where: { id: { in: ids } },
      select: {
        ...{ id: true, title: true, kind: true, edition: true, copies: true, coverFile: true, goneAt: true },
        owner: { select: { name: true } },
        homePlace: { select: { id: true, label: true } },
        currentPlace: { select: { id: true, label: true } },
        designers: { select: { designer: { select: { name: true } } }, orderBy: { position: 'asc' } },
        _count: { select: { designs: true } },
      },
    }),
    prisma.loanLine.findMany({
      where: { chartId: { in: ids }, backOn: null, loan: { closedOn: null, kind: { not: 'borrow' } } },
      select: { chartId: true, count: true, loan: { select: { dueOn: true, place: { select: { label: true } } } } },
    }),
    prisma.missingThing.findMany({ where: { chartId: { in: ids }, status: 'open' }, select: { chartId: true } }),
    prisma.project.findMany({
      where: { goneAt: null, status: 'finished', design: { chartId: { in: ids } } },
      select: { finishedOn: true, designId: true, design: { select: { chartId: true } } },
      orderBy: { finishedOn: 'desc' },
    }),
    prisma.movement.findMany({
      where: { chartId: { in: ids }, wholeDelta: { lt: 0 } },
      select: { chartId: true, kind: true, at: true, reason: true },
      orderBy: [{ revision: 'desc' }, { id: 'desc' }],
    }),
    prisma.chart.count({ where: { coverHash: { not: null } } }),
  ])
  const chartOf = new Map(charts.map((chart) => [chart.id, chart]))
  const loansOf = grouped(loans, ({ chartId }) => chartId)
  const missingIds = new Set(missing.map(({ chartId }) => chartId))
  const finishesOf = grouped(finishes, ({ design }) => design.chartId)
  const endingOf = new Map(endings.toReversed().map((movement) => [movement.chartId, movement]))
  const cardOf = ({ chartId, designId, reason }: Wanted): HadChart | null => {
    const chart = chartOf.get(chartId)
    const ending = endingOf.get(chartId)
    if (!chart || (chart.goneAt !== null && ending?.kind === 'merge')) return null
    const isOneOfSeveral = designId !== null && chart._count.designs > 1
    const its = (finishesOf.get(chartId) ?? []).filter((finish) => !isOneOfSeveral || finish.designId === designId)
    return {
      chartId,
      designId: isOneOfSeveral && reason.kind === 'design' ? designId : null,
      title: chart.title,
      kind: chart.kind as ChartKind,
      designers: chart.designers.map(({ designer }) => designer.name),
      edition: chart.edition,
      ownerName: chart.owner.name,
      copies: chart.copies,
      reason,
      coverFile: chart.coverFile,
      place: chart.currentPlace ?? chart.homePlace,
      lentTo: (loansOf.get(chartId) ?? []).map(({ count, loan }) => ({
        label: loan.place.label,
        dueOn: loan.dueOn,
        copies: count,
      })),
      isMissing: missingIds.has(chartId),
      finishedOn: its.map(({ finishedOn }) => finishedOn),
      left: chart.goneAt === null ? null : { reason: ending?.reason ?? null, on: ending?.at ?? chart.goneAt },
    }
  }
  const cards = wanted.flatMap((one) => {
    const card = cardOf(one)
    return card ? [{ card, isSure: isSure(one) }] : []
  })
  return {
    sure: cards
      .filter((one) => one.isSure)
      .map(({ card }) => card)
      .slice(0, mostShown),
    near: cards
      .filter((one) => !one.isSure)
      .map(({ card }) => card)
      .slice(0, mostShown),
    covers,
  }
}
