import { describeMissing, missingProblem } from '#api/describe-missing'
import { foundMissingOperation } from '#api/missing'
import { endpoint, serve } from '#api/serve'
import { foundMissing } from '#lib/db/missing/settle-missing'

const found = serve(foundMissingOperation, async ({ path, body }) => {
  const { where, placeLabel, ...said } = body
  const result = await foundMissing({
    ...{ ...path, ...said },
    where: where === 'place' ? { kind: 'place', label: placeLabel ?? '' } : { kind: where },
  })
  return result.ok ? describeMissing(path.missingId) : missingProblem(result.error, path.missingId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: found })
