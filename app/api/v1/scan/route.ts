import { describeScanned, readScannedOperation } from '#api/scan'
import { endpoint, serve } from '#api/serve'
import { findScanned } from '#lib/db/label/find-scanned'

const read = serve(readScannedOperation, async ({ query }) => describeScanned(await findScanned(query.text)))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: read })
