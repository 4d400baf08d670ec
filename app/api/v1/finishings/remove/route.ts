import { describeFinishingRefusal, describeFinishings } from '#api/describe-finishings'
import { removeFinishingOperation } from '#api/finishings'
import { endpoint, serve } from '#api/serve'
import { getSettings, saveSettings } from '#lib/db/settings/settings'
import { removeFinishing } from '#lib/settings/own-finishings'

const remove = serve(removeFinishingOperation, async ({ body }) => {
  const removed = removeFinishing(await getSettings(), body.name)
  if (!removed.ok) return describeFinishingRefusal(removed.error)
  await saveSettings(removed.value)
  return describeFinishings(await getSettings())
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
