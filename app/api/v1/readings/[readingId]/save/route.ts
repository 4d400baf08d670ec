import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { readingOperations } from '#api/readings'
import { endpoint, serve } from '#api/serve'
import { unknownKeyOf, unknownThreads } from '#lib/chart/unknown-threads'
import { findStagedReading } from '#lib/db/reading/reading-store'
import { type ReadingTarget, saveReading } from '#lib/db/reading/save-reading'
import { describeSaveRefusal } from '../../../../../_reading/words'

const save = serve(readingOperations.save, async ({ path: { readingId }, query, body }) => {
  const owners = await chosenOwners(query.owner)
  if (owners instanceof Problem) return owners
  const staged = await findStagedReading(readingId, owners)
  if (!staged) return notFound('reading', readingId)
  const { addThreads, newLines, target: asked, ...ticks } = body
  const unknown = staged.review ? unknownThreads(staged.review.reading) : []
  const mayAdd = new Set(
    addThreads === 'all'
      ? unknown.map(({ key }) => key)
      : addThreads.map(({ maker, line, code }) => unknownKeyOf({ makerName: maker, lineName: line, code })),
  )
  const saved = await saveReading({
    ...{ ...ticks, id: readingId, ownerIds: owners, mayAdd },
    target: asked.kind === 'designs' ? asked : chartTarget(asked, staged.ownerId),
    newLines: newLines.map(({ maker, line, ...line_ }) => ({ ...line_, makerName: maker, lineName: line })),
  })
  if (saved.ok) return saved.value
  if (saved.error.kind === 'no-such-reading') return notFound('reading', readingId)
  return new Problem('refused', describeSaveRefusal(saved.error))
})

type AskedChart = Extract<NonNullable<typeof readingOperations.save.body>['_output']['target'], { kind: 'chart' }>

function chartTarget({ kind, chartKind, designs, ownerId, ...chart }: AskedChart, readerId: string): ReadingTarget {
  return {
    kind,
    designs,
    chart: { ...chart, kind: chartKind, ownerId: ownerId ?? readerId, edition: null, partsNeeded: 1, partsHeld: 1 },
  }
}

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: save })
