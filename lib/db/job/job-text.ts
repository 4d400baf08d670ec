/** JSON has no place for these; each goes as an object of this one name, with its kind and its value. */
const mark = '$larder'

type Marked = { [mark]: [kind: string, value?: unknown] }

/** What a job is about, how far it is or what it found, as text: JSON that keeps maps, sets, dates, undefined and numbers without end. */
export const toJobText = (value: unknown): string =>
  JSON.stringify(value, function (this: Record<string, unknown>, key, told) {
    // A date has become a text by now; as it was it stands in its holder.
    const kept = this[key]
    if (kept instanceof Date) return marked('date', kept.getTime())
    if (told instanceof Map) return marked('map', [...told])
    if (told instanceof Set) return marked('set', [...told])
    if (told instanceof Uint8Array) return marked('bytes', Buffer.from(told).toString('base64'))
    if (ArrayBuffer.isView(told) && told.constructor.name in columns)
      return marked(told.constructor.name, [...(told as Int32Array)])
    if (told === undefined) return Array.isArray(this) || key === '' ? marked('undefined') : undefined
    if (typeof told === 'number' && !Number.isFinite(told)) return marked('number', String(told))
    if (typeof told === 'bigint') return marked('bigint', String(told))
    return told
  })

const columns = { Int32Array, Uint32Array, Float64Array, Float32Array, Int16Array, Uint16Array, Int8Array }
const marked = (kind: string, value?: unknown): Marked => ({ [mark]: value === undefined ? [kind] : [kind, value] })

/** What `toJobText` made a text of. @throws {SyntaxError} for any other text */
export const fromJobText = (text: string): unknown => JSON.parse(text, (_, told) => unmarked(told)) ?? null

function unmarked(told: unknown): unknown {
  if (typeof told !== 'object' || told === null || !(mark in told)) return told
  const [kind, value] = (told as Marked)[mark]
  switch (kind) {
    case 'date':
      return new Date(value as number)
    case 'map':
      return new Map(value as [unknown, unknown][])
    case 'set':
      return new Set(value as unknown[])
    case 'bytes':
      return new Uint8Array(Buffer.from(value as string, 'base64'))
    case 'number':
      return Number(value)
    case 'bigint':
      return BigInt(value as string)
    default:
      return kind in columns ? columns[kind as keyof typeof columns].from(value as number[]) : undefined
  }
}
