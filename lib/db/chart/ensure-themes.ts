import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { newId } from '../new-id'
import type { Write } from '../write-gate'

export const themeAxes = ['season', 'subject', 'form'] as const
export type ThemeAxis = (typeof themeAxes)[number]
/** Names on each of the three lists of themes. */
export type ThemeNames = Record<ThemeAxis, readonly string[]>

/** The ids of these themes, made where they are new. */
export async function ensureThemes({ tx }: Pick<Write, 'tx'>, names: ThemeNames): Promise<string[]> {
  const asked = new Map<string, { axis: ThemeAxis; name: string; nameKey: string }>()
  for (const axis of themeAxes) {
    for (const name of names[axis]) {
      const nameKey = textKey(name)
      const key = `${axis} ${nameKey}`
      if (nameKey !== '' && !asked.has(key)) asked.set(key, { axis, name: name.trim(), nameKey })
    }
  }
  const known = await tx.theme.findMany({
    where: { OR: [...asked.values()].map(({ axis, nameKey }) => ({ axis, nameKey })) },
    select: { id: true, axis: true, nameKey: true },
  })
  const knownIds = new Map(known.map(({ id, axis, nameKey }) => [`${axis} ${nameKey}`, id]))
  const made = [...asked].filter(([key]) => !knownIds.has(key)).map(([, theme]) => ({ id: newId(), ...theme }))
  await tx.theme.createMany({ data: made })
  return [...knownIds.values(), ...made.map(({ id }) => id)]
}
