import { listLabelsOperation } from '#api/labels'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getSettings } from '#lib/db/settings/settings'
import { labelKey } from '#lib/label/label'
import { describeLabelRefusal, readLabels } from '../../../_labels/read-labels'

const list = serve(listLabelsOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const read = await readLabels({
    choice: { kind: 'in-place', placeId: query.place ?? null, nouns: query.noun },
    which: query.which,
    ownerIds,
    unit: (await getSettings()).lengthUnit,
  })
  if (!read.ok) return new Problem('refused', describeLabelRefusal(read.error))
  const { count, changedCount, labels, printed, seen } = read.value
  return {
    ...{ ownerIds, count, changedCount, seen },
    labels: labels.map((label) => ({
      ...{ noun: label.noun, id: label.thingId, title: label.title, note: label.note, path: label.path },
      printed: printed.get(labelKey(label)) ?? null,
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
