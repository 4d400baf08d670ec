import { calendarOperations } from '#api/calendar'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readReadyBy } from '#lib/db/planning/days/read-ready'
import { readSchedules } from '#lib/db/planning/pace/read-schedule'
import { calendarDay } from '#lib/quantity/day'

const mostDesigns = 200

const get = serve(calendarOperations.ready, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner === undefined ? undefined : [query.owner])
  if (ownerIds instanceof Problem) return ownerIds
  const today = calendarDay(new Date())
  const [answers, [schedule]] = await Promise.all([
    getAnswers(),
    readSchedules(ownerIds, { today, perWeek: query['per-week'] ?? null }),
  ])
  if (!schedule) return notFound('owner', query.owner ?? '')
  const ready = await readReadyBy(answers, schedule, {
    ...{ dueOn: query.by, themeId: query.theme ?? '', words: query.q ?? '', today },
    ...{ finishingWeeks: query['finishing-weeks'] ?? null, othersWait: query['may-wait'] === 'true' },
  })
  const { deadline, stitchedBy, rooms, designs, tooLarge, unknown } = ready
  return {
    ...{ dueOn: deadline.dueOn, stitchedBy, fitting: designs.length, tooLarge, unknown },
    rooms: rooms.map(({ perWeek: _perWeek, ...room }) => room),
    designs: designs.slice(0, mostDesigns).map(({ record, best, total, fitsAt }) => ({
      ...{ designId: record.designId, title: record.title, stitches: total.stitches, isEstimated: total.how === 'estimated' },
      ...{ fitsAt, isStitchable: best?.isStitchable ?? false },
    })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
