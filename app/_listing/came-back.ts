'use client'

/** When somebody last went back or forward to a page without loading it anew. */
let wentBackAt = 0
if (typeof window !== 'undefined') window.addEventListener('popstate', () => (wentBackAt = Date.now()))

/** As long as a page may take to be drawn once one has gone back to it. */
const drawnWithinMs = 8_000

const hasCome = (): boolean => {
  if (Date.now() - wentBackAt < drawnWithinMs) return true
  const [navigation] = performance.getEntriesByType('navigation') as PerformanceNavigationTiming[]
  return navigation?.type !== 'navigate' && performance.now() < drawnWithinMs
}

const key = (address: string) => `larder-at:${address}`

/**
 * Where a list was left: the first line that began on the screen, and how far below its top. A line and not how far the page was scrolled: what
 * the lines above it come to is only known of those that were drawn.
 */
export type WhereLeft = { line: number; belowPx: number }

/** Where the list was left, if one comes back to it just now; null if not, or if it was left at its beginning. */
export function whereLeft(address: string): WhereLeft | null {
  if (!hasCome()) return null
  try {
    const [line, belowPx] = (sessionStorage.getItem(key(address)) ?? '').split(' ').map(Number)
    const isWhere = Number.isInteger(line) && Number.isFinite(belowPx)
    return isWhere ? ({ line, belowPx } as WhereLeft) : null
  } catch {
    return null
  }
}

/** @param where  null where the page was not scrolled */
export function keepWhere(address: string, where: WhereLeft | null): void {
  // A list that is being left hears once more that its page became shorter: that is no place anybody scrolled to.
  if (location.pathname !== address.split('?')[0]) return
  try {
    if (where) sessionStorage.setItem(key(address), `${where.line} ${where.belowPx}`)
    else sessionStorage.removeItem(key(address))
  } catch {
    // Whoever keeps nothing begins at the top again.
  }
}
