import { describeBarcodeProblem, forgetBarcodeOperation } from '#api/deliveries'
import { endpoint, serve } from '#api/serve'
import { forgetBarcode } from '#lib/db/thread/barcodes'

const forget = serve(forgetBarcodeOperation, async ({ body }) => {
  const forgotten = await forgetBarcode({ code: body.code })
  return forgotten.ok ? forgotten.value : describeBarcodeProblem(forgotten.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: forget })
