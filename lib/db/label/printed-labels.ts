import 'server-only'
import { type Label, labelKey, labelText } from '#lib/label/label'
import { ok } from '#lib/result'
import { bulkInsert, timestamp } from '../bulk-insert'
import { database } from '../client'
import { newId } from '../new-id'
import { write } from '../write'

const idsAtATime = 500

type Named = Pick<Label, 'noun' | 'thingId'>

/** What was printed on these labels the last time, by `labelKey`; those never printed are not in it. */
export async function readPrintedLabels(labels: readonly Named[]): Promise<Map<string, string>> {
  const { prisma } = database()
  const parts = await Promise.all(
    partsOf(labels).map((where) => prisma.labelPrint.findMany({ where, select: { noun: true, thingId: true, text: true } })),
  )
  return new Map(parts.flat().map(({ noun, thingId, text }) => [labelKey({ noun, thingId } as Named), text]))
}

/** Keep what stands on these labels as printed now, in place of what was kept of them before. */
export async function markLabelsPrinted(labels: readonly Label[]): Promise<void> {
  if (labels.length === 0) return
  await write<null, never>(async ({ tx, engine, at }) => {
    for (const where of partsOf(labels)) await tx.labelPrint.deleteMany({ where })
    await bulkInsert(
      tx,
      engine,
      'LabelPrint',
      labels.map((label) => ({
        ...{ id: newId(), noun: label.noun, thingId: label.thingId, text: labelText(label) },
        printedAt: timestamp(at),
      })),
    )
    return ok(null)
  })
}

/** Conditions that find them, each with few enough parameters for a statement. */
function partsOf(labels: readonly Named[]): { noun: string; thingId: { in: string[] } }[] {
  const byNoun = new Map<string, string[]>()
  for (const { noun, thingId } of labels) {
    const ids = byNoun.get(noun)
    if (ids) ids.push(thingId)
    else byNoun.set(noun, [thingId])
  }
  return [...byNoun].flatMap(([noun, ids]) =>
    Array.from({ length: Math.ceil(ids.length / idsAtATime) }, (_, part) => ({
      noun,
      thingId: { in: ids.slice(part * idsAtATime, (part + 1) * idsAtATime) },
    })),
  )
}
