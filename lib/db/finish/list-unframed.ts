import 'server-only'
import { database } from '../client'
import { type PlaceTag, placeTagColumns } from '../place/place-rows'
import type { Sent } from './read-finishes'

/** A piece with its last stitch made that is not done: nobody has framed or sewn it up, or somebody has it for that. */
export type Unframed = {
  id: string
  title: string
  status: 'stitched' | 'finished'
  quantity: number
  finishing: string | null
  place: PlaceTag | null
  /** The last day in its log, yyyy-mm-dd. */
  lastWorkedOn: string | null
  /** With whom it is now, for its finishing. */
  sent: Sent | null
}

/** Stitched and not finished, and what is with a framer or finisher still; those that are away last, the longest away first. */
export async function listUnframed(ownerIds: readonly string[]): Promise<Unframed[]> {
  const { prisma } = database()
  const open = { kind: 'send', closedOn: null, place: { kind: { in: ['framer', 'finisher'] } } }
  const where = {
    ...{ ownerId: { in: [...ownerIds] }, goneAt: null },
    OR: [{ status: 'stitched' }, { status: 'finished', loans: { some: open } }],
  }
  const [rows, loans, worked] = await Promise.all([
    prisma.project.findMany({
      where,
      select: {
        ...{ id: true, status: true, quantity: true, finishing: true, design: { select: { title: true } } },
        place: placeTagColumns,
      },
      orderBy: { id: 'asc' },
    }),
    prisma.loan.findMany({
      where: { kind: 'send', closedOn: null, project: where },
      select: {
        ...{ id: true, projectId: true, fromOn: true, dueOn: true, closedOn: true, priceMinor: true },
        place: placeTagColumns,
      },
      orderBy: [{ fromOn: 'asc' }, { id: 'asc' }],
    }),
    prisma.workEntry.groupBy({ by: ['projectId'], where: { goneAt: null, project: where }, _max: { day: true } }),
  ])
  const lastOf = new Map(worked.map(({ projectId, _max }) => [projectId, _max.day]))
  const loanOf = new Map(
    loans.map(({ id, projectId, place, ...terms }) => [projectId, { loanId: id, place: place as PlaceTag, ...terms }]),
  )
  return rows
    .map(({ design, place, status, ...row }) => ({
      ...row,
      ...{ title: design.title, status: status as Unframed['status'], place: place as PlaceTag | null },
      ...{ lastWorkedOn: lastOf.get(row.id) ?? null, sent: loanOf.get(row.id) ?? null },
    }))
    .sort((a, b) => {
      const turn = ({ sent, lastWorkedOn }: Unframed) => (sent ? `1${sent.fromOn}` : `0${lastWorkedOn ?? ''}`)
      return turn(a) < turn(b) ? -1 : turn(a) > turn(b) ? 1 : a.id < b.id ? -1 : 1
    })
}
