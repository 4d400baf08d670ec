import { describeReorder } from '#api/describe-buying'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { getReorderRule, setReorderRule } from '#api/reorder'
import { endpoint, serve } from '#api/serve'
import { noSuch } from '#api/stock-refusal'
import { readReorderCheck } from '#lib/db/reorder/reorder-check'
import { findRule, removeRule, saveRule } from '#lib/db/reorder/rules'
import { readWeeklySales } from '#lib/db/reorder/use-figures'
import { findThreadNamed } from '#lib/db/thread/find-thread'

const get = serve(getReorderRule, async ({ path: { threadId }, query }) => {
  const owners = await chosenOwners(query.owner === undefined ? undefined : [query.owner])
  if (owners instanceof Problem) return owners
  const [ownerId] = owners
  const thread = await findThreadNamed(threadId)
  if (!thread || ownerId === undefined) return notFound('thread', threadId)
  const now = new Date()
  const { putUpStrandTenths } = thread.line
  const [own, checks, sales] = await Promise.all([
    findRule(threadId, ownerId),
    readReorderCheck({ ownerIds: [ownerId], threadId, now }),
    readWeeklySales({ threadId, ownerId, putUpStrandTenths, now }),
  ])
  return { ownerId, own, check: checks[0] ? describeReorder(checks[0]) : null, sales }
})

const set = serve(setReorderRule, async ({ path: { threadId }, body: { ownerId, version, rule } }) => {
  if (rule === null && version === null) return { ok: true as const }
  const done =
    rule === null
      ? await removeRule({ threadId, ownerId, version: version as number })
      : await saveRule({ threadId, ownerId, version, rule })
  if (done.ok) return { ok: true as const }
  switch (done.error.kind) {
    case 'no-such-thread':
      return notFound('thread', threadId)
    case 'no-such-owner':
      return noSuch('owner', 'ownerId')
    case 'changed-meanwhile':
      return new Problem('refused', 'The rule was changed meanwhile. Read it again, then ask with its new version.')
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get, POST: set })
