import 'server-only'
import type { Weave } from '#lib/cloth/cloth-piece'
import type { LabelNoun } from '#lib/label/label'
import { type PlaceKind, peopleKinds } from '#lib/place/place'
import { placePath } from '#lib/place/place-tree'
import { compareLabels } from '#lib/place/walk-order'
import { ok, type Result, refused } from '#lib/result'
import { compareExact } from '#lib/stock/batch'
import { compareCodes } from '#lib/thread/code-order'
import { database } from '../client'
import {
  chartColumns,
  clothColumns,
  readChart,
  readCloth,
  readThread,
  type ThingHere,
  type ThreadHere,
  threadColumns,
} from '../place/contents'
import { openProjects } from '../place/place-counts'
import type { PlaceRecord } from '../place/place-rows'
import { listPlaces } from '../place/queries'

type Placed<Noun extends ThingHere['noun']> = Omit<Extract<ThingHere, { noun: Noun }>, 'noun'>

/** Something a label can be stuck on, with what may be said of it. */
export type LabelThing =
  | { noun: 'place'; id: string; place: PlaceRecord /** The places it is inside of, from the top down. */; above: PlaceRecord[] }
  | ({ noun: 'chart' } & Placed<'chart'>)
  | ({ noun: 'batch' } & Placed<'thread'>)
  | ({ noun: 'cloth' } & Placed<'cloth'> & { weave: Weave })
  | { noun: 'project'; id: string; title: string; quantity: number; forWhom: string | null; dueOn: string | null }

export type LabelChoice =
  /** Of these kinds: the places that are the place or inside it, and what lives in them; everything where there is no place. */
  | { kind: 'in-place'; placeId: string | null; nouns: readonly LabelNoun[] }
  | { kind: 'one'; noun: LabelNoun; id: string }
  /** Those chosen of a list. */
  | { kind: 'these'; noun: LabelNoun; ids: readonly string[] }

/** More are not printed at once. */
export const mostLabels = 2_000
const idsAtATime = 500
/** Places nothing is stuck on. */
const unlabelled: ReadonlySet<PlaceKind> = new Set(['not found', ...peopleKinds])

export type LabelChoiceRefusal = { kind: 'no-such-place' } | { kind: 'too-many'; count: number }

/**
 * What is to be labelled, in walking order: places that are no people, then what lives in them kind by kind. Places are everybody's; the other things are
 * those of the owners asked for, and one asked for by itself is whoever’s it is.
 */
export async function listLabelThings(
  choice: LabelChoice,
  ownerIds: readonly string[],
): Promise<Result<LabelThing[], LabelChoiceRefusal>> {
  const { prisma } = database()
  const places = await listPlaces()
  const inside = choice.kind === 'in-place' && choice.placeId !== null ? places.find(({ id }) => id === choice.placeId) : null
  if (inside === undefined) return refused({ kind: 'no-such-place' })
  if (choice.kind === 'these' && choice.ids.length > mostLabels) return refused({ kind: 'too-many', count: choice.ids.length })
  const has = (noun: LabelNoun) => (choice.kind === 'in-place' ? choice.nouns.includes(noun) : choice.noun === noun)
  const chosenPlaces = !has('place')
    ? []
    : choice.kind !== 'in-place'
      ? places.filter(({ id }) => (choice.kind === 'one' ? id === choice.id : choice.ids.includes(id)))
      : places.filter(({ path, kind }) => (inside === null || path.startsWith(inside.path)) && !unlabelled.has(kind))
  const owned = { goneAt: null, ...(choice.kind === 'one' ? { id: choice.id } : { ownerId: { in: [...ownerIds] } }) }
  const lives = { ...owned, ...(inside ? { homePlace: { path: { startsWith: inside.path } } } : {}) }
  const kitted = { ...openProjects, ...owned, ...(inside ? { place: { path: { startsWith: inside.path } } } : {}) }

  const asked = { select: { id: true }, take: mostLabels + 1 } as const
  const none: { id: string }[] = []
  const these = choice.kind === 'these' ? choice.ids.map((id) => ({ id })) : null
  const [charts, batches, cloth, projects] = await Promise.all([
    these && has('chart') ? these : has('chart') ? prisma.chart.findMany({ where: lives, ...asked }) : none,
    these && has('batch') ? these : has('batch') ? prisma.batch.findMany({ where: lives, ...asked }) : none,
    these && has('cloth') ? these : has('cloth') ? prisma.clothPiece.findMany({ where: lives, ...asked }) : none,
    these && has('project') ? these : has('project') ? prisma.project.findMany({ where: kitted, ...asked }) : none,
  ])
  const count = chosenPlaces.length + charts.length + batches.length + cloth.length + projects.length
  if (count > mostLabels) return refused({ kind: 'too-many', count })

  // By ids a few hundred at a time: relations of more rows than that take more parameters than a statement may have.
  const [chartRows, batchRows, clothRows, projectRows] = await Promise.all([
    inParts(charts, (id) => prisma.chart.findMany({ where: { id }, select: chartColumns })),
    inParts(batches, (id) => prisma.batch.findMany({ where: { id }, select: threadColumns })),
    inParts(cloth, (id) => prisma.clothPiece.findMany({ where: { id }, select: clothColumns })),
    inParts(projects, (id) => prisma.project.findMany({ where: { id }, select: projectColumns })),
  ])
  const turnOf = new Map(places.map(({ id }, at) => [id, at]))
  const byHome = (a: Pick<ThingHere, 'home'>, b: Pick<ThingHere, 'home'>) =>
    (turnOf.get(a.home?.id ?? '') ?? places.length) - (turnOf.get(b.home?.id ?? '') ?? places.length)
  const placeById = new Map(places.map((place) => [place.id, place]))
  return ok([
    ...chosenPlaces.map(
      (place): LabelThing => ({
        ...{ noun: 'place', id: place.id, place },
        above: placePath(place, placeById).slice(0, -1) as PlaceRecord[],
      }),
    ),
    ...batchRows
      .map(readThread)
      .sort((a, b) => byHome(a, b) || byNumber(a, b))
      .map((row): LabelThing => ({ ...row, noun: 'batch' })),
    ...clothRows
      .map(readCloth)
      .sort((a, b) => byHome(a, b) || compareLabels(a.label ?? '', b.label ?? '') || compareExact(a.id, b.id)),
    ...chartRows.map(readChart).sort((a, b) => byHome(a, b) || compareExact(a.title, b.title) || compareExact(a.id, b.id)),
    ...projectRows
      .map(({ design, ...row }): LabelThing => ({ ...row, noun: 'project', title: design.title }))
      .sort((a, b) => compareExact(a.id, b.id)),
  ])
}

const projectColumns = {
  ...{ id: true, quantity: true, forWhom: true, dueOn: true },
  design: { select: { title: true } },
} as const

const byNumber = (a: ThreadHere, b: ThreadHere): number =>
  compareExact(a.makerName, b.makerName) ||
  compareExact(a.lineName, b.lineName) ||
  compareCodes(a.code, b.code) ||
  compareExact(a.lot ?? '', b.lot ?? '') ||
  compareExact(a.id, b.id)

async function inParts<Row>(rows: readonly { id: string }[], read: (id: { in: string[] }) => Promise<Row[]>): Promise<Row[]> {
  const parts: Promise<Row[]>[] = []
  for (let from = 0; from < rows.length; from += idsAtATime) {
    parts.push(read({ in: rows.slice(from, from + idsAtATime).map(({ id }) => id) }))
  }
  return (await Promise.all(parts)).flat()
}
