import { say } from '#language/say'
import type { ThreadListing } from '#lib/db/thread/list-threads'
import { searchOfUrl } from '../_listing/search-of-url'
import { readChoices } from '../_listing/thread-filter'

/** What a filter of threads names that is not on record any more, as a sentence; null when all of it is. */
export function missingFromThreadFilter(
  filter: string,
  { lines }: Pick<ThreadListing, 'lines'>,
  places: readonly { id: string }[],
): string | null {
  const { maker, line, place } = readChoices(searchOfUrl(`/threads?${filter}`))
  if (maker !== '' && !lines.some(({ makerId }) => makerId === maker))
    return say('This filter names a maker who is not on record any more.')
  if (line !== '' && !lines.some(({ id }) => id === line)) return say('This filter names a line that is not on record any more.')
  return place !== '' && !places.some(({ id }) => id === place)
    ? say('This filter names a place that is not there any more.')
    : null
}
