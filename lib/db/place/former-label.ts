import 'server-only'
import { textKey } from '#lib/quantity/text-key'
import { newId } from '../new-id'
import type { Write } from '../write-gate'
import type { OldLabel } from './look-up-label'

/** Remember what a label said until now, and the place that has its goods from now on. */
export async function rememberLabel(
  { tx, at }: Write,
  { label, placeId, why }: { label: string; placeId: string; why: OldLabel['why'] },
): Promise<string> {
  const id = newId()
  await tx.formerLabel.create({ data: { id, placeId, label, labelKey: textKey(label), why, until: at } })
  return id
}

/** A place that has a label again has not lost it. */
export async function forgetOwnLabel({ tx }: Write, { label, placeId }: { label: string; placeId: string }): Promise<void> {
  await tx.formerLabel.deleteMany({ where: { placeId, labelKey: textKey(label) } })
}
