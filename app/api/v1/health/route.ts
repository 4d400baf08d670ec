import { endpoint, serve } from '#api/serve'
import { getHealth } from '#api/service'

const health = serve(getHealth, async () => ({ status: 'ok' as const }))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: health })
