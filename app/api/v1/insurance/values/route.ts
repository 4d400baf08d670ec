import { saveInsuranceValues } from '#api/insurance'
import { endpoint, serve } from '#api/serve'
import { getSettings, saveSettings } from '#lib/db/settings/settings'

const save = serve(saveInsuranceValues, async ({ body }) => {
  await saveSettings({ ...(await getSettings()), ...body })
  return body
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: save })
