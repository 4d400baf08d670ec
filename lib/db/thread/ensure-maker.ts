import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { newId } from '../new-id'
import type { Write } from '../write-gate'
import { listFormerMakers } from './former-threads'

/** The maker of that name, however spelt, or the one it was merged into; made when there is none. */
export async function ensureMaker(
  { tx, touch }: Pick<Write, 'tx' | 'touch'>,
  name: string,
): Promise<{ id: string; name: string }> {
  const nameKey = textKey(name)
  const known = await tx.maker.findUnique({ where: { nameKey }, select: { id: true, name: true } })
  if (known) return known
  const [former, ...others] = await listFormerMakers(tx, name)
  if (former && others.length === 0) return former
  const maker = { id: newId(), name }
  await tx.maker.create({ data: { ...maker, nameKey } })
  touch('maker', maker.id)
  return maker
}
