import 'server-only'
import type { Lab } from '#lib/colour/lab'
import { NearestColours } from '#lib/colour/nearest'
import { textKey } from '#lib/quantity/text-key'
import { database } from '../client'
import { listThreads, type ThreadRow } from './list-threads'

export const standings = ['out', 'held', 'none'] as const
/**
 * Where a loose skein of the thread would come from, likeliest first. `out`: some of it is on record as out of its place. `held`: all of
 * it lies where it lives. `none`: none is on record.
 */
export type Standing = (typeof standings)[number]

export type LikelyThread = ThreadRow & { deltaE00: number; standing: Standing; lots: string[] }

export type LikelyQuestion = {
  lab: Lab
  makerId: string | null
  lineId: string | null
  fibre: string | null
  /** Part of what is left of the band: every word of it is in the lot of some stock of the thread. */
  lot: string
}

export type LikelyAnswer = {
  /** By standing, the nearest colours of each first. */
  threads: LikelyThread[]
  /** Threads that were compared, and threads left out because no colour of them is on record. */
  comparedCount: number
  withoutColourCount: number
}

const standingOf = ({ stock }: ThreadRow): Standing =>
  stock.states.includes('out') ? 'out' : stock.states.includes('held') ? 'held' : 'none'

/** The lots of these owners' threads that have every word in them, by thread, in order. */
async function lotsOf(ownerIds: readonly string[], words: readonly string[]): Promise<Map<string, string[]>> {
  const rows = await database().prisma.batch.findMany({
    where: { goneAt: null, ownerId: { in: [...ownerIds] }, lot: { not: null } },
    select: { threadId: true, lot: true },
    distinct: ['threadId', 'lot'],
    orderBy: [{ threadId: 'asc' }, { lot: 'asc' }],
  })
  const lots = new Map<string, string[]>()
  for (const { threadId, lot } of rows) {
    const key = textKey(lot as string)
    if (words.every((word) => key.includes(word))) lots.set(threadId, [...(lots.get(threadId) ?? []), lot as string])
  }
  return lots
}

/** What a loose skein is likely to be: the threads nearest in colour, `perStanding` of each standing. */
export async function listLikely(
  question: LikelyQuestion,
  asked: { ownerIds: readonly string[]; perStanding: number },
): Promise<LikelyAnswer> {
  const { lab, makerId, lineId, fibre, lot } = question
  const words = textKey(lot).split(' ').filter(Boolean)
  const [{ rows }, lots] = await Promise.all([
    listThreads(
      { makerId, lineId, placeId: null, text: '', state: null, family: null },
      { ownerIds: asked.ownerIds, offset: 0, limit: Number.MAX_SAFE_INTEGER },
    ),
    lotsOf(asked.ownerIds, words),
  ])
  const fits = rows.filter(
    (row) => (fibre === null || textKey(row.line.fibre ?? '') === textKey(fibre)) && (words.length === 0 || lots.has(row.id)),
  )
  const rowById = new Map(fits.map((row) => [row.id, row]))
  const coloured = fits.flatMap(({ id, lab: known }) => (known ? [{ id, lab: known }] : []))
  const colours = new NearestColours(coloured)
  const threads = standings.flatMap((standing) =>
    colours
      .nearest(lab, {
        count: asked.perStanding,
        accepts: (id) => standingOf(rowById.get(id) as ThreadRow) === standing,
      })
      .map(({ id, deltaE00 }) => ({ ...(rowById.get(id) as ThreadRow), deltaE00, standing, lots: lots.get(id) ?? [] })),
  )
  return { threads, comparedCount: coloured.length, withoutColourCount: fits.length - coloured.length }
}
