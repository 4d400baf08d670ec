import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { newId } from '../new-id'
import type { Write } from '../write-gate'

/**
 * The ids of these designers in their order, each once however often or however spelt it was named; made where they are new. A spelling that
 * was merged into another is that one.
 */
export async function ensureDesigners({ tx, touch }: Pick<Write, 'tx' | 'touch'>, names: readonly string[]): Promise<string[]> {
  const nameOf = new Map<string, string>()
  for (const name of names) {
    const nameKey = textKey(name)
    if (nameKey !== '' && !nameOf.has(nameKey)) nameOf.set(nameKey, name.trim())
  }
  const known = await tx.designer.findMany({
    where: { nameKey: { in: [...nameOf.keys()] } },
    select: { id: true, nameKey: true },
  })
  const former = await tx.formerDesignerName.findMany({
    where: { nameKey: { in: [...nameOf.keys()] } },
    select: { designerId: true, nameKey: true },
  })
  const idOf = new Map(former.map(({ designerId, nameKey }) => [nameKey, designerId]))
  for (const { id, nameKey } of known) idOf.set(nameKey, id)
  const made = [...nameOf].filter(([nameKey]) => !idOf.has(nameKey)).map(([nameKey, name]) => ({ id: newId(), name, nameKey }))
  await tx.designer.createMany({ data: made })
  for (const { id, nameKey } of made) {
    idOf.set(nameKey, id)
    touch('designer', id)
  }
  return [...new Set([...nameOf.keys()].map((nameKey) => idOf.get(nameKey) as string))]
}
