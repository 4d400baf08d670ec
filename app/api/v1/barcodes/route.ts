import { describeBarcodeProblem, rememberBarcodeOperation } from '#api/deliveries'
import { endpoint, serve } from '#api/serve'
import { rememberBarcode } from '#lib/db/thread/barcodes'

const remember = serve(rememberBarcodeOperation, async ({ body }) => {
  const remembered = await rememberBarcode(body)
  return remembered.ok ? { code: remembered.value.code } : describeBarcodeProblem(remembered.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: remember })
