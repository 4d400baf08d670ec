import { getCutPlan } from '#api/cut-plans'
import { describeCutPlan } from '#api/describe-cut-plan'
import { notFound } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { findCutPlan } from '#lib/db/cut-plan/queries'

const get = serve(getCutPlan, async ({ path }) => {
  const plan = await findCutPlan(path.cutPlanId)
  return plan ? describeCutPlan(plan) : notFound('plan of cuts', path.cutPlanId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: get })
