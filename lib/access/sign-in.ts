/** Tries to sign in that may go wrong within a quarter of an hour, with one name and from one address. */
export const triesByName = 10
export const triesByAddress = 40
export const triesWithinSeconds = 15 * 60

export type SignInRefusal =
  /** The name, the password, or both: which of them is not said. */
  { kind: 'wrong' } | { kind: 'wait'; seconds: number }

/** Of an address of 128 bits the first 64: a household has all that lie behind them, and may use another each time (RFC 4291, RFC 6177). */
export function addressKey(address: string): string {
  const plain = address
    .replace(/^::ffff:(?=\d)/i, '')
    .replace(/%.*$/, '')
    .toLowerCase()
  if (!plain.includes(':')) return plain
  const [head = '', tail] = plain.split('::')
  const left = head === '' ? [] : head.split(':')
  const right = tail === undefined || tail === '' ? [] : tail.split(':')
  const zeros = tail === undefined ? [] : Array.from({ length: Math.max(0, 8 - left.length - right.length) }, () => '0')
  return [...left, ...zeros, ...right]
    .slice(0, 4)
    .map((part) => part.replace(/^0+(?=.)/, ''))
    .join(':')
}
