import { getCountComparison } from '#api/counts'
import { describeComparison } from '#api/describe-count'
import { endpoint, serve } from '#api/serve'

const get = serve(getCountComparison, ({ path }) => describeComparison(path.countId))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
