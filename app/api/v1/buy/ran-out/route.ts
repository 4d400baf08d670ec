import { listRunOuts } from '#api/buying'
import { namedThread } from '#api/describe-stock'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { readRunOuts } from '#lib/db/reorder/run-outs'

const list = serve(listRunOuts, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const rows = await readRunOuts({ ownerIds, since: new Date(query.since), before: new Date(query.before) })
  return {
    ownerIds,
    threads: rows.map(({ thread, runOut, onOrderPutUps }) => ({
      thread: namedThread(thread),
      at: runOut.at.toISOString(),
      kind: runOut.kind,
      isHeldAgain: runOut.isHeldAgain,
      onOrderPutUps,
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
