import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import type { SharedThing } from '#lib/db/list/shared-thing'
import { listCsv, listRow } from '../../../app/_lists/list-rows'

const thread: SharedThing = {
  ...{ noun: 'thread', id: 't1', line: { makerName: 'Larkholm', name: 'Stranded' }, code: '0017', name: 'Straw' },
  ...{ putUps: 2, putUpWord: 'skein', hasPart: true, place: null },
}
const chart: SharedThing = {
  ...{ noun: 'chart', id: 'c1', title: '=HYPERLINK("http://x.example")', designerNames: ['Dorrit Quayle'], kind: 'issue' },
  ...{ copies: 1, alsoIn: ['Nine Wrens'], parts: { held: 1, needed: 3 }, place: 'C1', designs: [] },
}

describe('a list for others', () => {
  it('says a thread with its exact code, alone and in its title', () => {
    expect(listRow(thread, 'in')).toEqual({
      ...{ key: 'thread.t1', section: 'thread', by: 'Larkholm', title: 'Larkholm Stranded 0017 Straw', code: '0017' },
      ...{ details: '2 skeins and a part', many: 2, place: null, group: 'Threads' },
    })
  })

  it('says which part of a design is here, and where it is held besides', () => {
    expect(listRow(chart, 'in').details).toBe('issue, part 1 of 3 is here, all of it also in Nine Wrens: keep one')
  })

  it('writes a file in which codes keep their zeros and no cell is a formula', () => {
    const rows = [thread, chart].map((thing) => listRow(thing, 'in'))
    const read = Papa.parse<string[]>(listCsv(rows, { withPlaces: false }), { skipEmptyLines: true }).data
    expect(read[0]).toEqual(['Under', 'Maker or designer', 'Title', 'Code', 'Details', 'How many'])
    expect(read[1]?.[3]).toBe('0017')
    expect(read.flat().filter((cell) => /^[=+\-@\t\r]/.test(cell))).toEqual([])
    expect(read.flat()).not.toContain('C1')
    expect(listCsv(rows, { withPlaces: true })).toContain('C1')
  })
})
