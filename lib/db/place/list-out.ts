import 'server-only'
import { calendarDay } from '#lib/quantity/day'
import { compareExact } from '#lib/stock/batch'
import { database } from '../client'
import { type LoanOfThing, readLoansOfThings } from '../loan/queries'
import {
  chartColumns,
  clothColumns,
  notionColumns,
  readChart,
  readCloth,
  readNotion,
  readThread,
  type ThingHere,
  threadColumns,
} from './contents'
import { openProjects } from './place-counts'

export type OutThing = ThingHere & {
  /** The project whose kit lies where it is now. */
  projects: { id: string; title: string }[]
  /** The loan it is out on, if it is on one. */
  loan: LoanOfThing | null
}

type Out = { id: string; outSince: Date | null }

const byOutSince = (a: Out, b: Out): number =>
  (a.outSince?.getTime() ?? Number.MAX_SAFE_INTEGER) - (b.outSince?.getTime() ?? Number.MAX_SAFE_INTEGER) ||
  compareExact(a.id, b.id)

/**
 * What is out, longest first, of these owners' goods: everything that is not in its home, or only what lives inside one place.
 *
 * @param asked.insidePath  a place's path; null for all places
 * @param today  yyyy-mm-dd, for how loans stand
 * @returns one page of them, and how many there are in all
 */
export async function listOut(
  asked: { ownerIds: readonly string[]; insidePath: string | null },
  page: { offset: number; limit: number },
  today: string = calendarDay(new Date()),
): Promise<{ things: OutThing[]; total: number }> {
  const { prisma } = database()
  const inside = asked.insidePath === null ? {} : { homePlace: { path: { startsWith: asked.insidePath } } }
  const common = { goneAt: null, ownerId: { in: [...asked.ownerIds] }, ...inside, homePlaceId: { not: null } }
  const away = (home: unknown) => ({
    AND: [{ currentPlaceId: { not: null } }, { NOT: { currentPlaceId: { equals: home as string } } }],
  })
  const select = { id: true, outSince: true } as const
  const out = (
    await Promise.all([
      prisma.batch.findMany({ where: { ...common, ...away(prisma.batch.fields.homePlaceId) }, select }),
      prisma.clothPiece.findMany({ where: { ...common, ...away(prisma.clothPiece.fields.homePlaceId) }, select }),
      prisma.chart.findMany({ where: { ...common, ...away(prisma.chart.fields.homePlaceId) }, select }),
      prisma.notion.findMany({ where: { ...common, ...away(prisma.notion.fields.homePlaceId) }, select }),
    ])
  ).flat()
  const shown = out.sort(byOutSince).slice(page.offset, page.offset + page.limit)

  const these = { id: { in: shown.map(({ id }) => id) } }
  const [threads, cloth, charts, notions] = await Promise.all([
    prisma.batch.findMany({ where: these, select: threadColumns }),
    prisma.clothPiece.findMany({ where: these, select: clothColumns }),
    prisma.chart.findMany({ where: these, select: chartColumns }),
    prisma.notion.findMany({ where: these, select: notionColumns }),
  ])
  const things: ThingHere[] = [
    ...threads.map(readThread),
    ...cloth.map(readCloth),
    ...charts.map(readChart),
    ...notions.map(readNotion),
  ]
  const placeIds = [...new Set(things.flatMap(({ current }) => current?.id ?? []))]
  const projects = await prisma.project.findMany({
    where: { ...openProjects, placeId: { in: placeIds } },
    select: { id: true, placeId: true, design: { select: { title: true } } },
    orderBy: { id: 'asc' },
  })
  const loans = await readLoansOfThings(things, today)
  return {
    total: out.length,
    things: things.sort(byOutSince).map((thing) => ({
      ...thing,
      loan: loans.get(`${thing.noun} ${thing.id}`) ?? null,
      projects: projects
        .filter(({ placeId }) => placeId === thing.current?.id)
        .map(({ id, design }) => ({ id, title: design.title })),
    })),
  }
}
