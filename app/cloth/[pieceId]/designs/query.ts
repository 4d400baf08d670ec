import { z } from 'zod'
import { anyOwner } from '#lib/chart/design-query'
import type { PieceDesignChoices } from '#lib/db/answers/piece-designs'

const choice = z.string().min(1).max(100).nullable().catch(null).default(null)
const tick = z.literal('1').nullable().catch(null).default(null)

/** The choices of the screen as they stand in its address. */
export const pieceDesignsQuerySchema = z.object({
  season: choice,
  subject: choice,
  form: choice,
  over: z.enum(['1', '2']).nullable().catch(null).default(null),
  stitchableNow: tick,
  asAsked: tick,
  owner: z.literal(anyOwner).nullable().catch(null).default(null),
  page: z.coerce.number().int().min(1).max(10_000).catch(1),
})
export type PieceDesignsQuery = z.infer<typeof pieceDesignsQuerySchema>

/** @param ownerIds  whose charts are meant unless the address asks for any owner's */
export const choicesOf = (query: PieceDesignsQuery, ownerIds: readonly string[]): PieceDesignChoices => ({
  season: query.season === null ? [] : [query.season],
  subject: query.subject === null ? [] : [query.subject],
  form: query.form === null ? [] : [query.form],
  owner: query.owner === anyOwner ? [] : ownerIds,
  stitchableNow: query.stitchableNow !== null,
  over: query.over === null ? null : query.over === '1' ? 1 : 2,
  onlyAsAsked: query.asAsked !== null,
})

export function pieceDesignsHref(pieceId: string, query: PieceDesignsQuery, page: number): string {
  const search = new URLSearchParams()
  for (const [name, value] of Object.entries(query)) if (name !== 'page' && value !== null) search.set(name, String(value))
  if (page > 1) search.set('page', String(page))
  const text = search.toString()
  return `/cloth/${pieceId}/designs${text ? `?${text}` : ''}`
}
