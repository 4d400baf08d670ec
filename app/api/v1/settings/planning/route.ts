import { planningOperations } from '#api/planning'
import { endpoint, serve } from '#api/serve'
import { getSettings, saveSettings } from '#lib/db/settings/settings'

const get = serve(planningOperations.settings, async () => (await getSettings()).planning)

const save = serve(planningOperations.saveSettings, async ({ body }) => {
  const settings = await getSettings()
  const { rotation, ...plain } = body
  const planning = { ...settings.planning, ...plain, rotation: { ...settings.planning.rotation, ...rotation } }
  await saveSettings({ ...settings, planning })
  return planning
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get, POST: save })
