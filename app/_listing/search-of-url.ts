/** The choices in an address as a page gets them: a text, or a list where a name stands more than once. */
export function searchOfUrl(url: string): Record<string, string | string[]> {
  const search: Record<string, string | string[]> = {}
  for (const [name, value] of new URL(url, 'http://larder').searchParams) {
    const before = search[name]
    search[name] = before === undefined ? value : [before, value].flat()
  }
  return search
}
