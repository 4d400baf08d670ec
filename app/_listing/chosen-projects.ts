import { readChosen } from '#lib/db/listing/keep-chosen'
import { listProjectsUnderWay } from '#lib/db/project/queries'
import { isChosen } from '#lib/listing/selection'
import { calendarDay } from '#lib/quantity/day'
import { filterOf, projectsQuerySchema } from './projects-query'
import { searchOfUrl } from './search-of-url'

/** What was chosen of the list of projects, in its order, as it stands now; null where that is no longer kept. */
export async function chosenProjects(
  chosenId: string,
  ownerIds: readonly string[],
): Promise<{ projectIds: string[]; filter: string } | null> {
  const kept = await readChosen(chosenId)
  if (kept?.room !== 'projects') return null
  const filter = filterOf(projectsQuerySchema.parse(searchOfUrl(`/projects?${kept.filter}`)))
  const { ids } = await listProjectsUnderWay({ ownerIds, page: 1, perPage: 0, filter, today: calendarDay(new Date()) })
  return { projectIds: ids.filter((id) => isChosen(kept.selection, id)), filter: kept.filter }
}
