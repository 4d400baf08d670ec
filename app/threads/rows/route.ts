import { readRevision } from '#lib/db/read-revision'
import { listThreads } from '#lib/db/thread/list-threads'
import { getViewer } from '#viewer/viewer'
import { answerRows } from '../../_listing/answer-rows'
import { filterOf, readChoices } from '../../_listing/thread-filter'
import { withDesignCounts } from '../thread-rows'
import { threadRuns } from '../thread-runs'

/** Rows of the threads found, for the window over a long list: `from`, or with `to` only their ids. */
export const GET = (request: Request): Promise<Response> =>
  answerRows(
    request,
    async (search) => {
      const choices = readChoices(search)
      const { ownerIds } = await getViewer()
      const [revision, listing] = await Promise.all([
        readRevision(),
        listThreads(filterOf(choices), { ownerIds, offset: 0, limit: Number.MAX_SAFE_INTEGER, order: choices.order }),
      ])
      return { revision, rows: listing.rows, runs: threadRuns(listing, choices.order) }
    },
    withDesignCounts,
  )
