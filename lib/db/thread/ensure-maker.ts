import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { newId } from '../new-id'
import type { Write } from '../write-gate'

/** The maker of that name, however spelt; made when there is none. */
export async function ensureMaker(
  { tx, touch }: Pick<Write, 'tx' | 'touch'>,
  name: string,
): Promise<{ id: string; name: string }> {
  const nameKey = textKey(name)
  const known = await tx.maker.findUnique({ where: { nameKey }, select: { id: true, name: true } })
  if (known) return known
  const maker = { id: newId(), name }
  await tx.maker.create({ data: { ...maker, nameKey } })
  touch('maker', maker.id)
  return maker
}
