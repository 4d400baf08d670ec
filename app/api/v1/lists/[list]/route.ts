import { describeListRow, getSharedList } from '#api/lists'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readShared } from '#lib/db/list/read-shared'
import { getSettings } from '#lib/db/settings/settings'
import { listRow } from '../../../../_lists/list-rows'

const get = serve(getSharedList, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const [answers, { lengthUnit }] = await Promise.all([getAnswers(), getSettings()])
  const asked = { list: path.list, ownerIds, keepPutUps: query.keep, withPlaces: query.places === true, now: new Date() }
  const things = await readShared(answers, asked)
  return { list: path.list, rows: things.map((thing) => describeListRow(listRow(thing, lengthUnit))) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
