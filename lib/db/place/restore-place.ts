import 'server-only'
import { ok, type Result } from '#lib/result'
import { database } from '../client'
import { write } from '../write'
import type { PlaceRefusal } from './place-refusal'
import { standAgain } from './stand-again'

type Refusal = Extract<PlaceRefusal, { kind: 'label-taken' | 'changed-meanwhile' }>

/** Put a place that was removed back on the map. */
export function restorePlace(input: { id: string; version: number }): Promise<Result<null, Refusal>> {
  return write<null, Refusal>(async (writing) => {
    const stood = await standAgain(writing, { id: input.id, version: input.version })
    return stood.ok ? ok(null) : stood
  })
}

/** A place that was removed, for putting it back; null when there is none or it stands. */
export const findRemovedPlace = (id: string): Promise<{ id: string; label: string; version: number } | null> =>
  database().prisma.place.findFirst({
    where: { id, goneAt: { not: null } },
    select: { id: true, label: true, version: true },
  })
