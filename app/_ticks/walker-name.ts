import { nameCookie, nameCookieSeconds } from '#viewer/name-cookie'

const changed = 'larder-walker'
let open = ''

/** The name last given on this device. */
export function readName(): string {
  const said = document.cookie.split('; ').find((pair) => pair.startsWith(`${nameCookie}=`))
  if (said === undefined) return open
  try {
    return decodeURIComponent(said.slice(nameCookie.length + 1))
  } catch {
    return open
  }
}

/** As it goes along with a tick. */
export const nameOrNull = (name: string): string | null => (name.trim() === '' ? null : name.trim())
export const whoTicks = (): string | null => nameOrNull(readName())

export function keepName(name: string): void {
  // Where cookies are refused, the name is kept as long as the page is open.
  open = name
  // biome-ignore lint/suspicious/noDocumentCookie: the Cookie Store API is there on HTTPS only, and a shop's LAN is plain HTTP.
  document.cookie = `${nameCookie}=${encodeURIComponent(name)}; path=/; max-age=${nameCookieSeconds}; samesite=lax`
  window.dispatchEvent(new Event(changed))
}

/** Another page of this device may have given another name: it is read anew when this one is come back to. */
export function onName(listener: () => void): () => void {
  window.addEventListener(changed, listener)
  window.addEventListener('focus', listener)
  return () => {
    window.removeEventListener(changed, listener)
    window.removeEventListener('focus', listener)
  }
}
