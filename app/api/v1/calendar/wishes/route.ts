import { calendarOperations } from '#api/calendar'
import { readCalendarSpan } from '#api/calendar-span'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { getAnswers } from '#lib/db/answers/get-answers'
import { readOccasionWorld } from '#lib/db/planning/days/occasions'
import { readThemedWishes } from '#lib/db/planning/days/read-ready'
import { readSchedules } from '#lib/db/planning/pace/read-schedule'
import { calendarDay } from '#lib/quantity/day'

const list = serve(calendarOperations.wishes, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const span = readCalendarSpan(query.from, query.to)
  if (span instanceof Problem) return span
  const today = calendarDay(new Date())
  const [answers, schedules, occasions] = await Promise.all([
    getAnswers(),
    readSchedules(ownerIds, { today, perWeek: query['per-week'] ?? null }),
    readOccasionWorld(ownerIds),
  ])
  const wishes = await readThemedWishes(answers, schedules, { span, today, occasions })
  const engine = answers.coverage(ownerIds)
  return {
    ownerIds,
    wishes: wishes.map(({ projectId, designId, title, theme, occasion, left, outlooks }) => {
      const best = engine.answerFor(designId)?.best
      return {
        ...{ projectId, designId, title, theme, left, occasion: { key: occasion.key, on: occasion.on } },
        startBy: outlooks.flatMap(({ kind, due }) => (due ? [{ kind, on: due.startBy }] : [])),
        ...{ isStitchable: best?.isStitchable ?? false, buyPutUps: best ? best.shortPutUps + best.lotPutUps : null },
      }
    }),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list })
