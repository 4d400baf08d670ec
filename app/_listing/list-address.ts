/** A list's choices as one text that is always the same for the same choices: without the page, in the order of their names. */
export function filterText(search: URLSearchParams | string): string {
  const kept = [...new URLSearchParams(search)].filter(([name, value]) => name !== 'page' && value !== '')
  kept.sort(([a, m], [b, n]) => (a < b ? -1 : a > b ? 1 : m < n ? -1 : m > n ? 1 : 0))
  return new URLSearchParams(kept).toString()
}
