import { startCutJobOperation } from '#api/cut-plans'
import { describeCutJob, describeStartRefusal } from '#api/describe-cut-plan'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findFinishing, marginsFor } from '#lib/cloth/margins'
import { type AskedCut, mostCopies } from '#lib/coverage/asked-cut'
import { startCut } from '#lib/db/cut-plan/start-cut'
import { getSettings } from '#lib/db/settings/settings'

const start = serve(startCutJobOperation, async ({ body }) => {
  const ownerIds = await chosenOwners(body.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const settings = await getSettings()
  const invalid = (field: string, message: string) =>
    new Problem('invalid', `${field}: ${message}`, { errors: [{ field: `/${field.replaceAll('.', '/')}`, message }] })
  const wishes: AskedCut['wishes'] = []
  for (const [at, wish] of body.wishes.entries()) {
    if (wish.kind === 'size') {
      wishes.push(wish)
      continue
    }
    const { finishing = settings.finishing, margins, ...rest } = wish
    if (!findFinishing(settings, finishing)) return invalid(`wishes.${at}.finishing`, 'There is no such way of finishing.')
    wishes.push({ ...rest, margins: margins ?? marginsFor(settings, finishing) })
  }
  if (wishes.reduce((sum, { copies }) => sum + copies, 0) > mostCopies)
    return invalid('wishes', `More than ${mostCopies} copies in all.`)
  const { pieceIds, objective, seed, timeLimitSeconds } = body
  const { gapUm = settings.cutGapUm, leastOffcutUm = settings.leastOffcutUm } = body
  const started = await startCut(
    { wishes, pieceIds, objective, gapUm, leastOffcutUm, seed },
    { ownerIds, settings, timeLimitSeconds },
  )
  return started.ok ? describeCutJob(started.value) : describeStartRefusal(started.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: start })
