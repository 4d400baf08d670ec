import 'server-only'
import { ok, type Result } from '#lib/result'
import { write } from '../write'
import { type ClaimPlanRefused, claimPlan } from './claim-cut-plan'

/** Give a kept plan up: its pieces are free again. What was planned stays to be seen. */
export function giveUpCut(input: { planId: string; version?: number }): Promise<Result<null, ClaimPlanRefused>> {
  return write<null, ClaimPlanRefused>(async (open) => {
    const claimed = await claimPlan(open, { ...input, status: 'dropped' })
    return claimed.ok ? ok(null) : claimed
  })
}
