import { listSetAsideOperation } from '#api/checks'
import { endpoint, serve } from '#api/serve'
import { listSetAside } from '#lib/db/checking/set-aside'

const list = serve(listSetAsideOperation, async () => ({ days: await listSetAside() }))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
