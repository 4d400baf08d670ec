import { getGivenArchive } from '#api/archives'
import { describeGiven } from '#api/describe-archive'
import { endpoint, serve } from '#api/serve'

const get = serve(getGivenArchive, ({ path }) => describeGiven(path.givenId))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
