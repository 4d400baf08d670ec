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

/** How far down the list was when it was left, if one comes back to it just now; else null. */
export function whereLeft(address: string): number | null {
  if (!hasCome()) return null
  try {
    const at = Number(sessionStorage.getItem(key(address)) ?? '')
    return at > 0 ? at : null
  } catch {
    return null
  }
}

export function keepWhere(address: string, scrollY: number): void {
  // A list that is being left hears once more that its page became shorter: that is no place anybody scrolled to.
  if (location.pathname !== address.split('?')[0]) return
  try {
    sessionStorage.setItem(key(address), String(Math.round(scrollY)))
  } catch {
    // Whoever keeps nothing begins at the top again.
  }
}
