// A worked example of the trade, by hand: codes are exact text, looked for loosely and never taken for one another. Common practice, no
// published source.
import { expect, it } from 'vitest'
import { SearchIndex } from '#lib/search/search-index'

it('finds 17 itself first, and 0017 and 17A after it as close, each marked so', () => {
  const index = new SearchIndex()
  for (const [maker, code] of [
    ['Larkholm', '0017'],
    ['Brindlequay', '17'],
    ['Brindlequay', '17A'],
    ['Larkholm', '0170'],
    ['Larkholm', '1700'],
  ] as const) {
    index.add({ id: `thread:${maker} ${code}`, noun: 'thread', title: `${maker} ${code}`, also: [], code })
  }
  const { hits } = index.search('17', { limit: 10, noun: 'thread' })
  expect(hits[0]).toMatchObject({ id: 'thread:Brindlequay 17', match: 'exact' })
  expect(hits.filter(({ match }) => match === 'exact')).toHaveLength(1)
  expect(hits.flatMap(({ id, match }) => (match === 'close' ? [id] : [])).sort()).toEqual([
    'thread:Brindlequay 17A',
    'thread:Larkholm 0017',
  ])
})
