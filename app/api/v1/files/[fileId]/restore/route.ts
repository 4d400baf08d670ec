import { changedFile } from '#api/describe-file'
import { fileOperations } from '#api/files'
import { endpoint, serve } from '#api/serve'
import { restoreFile } from '#lib/db/file/remove-file'

const restore = serve(fileOperations.restore, ({ path, query, body }) =>
  changedFile({ ...path, asked: query.owner, version: body.version }, restoreFile),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: restore })
