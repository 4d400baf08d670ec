import { createHash } from 'node:crypto'
import { say } from '#language/say'
import { type LabelChoice, type LabelChoiceRefusal, listLabelThings, mostLabels } from '#lib/db/label/list-label-things'
import { markLabelsPrinted, readPrintedLabels } from '#lib/db/label/printed-labels'
import { changedLabels, type Label, labelText } from '#lib/label/label'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { ok, type Result, refused } from '#lib/result'
import { labelOf } from '#words/labels'

export type LabelsAsked = {
  choice: LabelChoice
  /** `changed`: only those never printed and those that say something else now. */
  which: 'changed' | 'all'
  ownerIds: readonly string[]
  unit: LengthUnit
}

export type ReadLabels = {
  /** How many there are of what was chosen, and how many of them are new or changed. */
  count: number
  changedCount: number
  labels: Label[]
  /** By `labelKey`, what was printed the last time. */
  printed: ReadonlyMap<string, string>
  /** Stands for all their words: handed back when they were printed, so that only what was seen is kept as printed. */
  seen: string
}

/** The labels that were asked for, as they read now. */
export async function readLabels({
  choice,
  which,
  ownerIds,
  unit,
}: LabelsAsked): Promise<Result<ReadLabels, LabelChoiceRefusal>> {
  const things = await listLabelThings(choice, ownerIds)
  if (!things.ok) return things
  const all = things.value.map((thing) => labelOf(thing, unit))
  const printed = await readPrintedLabels(all)
  const changed = changedLabels(all, printed)
  const labels = which === 'changed' ? changed : all
  return ok({ count: all.length, changedCount: changed.length, labels, printed, seen: digestOf(labels) })
}

export type KeepPrintedRefusal = LabelChoiceRefusal | { kind: 'changed-meanwhile' }

/** Keep the labels that were asked for as printed, unless they read otherwise by now than when they were `seen`. */
export async function keepPrinted(asked: LabelsAsked, seen: string): Promise<Result<{ count: number }, KeepPrintedRefusal>> {
  const read = await readLabels(asked)
  if (!read.ok) return read
  if (read.value.seen !== seen) return refused({ kind: 'changed-meanwhile' })
  await markLabelsPrinted(read.value.labels)
  return ok({ count: read.value.labels.length })
}

export function describeLabelRefusal(refusal: KeepPrintedRefusal): string {
  switch (refusal.kind) {
    case 'no-such-place':
      return say('That place is not there any more. Choose another.')
    case 'too-many':
      return say('More than {mostLabels, number} labels are not printed at once. Choose a place, or fewer kinds of things.', {
        mostLabels,
      })
    case 'changed-meanwhile':
      return say(
        'Something on these labels changed since this page was drawn, or they were kept as printed already. Look at them again, print what changed, then say so.',
      )
  }
}

function digestOf(labels: readonly Label[]): string {
  const hash = createHash('sha256')
  for (const label of labels) hash.update(JSON.stringify([label.noun, label.thingId, labelText(label)]))
  return hash.digest('base64url').slice(0, 22)
}
