import { chosenOwners } from '#api/owners'
import { plotsOperation } from '#api/plots'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { readPlots } from '#lib/db/plots/read-plots'
import { calendarDay } from '#lib/quantity/day'

const get = serve(plotsOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  return ownerIds instanceof Problem ? ownerIds : { ownerIds, ...(await readPlots({ ownerIds, today: calendarDay(new Date()) })) }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
