import { keepLabelPatternOperation, listLabelPatternsOperation } from '#api/place-writes'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { keepLabelPattern } from '#lib/db/settings/label-patterns'
import { getSettings } from '#lib/db/settings/settings'

const list = serve(listLabelPatternsOperation, async () => ({
  patterns: (await getSettings()).labelPatterns.map(({ text, ...own }) => ({ pattern: text, ...own })),
}))

const keep = serve(keepLabelPatternOperation, async ({ body }) => {
  const { pattern, ...own } = body
  const kept = await keepLabelPattern({ text: pattern, ...own })
  if (kept.ok) return { isKept: true as const }
  return new Problem(
    'refused',
    kept.error.kind === 'too-many' ? `${kept.error.most} patterns are as many as are kept.` : 'The pattern does not read.',
  )
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: keep })
