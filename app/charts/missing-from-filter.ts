import { say } from '#language/say'
import { designQuerySchema } from '#lib/chart/design-query'
import type { Answers } from '#lib/db/answers/answers'
import { searchOfUrl } from '../_listing/search-of-url'

/** What a filter of charts names that is not on record any more, as a sentence; null when all of it is. */
export function missingFromChartFilter(filter: string, { world }: Pick<Answers, 'world'>): string | null {
  const { designer, season, subject, form, place } = designQuerySchema.parse(searchOfUrl(`/charts?${filter}`))
  const isGone = (ids: readonly string[] | undefined, known: ReadonlyMap<string, unknown>) => ids?.some((id) => !known.has(id))
  if (isGone(designer, world.designers)) return say('This filter names a designer who is not on record any more.')
  if (isGone(place, world.places)) return say('This filter names a place that is not there any more.')
  const themes = [...(season ?? []), ...(subject ?? []), ...(form ?? [])]
  return isGone(themes, world.themes) ? say('This filter names a theme that is not on record any more.') : null
}
