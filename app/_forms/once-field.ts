/** The hidden field by which a form that is sent twice is known again. */
export const onceField = 'onceKey'

/** Nobody can guess it, and no two forms have the same. On a page that is not served by HTTPS browsers have no `randomUUID`. */
export function newOnceKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16))
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('')
}
