import { calendarOperations } from '#api/calendar'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { listOwners } from '#lib/db/owner/owners'
import { calendarDay } from '#lib/quantity/day'
import { listed } from '#words/amounts'
import { calendarText } from '../../../../_planning/calendar-text'

const get = serve(calendarOperations.file, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const names = (await listOwners()).filter(({ id }) => ownerIds.includes(id)).map(({ name }) => name)
  return { fileName: 'by-when.ics', text: await calendarText(ownerIds, listed(names), calendarDay(new Date())) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
