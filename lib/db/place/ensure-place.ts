import 'server-only'
import type { PlaceKind } from '#lib/place/place'
import { pathUnder } from '#lib/place/place-tree'
import { textKey } from '#lib/quantity/text-key'
import type { Transaction } from '../client'
import { newId } from '../new-id'
import type { Write } from '../write-gate'
import { findMeant } from './look-up-label'

const kindWords: readonly [RegExp, PlaceKind][] = [
  [/\bcompartment\b/, 'compartment'],
  [/\bdrawer\b/, 'drawer'],
  [/\bbag\b/, 'bag'],
  [/\brack\b/, 'rack'],
  [/\bshelf\b/, 'shelf'],
  [/\bring\b/, 'ring'],
  [/\bbin\b/, 'bin'],
  [/\b(?:folder|binder)\b/, 'folder'],
  [/\b(?:cabinet|cupboard|chest)\b/, 'cabinet'],
  [/\broom\b/, 'room'],
  [/\bframer\b/, 'framer'],
  [/\bfinisher\b/, 'finisher'],
  [/\bmodel stitcher\b/, 'model stitcher'],
]

/** The kind a label says it is ("Bag K-07"); a box when it says nothing. */
const kindOfLabel = (labelKey: string): PlaceKind => kindWords.find(([word]) => word.test(labelKey))?.[1] ?? 'box'

/**
 * The id of the place with that label, or of the one an old label means now; made anew at the top of the tree when there is none.
 * For forms where a person types where a thing is; `findPlaceByLabel` asks without making.
 *
 * @param made.kind  what a new place is; left out, the kind its label says ("Bag K-07")
 * @throws {RangeError} if the label is blank.
 */
export async function ensurePlace(
  { tx, touch }: Pick<Write, 'tx' | 'touch'>,
  label: string,
  made: { kind?: PlaceKind } = {},
): Promise<string> {
  const shown = label.trim()
  const labelKey = textKey(shown)
  if (labelKey === '') throw new RangeError(`ensurePlace: label ${JSON.stringify(label)}`)
  const found = await tx.place.findUnique({ where: { labelKey }, select: { id: true, goneAt: true } })
  if (found && found.goneAt === null) return found.id
  const meant = await findMeant(shown, tx)
  if (meant) return meant.id
  if (found) await retireLabel(tx, labelKey)
  const id = newId()
  await tx.place.create({
    data: { id, label: shown, labelKey, kind: made.kind ?? kindOfLabel(labelKey), path: pathUnder(null, id) },
  })
  touch('place', id)
  return id
}

/** A place that was removed keeps its label for its history, but no longer stands in the way of a new one with that label. */
export async function retireLabel(tx: Transaction, labelKey: string): Promise<void> {
  const gone = await tx.place.findFirst({ where: { labelKey, goneAt: { not: null } }, select: { id: true } })
  if (gone)
    await tx.place.update({
      where: { id: gone.id },
      data: { labelKey: `${labelKey} (removed ${gone.id})`, version: { increment: 1 } },
    })
}
