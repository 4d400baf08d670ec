/** The page that plans the cuts of some designs, so many copies of each, from some pieces (or from those it suggests). */
export function cutPlanHref(
  designs: readonly { id: string; copies: number; finishing?: string }[],
  pieceIds: readonly string[] = [],
): string {
  const query = new URLSearchParams()
  designs.forEach(({ id, copies, finishing }, at) => {
    query.append(`w${at + 1}`, `design-${id}`)
    query.append(`n${at + 1}`, String(copies))
    if (finishing !== undefined) query.append(`f${at + 1}`, finishing)
  })
  for (const id of pieceIds) query.append('piece', id)
  return `/cloth/cut/new?${query}`
}
