/** Why a design is worth what it is unless the person says otherwise. */
export type WishValue = { value: number; because: 'due soon' | 'due' | 'wanted' | 'plain' }

/** A quarter and half a year, in days: a due date as near as that weighs more. Chosen. */
const soonDays = 91
const laterDays = 182

/**
 * What a design counts for when not all can be stitched: 1; wanted 3; wanted by a day within half a year 4; within a quarter, or by a
 * day gone by, 5.
 *
 * @param today  yyyy-mm-dd
 * @param dueOn  the nearest day it is wanted by, or null
 */
export function wishValue({ isWanted, dueOn }: { isWanted: boolean; dueOn: string | null }, today: string): WishValue {
  if (!isWanted) return { value: 1, because: 'plain' }
  const days = dueOn === null ? Number.POSITIVE_INFINITY : (Date.parse(dueOn) - Date.parse(today)) / 86_400_000
  if (days <= soonDays) return { value: 5, because: 'due soon' }
  return days <= laterDays ? { value: 4, because: 'due' } : { value: 3, because: 'wanted' }
}

/** The most a person may let one design count. */
export const mostValueOfDesign = 99

/** Which designs are chosen from: the wishes, all that is stitchable now, or those that were ticked. */
export const choiceSources = ['wished', 'stitchable', 'ticked'] as const
export type ChoiceSource = (typeof choiceSources)[number]
