import { describeFinishingRefusal, describeFinishings } from '#api/describe-finishings'
import { listFinishingsOperation, saveFinishingOperation } from '#api/finishings'
import { endpoint, serve } from '#api/serve'
import { findFinishing } from '#lib/cloth/margins'
import { getSettings, saveSettings } from '#lib/db/settings/settings'
import { ok } from '#lib/result'
import { addFinishing, withMargins } from '#lib/settings/own-finishings'

const list = serve(listFinishingsOperation, async () => describeFinishings(await getSettings()))

const save = serve(saveFinishingOperation, async ({ body }) => {
  const { name, margins } = body
  const settings = await getSettings()
  const saved = findFinishing(settings, name) ? ok(withMargins(settings, name, margins)) : addFinishing(settings, name, margins)
  if (!saved.ok) return describeFinishingRefusal(saved.error)
  await saveSettings(saved.value)
  return describeFinishings(await getSettings())
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: save })
