import { getCountSheet } from '#api/counts'
import { describeSheet } from '#api/describe-count'
import { endpoint, serve } from '#api/serve'

const get = serve(getCountSheet, ({ path }) => describeSheet(path.countId))

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
