import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import type { Result } from '#lib/result'
import { requireWhole } from '../access/whole'
import { database } from '../client'
import { newId } from '../new-id'
import { beyondSight } from '../sight/sighted-client'
import { write } from '../write'

export const ownerKinds = ['own', 'shop', 'person'] as const
export type OwnerKind = (typeof ownerKinds)[number]
export type Owner = { id: string; name: string; kind: OwnerKind; version: number }

export type OwnerRefusal = { kind: 'name-taken'; name: string } | { kind: 'changed-meanwhile' }

/** Every owner, first come first. */
export async function listOwners(): Promise<Owner[]> {
  const rows = await database().prisma.owner.findMany({
    select: { id: true, name: true, kind: true, version: true },
    orderBy: { id: 'asc' },
  })
  return rows as Owner[]
}

export function addOwner(input: { name: string; kind: OwnerKind }): Promise<Result<Owner, OwnerRefusal>> {
  requireWhole()
  return write<Owner, OwnerRefusal>(async ({ tx, touch }) => {
    const nameKey = textKey(input.name)
    if (await tx.owner.findUnique({ where: { nameKey } })) return { ok: false, error: { kind: 'name-taken', name: input.name } }
    const owner = { id: newId(), name: input.name, kind: input.kind, version: 0 }
    await tx.owner.create({ data: { ...owner, nameKey } })
    touch('owner', owner.id)
    return { ok: true, value: owner }
  })
}

export function editOwner(input: Owner): Promise<Result<Owner, OwnerRefusal>> {
  return write<Owner, OwnerRefusal>(async ({ tx, touch }) => {
    const nameKey = textKey(input.name)
    const namesake = await beyondSight(tx).owner.findUnique({ where: { nameKey } })
    if (namesake && namesake.id !== input.id) return { ok: false, error: { kind: 'name-taken', name: input.name } }
    const claimed = await tx.owner.updateMany({
      where: { id: input.id, version: input.version },
      data: { name: input.name, nameKey, kind: input.kind, version: { increment: 1 } },
    })
    if (claimed.count === 0) return { ok: false, error: { kind: 'changed-meanwhile' } }
    touch('owner', input.id)
    return { ok: true, value: { ...input, version: input.version + 1 } }
  })
}
