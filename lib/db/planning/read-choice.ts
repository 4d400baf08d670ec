import 'server-only'
import { setImmediate } from 'node:timers/promises'
import { stitchSize } from '#lib/chart/design-size'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { cutWaysOn } from '#lib/cloth/cut-plan'
import { type ClothRequest, compareFits, fitPiece, type PieceFit } from '#lib/cloth/fit'
import { isAdvisedCloth } from '#lib/cloth/match-cloth'
import { overOn } from '#lib/coverage/cloth-answer'
import { figuresOf, isReadyRank, rankOf } from '#lib/coverage/line-status'
import { clothRequest } from '#lib/coverage/worked-cloth'
import type { ChoiceDesign, ChoiceList, ChoiceThread, ChoiceWorld } from '#lib/planning/choice-world'
import { type ChoiceSource, type WishValue, wishValue } from '#lib/planning/wish-value'
import { openStatuses } from '#lib/project/life-cycle'
import { compareExact } from '#lib/stock/batch'
import type { FreeStock } from '#lib/stock/free-stock'
import { type Answers, clothSettings } from '../answers/answers'
import { database } from '../client'

export type ChoiceAsked = {
  ownerIds: readonly string[]
  source: ChoiceSource
  /** Those ticked; with another source, the only ones of it that are chosen from, null for all. */
  designIds: readonly string[] | null
  /** The pieces that may be cut; null for every piece of these owners. Reserved ones never are. */
  pieceIds: readonly string[] | null
  /** What a design counts, where that is not as it would be. */
  values: ReadonlyMap<string, number>
  today: string
}

export type ChoiceCandidate = { designId: string; title: string; dueOn: string | null } & WishValue

/** Why a design cannot be chosen whatever else is. Lengths in strand tenths. */
export type NeverChosen = { designId: string; title: string } & (
  | { kind: 'no-size' | 'no-list' | 'incomplete-list' }
  /** Threads of its nearest list that are not enough even for this design alone. */
  | { kind: 'threads'; threads: { threadId: string; needStrandTenths: number; freeStrandTenths: number; isOneLot: boolean }[] }
  /** No piece is of the kind it is worked on. */
  | { kind: 'no-cloth' }
  /** The piece it lacks least on, and how it would take it. */
  | { kind: 'too-large'; pieceId: string; fit: PieceFit }
)

export type ChoiceQuestion = {
  world: ChoiceWorld
  /** Those of the model, worth most first. */
  candidates: ChoiceCandidate[]
  never: NeverChosen[]
  /** The pieces that may be cut. */
  pieces: ClothPiece[]
  /** What was left out because more cannot be weighed against one another. */
  passedOver: { designs: number; pieces: number }
}

/** More than these are not weighed against one another. Chosen, so that a person who waits some seconds can have an answer; not measured. */
export const mostDesignsWeighed = 120
export const mostPiecesWeighed = 60
/** Of everything stitchable, the first so many by title; and so many wishes, the oldest. */
const mostLookedAt = 400
/** Others get their turn after so many designs. */
const designsATurn = 25

type Wish = { dueOn: string | null; listIds: Set<string | null> }

/** The wishes of some owners, by design: the nearest day, and the lists they name (null for any). */
async function readWishes(ownerIds: readonly string[]): Promise<Map<string, Wish>> {
  const rows = await database().prisma.project.findMany({
    where: { status: 'wanted', goneAt: null, ownerId: { in: [...ownerIds] } },
    select: { designId: true, threadListId: true, dueOn: true },
    orderBy: { id: 'asc' },
    take: mostLookedAt,
  })
  const wishes = new Map<string, Wish>()
  for (const { designId, threadListId, dueOn } of rows) {
    const wish = wishes.get(designId) ?? { dueOn: null, listIds: new Set() }
    wish.listIds.add(threadListId)
    if (dueOn !== null && (wish.dueOn === null || dueOn < wish.dueOn)) wish.dueOn = dueOn
    wishes.set(designId, wish)
  }
  return wishes
}

function designsAsked(answers: Answers, asked: ChoiceAsked, wishes: ReadonlyMap<string, Wish>): string[] {
  const { world } = answers
  const isAsked = (id: string) => world.designs.has(id) && (asked.designIds === null || asked.designIds.includes(id))
  if (asked.source === 'ticked') return [...new Set(asked.designIds ?? [])].slice(0, mostLookedAt).filter(isAsked)
  if (asked.source === 'wished') return [...wishes.keys()].filter(isAsked)
  const underWay = new Set(
    [...world.projects.values()]
      .filter(({ status, ownerId }) => (openStatuses as readonly string[]).includes(status) && asked.ownerIds.includes(ownerId))
      .map(({ designId }) => designId),
  )
  const { slots } = answers.catalogue.filter(
    { stitchableNow: true, owner: asked.ownerIds },
    { threads: answers.coverage(asked.ownerIds).designs, cloth: answers.cloth(asked.ownerIds).columns },
    'title',
  )
  return [...(asked.designIds === null ? slots.subarray(0, mostLookedAt) : slots)]
    .map((slot) => answers.catalogue.recordAt(slot).designId)
    .filter((id) => !underWay.has(id) && isAsked(id))
}

/**
 * What there is to choose from: designs that could be stitched by themselves from free thread and on some piece, with what they count;
 * and those that could not, with the reason. Needs are those every list of charts goes by, on the advised count.
 */
export async function readChoice(answers: Answers, asked: ChoiceAsked): Promise<ChoiceQuestion> {
  const { world, needs } = answers
  const wishes = await readWishes(asked.ownerIds)
  const settings = clothSettings(world.settings)
  const allPieces = world.pieces.filter(
    ({ id, ownerId, isReserved }) =>
      asked.ownerIds.includes(ownerId) && !isReserved && (asked.pieceIds === null || asked.pieceIds.includes(id)),
  )
  const free = new Map<string, FreeStock>()
  const freeOf = (threadId: string): FreeStock => {
    const known = free.get(threadId) ?? answers.freeOf(threadId, asked.ownerIds)
    free.set(threadId, known)
    return known
  }
  const lineOf = (threadId: string) => world.lines.get(world.lineOfThread.get(threadId) ?? '')

  const candidates: ChoiceCandidate[] = []
  const designs = new Map<string, ChoiceDesign>()
  const never: NeverChosen[] = []
  for (const [at, designId] of designsAsked(answers, asked, wishes).entries()) {
    if (at % designsATurn === designsATurn - 1) await setImmediate()
    const { design } = world.designs.get(designId) ?? {}
    if (!design) continue
    const named = { designId, title: design.title }
    const wish = wishes.get(designId)
    const { because, value: usual } = wishValue({ isWanted: wish !== undefined, dueOn: wish?.dueOn ?? null }, asked.today)
    const value = asked.values.get(designId) ?? usual

    const isAny = !wish || wish.listIds.has(null) || asked.source !== 'wished'
    const rows = needs.rowsOf(designId).filter((row) => isAny || wish.listIds.has(needs.listAt(row)))
    if (rows.length === 0) {
      never.push({ ...named, kind: 'no-list' })
      continue
    }
    const judged = rows
      .filter((row) => !needs.isIncomplete(row))
      .map((row) => ({ listId: needs.listAt(row) as string, needs: needsAt(answers, row) }))
      .filter((list) => list.needs.length > 0)
      .map((list) => ({
        list,
        lacking: list.needs.flatMap((need) => lackOf(need, freeOf(need.threadId), lineOf(need.threadId))),
      }))
      .sort((a, b) => a.lacking.length - b.lacking.length || compareExact(a.list.listId, b.list.listId))
    const [nearest] = judged
    if (!nearest) {
      never.push({ ...named, kind: 'incomplete-list' })
      continue
    }
    if (nearest.lacking.length > 0) {
      never.push({ ...named, kind: 'threads', threads: nearest.lacking })
      continue
    }

    if (stitchSize(design) === null) {
      never.push({ ...named, kind: 'no-size' })
      continue
    }
    const own = allPieces
      .filter((piece) => design.advised === null || isAdvisedCloth(piece, design.advised))
      .map((piece) => ({ piece, request: clothRequest(design, overOn(piece.weave, design.advised), settings) as ClothRequest }))
    const ways = Object.fromEntries(
      own.map(({ piece, request }) => [piece.id, cutWaysOn(request, piece)] as const).filter(([, some]) => some.length > 0),
    )
    if (Object.keys(ways).length === 0) {
      const near = own
        .map(({ piece, request }) => ({ piece, fit: fitPiece(request, piece) }))
        .sort((a, b) => compareFits(a.fit, b.fit) || compareExact(a.piece.id, b.piece.id))[0]
      never.push(near ? { ...named, kind: 'too-large', pieceId: near.piece.id, fit: near.fit } : { ...named, kind: 'no-cloth' })
      continue
    }
    candidates.push({ ...named, value, because, dueOn: wish?.dueOn ?? null })
    const lists = judged.filter(({ lacking }) => lacking.length === 0).map(({ list }) => list)
    designs.set(designId, { id: designId, value, lists, ways })
  }

  candidates.sort((a, b) => b.value - a.value || compareExact(a.title, b.title) || compareExact(a.designId, b.designId))
  const weighed = candidates.slice(0, mostDesignsWeighed)
  const weighedDesigns = weighed.map(({ designId }) => designs.get(designId) as ChoiceDesign)
  const usable = allPieces.filter(({ id }) => weighedDesigns.some(({ ways }) => ways[id] !== undefined))
  const areaOf = ({ widthUm, heightUm }: ClothPiece) => widthUm * heightUm
  // The largest are weighed, but tried in the order one would rather cut into them: offcuts, then the smaller.
  const pieces = usable
    .sort((a, b) => areaOf(b) - areaOf(a) || compareExact(a.id, b.id))
    .slice(0, mostPiecesWeighed)
    .sort((a, b) => Number(b.isOffcut) - Number(a.isOffcut) || areaOf(a) - areaOf(b) || compareExact(a.id, b.id))
  const threads = new Map<string, ChoiceThread>()
  for (const { lists } of weighedDesigns) {
    for (const { threadId } of lists.flatMap((list) => list.needs)) {
      const { freeStrandTenths, lots } = freeOf(threadId)
      const lotsStrandTenths = lots.map((lot) => lot.freeStrandTenths).filter((strandTenths) => strandTenths > 0)
      threads.set(threadId, { lotsMatter: lineOf(threadId)?.lotsMatter ?? false, freeStrandTenths, lotsStrandTenths })
    }
  }
  return {
    world: {
      designs: weighedDesigns,
      pieces: pieces.map(({ id, widthUm, heightUm }) => ({ id, widthUm, heightUm })),
      threads,
      gapUm: world.settings.cutGapUm,
    },
    candidates: weighed,
    never: never.sort((a, b) => compareExact(a.title, b.title) || compareExact(a.designId, b.designId)),
    pieces,
    passedOver: { designs: candidates.length - weighed.length, pieces: usable.length - pieces.length },
  }
}

function needsAt({ needs }: Answers, row: number): ChoiceList['needs'] {
  const { threads, needs: lengths, start, end } = needs.needsOf(row)
  return Array.from({ length: end - start }, (_, at) => ({
    threadId: needs.threadIds[threads[start + at] as number] as string,
    strandTenths: lengths[start + at] as number,
  })).filter(({ strandTenths }) => strandTenths > 0)
}

function lackOf(
  { threadId, strandTenths }: { threadId: string; strandTenths: number },
  free: FreeStock,
  line: { lotsMatter: boolean; putUpStrandTenths: number } | undefined,
) {
  const isOneLot = line?.lotsMatter ?? false
  const figures = figuresOf(free)
  if (line && isReadyRank(rankOf(strandTenths, figures, line))) return []
  const freeStrandTenths = isOneLot ? figures.bestLotStrandTenths : figures.freeStrandTenths
  return [{ threadId, needStrandTenths: strandTenths, freeStrandTenths, isOneLot }]
}
