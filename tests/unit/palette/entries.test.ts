import { describe, expect, it } from 'vitest'
import { doingsAtWork, doingsFor } from '../../../app/_palette/doings'
import {
  type Entry,
  entriesMatching,
  isMeant,
  offeredFor,
  parseRecent,
  thingOfPage,
  withRecent,
} from '../../../app/_palette/entries'

const screens = [{ href: '/charts', label: 'Charts' }]
const keeper = doingsFor(screens, { mayChange: true, mayKeep: true })
const atWork = doingsAtWork([{ id: 'p1', title: 'Geese over Tarnbeck', status: 'stitching' }], true)
const titles = (entries: readonly Entry[]) => entries.map(({ title }) => title)
const chart: Entry = { href: '/designs/d1', title: 'Geese over Tarnbeck', kind: 'Chart', places: ['R2-3'] }

describe('what is offered', () => {
  it('wants every word, begun is enough, in any order and without its accents', () => {
    expect(titles(entriesMatching(atWork, 'tarn fin'))).toEqual(['Finish Geese over Tarnbeck'])
    expect(titles(entriesMatching([{ href: '/x', title: 'Étoile', kind: 'Chart' }], 'etoi'))).toEqual(['Étoile'])
    expect(entriesMatching(atWork, 'finish kettle')).toEqual([])
    expect(entriesMatching(atWork, '  ')).toEqual([])
  })

  it('puts a thing to do first when its verb was typed, and what was found first when it was not', () => {
    expect(offeredFor('finish geese', [chart], atWork).map(({ title }) => title)).toEqual(['To do', 'Found'])
    expect(offeredFor('geese', [chart], atWork).map(({ title }) => title)).toEqual(['Found', 'To do'])
  })

  it('means a count by its whole number only, a word by its first three letters', () => {
    const cloth: Entry = { href: '/charts', title: '28 evenweave or linen', kind: 'To do' }
    expect(isMeant(cloth, '28')).toBe(true)
    expect(isMeant(cloth, '2')).toBe(false)
    expect(isMeant({ ...cloth, title: 'Finish it' }, 'fin')).toBe(true)
    expect(isMeant({ ...cloth, title: 'Finish it' }, 'fi')).toBe(false)
  })

  it('offers nothing that who asks may not do', () => {
    const looker = doingsFor(screens, { mayChange: false, mayKeep: false })
    expect(titles(looker)).toContain('What can I stitch now')
    expect(titles(looker)).not.toContain('Start a count')
    expect(titles(looker)).not.toContain('Make a backup')
    expect(titles(keeper)).toEqual(expect.arrayContaining(['Start a count', 'Print labels', 'Make a backup', 'Charts']))
    expect(doingsAtWork([{ id: 'p1', title: 'Nine Wrens', status: 'stitching' }], false)).toEqual([])
  })

  it('offers what the state of a work allows: nothing is logged after the last stitch, nothing finished before the first', () => {
    const doings = (status: string) => titles(doingsAtWork([{ id: 'p1', title: 'Nine Wrens', status }], true))
    expect(doings('planned')).toEqual([])
    expect(doings('resting')).toEqual(['Log work on Nine Wrens', 'Finish Nine Wrens'])
    expect(doings('stitched')).toEqual(['Finish Nine Wrens'])
  })
})

describe('what was gone to lately', () => {
  const at = (number: number): Entry => ({ href: `/threads/${number}`, title: `${number}`, kind: 'Thread' })

  it('keeps eight, the last first, each once', () => {
    const gone = [1, 2, 3, 4, 5, 6, 7, 8, 9, 3].reduce<Entry[]>((recent, number) => withRecent(recent, at(number)), [])
    expect(titles(gone)).toEqual(['3', '9', '8', '7', '6', '5', '4', '2'])
  })

  it('reads back what it kept, and nothing that leads elsewhere', () => {
    expect(parseRecent(JSON.stringify([at(1)]))).toEqual([at(1)])
    const foreign = ['//elsewhere', 'javascript:alert(1)', 'https://elsewhere'].map((href) => ({ ...at(1), href }))
    expect(parseRecent(JSON.stringify(foreign))).toEqual([])
    for (const broken of [null, '', '{', '{}', '[null]', '[1]']) expect(parseRecent(broken)).toEqual([])
  })

  it('knows the page of a thing from a list, a form and a page without a title', () => {
    const id = '0197f3a2-0000-7000-8000-000000000001'
    expect(thingOfPage(`/places/${id}`, 'Drawer T2.1 · Chart Larder')).toEqual({
      href: `/places/${id}`,
      title: 'Drawer T2.1',
      kind: 'Place',
    })
    for (const path of ['/places', '/places/new', `/places/${id}/edit`, `/settings/${id}`])
      expect(thingOfPage(path, 'X · Chart Larder')).toBeNull()
    expect(thingOfPage(`/places/${id}`, '')).toBeNull()
  })
})
