import { describe, expect, it } from 'vitest'
import { type SearchEntry, SearchIndex } from '#lib/search/search-index'

const entries: SearchEntry[] = [
  { id: 'thread:1', noun: 'thread', title: 'Larkholm Stranded 0017', also: ['Rust'], code: '0017', places: ['T2.1-14'] },
  { id: 'thread:2', noun: 'thread', title: 'Larkholm Stranded 17A', also: ['Old rust'], code: '17A' },
  { id: 'thread:3', noun: 'thread', title: 'Larkholm Stranded 172', also: ['Moss'], code: '172' },
  { id: 'thread:4', noun: 'thread', title: 'Quillwater 17', also: ['Filament'], code: '17' },
  { id: 'thread:5', noun: 'thread', title: 'Oddny Loft Tarn Blue', also: [], code: 'Tarn Blue' },
  { id: 'chart:1', noun: 'chart', title: 'Rook Hill in Snow', also: ['Saskia Thrupp', 'winter'], places: ['R1'] },
  { id: 'design:1', noun: 'design', title: 'Rook Hill in Snow', also: ['Saskia Thrupp', 'winter', 'rooks'] },
  { id: 'design:2', noun: 'design', title: 'Frühling am Häuschen', also: ['Ottoline Burrage', 'spring'] },
  { id: 'design:3', noun: 'design', title: 'Seven Lanterns', also: ['Corvin Ashdale'] },
  { id: 'design:4', noun: 'design', title: 'Moth and Candle', also: ['Saskia Thrupp'] },
  { id: 'place:1', noun: 'place', title: 'T2.1', also: ['drawer'], code: 'T2.1' },
  { id: 'place:2', noun: 'place', title: 'T2.1-14', also: ['compartment'], code: 'T2.1-14' },
  { id: 'place:3', noun: 'place', title: 'T2.10', also: ['drawer'], code: 'T2.10' },
  { id: 'cloth:1', noun: 'cloth', title: 'Linen 28 count Fog', also: [], code: 'C-1' },
]
function indexOf(all: SearchEntry[] = entries): SearchIndex {
  const index = new SearchIndex()
  index.addAll(all)
  return index
}
const ids = (question: string, index = indexOf()) => index.search(question, { limit: 20 }).hits.map((hit) => hit.id)

describe('SearchIndex', () => {
  it('puts the exact code first, then codes close to it, and no others by their figures', () => {
    expect(ids('17').slice(0, 3)).toEqual(['thread:4', 'thread:1', 'thread:2'])
    expect(ids('0017')[0]).toBe('thread:1')
    expect(ids('17a')[0]).toBe('thread:2')
    const { hits } = indexOf().search('17', { limit: 20 })
    expect(hits.slice(0, 3).map((hit) => hit.match)).toEqual(['exact', 'close', 'close'])
  })

  it('finds a code among other words', () => {
    expect(ids('larkholm 17')[0]).toBe('thread:1')
    expect(ids('larkholm 17')).not.toContain('thread:4')
    expect(ids('tarn blue')[0]).toBe('thread:5')
  })

  it('puts the place of that very label first, and finds those in it', () => {
    expect(ids('T2.1')[0]).toBe('place:1')
    expect(ids('t2.1-14').slice(0, 2)).toEqual(['place:2', 'thread:1'])
    expect(ids('c-1')[0]).toBe('cloth:1')
  })

  it('forgives a wrong letter in a word of four and more', () => {
    for (const slip of ['lantrens', 'lanterms', 'lanters', 'lannterns', 'lamterns']) expect(ids(slip), slip).toContain('design:3')
    expect(ids('mots')).toEqual(['design:4', 'thread:3'])
    expect(ids('roo')).toContain('design:1')
  })

  it('forgives two neighbouring letters swapped, which would else count as two wrong ones', () => {
    const index = new SearchIndex()
    index.add({ id: 'design:1', noun: 'design', title: 'The Weighhouse', also: [] })
    index.add({ id: 'design:2', noun: 'design', title: 'Larch in October', also: [] })
    expect(index.search('wieghhouse', { limit: 5 }).hits.map(({ id }) => id)).toEqual(['design:1'])
    expect(index.search('lacrh', { limit: 5 }).hits.map(({ id }) => id)).toEqual(['design:2'])
  })

  it('takes the last word as begun, and the others as whole', () => {
    expect(ids('saskia ca')).toEqual(['design:4'])
    expect(ids('sev lanterns')).toEqual(['design:3'])
  })

  it('wants all words, and is content with any where none has all', () => {
    expect(ids('thrupp rook').sort()).toEqual(['chart:1', 'design:1'])
    const answer = indexOf().search('thrupp lanterns', { limit: 20 })
    expect(answer.hasAllWords).toBe(false)
    expect(answer.hits.map((hit) => hit.id).sort()).toEqual(['chart:1', 'design:1', 'design:3', 'design:4'])
  })

  it('minds neither accents nor case', () => {
    for (const question of ['frühling', 'FRUHLING', 'hauschen', 'Häuschen']) expect(ids(question), question).toEqual(['design:2'])
  })

  it('groups hits by noun and says how many there are', () => {
    const answer = indexOf().search('rook', { limit: 1 })
    expect(answer.found).toBe(2)
    expect(answer.groups).toEqual([{ noun: 'design', hits: answer.hits }])
    expect(
      indexOf()
        .search('rook', { limit: 5, noun: 'chart' })
        .hits.map((hit) => hit.id),
    ).toEqual(['chart:1'])
    expect(indexOf().search('  ', { limit: 5 })).toEqual({ hits: [], groups: [], found: 0, hasAllWords: true })
  })

  it('answers alike whatever the order entries came in, and after changes', () => {
    const questions = ['17', 'saskia', 'rook hill', 't2', 'larkholm', 'o']
    const reversed = indexOf([...entries].reverse())
    const changed = indexOf([...entries, { id: 'design:9', noun: 'design', title: 'Rook', also: [] }])
    changed.replaceAll(
      ['design:9', 'thread:1', 'never:there'],
      entries.filter((entry) => entry.id === 'thread:1'),
    )
    for (const question of questions) {
      expect(ids(question, reversed), question).toEqual(ids(question))
      expect(ids(question, changed), question).toEqual(ids(question))
    }
    expect(changed.size).toBe(entries.length)
    changed.remove('thread:4')
    changed.add({ id: 'thread:3', noun: 'thread', title: 'Larkholm Stranded 17', also: [], code: '17' })
    expect(ids('17', changed)[0]).toBe('thread:3')
  })
})
