type Column = Uint8Array | Uint16Array | Uint32Array | Int32Array | Float64Array

/** @returns the column itself when it has room for `length` entries, else a copy of at least twice its length, filled up with noughts. */
export function withRoom<T extends Column>(column: T, length: number): T {
  if (length <= column.length) return column
  const Kind = column.constructor as new (length: number) => T
  const larger = new Kind(Math.max(length, column.length * 2, 64))
  larger.set(column)
  return larger
}
