/**
 * 64-bit FNV-1a (Fowler, Noll and Vo) of a text's UTF-16 code units, low byte first, in hex. Worked in two 32-bit halves, as 64-bit whole numbers are not exact in a double.
 */
function fnv1a64(text: string, firstHigh: number, firstLow: number): string {
  let high = firstHigh
  let low = firstLow
  for (let at = 0; at < text.length; at++) {
    const unit = text.charCodeAt(at)
    for (const byte of [unit & 0xff, unit >>> 8]) {
      low = (low ^ byte) >>> 0
      // times 2^40 + 0x1b3, modulo 2^64
      const product = low * 0x1b3
      high = (Math.imul(high, 0x1b3) + Math.floor(product / 2 ** 32) + low * 2 ** 8) >>> 0
      low = product >>> 0
    }
  }
  return high.toString(16).padStart(8, '0') + low.toString(16).padStart(8, '0')
}

/** 128 bits in hex from two FNV-1a hashes of different start, so that rows by the million meet no equal by chance. */
const hash128 = (text: string): string => fnv1a64(text, 0xcbf29ce4, 0x84222325) + fnv1a64(text, 0x6c62272e, 0x07bb0142)

/** JSON with its keys in order and without what says nothing, so that a field added later does not change old keys. */
export function canonicalJson(value: unknown): string {
  return JSON.stringify(value, (_, inner: unknown) => {
    if (inner === null || inner === '' || (Array.isArray(inner) && inner.length === 0)) return undefined
    if (typeof inner !== 'object' || Array.isArray(inner)) return inner
    return Object.fromEntries(Object.entries(inner as object).sort(([left], [right]) => (left < right ? -1 : 1)))
  })
}

/**
 * The keys rows are known again by, in their order: a hash of the kind, what the row says, and its turn among the rows of the file that
 * say the same.
 */
export function rowKeys(kind: string, drafts: readonly unknown[]): string[] {
  const turns = new Map<string, number>()
  return drafts.map((draft) => {
    const said = canonicalJson([kind, draft])
    const turn = (turns.get(said) ?? 0) + 1
    turns.set(said, turn)
    return hash128(`${turn} ${said}`)
  })
}
