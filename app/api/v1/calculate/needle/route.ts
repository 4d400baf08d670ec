import { calculateNeedle } from '#api/notions'
import { endpoint, serve } from '#api/serve'
import { adviseNeedle } from '#lib/notion/needle-advice'

const calculate = serve(calculateNeedle, async ({ body }) => ({ sizes: adviseNeedle(body.stitchesPerInch, body) }))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: calculate })
