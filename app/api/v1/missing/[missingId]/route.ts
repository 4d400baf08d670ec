import { describeMissing } from '#api/describe-missing'
import { getMissing } from '#api/missing'
import { endpoint, serve } from '#api/serve'

const get = serve(getMissing, ({ path }) => describeMissing(path.missingId))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
