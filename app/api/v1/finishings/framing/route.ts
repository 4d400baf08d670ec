import { describeFinishings } from '#api/describe-finishings'
import { saveFramingOperation } from '#api/finishings'
import { endpoint, serve } from '#api/serve'
import { framingMargin } from '#lib/cloth/framing'
import { defaultFinishing, marginsAllRound } from '#lib/cloth/margins'
import { getSettings, saveSettings } from '#lib/db/settings/settings'
import { withMargins } from '#lib/settings/own-finishings'

const save = serve(saveFramingOperation, async ({ body }) => {
  const { apply, ...framing } = body
  const settings = { ...(await getSettings()), framing }
  const { marginUm } = framingMargin(framing, settings.roundingUm)
  await saveSettings(apply ? withMargins(settings, defaultFinishing, marginsAllRound(marginUm)) : settings)
  return describeFinishings(await getSettings())
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: save })
