import { previewNewHomeOperation } from '#api/new-homes'
import { endpoint, serve } from '#api/serve'
import { previewNewHome } from '#lib/db/new-home/read-new-home'

const preview = serve(previewNewHomeOperation, async ({ body }) => {
  const { lines, fingerprint } = await previewNewHome(body)
  return { fingerprint, lines }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: preview })
