/** The start of each of the two hashes: FNV-1a's own offset basis, and another one. */
const firstBasis = { high: 0xcbf29ce4, low: 0x84222325 }
const otherBasis = { high: 0x6c62272e, low: 0x07bb0142 }

/**
 * 64-bit FNV-1a (Fowler, Noll and Vo) of a text's UTF-16 code units, low byte first, in hex. Worked in two 32-bit halves, as 64-bit whole
 * numbers are not exact in a double; and the lower of them in two of 16, so that all of it stays whole numbers of the machine's own.
 */
function fnv1a64(text: string, basis: { high: number; low: number }): string {
  let high = basis.high | 0
  let low = basis.low | 0
  for (let at = 0; at < text.length; at++) {
    const unit = text.charCodeAt(at)
    for (let shift = 0; shift <= 8; shift += 8) {
      low ^= (unit >>> shift) & 0xff
      // times 2^40 + 0x1b3, modulo 2^64
      const bottom = Math.imul(low & 0xffff, 0x1b3)
      const middle = Math.imul(low >>> 16, 0x1b3) + (bottom >>> 16)
      high = (Math.imul(high, 0x1b3) + (middle >>> 16) + (low << 8)) | 0
      low = (middle << 16) | (bottom & 0xffff)
    }
  }
  return (high >>> 0).toString(16).padStart(8, '0') + (low >>> 0).toString(16).padStart(8, '0')
}

/** 128 bits in hex from two FNV-1a hashes of different start, so that rows by the million meet no equal by chance. */
const hash128 = (text: string): string => fnv1a64(text, firstBasis) + fnv1a64(text, otherBasis)

/**
 * JSON with its keys in order and without what says nothing, so that a field added later does not change old keys.
 *
 * Written out by hand: `JSON.stringify` with a replacer that sorts takes four times as long, and a large file has it done for every row.
 */
export const canonicalJson = (value: unknown): string => canonical(value) as string

function canonical(value: unknown): string | undefined {
  if (typeof value === 'string') return value === '' ? undefined : JSON.stringify(value)
  if (typeof value !== 'object') return JSON.stringify(value)
  if (value === null) return undefined
  if (Array.isArray(value)) return value.length === 0 ? undefined : `[${value.map((one) => canonical(one) ?? 'null').join(',')}]`
  let json = ''
  for (const key of keysInOrder(value)) {
    const said = canonical((value as Record<string, unknown>)[key])
    if (said !== undefined) json += `${json === '' ? '' : ','}${JSON.stringify(key)}:${said}`
  }
  return `{${json}}`
}

/** Keys as they came and sorted, by how many there are: rows of one kind have the same ones over and over. */
const sortedKeys = new Map<number, { keys: string[]; sorted: string[] }>()

function keysInOrder(value: object): string[] {
  const keys = Object.keys(value)
  const last = sortedKeys.get(keys.length)
  if (last?.keys.every((key, at) => key === keys[at])) return last.sorted
  const sorted = [...keys].sort()
  sortedKeys.set(keys.length, { keys, sorted })
  return sorted
}

/**
 * The keys rows are known again by, in their order: a hash of the kind, what the row says, and its turn among the rows of the file that
 * say the same.
 */
export function rowKeys(kind: string, drafts: readonly unknown[]): string[] {
  const turns = new Map<string, number>()
  return drafts.map((draft) => keyOfRow(kind, draft, turns))
}

/** The key of one row; `turns` counts the rows that say the same, and is raised. */
export function keyOfRow(kind: string, draft: unknown, turns: Map<string, number>): string {
  const said = canonicalJson([kind, draft])
  const turn = (turns.get(said) ?? 0) + 1
  turns.set(said, turn)
  return hash128(`${turn} ${said}`)
}
