/** A tick of this device that another's, made later, stands over. */
export type Overruled = { lineId: string; status: string; by: string | null }

/** What a list's news say of a line. */
export type ToldLine = { lineId: string; status: string; tickedAt: string | null; tickedBy: string | null }

/**
 * Which of the ticks just sent do not stand: the line's news have a later one that says otherwise. One's own later tick from another
 * device is no surprise, nor is one that says the same.
 */
export function overruledBy(
  sent: readonly { lineId: string; status: string; tickedAt: string; by: string | null }[],
  told: readonly ToldLine[],
): Overruled[] {
  const news = new Map(told.map((line) => [line.lineId, line]))
  return sent.flatMap(({ lineId, status, tickedAt, by }) => {
    const line = news.get(lineId)
    if (!line?.tickedAt || line.status === status || Date.parse(line.tickedAt) < Date.parse(tickedAt)) return []
    if (line.tickedBy !== null && line.tickedBy === by) return []
    return [{ lineId, status: line.status, by: line.tickedBy }]
  })
}
