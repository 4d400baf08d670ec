import { readRevision } from '#lib/db/read-revision'
import { getViewer } from '#viewer/viewer'
import { answerRows } from '../../_listing/answer-rows'
import { notionsQuerySchema } from '../../_listing/notions-query'
import { findNotions } from '../notions-found'

/** Rows of the notions found, for the window over a long list: `from`, or with `to` only their ids. */
export const GET = (request: Request): Promise<Response> =>
  answerRows(request, async (search) => {
    const { ownerIds } = await getViewer()
    const [revision, { rows, runs }] = await Promise.all([
      readRevision(),
      findNotions(notionsQuerySchema.parse(search), ownerIds),
    ])
    return { revision, rows, runs }
  })
