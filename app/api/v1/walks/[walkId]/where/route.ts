import { describeWhereMayBe } from '#api/describe-walk'
import { endpoint, serve } from '#api/serve'
import { getWhereMayBe } from '#api/walks'

const where = serve(getWhereMayBe, ({ path, query }) => describeWhereMayBe(path.walkId, query.lineId))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: where })
