import { removeSetAsideOperation } from '#api/checks'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { removeSetAside } from '#lib/db/checking/set-aside'

const remove = serve(removeSetAsideOperation, async ({ path }) =>
  (await removeSetAside(path.day)) ? { removed: path.day } : notFound('day', path.day),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remove })
