import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { todayOperations } from '#api/today'
import { readWeek } from '#lib/db/planning/days/read-week'
import { calendarDay } from '#lib/quantity/day'

const withProject = <One extends { id: string }>({ id, ...one }: One) => ({ projectId: id, ...one })

const get = serve(todayOperations.week, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const today = calendarDay(new Date())
  const { day, past, next } = await readWeek({ ownerIds, day: query.to ?? today, today })
  return {
    ...{ ownerIds, day },
    past: {
      ...past,
      stitched: past.stitched.map(withProject),
      started: past.started.map(withProject),
      finished: past.finished.map(withProject),
    },
    next: {
      ...next,
      due: next.due.map(withProject),
      startBy: next.startBy.map(withProject),
      loans: next.loans.map(({ id, ...loan }) => ({ loanId: id, ...loan })),
      parts: next.parts.map(withProject),
      orders: next.orders.map(({ id, ...order }) => ({ orderId: id, ...order })),
      away: next.away.map(({ id, ...span }) => ({ timeAwayId: id, ...span })),
    },
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
