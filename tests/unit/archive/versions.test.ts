import { describe, expect, it } from 'vitest'
import { readRow } from '#lib/archive/read-row'
import type { ArchiveTable } from '#lib/archive/tables'
import { archiveVersion, readerOf, type Upgrade } from '#lib/archive/versions'

/** Two changes of an invented format: a name in two parts, then a column for a colour and a table of its own for what was dropped. */
const upgrades: Record<number, Upgrade> = {
  1: {
    rows: { Thread: ({ name, ...row }) => ({ ...row, maker: String(name).split(' ')[0], code: String(name).split(' ')[1] }) },
  },
  2: {
    rows: { Thread: (row) => (row.code === 'gone' ? null : { ...row, colour: null }) },
    tablesAdded: ['Colour'],
  },
}
const known = { version: 3, upgrades }

const reader = (version: number) => {
  const read = readerOf(version, known)
  if (!read.ok) throw new Error(read.error.kind)
  return read.value
}

describe('archives of other versions', () => {
  it('are read step by step from the version they were written in', () => {
    expect(reader(1).read('Thread', { id: 't', name: 'Larkholm 0017' })).toEqual({
      ...{ id: 't', maker: 'Larkholm', code: '0017', colour: null },
    })
    expect(reader(2).read('Thread', { id: 't', maker: 'Larkholm', code: '0017' })).toMatchObject({ code: '0017', colour: null })
    expect(reader(3).read('Thread', { id: 't' })).toEqual({ id: 't' })
    expect(reader(1).read('Place', { id: 'p' })).toEqual({ id: 'p' })
  })

  it('leave out rows that are no more, and know the tables they had not', () => {
    expect(reader(1).read('Thread', { id: 't', name: 'Larkholm gone' })).toBeUndefined()
    expect([reader(1).has('Colour'), reader(2).has('Colour'), reader(3).has('Colour')]).toEqual([false, false, true])
  })

  it('are refused when they are newer', () => {
    expect(readerOf(4, known)).toEqual({ ok: false, error: { kind: 'archive-newer', version: 4, readable: 3 } })
    expect(readerOf(archiveVersion).ok).toBe(true)
    expect(readerOf(archiveVersion + 1).ok).toBe(false)
  })

  it('of version 1 had no log of the work, and said of no project how long its finishing takes', () => {
    const read = readerOf(1)
    if (!read.ok) throw new Error(read.error.kind)
    expect(read.value.read('Project', { id: 'j' })).toMatchObject({ id: 'j', finishingWeeks: null })
    expect(['WorkEntry', 'WorkTimer', 'TimeAway', 'RotationTurn', 'Project'].filter(read.value.has)).toEqual(['Project'])
  })

  it('of version 2 had no wishes in stars, no days to keep and no lists to shop by', () => {
    const read = readerOf(2)
    if (!read.ok) throw new Error(read.error.kind)
    const unsaid = { stars: null, occasionKey: null, frameWidthUm: null, frameHeightUm: null, otherCostMinor: null }
    expect(read.value.read('Project', { id: 'j', finishingWeeks: 4 })).toEqual({ id: 'j', finishingWeeks: 4, ...unsaid })
    const tables = ['Occasion', 'StitchAlongPart', 'ThreadOffer', 'BuyList', 'BuyListFor', 'BuyListLine', 'WorkEntry']
    expect(tables.filter(read.value.has)).toEqual(['WorkEntry'])
  })
})

describe('a row of an archive', () => {
  const table: ArchiveTable = {
    ...{ name: 'Thing', says: 'a thing', key: ['id'], refersTo: {} },
    columns: { id: 'text', many: 'whole?', is: 'yes-no', at: 'moment', much: 'real?' },
  }
  const row = { id: 'a', many: null, is: true, at: '2026-11-30T23:59:59.007Z', much: 0.1 + 0.2 }

  it('has exactly the columns of its table, each of its kind', () => {
    expect(readRow(table, row)).toEqual({ ok: true, value: row })
  })

  it.each([
    [{ id: null }, 'id'],
    [{ id: 'a\0b' }, 'id'],
    [{ many: 1.5 }, 'many'],
    [{ many: 2 ** 31 }, 'many'],
    [{ many: '1' }, 'many'],
    [{ is: 1 }, 'is'],
    [{ is: null }, 'is'],
    [{ at: '2026-11-30' }, 'at'],
    [{ at: '2026-13-30T00:00:00.000Z' }, 'at'],
    [{ much: '0.3' }, 'much'],
  ])('is refused with %o', (change, column) => {
    expect(readRow(table, { ...row, ...change })).toMatchObject({ ok: false, error: { kind: 'cell-not-right', column } })
  })

  it('is refused with a column too few or too many, or as no row at all', () => {
    const { much: _, ...less } = row
    expect(readRow(table, less)).toEqual({ ok: false, error: { kind: 'column-missing', column: 'much' } })
    expect(readRow(table, { ...row, more: 1 })).toEqual({ ok: false, error: { kind: 'column-unknown', column: 'more' } })
    for (const none of [null, 3, 'row', [row]]) expect(readRow(table, none)).toEqual({ ok: false, error: { kind: 'not-a-row' } })
  })
})
