import { describeListRow, getSharedList } from '#api/lists'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getAnswers } from '#lib/db/answers/get-answers'
import { getSettings } from '#lib/db/settings/settings'
import { rowsOf } from '../../../../_lists/read-rows'

const get = serve(getSharedList, async ({ path, query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const [answers, { lengthUnit }] = await Promise.all([getAnswers(), getSettings()])
  const choices = { keep: query.keep, by: query.by, places: query.places === true ? ('1' as const) : null }
  const rows = await rowsOf(answers, path.list, choices, { ownerIds, unit: lengthUnit })
  return { list: path.list, rows: rows.map(describeListRow) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
