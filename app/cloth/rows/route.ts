import { readRevision } from '#lib/db/read-revision'
import { getViewer } from '#viewer/viewer'
import { answerRows } from '../../_listing/answer-rows'
import { clothQuerySchema } from '../../_listing/cloth-query'
import { findCloth } from '../cloth-found'

/** Rows of the cloth found, for the window over a long list: `from`, or with `to` only their ids. */
export const GET = (request: Request): Promise<Response> =>
  answerRows(request, async (search) => {
    const { settings, ownerIds } = await getViewer()
    const [revision, { rows, runs }] = await Promise.all([
      readRevision(),
      findCloth(clothQuerySchema.parse(search), ownerIds, settings.lengthUnit),
    ])
    return { revision, rows, runs }
  })
