import { describeKitBags } from '#api/describe-kit-bags'
import { getKitBags } from '#api/kit-bags'
import { endpoint, serve } from '#api/serve'

const get = serve(getKitBags, ({ path }) => describeKitBags(path.projectId))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
