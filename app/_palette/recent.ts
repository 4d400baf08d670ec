import { type Entry, parseRecent, withRecent } from './entries'

const key = 'larder-lately'

/** Where several people sign in on one device, what one looked at goes with the window. */
const storeOf = (isShared: boolean): Storage => (isShared ? sessionStorage : localStorage)

/** What this device went to lately, the last first. A device that keeps nothing has nothing. */
export function readRecent(isShared: boolean): Entry[] {
  try {
    return parseRecent(storeOf(isShared).getItem(key))
  } catch {
    return []
  }
}

export function keepRecent(gone: Entry, isShared: boolean): void {
  const { href, title, kind } = gone
  try {
    storeOf(isShared).setItem(key, JSON.stringify(withRecent(readRecent(isShared), { href, title, kind })))
  } catch {
    // A full or forbidden store: it is a convenience.
  }
}
