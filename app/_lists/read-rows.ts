import { getAnswers } from '#lib/db/answers/get-answers'
import { readShared } from '#lib/db/list/read-shared'
import type { SharedListName } from '#lib/db/list/shared-thing'
import { getViewer } from '#viewer/viewer'
import type { listQuerySchema } from './list-query'
import { type ListRow, listRow } from './list-rows'

type Choices = ReturnType<typeof listQuerySchema.parse>

/** The rows of a list for whoever looks: of the stock chosen in the head of the page. */
export async function readRows(list: SharedListName, { keep, places }: Choices): Promise<ListRow[]> {
  const [{ ownerIds, settings }, answers] = await Promise.all([getViewer(), getAnswers()])
  const asked = { list, ownerIds, keepPutUps: keep, withPlaces: list === 'stash' && places === '1', now: new Date() }
  const things = await readShared(answers, asked)
  return things.map((thing) => listRow(thing, settings.lengthUnit))
}
