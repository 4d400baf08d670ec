import { removeArchiveOperation } from '#api/archives'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { removeArchive } from '#lib/db/archive/archive-files'

const remove = serve(removeArchiveOperation, async ({ path }) =>
  (await removeArchive(path.archiveName)) ? { isRemoved: true as const } : notFound('archive', path.archiveName),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
