import { database } from '#lib/db/client'
import { endpoint, serve } from '../../../_api/serve'
import { getHealth } from '../../../_api/service'

const health = serve(getHealth, async () => {
  const { number } = await database().prisma.revision.findUniqueOrThrow({ where: { id: 'main' }, select: { number: true } })
  return { status: 'ok' as const, revision: number }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: health })
