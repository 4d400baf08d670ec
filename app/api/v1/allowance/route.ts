import { getAllowance } from '#api/allowance'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { toThousandth } from '#api/quantities'
import { readThreadRefs } from '#api/read-thread-refs'
import { endpoint, serve } from '#api/serve'
import { getSettings } from '#lib/db/settings/settings'
import { findLearntAllowance, listUseReadings } from '#lib/db/settings/use-readings'
import { factorOf } from '#lib/thread/allowance'

const get = serve(getAllowance, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const [{ allowance }, { learnt, readingCount }, { readings, next }, refOf] = await Promise.all([
    getSettings(),
    findLearntAllowance(ownerIds),
    listUseReadings(ownerIds, { limit: query.limit, after: query.after }),
    readThreadRefs(),
  ])
  return {
    ownerIds,
    allowance,
    learnt: learnt && {
      ...learnt,
      least: toThousandth(learnt.least),
      most: toThousandth(learnt.most),
      lowerQuarter: toThousandth(learnt.lowerQuarter),
      upperQuarter: toThousandth(learnt.upperQuarter),
    },
    readingCount,
    readings: readings.map((reading) => ({
      readingId: reading.id,
      projectId: reading.projectId,
      ...reading.piece,
      thread: refOf(reading.thread.id),
      how: reading.how,
      usedStrandTenths: reading.usedStrandTenths,
      plainStrandTenths: reading.plainStrandTenths,
      flatStrandTenths: reading.flatStrandTenths,
      factor: toThousandth(factorOf(reading)),
    })),
    next,
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
