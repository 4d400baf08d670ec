/** How near a design is to being stitched for its threads alone. */
export const nearnesses = ['now', 'near', 'far', 'unknown'] as const
export type Nearness = (typeof nearnesses)[number]

/** To be bought at most, for a design to be near. */
export const nearPutUps = 2

/**
 * @param isReady     every line of its best list is there
 * @param buyPutUps   put-ups to buy; null where it has no list
 */
export const nearnessOf = ({ isReady, buyPutUps }: { isReady: boolean; buyPutUps: number | null }): Nearness =>
  buyPutUps === null ? 'unknown' : isReady ? 'now' : buyPutUps <= nearPutUps ? 'near' : 'far'

export type SeasonCover = { seasonId: string | null; designs: number } & Record<Nearness, number>

/**
 * How many designs of each season could be stitched: the season with the most of them first, those of no season last. A design of two
 * seasons counts in both.
 */
export function coverBySeason(
  designs: Iterable<{ seasonIds: readonly string[]; nearness: Nearness }>,
  nameOf: (seasonId: string) => string,
): SeasonCover[] {
  const found = new Map<string | null, SeasonCover>()
  for (const { seasonIds, nearness } of designs)
    for (const seasonId of seasonIds.length === 0 ? [null] : seasonIds) {
      const cover = found.get(seasonId) ?? { seasonId, designs: 0, now: 0, near: 0, far: 0, unknown: 0 }
      cover.designs++
      cover[nearness]++
      found.set(seasonId, cover)
    }
  const name = ({ seasonId }: SeasonCover) => (seasonId === null ? '' : nameOf(seasonId))
  return [...found.values()].sort(
    (a, b) =>
      Number(a.seasonId === null) - Number(b.seasonId === null) ||
      b.designs - a.designs ||
      (name(a) < name(b) ? -1 : name(a) > name(b) ? 1 : 0),
  )
}
