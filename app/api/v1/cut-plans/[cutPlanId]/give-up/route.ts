import { giveUpCutPlanOperation } from '#api/cut-plans'
import { describeCutPlan, describeCutProblem } from '#api/describe-cut-plan'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { giveUpCut } from '#lib/db/cut-plan/give-up-cut'
import { findCutPlan } from '#lib/db/cut-plan/queries'

const giveUp = serve(giveUpCutPlanOperation, async ({ path, body }) => {
  const given = await giveUpCut({ planId: path.cutPlanId, ...body })
  if (!given.ok) return describeCutProblem(given.error)
  const plan = await findCutPlan(path.cutPlanId)
  return plan ? describeCutPlan(plan) : notFound('plan of cuts', path.cutPlanId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ POST: giveUp })
