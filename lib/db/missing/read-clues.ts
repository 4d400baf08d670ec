import 'server-only'
import type { Place, PlaceKind } from '#lib/place/place'
import { sideBySide } from '#lib/place/side-by-side'
import { textKey } from '#lib/quantity/text-key'
import { formerHomes } from '#lib/stock/former-homes'
import { type Clue, type ClueAt, rankClues } from '#lib/stock/missing-clues'
import type { MovementKind } from '#lib/stock/stock-change'
import { database } from '../client'
import { passageKinds } from '../movement/thread-story'
import { type PlaceTag, placeColumns } from '../place/place-rows'
import type { MissingQuestion } from './queries'

/** A line of the journal about the thing that is missing: who had it in hand last. */
export type LastHand = {
  at: Date
  kind: MovementKind
  who: string | null
  from: string | null
  to: string | null
  project: string | null
}

export type Clues = {
  /** Where to look, the likeliest first. */
  places: (Omit<ClueAt, 'placeId'> & { place: PlaceTag })[]
  /** The latest first. */
  lastHands: LastHand[]
}

/** Lines of the journal read for all the questions of one page. */
const linesRead = 4_000
const handsShown = 4
const countsRead = 300

type Line = {
  batchId: string | null
  clothPieceId: string | null
  chartId: string | null
  notionId: string | null
  revision: number
  at: Date
  kind: string
  fromPlaceId: string | null
  toPlaceId: string | null
  projectId: string | null
  who: string | null
}

/** Where each of these things may be, and who had it last; read for a page of questions at once, in a handful of statements. */
export async function readClues(questions: readonly MissingQuestion[]): Promise<Map<string, Clues>> {
  const { prisma } = database()
  const idsOf = (noun: MissingQuestion['thing']['noun']) =>
    questions.flatMap(({ thing }) => (thing.noun === noun ? thing.id : []))
  const threadIds = [...new Set(questions.flatMap(({ thing }) => (thing.noun === 'thread' ? thing.threadId : [])))]
  const projectIds = [...new Set(questions.flatMap(({ project }) => project?.id ?? []))]
  const since = new Date(Date.now() - 366 * 24 * 60 * 60 * 1000)
  const [batches, movements, counted, found, projects, places] = await Promise.all([
    prisma.batch.findMany({
      where: { threadId: { in: threadIds } },
      select: {
        ...{ id: true, parentId: true, threadId: true, ownerId: true, goneAt: true, homePlaceId: true, currentPlaceId: true },
        ...{ wholePutUps: true, partCertainty: true },
      },
      orderBy: { id: 'asc' },
    }),
    prisma.movement.findMany({
      where: {
        OR: [
          { batch: { threadId: { in: threadIds } } },
          { clothPieceId: { in: idsOf('cloth') } },
          { chartId: { in: idsOf('chart') } },
          { notionId: { in: idsOf('notion') } },
        ],
      },
      select: {
        ...{ batchId: true, clothPieceId: true, chartId: true, notionId: true, revision: true, at: true, kind: true },
        ...{ fromPlaceId: true, toPlaceId: true, projectId: true, who: true },
      },
      orderBy: [{ revision: 'desc' }, { id: 'desc' }],
      take: linesRead,
    }),
    prisma.stockCountLine.findMany({
      where: { batch: { threadId: { in: threadIds } }, counted: { not: null }, count: { startedAt: { gte: since } } },
      select: {
        ...{ placeId: true, expected: true, counted: true, outcome: true, countedAt: true },
        ...{ batch: { select: { threadId: true } }, count: { select: { title: true } } },
      },
      orderBy: { id: 'desc' },
      take: countsRead,
    }),
    prisma.stockCountLine.findMany({
      where: { found: { not: null }, counted: { gt: 0 }, count: { startedAt: { gte: since } } },
      select: { placeId: true, found: true, countedAt: true, count: { select: { title: true } } },
      orderBy: { id: 'desc' },
      take: countsRead,
    }),
    prisma.project.findMany({
      where: { id: { in: projectIds } },
      select: { id: true, placeId: true, design: { select: { title: true } } },
    }),
    prisma.place.findMany({ where: { goneAt: null }, select: placeColumns }),
  ])
  const placeOf = new Map(places.map((place) => [place.id, place as Place]))
  const notFoundIds = places.filter(({ kind }) => kind === 'not found').map(({ id }) => id)
  const projectOf = new Map(projects.map((project) => [project.id, project]))
  const inHands = movements.slice(0, linesRead).flatMap(({ projectId }) => projectId ?? [])
  const titles = await prisma.project.findMany({
    where: { id: { in: [...new Set(inHands)].slice(0, 400) } },
    select: { id: true, design: { select: { title: true } } },
  })
  const titleOf = new Map(titles.map(({ id, design }) => [id, design.title]))
  const areBeside = neighbours(places as Place[])

  const answers = new Map<string, Clues>()
  for (const question of questions) {
    const { thing, lastSeen, project } = question
    const own = ownLines(movements, thing, batches)
    const clues: Clue[] = []
    const bag = project && projectOf.get(project.id)
    if (bag?.placeId) clues.push({ placeId: bag.placeId, kind: 'project-bag', text: bag.design.title, at: null })
    if (thing.home)
      for (const id of areBeside(thing.home.id)) clues.push({ placeId: id, kind: 'next-to', text: thing.home.label, at: null })
    for (const { fromPlaceId, toPlaceId, at } of own)
      for (const placeId of [fromPlaceId, toPlaceId])
        if (placeId !== null && placeId !== thing.home?.id) clues.push({ placeId, kind: 'was-there', text: null, at })
    if (thing.noun === 'thread') {
      const alike = batches.filter(({ threadId }) => threadId === thing.threadId)
      for (const batch of alike) {
        const { id, goneAt, homePlaceId, currentPlaceId, wholePutUps, partCertainty } = batch
        const isThere = goneAt === null && id !== thing.id && (wholePutUps > 0 || partCertainty !== 'none')
        if (!isThere || currentPlaceId === null) continue
        const isAway = homePlaceId !== null && homePlaceId !== currentPlaceId
        clues.push({ placeId: currentPlaceId, kind: isAway ? 'more-out' : 'more-home', text: null, at: null })
      }
      const homes = formerHomes({
        lines: movements.flatMap((line) =>
          line.batchId !== null && alike.some(({ id }) => id === line.batchId)
            ? [{ ...line, kind: line.kind as MovementKind, thingId: line.batchId }]
            : [],
        ),
        homeOf: new Map(alike.map(({ id, homePlaceId }) => [id, homePlaceId])),
        isPassage: (placeId) => passageKinds.includes(placeOf.get(placeId)?.kind as PlaceKind),
      })
      for (const { placeId, until } of homes) clues.push({ placeId, kind: 'lived-there', text: null, at: until })
      for (const line of counted)
        if (line.batch?.threadId === thing.threadId && line.outcome !== 'accepted' && (line.counted ?? 0) > line.expected)
          clues.push({ placeId: line.placeId, kind: 'counted-over', text: line.count.title, at: line.countedAt })
      const words = textKey(`${thing.makerName} ${thing.code}`).split(' ')
      for (const line of found) {
        const said = textKey(line.found ?? '').split(' ')
        if (words.every((word) => said.includes(word)))
          clues.push({ placeId: line.placeId, kind: 'found-in-count', text: line.count.title, at: line.countedAt })
      }
    }
    const excluded = new Set([...notFoundIds, ...(lastSeen ? [lastSeen.id] : [])])
    answers.set(question.id, {
      places: rankClues(clues, excluded).flatMap(({ placeId, clues: why }) => {
        const place = placeOf.get(placeId)
        return place ? [{ place, clues: why }] : []
      }),
      lastHands: own.slice(0, handsShown).map((line) => ({
        ...{ at: line.at, kind: line.kind as MovementKind, who: line.who },
        from: placeOf.get(line.fromPlaceId ?? '')?.label ?? null,
        to: placeOf.get(line.toPlaceId ?? '')?.label ?? null,
        project: titleOf.get(line.projectId ?? '') ?? null,
      })),
    })
  }
  return answers
}

type Kin = { id: string; parentId: string | null }

/** The journal of the thing itself, before it was looked for; of thread that was parted off for it, also of what it was parted from. */
function ownLines(movements: readonly Line[], thing: MissingQuestion['thing'], batches: readonly Kin[]): Line[] {
  if (thing.noun !== 'thread')
    return movements.filter(({ clothPieceId, chartId, notionId }) => [clothPieceId, chartId, notionId].includes(thing.id))
  const parentId = batches.find(({ id }) => id === thing.id)?.parentId ?? null
  return movements.filter(({ batchId }) => batchId === thing.id || (parentId !== null && batchId === parentId))
}

/** The places beside a place: the one before and the one after it where it stands. */
function neighbours(places: readonly Place[]): (placeId: string) => string[] {
  const areSideBySide = sideBySide(places)
  const inside = new Map<string | null, string[]>()
  for (const { id, parentId } of places) inside.set(parentId, [...(inside.get(parentId) ?? []), id])
  const parentOf = new Map(places.map(({ id, parentId }) => [id, parentId]))
  return (placeId) => {
    const parentId = parentOf.get(placeId)
    // What stands at the top of the tree stands beside nothing in particular.
    if (parentId === undefined || parentId === null) return []
    return (inside.get(parentId) ?? []).filter((id) => id !== placeId && areSideBySide(placeId, id))
  }
}
