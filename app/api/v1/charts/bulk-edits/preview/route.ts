import { describeChartBulkLine, describeChartBulkRefusal, previewChartBulkOperation } from '#api/chart-bulks'
import { designsChosen } from '#api/designs-chosen'
import { endpoint, serve } from '#api/serve'
import { mostDesigns, previewChartBulk } from '#lib/db/chart-bulk/read-chart-bulk'

const preview = serve(previewChartBulkOperation, async ({ body }) => {
  const designIds = await designsChosen(body.chosen)
  if (designIds.length > mostDesigns)
    return describeChartBulkRefusal({ kind: 'too-many', count: designIds.length, most: mostDesigns })
  const { lines, fingerprint } = await previewChartBulk({ designIds, change: body.change })
  return { fingerprint, lines: lines.map(describeChartBulkLine) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: preview })
