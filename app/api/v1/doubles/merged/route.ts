import { describeMerging, listMergingsOperation } from '#api/doubles'
import { endpoint, serve } from '#api/serve'
import { listMergings, mergedNouns } from '#lib/db/merging/merging'

const mostMergings = 200

const list = serve(listMergingsOperation, async () => ({
  merged: (await listMergings(mergedNouns, mostMergings)).map(describeMerging),
}))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
