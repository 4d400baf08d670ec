import { describeWalk } from '#api/describe-walk'
import { endpoint, serve } from '#api/serve'
import { getWalk } from '#api/walks'

const get = serve(getWalk, ({ path }) => describeWalk(path.walkId))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
