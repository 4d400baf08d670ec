/** Some of a notion: at home, out, or taken for a project. Rows that are alike are one thing, wherever they lie. */
export type NotionRow = { alike: string; count: number; isOut: boolean; projectId: string | null }

/** What a project's kits still want of one notion. In the order the wants were set down, the earliest first. */
export type NotionWant = { itemId: string; projectId: string; alike: string; count: number }

/** What there is for one want. */
export type NotionHave = {
  /** Lies with the project already. */
  taken: number
  /** Set aside for it of what is at home. */
  reserved: number
  /** At home, and wanted by none. */
  free: number
}

/**
 * Share out what is counted of a notion among the kits that want it: first what was taken for a project, then what is at home and not
 * out, to the want set down first. What is left over is free.
 *
 * @returns by item
 */
export function shareNotions(rows: readonly NotionRow[], wants: readonly NotionWant[]): Map<string, NotionHave> {
  const home = new Map<string, number>()
  const withProject = new Map<string, number>()
  const keyOf = (alike: string, projectId: string) => JSON.stringify([alike, projectId])
  for (const { alike, count, isOut, projectId } of rows) {
    if (projectId !== null) withProject.set(keyOf(alike, projectId), (withProject.get(keyOf(alike, projectId)) ?? 0) + count)
    else if (!isOut) home.set(alike, (home.get(alike) ?? 0) + count)
  }
  const shares = wants.map(({ itemId, projectId, alike, count }) => {
    const key = keyOf(alike, projectId)
    const taken = Math.min(count, withProject.get(key) ?? 0)
    withProject.set(key, (withProject.get(key) ?? 0) - taken)
    const reserved = Math.min(count - taken, home.get(alike) ?? 0)
    home.set(alike, (home.get(alike) ?? 0) - reserved)
    return { itemId, alike, taken, reserved }
  })
  return new Map(shares.map(({ itemId, alike, ...share }) => [itemId, { ...share, free: home.get(alike) ?? 0 }]))
}
