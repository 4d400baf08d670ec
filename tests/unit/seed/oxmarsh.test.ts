import { readFileSync } from 'node:fs'
import Papa from 'papaparse'
import { describe, expect, it } from 'vitest'
import { makeOxmarshFiles } from '#seed/oxmarsh'
import { designers } from '#seed/sample/titles'
import { coverByHand, type Row } from './simple-cover'

const shop = 'The Oxmarsh Needle Room'
const hanne = 'Hanne Drewitt'

const files = makeOxmarshFiles()
const read = (name: string): Row[] => Papa.parse<Row>(files[name] ?? '', { header: true, skipEmptyLines: true }).data
const [places, threads, cloth, charts, lists, projects, notions] = [
  ...['places', 'threads', 'cloth', 'charts', 'lists', 'projects', 'notions'],
].map((kind) => read(`${kind}.csv`)) as [Row[], Row[], Row[], Row[], Row[], Row[], Row[]]

const distinct = (rows: Row[], ...columns: string[]) => new Set(rows.map((row) => columns.map((column) => row[column]).join('|')))
const count = (rows: Row[], holds: (row: Row) => boolean) => rows.filter(holds).length

describe('the sample collection', () => {
  it('lies in the repository exactly as it is generated', () => {
    for (const [name, text] of Object.entries(files)) {
      expect(readFileSync(new URL(`../../../seed/oxmarsh/${name}`, import.meta.url), 'utf8') === text, name).toBe(true)
    }
  })

  it('logs on its open projects no more than their totals say, and Geese over Tarnbeck as A7 has it', () => {
    const work = read('work.csv').filter(({ What }) => What === 'log')
    for (const { Design, Owner, Hours, Started, 'Stitches done': done } of projects) {
      const log = work.filter((row) => row.Design === Design && row.Owner === Owner)
      const sum = (column: string) => log.reduce((total, row) => total + Number(row[column]), 0)
      expect(sum('Stitches'), Design).toBeLessThanOrEqual(Number(done))
      expect(sum('Hours'), Design).toBeLessThanOrEqual(Number(Hours))
      for (const { Day = '' } of log) expect(Day >= (Started as string), Design).toBe(true)
    }
    expect(new Set(work.map(({ Design }) => Design)).size).toBe(5)
    const weekOf = (from: string, to: string) =>
      work
        .filter(({ Design, Day = '' }) => Design === 'Geese over Tarnbeck' && Day >= from && Day <= to)
        .reduce((total, { Stitches }) => total + Number(Stitches), 0)
    expect([
      weekOf('2026-11-02', '2026-11-08'),
      weekOf('2026-11-09', '2026-11-15'),
      weekOf('2026-11-16', '2026-11-22'),
      weekOf('2026-11-23', '2026-11-29'),
    ]).toEqual([2_450, 2_120, 0, 2_330])
  })

  it('holds 150 charts with 220 designs by 20 designers, of two owners', () => {
    expect(distinct(charts, 'Chart').size).toBe(150)
    expect(charts.length).toBe(220)
    expect(distinct(charts, 'Chart', 'Design').size).toBe(220)
    expect(designers.length).toBe(20)
    expect([...distinct(charts, 'Designer')].sort()).toEqual([...designers].sort())
    expect([...distinct(charts, 'Owner')].sort()).toEqual([hanne, shop])
    expect(
      distinct(
        charts.filter(({ Kind }) => Kind === 'booklet'),
        'Chart',
      ).size,
    ).toBe(23)
    expect(count(charts, ({ Kind }) => Kind === 'file')).toBeGreaterThanOrEqual(6)
  })

  it('holds 700 threads in 8 lines of 5 makers, each with a colour', () => {
    expect(distinct(threads, 'Maker', 'Line', 'Code').size).toBe(700)
    expect(distinct(threads, 'Maker', 'Line').size).toBe(8)
    expect(distinct(threads, 'Maker').size).toBe(5)
    expect(
      distinct(
        threads.filter(({ Line }) => Line === 'Stranded Cotton'),
        'Code',
      ).size,
    ).toBe(480)
    for (const { L, a, b } of threads) {
      expect(Number(L) > 10 && Number(L) <= 98).toBe(true)
      expect(Math.hypot(Number(a), Number(b))).toBeLessThan(85)
    }
  })

  it('keeps things in some fifty places, all of them listed, each place inside a listed one', () => {
    const labels = distinct(places, 'Label')
    expect(labels.size).toBe(places.length)
    const used = new Set(
      [...threads, ...cloth, ...charts, ...projects].flatMap((row) => [row.Place, row['Now at']]).filter((label) => !!label),
    )
    expect(used.size).toBeGreaterThanOrEqual(46)
    expect(used.size).toBeLessThanOrEqual(56)
    for (const label of used) expect(labels).toContain(label)
    const seen = new Set([''])
    for (const { Label = '', Inside = '' } of places) {
      expect(seen, Inside).toContain(Inside)
      seen.add(Label)
    }
  })

  it('holds 90 pieces of cloth of the three kinds, some measured and not square, some offcuts', () => {
    expect(cloth.length).toBe(90)
    expect(distinct(cloth, 'Owner', 'Label').size).toBe(90)
    expect([...distinct(cloth, 'Weave')].sort()).toEqual(['aida', 'evenweave', 'linen'])
    expect(count(cloth, ({ Count = '' }) => Count.includes('x'))).toBeGreaterThanOrEqual(4)
    expect(count(cloth, ({ Note }) => Note === 'Offcut')).toBeGreaterThanOrEqual(15)
    expect(cloth).toContainEqual(expect.objectContaining({ Owner: hanne, Count: '34 x 31', Size: '18 x 27 in', Squared: 'yes' }))
  })

  it('holds a dozen notions of both owners, each in a place there is', () => {
    expect(notions.length).toBe(12)
    expect([...distinct(notions, 'Owner')].sort()).toEqual([hanne, shop])
    const labels = distinct(places, 'Label')
    for (const { Place = '' } of notions) expect(labels).toContain(Place)
    expect([...distinct(notions, 'Kind')].length).toBeGreaterThanOrEqual(6)
  })

  it('names in its lists only designs and threads it holds', () => {
    const designs = distinct(charts, 'Chart', 'Design', 'Designer')
    for (const one of distinct(lists, 'Chart', 'Design', 'Designer')) expect(designs).toContain(one)
    expect(coverByHand(charts, lists, threads, [shop, hanne]).size).toBe(215)
  })

  it('counts stitches in half its designs, states skeins in a third, and says nothing in the rest', () => {
    const counted = distinct(
      lists.filter(({ Full }) => Full),
      'Chart',
      'Design',
    )
    const stated = distinct(
      lists.filter(({ Skeins, Symbol: symbol }) => Skeins && symbol !== 'bead'),
      'Chart',
      'Design',
    )
    expect(counted.size / 220).toBeCloseTo(1 / 2, 1)
    expect(stated.size / 220).toBeCloseTo(1 / 3, 1)
    for (const one of stated) expect(counted).not.toContain(one)
    expect(count(lists, ({ Code = '' }) => Code.includes('+'))).toBeGreaterThan(20)
    expect(count(lists, ({ Backstitch }) => !!Backstitch)).toBeGreaterThan(20)
    expect(count(lists, ({ Beads }) => !!Beads)).toBeGreaterThan(5)
  })

  it('gives two lists to fourteen designs, the hand-dyed one with fewer colours', () => {
    const colours = (rows: Row[]) => distinct(rows, 'Line', 'Code').size
    const twoLists = [
      ...distinct(
        lists.filter(({ List }) => List === 'Hand-dyed'),
        'Chart',
      ),
    ]
    expect(twoLists.length).toBe(14)
    for (const title of twoLists) {
      const of = (list: string) => lists.filter(({ Chart, List }) => Chart === title && List === list)
      expect(colours(of('Hand-dyed')), title).toBeLessThan(colours(of('Cotton')))
    }
  })

  it('holds three of the four issues of The Salt Road', () => {
    expect(charts).toContainEqual(
      expect.objectContaining({ Chart: 'The Salt Road', Kind: 'issue', 'Parts held': '3', 'Parts needed': '4' }),
    )
  })

  it('finishes something in every month from December 2024 to November 2026 and has a few under way', () => {
    const finished = projects.filter(({ Finished }) => Finished)
    expect(
      [
        ...distinct(
          finished.map(({ Finished = '' }) => ({ month: Finished.slice(0, 7) })),
          'month',
        ),
      ].length,
    ).toBe(24)
    expect(finished.every(({ Finished = '' }) => Finished >= '2024-12-01' && Finished <= '2026-11-25')).toBe(true)
    expect(finished.every(({ Started = '', Finished = '' }) => Started < Finished)).toBe(true)
    expect(count(projects, ({ Status = '' }) => ['kitted', 'stitching', 'resting'].includes(Status))).toBe(6)
    const designs = distinct(charts, 'Chart', 'Design')
    for (const one of distinct(projects, 'Chart', 'Design')) expect(designs).toContain(one)
  })

  it('has threads, charts and cloth out', () => {
    for (const rows of [threads, charts, cloth]) expect(count(rows, (row) => !!row['Now at'])).toBeGreaterThanOrEqual(4)
  })

  it('lets a fifth to three tenths be stitched now, a quarter with one or two put-ups more, and each owner something', () => {
    const together = [...coverByHand(charts, lists, threads, [shop, hanne]).values()]
    const share = (holds: (missing: number) => boolean) => together.filter(holds).length / 220
    expect(share((missing) => missing === 0)).toBeGreaterThan(0.2)
    expect(share((missing) => missing === 0)).toBeLessThan(0.3)
    expect(share((missing) => missing === 1 || missing === 2)).toBeGreaterThan(0.2)
    expect(share((missing) => missing === 1 || missing === 2)).toBeLessThan(0.3)
    for (const owner of [shop, hanne]) {
      const alone = coverByHand(charts, lists, threads, [owner])
      const own = charts.filter((row) => row.Owner === owner && alone.get(`${row.Chart}|${row.Design}`) === 0)
      expect(own.length, owner).toBeGreaterThanOrEqual(8)
    }
  })

  it('keeps the drawers of the worked examples: 0087 fourteenth of T2.1, 0311 fifth of T2.2', () => {
    const codes = [
      ...distinct(
        threads.filter(({ Line }) => Line === 'Stranded Cotton'),
        'Code',
      ),
    ]
    expect(codes.indexOf('0087') + 1).toBe(14)
    expect(codes.indexOf('0311') + 1).toBe(40 + 5)
    expect(codes).toContain('0017')
    const home = (code: string) => threads.find(({ Code, Owner }) => Code === code && Owner === shop)?.Place
    expect([home('0087'), home('0311'), home('12'), home('Tarn Blue')]).toEqual(['T2.1', 'T2.2', 'T4.3', 'T10.1'])
  })

  it('holds the world of Kettle at Wend Cross', () => {
    const held = (line: string, code: string) =>
      threads
        .filter((row) => row.Line === line && row.Code === code && (row.Skeins !== '0' || row.Part))
        .map((row) => [row.Owner, row.Lot, row.Skeins, row.Part, row['Now at']].join('/'))
    expect(lists.filter(({ Chart }) => Chart === 'Kettle at Wend Cross').map(({ Code, Skeins }) => `${Code} ${Skeins}`)).toEqual([
      '0311 0.6',
      '0311+12 0.3+0.1',
      'Ecru 0.15',
      '0742 2',
      '0087 1',
      '1204 1',
      'Tarn Blue 2',
      '0905 1',
    ])
    expect(held('Stranded Cotton', '0311')).toEqual([`${shop}//2//`])
    expect(held('Stranded Cotton', 'Ecru')).toEqual([`${shop}//0/2.5 m measured/`])
    expect(held('Filament', '12')).toEqual([`${shop}//2//`])
    expect(held('Stranded Cotton', '0742')).toEqual([`${shop}//1//`])
    expect(held('Stranded Cotton', '0087')).toEqual([`${shop}//1//K-07`])
    expect(held('Stranded Cotton', '1204')).toEqual([])
    expect(held('Hand-dyed Cotton', 'Tarn Blue')).toEqual([`${shop}/18/1//`, `${shop}/22/1//`])
    expect(held('Stranded Cotton', '0905')).toEqual([])
    expect(threads.find((row) => row['Stands in for'] === 'Larkholm | Stranded Cotton | 1204')).toMatchObject({
      ...{ Code: '1201', L: '43.5', a: '39.5', b: '17', Skeins: '3' },
    })
  })

  it('holds eleven of the twelve cottons of Orchard Gate and all nine of its hand-dyed threads', () => {
    const owned = distinct(
      threads.filter(({ Owner, Skeins }) => Owner === hanne && Skeins !== '0'),
      'Line',
      'Code',
    )
    const needed = (list: string) => [
      ...distinct(
        lists.filter(({ Chart, List }) => Chart === 'Orchard Gate' && List === list),
        'Line',
        'Code',
      ),
    ]
    expect(needed('Cotton').length).toBe(12)
    expect(needed('Cotton').filter((thread) => owned.has(thread)).length).toBe(11)
    expect(needed('Hand-dyed').length).toBe(9)
    expect(needed('Hand-dyed').filter((thread) => owned.has(thread)).length).toBe(9)
    expect(count(lists, ({ Chart, List }) => Chart === 'Orchard Gate' && List === 'Hand-dyed')).toBe(12)
  })

  it.each([
    ['Rook Hill in Snow', 'Corvin Ashdale', '140', '98', '28 over 2'],
    ['Seven Lanterns', 'Dorrit Quayle', '84', '84', '28 over 2'],
    ['The Ropewalk Sampler', 'Brackwater Samplers', '96', '312', '32 over 2'],
    ['Wheel of Hours', 'Saskia Thrupp', '128', '128', '32 over 2'],
  ])('gives %s its worked size', (title, designer, width, height, cloth) => {
    expect(charts.find(({ Design }) => Design === title)).toMatchObject({
      Designer: designer,
      Width: width,
      Height: height,
      Count: cloth,
    })
  })
})
