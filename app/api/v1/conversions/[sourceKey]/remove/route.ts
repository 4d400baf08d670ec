import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { removeConversionsOperation } from '#api/swaps'
import { removeConversions } from '#lib/db/thread/conversions'

const remove = serve(removeConversionsOperation, async ({ path }) => {
  const removed = await removeConversions(path.sourceKey)
  return removed.ok ? removed.value : notFound('conversion list', path.sourceKey)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
