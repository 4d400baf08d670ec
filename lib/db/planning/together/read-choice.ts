import 'server-only'
import { setImmediate } from 'node:timers/promises'
import { stitchSize } from '#lib/chart/design-size'
import type { ClothPiece } from '#lib/cloth/cloth-piece'
import { cutWaysOn } from '#lib/cloth/cut-plan'
import { type ClothRequest, compareFits, fitPiece, type PieceFit } from '#lib/cloth/fit'
import { isAdvisedCloth } from '#lib/cloth/match-cloth'
import { overOn } from '#lib/coverage/cloth-answer'
import { clothRequest } from '#lib/coverage/worked-cloth'
import { nextOfTheme, type OccasionWorld } from '#lib/planning/days/occasions'
import {
  type Buying,
  type ChoiceDesign,
  type ChoiceList,
  type ChoicePin,
  type ChoiceThread,
  type ChoiceWorld,
  hadFrom,
  type ThreadsLeft,
  threadsLeft,
  withinLimit,
} from '#lib/planning/together/choice-world'
import { type ChoiceSource, nearPutUps, type WishValue, wishValue } from '#lib/planning/together/wish-value'
import { openStatuses } from '#lib/project/life-cycle'
import { daysBetween } from '#lib/quantity/day'
import { compareExact } from '#lib/stock/batch'
import { type Answers, clothSettings } from '../../answers/answers'
import type { DesignFacts } from '../../answers/read-designs'
import { database } from '../../client'
import { readOccasionWorld } from '../days/occasions'

export type ChoiceAsked = {
  ownerIds: readonly string[]
  source: ChoiceSource
  /** Those ticked; with another source, the only ones of it that are chosen from, null for all. */
  designIds: readonly string[] | null
  /** Whether cloth is asked about at all; where not, thread alone decides. */
  isClothAside: boolean
  /** The pieces that may be cut; null for every piece of these owners. Reserved ones never are. */
  pieceIds: readonly string[] | null
  /** What a design counts, where that is not as it would be. */
  values: ReadonlyMap<string, number>
  /** Which must be among the chosen and which may not; the others may be. */
  pins: ReadonlyMap<string, ChoicePin>
  buying: Buying
  today: string
}

/** A wish as it can be given stars and planned: the project. */
export type WishProject = { projectId: string; quantity: number; stars: number | null }

export type ChoiceCandidate = {
  designId: string
  title: string
  dueOn: string | null
  copies: number
  pin: ChoicePin
  wishes: WishProject[]
  /** What it would count by itself; `value` is what it does. */
  usual: number
  /** Whole put-ups it lacks even if nothing else is stitched; nought for one that is stitchable now. */
  shortPutUps: number
} & WishValue

export type ThreadLacking = {
  threadId: string
  needStrandTenths: number
  freeStrandTenths: number
  isOneLot: boolean
  /** Whole put-ups that would have to be bought. */
  putUps: number
}

/** Why a design cannot be chosen whatever else is. Lengths in strand tenths. */
export type NeverChosen = { designId: string; title: string } & (
  | { kind: 'no-size' | 'no-list' | 'incomplete-list' }
  /** Threads of its nearest list that are not enough even for this design alone, with what may be bought. */
  | { kind: 'threads'; threads: ThreadLacking[] }
  /** No piece is of the kind it is worked on. */
  | { kind: 'no-cloth' }
  /** The piece it lacks least on, and how it would take it. */
  | { kind: 'too-large'; pieceId: string; fit: PieceFit }
)

export type ChoiceQuestion = {
  /** What is chosen from. */
  world: ChoiceWorld
  /** The same with all that any amount of buying would make stitchable. */
  wider: ChoiceWorld
  /** Those of the model, worth most first; those that are not to be in too. */
  candidates: ChoiceCandidate[]
  never: NeverChosen[]
  /** The pieces that may be cut. */
  pieces: ClothPiece[]
  /** Threads of the wider world that nobody gave a price. */
  withoutPrice: number
  /** What was left out because more cannot be weighed against one another. */
  passedOver: { designs: number; pieces: number }
}

/** More than these are not weighed against one another: with thread alone, and with cloth. Chosen, so that some seconds bring an answer. */
export const mostDesignsWeighed = { thread: 500, cloth: 120 }
export const mostPiecesWeighed = 60
/** Of everything stitchable, the first so many by title; and so many wishes, the oldest. */
const mostLookedAt = 1_000
/** Others get their turn after so many designs. */
const designsATurn = 25

type Wish = { dueOn: string | null; stars: number | null; copies: number; listIds: Set<string | null>; projects: WishProject[] }

/** The wishes of some owners, by design: the nearest day, the most stars and copies, and the lists they name (null for any). */
async function readWishes(ownerIds: readonly string[]): Promise<Map<string, Wish>> {
  const rows = await database().prisma.project.findMany({
    where: { status: 'wanted', goneAt: null, ownerId: { in: [...ownerIds] } },
    select: {
      ...{ id: true, designId: true, threadListId: true },
      ...{ dueOn: true, stars: true, quantity: true },
    },
    orderBy: { id: 'asc' },
    take: mostLookedAt,
  })
  const wishes = new Map<string, Wish>()
  for (const { id: projectId, designId, threadListId, dueOn, stars, quantity } of rows) {
    const wish = wishes.get(designId) ?? { dueOn: null, stars: null, copies: 1, listIds: new Set(), projects: [] }
    wishes.set(designId, wish)
    wish.listIds.add(threadListId)
    wish.projects.push({ projectId, quantity, stars })
    wish.copies = Math.max(wish.copies, quantity)
    if (stars !== null) wish.stars = Math.max(wish.stars ?? 0, stars)
    if (dueOn !== null && (wish.dueOn === null || dueOn < wish.dueOn)) wish.dueOn = dueOn
  }
  // What is planned is the one that all copies are reckoned by.
  for (const { projects } of wishes.values()) projects.sort((a, b) => b.quantity - a.quantity)
  return wishes
}

/** By line: what one of its put-ups costs at the least, where somebody said. Packs and other lengths are weighed when the list is made. */
async function readPrices(): Promise<Map<string, number>> {
  const { prisma } = database()
  const [rows, offers] = await Promise.all([
    prisma.threadLine.findMany({ select: { id: true, priceMinor: true, putUpStrandTenths: true }, orderBy: { id: 'asc' } }),
    prisma.threadOffer.findMany({
      where: { threadId: null, packPutUps: 1 },
      select: { lineId: true, priceMinor: true, putUpStrandTenths: true },
      orderBy: { id: 'asc' },
    }),
  ])
  const prices = new Map<string, number>()
  for (const { id, priceMinor, putUpStrandTenths } of rows) {
    const known = offers
      .filter((offer) => offer.lineId === id && offer.putUpStrandTenths === putUpStrandTenths)
      .map((offer) => offer.priceMinor)
    if (priceMinor !== null) known.push(priceMinor)
    if (known.length > 0) prices.set(id, Math.min(...known))
  }
  return prices
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
    { ...(asked.source === 'near' ? { shortByAtMost: nearPutUps } : { stitchableNow: true }), owner: asked.ownerIds },
    { threads: answers.coverage(asked.ownerIds).designs, cloth: answers.cloth(asked.ownerIds).columns },
    'title',
  )
  return [...(asked.designIds === null ? slots.subarray(0, mostLookedAt) : slots)]
    .map((slot) => answers.catalogue.recordAt(slot).designId)
    .filter((id) => !underWay.has(id) && isAsked(id))
}

/**
 * What there is to choose from: designs that could be stitched by themselves from free thread and what may be bought, and on some piece
 * unless cloth is left aside, with what they count; and those that could not, with the reason. Needs are those every list of charts goes
 * by, on the advised count; a wish for several copies needs so many times as much.
 */
export async function readChoice(answers: Answers, asked: ChoiceAsked): Promise<ChoiceQuestion> {
  const { world } = answers
  const [wishes, prices, occasions] = await Promise.all([
    readWishes(asked.ownerIds),
    readPrices(),
    readOccasionWorld(asked.ownerIds),
  ])
  const allPieces = asked.isClothAside
    ? []
    : world.pieces.filter(
        ({ id, ownerId, isReserved }) =>
          asked.ownerIds.includes(ownerId) && !isReserved && (asked.pieceIds === null || asked.pieceIds.includes(id)),
      )
  const candidates: ChoiceCandidate[] = []
  const designs: ChoiceDesign[] = []
  const never: NeverChosen[] = []
  for (const [at, designId] of designsAsked(answers, asked, wishes).entries()) {
    if (at % designsATurn === designsATurn - 1) await setImmediate()
    const facts = world.designs.get(designId)
    if (!facts) continue
    const season = seasonOf(answers, facts.themeIds, asked.today, occasions)
    const read = readCandidate(answers, asked, { ...facts, season }, wishes.get(designId), allPieces)
    if ('never' in read) never.push(read.never)
    else {
      candidates.push(read.candidate)
      designs.push(read.design)
    }
  }

  const threads = threadsOf(answers, asked.ownerIds, designs, prices)
  const all: ChoiceWorld = {
    ...{ designs, threads, gapUm: world.settings.cutGapUm, buying: asked.buying },
    pieces: asked.isClothAside ? null : allPieces,
  }
  const isWithin = new Set(withinLimit(all, asked.buying).designs.map(({ id }) => id))
  const canBeHad = ({ id, pin }: ChoiceDesign) => pin === 'out' || isWithin.has(id)
  const titles = new Map(candidates.map(({ designId, title }) => [designId, title]))
  const byWorth = (a: ChoiceDesign, b: ChoiceDesign) =>
    Number(b.pin === 'in') - Number(a.pin === 'in') ||
    Number(canBeHad(b)) - Number(canBeHad(a)) ||
    b.value - a.value ||
    compareExact(titles.get(a.id) ?? '', titles.get(b.id) ?? '') ||
    compareExact(a.id, b.id)
  const sorted = [...designs].sort(byWorth)
  const weighed = sorted.slice(0, asked.isClothAside ? mostDesignsWeighed.thread : mostDesignsWeighed.cloth)
  const untouched = threadsLeft({ ...all, buying: { kind: 'nothing' } }, [])
  for (const design of weighed) {
    if (canBeHad(design)) continue
    const title = titles.get(design.id) ?? ''
    never.push({ designId: design.id, title, kind: 'threads', threads: lackingOf(all, design, untouched) })
  }

  const usable = allPieces.filter(({ id }) => weighed.some(({ ways }) => ways[id] !== undefined))
  const areaOf = ({ widthUm, heightUm }: ClothPiece) => widthUm * heightUm
  // The largest are weighed, but tried in the order one would rather cut into them: offcuts, then the smaller.
  const pieces = usable
    .sort((a, b) => areaOf(b) - areaOf(a) || compareExact(a.id, b.id))
    .slice(0, mostPiecesWeighed)
    .sort((a, b) => Number(b.isOffcut) - Number(a.isOffcut) || areaOf(a) - areaOf(b) || compareExact(a.id, b.id))
  const wider: ChoiceWorld = {
    ...{ ...all, designs: weighed },
    pieces: asked.isClothAside ? null : pieces.map(({ id, widthUm, heightUm }) => ({ id, widthUm, heightUm })),
  }
  const isChosenFrom = new Set(weighed.filter(canBeHad).map(({ id }) => id))
  const shortOf = new Map(weighed.map((design) => [design.id, putUpsShort(all, design, untouched)]))
  return {
    ...{ world: withinLimit(wider, asked.buying), wider, pieces },
    candidates: candidates
      .filter(({ designId }) => isChosenFrom.has(designId))
      .map((candidate) => ({ ...candidate, shortPutUps: shortOf.get(candidate.designId) ?? 0 }))
      .sort((a, b) => b.value - a.value || compareExact(a.title, b.title) || compareExact(a.designId, b.designId)),
    never: never.sort((a, b) => compareExact(a.title, b.title) || compareExact(a.designId, b.designId)),
    withoutPrice: [...threads.values()].filter(({ priceMinor }) => priceMinor === null).length,
    passedOver: { designs: sorted.length - weighed.length, pieces: usable.length - pieces.length },
  }
}

/** One design as it could be chosen, or why it never can be. Whether its threads reach is not looked at yet. */
function readCandidate(
  answers: Answers,
  asked: ChoiceAsked,
  { design, boughtOn, season }: DesignFacts & { season: NearSeason | null },
  wish: Wish | undefined,
  allPieces: readonly ClothPiece[],
): { never: NeverChosen } | { candidate: ChoiceCandidate; design: ChoiceDesign } {
  const { world, needs } = answers
  const named = { designId: design.id, title: design.title }
  const isAny = !wish || wish.listIds.has(null) || asked.source !== 'wished'
  const rows = needs.rowsOf(design.id).filter((row) => isAny || wish.listIds.has(needs.listAt(row)))
  if (rows.length === 0) return { never: { ...named, kind: 'no-list' } }
  const copies = wish?.copies ?? 1
  const lists = rows
    .filter((row) => !needs.isIncomplete(row))
    .map((row) => ({ listId: needs.listAt(row) as string, needs: needsAt(answers, row, copies) }))
    .filter((list) => list.needs.length > 0)
    .sort((a, b) => compareExact(a.listId, b.listId))
  if (lists.length === 0) return { never: { ...named, kind: 'incomplete-list' } }

  let ways: ChoiceDesign['ways'] = {}
  if (!asked.isClothAside) {
    if (stitchSize(design) === null) return { never: { ...named, kind: 'no-size' } }
    const settings = clothSettings(world.settings)
    const own = allPieces
      .filter((piece) => design.advised === null || isAdvisedCloth(piece, design.advised))
      .map((piece) => ({ piece, request: clothRequest(design, overOn(piece.weave, design.advised), settings) as ClothRequest }))
    ways = Object.fromEntries(
      own.map(({ piece, request }) => [piece.id, cutWaysOn(request, piece)] as const).filter(([, some]) => some.length > 0),
    )
    if (Object.keys(ways).length === 0) {
      const near = own
        .map(({ piece, request }) => ({ piece, fit: fitPiece(request, piece) }))
        .sort((a, b) => compareFits(a.fit, b.fit) || compareExact(a.piece.id, b.piece.id))[0]
      return {
        never: near ? { ...named, kind: 'too-large', pieceId: near.piece.id, fit: near.fit } : { ...named, kind: 'no-cloth' },
      }
    }
  }
  const { dueOn = null, stars = null, projects = [] } = wish ?? {}
  const worth = wishValue({ isWanted: wish !== undefined, stars, dueOn, season, boughtOn }, asked.today)
  const value = asked.values.get(design.id) ?? worth.value
  const pin = asked.pins.get(design.id) ?? 'may'
  return {
    candidate: { ...named, dueOn, copies, pin, wishes: projects, usual: worth.value, shortPutUps: 0, parts: worth.parts, value },
    design: { id: design.id, value, copies, pin, lists, ways },
  }
}

type NearSeason = { theme: string; weeks: number }

/** The season theme of a design that comes round next. */
function seasonOf({ world }: Answers, themeIds: readonly string[], today: string, occasions: OccasionWorld): NearSeason | null {
  const near = themeIds
    .flatMap((id) => {
      const theme = world.themes.get(id)
      const next = theme?.axis === 'season' ? nextOfTheme(theme.name, today, occasions) : null
      return theme && next ? [{ theme: theme.name, weeks: Math.floor(daysBetween(today, next.on) / 7) }] : []
    })
    .sort((a, b) => a.weeks - b.weeks || compareExact(a.theme, b.theme))
  return near[0] ?? null
}

/** What is free of every thread some designs need, and how it is sold. */
function threadsOf(
  answers: Answers,
  ownerIds: readonly string[],
  designs: readonly ChoiceDesign[],
  prices: ReadonlyMap<string, number>,
): Map<string, ChoiceThread> {
  const threads = new Map<string, ChoiceThread>()
  for (const { threadId } of designs.flatMap(({ lists }) => lists.flatMap((list) => list.needs))) {
    if (threads.has(threadId)) continue
    const line = answers.world.lines.get(answers.world.lineOfThread.get(threadId) ?? '')
    if (!line) throw new RangeError(`readChoice: no line for thread ${threadId}`)
    const { freeStrandTenths, lots } = answers.freeOf(threadId, ownerIds)
    threads.set(threadId, {
      ...{ lotsMatter: line.lotsMatter, freeStrandTenths, putUpStrandTenths: line.putUpStrandTenths },
      lotsStrandTenths: lots.map((lot) => lot.freeStrandTenths).filter((strandTenths) => strandTenths > 0),
      priceMinor: prices.get(line.id) ?? null,
    })
  }
  return threads
}

/** The fewest put-ups that would make a design stitchable by itself, whichever list it is worked from. */
const putUpsShort = (world: ChoiceWorld, { lists }: ChoiceDesign, untouched: ThreadsLeft): number =>
  Math.min(...lists.map((list) => hadFrom(world, list, untouched).reduce((sum, { morePutUps }) => sum + morePutUps, 0)))

/** What a design lacks by itself of the list that lacks fewest threads. */
function lackingOf(world: ChoiceWorld, { lists }: ChoiceDesign, untouched: ThreadsLeft): ThreadLacking[] {
  const lacking = lists.map((list) =>
    hadFrom(world, list, untouched)
      .filter(({ morePutUps }) => morePutUps > 0)
      .map(({ threadId, strandTenths, bestStrandTenths, morePutUps }) => ({
        ...{ threadId, needStrandTenths: strandTenths, freeStrandTenths: bestStrandTenths, putUps: morePutUps },
        isOneLot: world.threads.get(threadId)?.lotsMatter ?? false,
      })),
  )
  return lacking.sort((a, b) => a.length - b.length)[0] ?? []
}

function needsAt({ needs }: Answers, row: number, copies: number): ChoiceList['needs'] {
  const { threads, needs: lengths, start, end } = needs.needsOf(row)
  return Array.from({ length: end - start }, (_, at) => ({
    threadId: needs.threadIds[threads[start + at] as number] as string,
    strandTenths: copies * (lengths[start + at] as number),
  })).filter(({ strandTenths }) => strandTenths > 0)
}
