import { describeHad, findHadOperation } from '#api/doubles'
import { endpoint, serve } from '#api/serve'
import { findHadByWords } from '#lib/db/merging/had-before'

const find = serve(findHadOperation, async ({ query }) => {
  const { sure, near, covers } = await findHadByWords(query.q)
  return { sure: sure.map(describeHad), near: near.map(describeHad), covers }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: find })
