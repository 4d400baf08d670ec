/** Several calendars of one person may follow an address; more often than so many times in a quarter of an hour nobody needs to ask. */
const [mostFetches, windowMs] = [60, 15 * 60_000] as const
/** Addresses are few; more than so many are not remembered. */
const mostKept = 1_000

const fetches = new Map<string, { from: number; count: number }>()

/**
 * Whether an address may be answered once more.
 *
 * @returns 0 when it may, else the seconds to wait
 */
export function mayFetch(token: string, nowMs: number): number {
  const there = fetches.get(token)
  if (!there || nowMs - there.from >= windowMs) {
    fetches.delete(token)
    if (fetches.size >= mostKept) fetches.clear()
    fetches.set(token, { from: nowMs, count: 1 })
    return 0
  }
  there.count++
  return there.count <= mostFetches ? 0 : Math.ceil((there.from + windowMs - nowMs) / 1_000)
}
