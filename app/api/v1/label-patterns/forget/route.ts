import { forgetLabelPatternOperation } from '#api/place-writes'
import { endpoint, serve } from '#api/serve'
import { forgetLabelPattern } from '#lib/db/settings/label-patterns'

const forget = serve(forgetLabelPatternOperation, async ({ body }) => {
  await forgetLabelPattern({ text: body.pattern, insideId: body.insideId })
  return { isKept: false as const }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: forget })
