/**
 * What is chosen of a list that may be longer than what was looked at: some by their ids, or all that the list's filter finds but some.
 * So twenty thousand chosen are kept as a filter and its exceptions, and stay chosen however the list is scrolled or turned.
 */
export type Selection = { kind: 'these'; ids: ReadonlySet<string> } | { kind: 'all'; except: ReadonlySet<string> }

export const nothingChosen: Selection = { kind: 'these', ids: new Set() }
export const allChosen: Selection = { kind: 'all', except: new Set() }

/** More single ticks than these are not kept: whoever wants more chooses all and takes some away. */
export const mostTicked = 20_000

export const isChosen = (selection: Selection, id: string): boolean =>
  selection.kind === 'these' ? selection.ids.has(id) : !selection.except.has(id)

/** The same with some put in or taken out; `selection` itself is left as it is. */
export function withChosen(selection: Selection, ids: Iterable<string>, isIn: boolean): Selection {
  const isNamed = selection.kind === 'these' ? isIn : !isIn
  const named = new Set(selection.kind === 'these' ? selection.ids : selection.except)
  for (const id of ids) {
    if (isNamed) named.add(id)
    else named.delete(id)
  }
  return selection.kind === 'these' ? { kind: 'these', ids: named } : { kind: 'all', except: named }
}

/** How many are chosen of a list of `total`; exceptions are taken to be of the list, ticked ids to be in it. */
export const countChosen = (selection: Selection, total: number): number =>
  selection.kind === 'these' ? selection.ids.size : Math.max(0, total - selection.except.size)

/** Those of a list that are chosen, in its order. What is chosen and not in it is left out. */
export const chosenOf = (selection: Selection, ids: readonly string[]): string[] => ids.filter((id) => isChosen(selection, id))

export const selectionText = (selection: Selection): string =>
  JSON.stringify(selection.kind === 'these' ? { these: [...selection.ids] } : { except: [...selection.except] })

/** @returns null for what is none, or names more than `mostTicked` */
export function readSelection(text: string): Selection | null {
  let read: unknown
  try {
    read = JSON.parse(text)
  } catch {
    return null
  }
  if (typeof read !== 'object' || read === null) return null
  const { these, except } = read as { these?: unknown; except?: unknown }
  const isIds = (value: unknown): value is string[] =>
    Array.isArray(value) &&
    value.length <= mostTicked &&
    value.every((id) => typeof id === 'string' && id !== '' && id.length <= 64)
  if (isIds(these)) return { kind: 'these', ids: new Set(these) }
  return isIds(except) ? { kind: 'all', except: new Set(except) } : null
}
