import 'server-only'
import { type DueFor, dueForOccasion, type OccasionRefused } from '#lib/planning/days/occasion-due'
import { ok, type Result } from '#lib/result'
import type { Settings } from '#lib/settings/settings'
import type { Transaction } from '../client'
import { listOwnOccasions } from '../planning/days/occasions'
import type { ProjectSnapshot } from './project-row'

/** The occasion chosen, as `listOccasions` has it, null for none; and the day it was chosen on, yyyy-mm-dd. */
export type ForOccasion = { occasionKey: string | null; today: string }

/** What a project is due for and when, after what was said; what is left out stays as it is. */
export async function planDue(
  tx: Transaction,
  was: Pick<ProjectSnapshot, 'ownerId' | 'dueOn' | 'occasionKey'>,
  said: { dueOn?: string | null | undefined; forOccasion?: ForOccasion | undefined },
  settings: Settings,
): Promise<Result<DueFor, OccasionRefused>> {
  const { dueOn = was.dueOn, forOccasion } = said
  if (!forOccasion || forOccasion.occasionKey === was.occasionKey) return ok({ occasionKey: was.occasionKey, dueOn })
  const { occasionKey, today } = forOccasion
  const own = await listOwnOccasions([was.ownerId], tx)
  return dueForOccasion({ was, said: { occasionKey, dueOn }, today, world: { country: settings.planning.country, own } })
}
