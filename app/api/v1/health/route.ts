import { endpoint, serve } from '#api/serve'
import { getHealth } from '#api/service'
import { database } from '#lib/db/client'

const health = serve(getHealth, async () => {
  const { number } = await database().prisma.revision.findUniqueOrThrow({ where: { id: 'main' }, select: { number: true } })
  return { status: 'ok' as const, revision: number }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: health })
