import 'server-only'
import { createHash } from 'node:crypto'
import { type Housing, type NewHomeLine, planNewHome } from '#lib/place/new-home'
import { chunks } from '../bulk-edit/read-bulk-edit'
import { database, type Transaction } from '../client'

/** Things of which many can get another home at once; charts and threads have changes of their own. */
export const homedNouns = ['cloth', 'notion'] as const
export type HomedNoun = (typeof homedNouns)[number]

export const mostThings = 5_000

export type NewHomeRequest = { noun: HomedNoun; ids: readonly string[]; toPlaceId: string }

type Held = { id: string; version: number; outSince: Date | null } & Housing

type Reader = Pick<Transaction, 'clothPiece' | 'notion'>

/** Things as they stand, in the order of their ids; what is gone is left out. */
export async function readHeld(tx: Reader, noun: HomedNoun, ids: readonly string[]): Promise<Held[]> {
  const select = { id: true, version: true, outSince: true, homePlaceId: true, currentPlaceId: true } as const
  const found = new Map<string, Held>()
  for (const some of chunks([...new Set(ids)])) {
    const where = { id: { in: some }, goneAt: null }
    const rows = noun === 'cloth' ? await tx.clothPiece.findMany({ where, select }) : await tx.notion.findMany({ where, select })
    for (const row of rows) found.set(row.id, row)
  }
  return [...new Set(ids)].flatMap((id) => found.get(id) ?? [])
}

export type NewHomeReading = { lines: NewHomeLine[]; held: Map<string, Held>; fingerprint: string }

/** What another home would do to some things. */
export async function readNewHome(tx: Reader, { noun, ids, toPlaceId }: NewHomeRequest): Promise<NewHomeReading> {
  const held = await readHeld(tx, noun, ids)
  const lines = planNewHome(held, toPlaceId)
  const byId = new Map(held.map((one) => [one.id, one]))
  const restsOn = held.map(({ id, version }) => [id, version])
  const fingerprint = createHash('sha256')
    .update(JSON.stringify([noun, toPlaceId, restsOn]))
    .digest('base64url')
  return { lines, held: byId, fingerprint }
}

/** The same outside a write, for a look before it is done. */
export const previewNewHome = (request: NewHomeRequest): Promise<NewHomeReading> => readNewHome(database().prisma, request)
