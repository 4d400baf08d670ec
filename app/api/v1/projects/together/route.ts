import { chooseTogetherOperation } from '#api/choose-designs'
import { makeChoice } from '#api/describe-choice'
import { chosenOwners } from '#api/owners'
import { Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { calendarDay } from '#words/date'

const post = serve(chooseTogetherOperation, async ({ body }) => {
  const ownerIds = await chosenOwners(body.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const { from: source, designIds = null, pieceIds = null, buying, hasLadder, seconds: timeLimitSeconds } = body
  return makeChoice(
    {
      ...{ ownerIds, source, designIds, pieceIds, buying, isClothAside: body.isClothAside, today: calendarDay(new Date()) },
      ...{ values: new Map(Object.entries(body.values)), pins: new Map(Object.entries(body.pins)) },
    },
    { timeLimitSeconds, hasLadder },
  )
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: post })
