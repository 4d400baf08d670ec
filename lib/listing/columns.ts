/** What a list can show: its columns in the house's own order, those shown where nobody chose, and those that always stand. */
export type ColumnsKnown<Key extends string> = {
  every: readonly Key[]
  /** In their order. */
  usual: readonly Key[]
  /** Never left out: what leads to the thing itself. */
  fixed: Key
}

/**
 * Columns as somebody chose them, from what is kept on their device. What is not known is passed over, what comes twice counts once, and
 * the fixed column is put first where it was left out.
 *
 * @param text  keys parted by dots; null or empty where nothing was chosen
 */
export function readColumns<Key extends string>(text: string | null | undefined, known: ColumnsKnown<Key>): Key[] {
  const asked = (text ?? '').split('.')
  const columns = [...new Set(asked)].filter((key): key is Key => known.every.some((one) => one === key))
  if (columns.length === 0) return [...known.usual]
  return columns.includes(known.fixed) ? columns : [known.fixed, ...columns]
}

export const columnsText = (columns: readonly string[]): string => columns.join('.')

export const isUsual = <Key extends string>(columns: readonly Key[], { usual }: ColumnsKnown<Key>): boolean =>
  columns.length === usual.length && columns.every((key, at) => key === usual[at])

/** One step forwards (−1) or back (+1) in the row; where there is no room for it, as it was. */
export function withMoved<Key extends string>(columns: readonly Key[], key: Key, step: -1 | 1): Key[] {
  const at = columns.indexOf(key)
  const to = at + step
  if (at < 0 || to < 0 || to >= columns.length) return [...columns]
  const moved = [...columns]
  moved.splice(at, 1)
  moved.splice(to, 0, key)
  return moved
}

/** Those ticked, in the order they had; new ones come last, as the house orders them. */
export function withTicked<Key extends string>(
  columns: readonly Key[],
  ticked: ReadonlySet<string>,
  known: ColumnsKnown<Key>,
): Key[] {
  const kept = columns.filter((key) => ticked.has(key) || key === known.fixed)
  return [...kept, ...known.every.filter((key) => ticked.has(key) && !kept.includes(key))]
}
