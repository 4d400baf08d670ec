import { keepLabelsPrintedOperation } from '#api/labels'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getSettings } from '#lib/db/settings/settings'
import { describeLabelRefusal, keepPrinted } from '../../../../_labels/read-labels'

const keep = serve(keepLabelsPrintedOperation, async ({ body }) => {
  const ownerIds = await chosenOwners(body.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const unit = (await getSettings()).lengthUnit
  const choice = { kind: 'in-place', placeId: body.place ?? null, nouns: body.noun } as const
  const kept = await keepPrinted({ choice, which: body.which, ownerIds, unit }, body.seen)
  return kept.ok ? kept.value : new Problem('refused', describeLabelRefusal(kept.error))
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: keep })
