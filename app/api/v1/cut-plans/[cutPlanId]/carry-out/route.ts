import { carryOutCutPlanOperation } from '#api/cut-plans'
import { describeCutPlan, describeCutProblem } from '#api/describe-cut-plan'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { carryOutCut } from '#lib/db/cut-plan/carry-out-cut'
import { findCutPlan } from '#lib/db/cut-plan/queries'

const carryOut = serve(carryOutCutPlanOperation, async ({ path, body }) => {
  const pieces = body.pieces.map(({ clothPieceId, parts }) => ({ pieceId: clothPieceId, parts }))
  const done = await carryOutCut({ ...body, planId: path.cutPlanId, pieces })
  if (!done.ok) return describeCutProblem(done.error)
  const plan = await findCutPlan(path.cutPlanId)
  if (!plan) return notFound('plan of cuts', path.cutPlanId)
  return {
    cutPlan: describeCutPlan(plan),
    pieces: done.value.pieces.map(({ pieceId, ...piece }) => ({ clothPieceId: pieceId, ...piece })),
  }
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: carryOut })
