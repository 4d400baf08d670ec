import type { Answers } from '#lib/db/answers/answers'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readShared } from '#lib/db/list/read-shared'
import type { SharedListName } from '#lib/db/list/shared-thing'
import type { LengthUnit } from '#lib/quantity/cloth-length'
import { getViewer } from '#viewer/viewer'
import type { ListChoices } from './list-query'
import { guildRows, type ListRow, listRow } from './list-rows'

/** Whether a list says where things live: only the stash does, and only when asked. */
export const saysPlaces = (list: SharedListName, { places }: Pick<ListChoices, 'places'>): boolean =>
  list === 'stash' && places === '1'

/** The rows of a list for whoever looks: of the stock chosen in the head of the page. */
export async function readRows(list: SharedListName, choices: ListChoices): Promise<ListRow[]> {
  const [{ ownerIds, settings }, answers] = await Promise.all([getViewer(), getAnswers()])
  return rowsOf(answers, list, choices, { ownerIds, unit: settings.lengthUnit })
}

/** The rows of a list of these owners' things. */
export async function rowsOf(
  answers: Answers,
  list: SharedListName,
  choices: ListChoices,
  { ownerIds, unit }: { ownerIds: readonly string[]; unit: LengthUnit },
): Promise<ListRow[]> {
  const asked = { list, ownerIds, keepPutUps: choices.keep, withPlaces: saysPlaces(list, choices), now: new Date() }
  const things = await readShared(answers, asked)
  return list === 'guild' ? guildRows(things, choices.by, unit) : things.map((thing) => listRow(thing, unit))
}
