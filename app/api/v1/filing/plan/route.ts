import { describeFiling, planFilingOperation } from '#api/filing'
import { endpoint, serve } from '#api/serve'
import { noSuch } from '#api/stock-refusal'
import { findFiling } from '#lib/db/filing/read-filing'
import { findLine } from '#lib/db/thread/list-lines'

const plan = serve(planFilingOperation, async ({ body }) =>
  (await findLine(body.lineId)) ? describeFiling(await findFiling(body), body) : noSuch('line', 'lineId'),
)

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: plan })
