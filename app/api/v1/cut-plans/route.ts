import { keepCutPlanOperation, listCutPlansOperation } from '#api/cut-plans'
import { describeCutPlan, describeCutProblem } from '#api/describe-cut-plan'
import { chosenOwners } from '#api/owners'
import { notFound, Problem } from '#api/problem'
import { endpoint, serve } from '#api/serve'
import { noSuch } from '#api/stock-refusal'
import { keepCutPlan } from '#lib/db/cut-plan/keep-cut-plan'
import { findCutPlan, listCutPlans } from '#lib/db/cut-plan/queries'
import { findCut } from '#lib/db/cut-plan/start-cut'

const list = serve(listCutPlansOperation, async ({ query }) => {
  const ownerIds = await chosenOwners(query.owner)
  if (ownerIds instanceof Problem) return ownerIds
  const plans = await listCutPlans(ownerIds)
  return {
    cutPlans: plans.map(({ id, version, title, status, createdAt, closedAt, pieces }) => ({
      ...{ cutPlanId: id, version, title, status },
      ...{ createdAt: createdAt.toISOString(), closedAt: closedAt?.toISOString() ?? null },
      pieces: pieces.map((piece) => ({ clothPieceId: piece.id, label: piece.label, name: piece.name })),
    })),
  }
})

const keep = serve(keepCutPlanOperation, async ({ body }) => {
  const job = await findCut(body.jobId)
  if (!job) return noSuch('search for a plan of cuts', 'jobId')
  if (job.state.kind === 'running') return new Problem('refused', 'The search still runs. Wait for its end, or stop it.')
  if (!job.plan) return new Problem('refused', 'The search found nothing.')
  const kept = await keepCutPlan({ title: body.title, about: job.about, request: job.request, plan: job.plan })
  if (!kept.ok) return describeCutProblem(kept.error)
  const plan = await findCutPlan(kept.value.planId)
  return plan ? describeCutPlan(plan) : notFound('plan of cuts', kept.value.planId)
})

export const { GET, POST, PUT, PATCH, DELETE, OPTIONS } = endpoint({ GET: list, POST: keep })
