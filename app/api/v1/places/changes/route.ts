import { listPlaceChangesOperation } from '#api/place-changes'
import { endpoint, serve } from '#api/serve'
import { listPlaceChanges } from '#lib/db/place/place-change'

const shown = 200

const list = serve(listPlaceChangesOperation, async () => ({
  changes: (await listPlaceChanges(shown)).map(({ id, at, ...change }) => ({ changeId: id, at: at.toISOString(), ...change })),
}))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
