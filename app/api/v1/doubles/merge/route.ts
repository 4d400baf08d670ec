import { mergeDoublesOperation, mergingProblem } from '#api/doubles'
import { endpoint, serve } from '#api/serve'
import { mergeCharts } from '#lib/db/merging/merge-charts'
import { mergeDesigners } from '#lib/db/merging/merge-designers'
import { mergeLines } from '#lib/db/merging/merge-lines'
import { mergeMakers } from '#lib/db/merging/merge-makers'
import { mergeThreads } from '#lib/db/merging/merge-threads'

const merges = { chart: mergeCharts, designer: mergeDesigners, thread: mergeThreads, line: mergeLines, maker: mergeMakers }

const merge = serve(mergeDoublesOperation, async ({ body }) => {
  const { noun, ...asked } = body
  const merged = await merges[noun](asked)
  return merged.ok ? merged.value : mergingProblem(merged.error)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: merge })
