export type Housing = { homePlaceId: string | null; currentPlaceId: string | null }

const isOutOf = ({ homePlaceId, currentPlaceId }: Housing): boolean => currentPlaceId !== null && currentPlaceId !== homePlaceId

/** Where a thing is once it lives somewhere else: what lies at home goes along, what is out stays out, and comes back to the new home. */
export function housedIn(thing: Housing, toPlaceId: string): Housing & { isOut: boolean } {
  const stays = isOutOf(thing) && thing.currentPlaceId !== toPlaceId
  return { homePlaceId: toPlaceId, currentPlaceId: stays ? thing.currentPlaceId : toPlaceId, isOut: stays }
}

/** What becomes of one thing. `isOut`: its home changes, and it stays where it is. */
export type NewHomeLine = { id: string; before: Housing; isOut: boolean; isChanged: boolean }

/** A new home for some things, line by line in their order. What lives there already stays as it is. */
export const planNewHome = (things: readonly ({ id: string } & Housing)[], toPlaceId: string): NewHomeLine[] =>
  things.map(({ id, homePlaceId, currentPlaceId }) => {
    const before = { homePlaceId, currentPlaceId }
    const isChanged = homePlaceId !== toPlaceId
    return { id, before, isChanged, isOut: isChanged && housedIn(before, toPlaceId).isOut }
  })

/** Why a step is not taken back: somebody changed the thing since, it is not there any more, or a place it was in was taken away. */
export type WhyLeft = 'changed-since' | 'gone' | 'place-gone'

/**
 * Which steps of a change can be taken back. What has another version than the change left it with was changed since; and nothing goes
 * back to a place that was taken away.
 *
 * @param versions  as things stand, by id; what is gone is left out
 * @param placeIds  places that stand
 */
export function planStepsBack<Step extends { id: string; before: unknown; versionAfter: number }>(
  steps: readonly Step[],
  versions: ReadonlyMap<string, number>,
  placeIds: ReadonlySet<string>,
): { back: Step[]; left: { step: Step; why: WhyLeft }[] } {
  const back: Step[] = []
  const left: { step: Step; why: WhyLeft }[] = []
  for (const step of steps) {
    const version = versions.get(step.id)
    const { before } = step
    const places =
      typeof before === 'object' && before !== null
        ? [(before as Housing).homePlaceId, (before as Housing).currentPlaceId].filter((id) => id !== null)
        : []
    const why =
      version === undefined
        ? 'gone'
        : version !== step.versionAfter
          ? 'changed-since'
          : places.some((placeId) => !placeIds.has(placeId))
            ? 'place-gone'
            : null
    if (why === null) back.push(step)
    else left.push({ step, why })
  }
  return { back, left }
}
