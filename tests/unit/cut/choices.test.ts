import { describe, expect, it } from 'vitest'
import type { CutProject, CutSources } from '#lib/db/cut-plan/read-cut-sources'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { settingsSchema } from '#lib/settings/settings'
import { askedOf, cutQuery, type Fields, piecesMark, readCutForm, readMargins, usualFor } from '../../../app/cloth/cut/choices'

const settings = settingsSchema.parse({})
const inch = UM_PER_INCH
const allRound = (um: number) => ({ leftUm: um, rightUm: um, topUm: um, bottomUm: um })

const design = {
  id: 'd1',
  title: 'Seven Lanterns',
  chartTitle: 'Seven Lanterns',
  size: { kind: 'stitches', width: 84, height: 84 },
  advised: null,
} as const
const project: CutProject = {
  ...{ id: 'p1', ownerId: 'shop', designId: 'd1', title: 'Seven Lanterns', status: 'planned', quantity: 13, over: 2 },
  ...{ forWhom: null, finishing: 'Ornament' },
}
const sources: CutSources = { designs: new Map([['d1', design]]), projects: new Map([['p1', project]]) }

const formOf = (fields: Fields) => readCutForm(fields, 'in')
const askedFor = (fields: Fields) => askedOf(formOf(fields), sources, settings)
/** As a browser sends an address. */
const fieldsOf = (query: string): Fields => {
  const params = new URLSearchParams(query)
  return Object.fromEntries([...new Set(params.keys())].map((name) => [name, params.getAll(name)]))
}

describe('the form of a plan of cuts in its address', () => {
  it('takes designs, projects, sizes and pieces from a link', () => {
    const form = formOf({ design: ['d1', 'd2', 'd1'], project: 'p1', size: '11 x 11 in', piece: 'c1' })
    expect(form.rows.map(({ at, for: of, size }) => [at, of, size])).toEqual([
      [1, { kind: 'design', id: 'd1' }, ''],
      [2, { kind: 'design', id: 'd2' }, ''],
      [3, { kind: 'project', id: 'p1' }, ''],
      [4, { kind: 'size' }, '11 x 11 in'],
    ])
    expect(form.pieceIds).toEqual(['c1'])
    expect(formOf({ size: 'eleven' })).toMatchObject({ rows: [], sizeNotRead: 'eleven' })
  })

  it('is the same once more when it is read from its own query', () => {
    const form = formOf({
      ...{ w1: 'design-d1', n1: '3', f1: 'ornament', m1: '2, 2, 3, 3 in', o1: '1', c1: 'any', p1: 'must have', v1: '5' },
      ...{ w4: 'size', z4: '6 x 12', g4: '1', n4: '' },
      ...{ objective: 'fewest cuts', gap: '1/4', least: '6 in', seed: '9', limit: '60', piece: ['c1', 'c2'], taken: 'own' },
    })
    expect(form.rows[1]).toMatchObject({ at: 4, mayTurn: false, size: '6 x 12' })
    expect(formOf(fieldsOf(cutQuery(form)))).toEqual(form)
    const none = formOf({ w1: 'size', z1: '4 x 4', taken: 'own' })
    expect(none.pieceIds).toEqual([])
    expect(formOf(fieldsOf(cutQuery(none))).pieceIds).toEqual([])
  })

  it('keeps a row’s own number while others are taken off and added', () => {
    const form = formOf({ w1: 'design-d1', w2: 'size', z2: '4 x 4', w3: 'project-p1', drop: '2', size: '5 x 5' })
    expect(form.rows.map(({ at, size }) => [at, size])).toEqual([
      [1, ''],
      [3, ''],
      [4, '5 x 5'],
    ])
  })

  it('follows what is suggested until the ticks are others, and again when asked to', () => {
    const taken = piecesMark(['c2', 'c1'])
    expect(formOf({ piece: ['c1', 'c2'], taken }).pieceIds).toBeNull()
    expect(formOf({ piece: ['c1'], taken }).pieceIds).toEqual(['c1'])
    expect(formOf({ taken }).pieceIds).toEqual([])
    expect(formOf({ piece: ['c1'], taken, suggest: '1' }).pieceIds).toBeNull()
    expect(formOf({}).pieceIds).toBeNull()
  })

  it('leaves out what no form would send', () => {
    const form = formOf({
      w1: 'drawer-9',
      w2222: 'size',
      wx: 'size',
      design: 'd'.repeat(65),
      objective: 'speed',
      limit: '1e9',
      p1: '0',
    })
    expect(form).toMatchObject({ rows: [], objective: 'largest offcut', seconds: 20 })
  })
})

describe('what the form asks for', () => {
  it('is as usual where nothing was said', () => {
    expect(askedFor({ design: 'd1' }).asked).toEqual({
      wishes: [
        {
          ...{ kind: 'design', designId: 'd1', projectId: null, over: null, cloth: 'advised', copies: 1 },
          ...{ margins: settings.margins[settings.finishing as 'framed'], priority: 'wanted', worth: 1 },
        },
      ],
      ...{
        pieceIds: null,
        objective: 'largest offcut',
        gapUm: settings.cutGapUm,
        leastOffcutUm: settings.leastOffcutUm,
        seed: 1,
      },
    })
  })

  it('is a project’s own number of kits, spares among them, its finishing and threads', () => {
    const form = formOf({ project: 'p1' })
    const [row] = form.rows
    // Twelve and a spare: trade notes, A6.
    expect(row && usualFor(row, form, sources, settings)).toEqual({
      copies: 13,
      finishing: 'ornament',
      over: '2',
      cloth: 'advised',
    })
    expect(askedFor({ project: 'p1' }).asked?.wishes).toMatchObject([
      { designId: 'd1', projectId: 'p1', copies: 13, over: 2, margins: allRound(2 * inch) },
    ])
  })

  it('is of any cloth, when the pieces to cut from were named first', () => {
    expect(askedFor({ design: 'd1', piece: 'c1' }).asked).toMatchObject({ pieceIds: ['c1'], wishes: [{ cloth: 'any' }] })
    expect(askedFor({ w1: 'design-d1', c1: 'advised', piece: 'c1' }).asked?.wishes).toMatchObject([{ cloth: 'advised' }])
  })

  it('says at which field what does not read, and asks nothing then', () => {
    const { asked, problems } = askedFor({
      ...{ w1: 'design-d1', n1: '0', m1: 'wide', w2: 'size', z2: '4', v2: '1000', w3: 'design-gone', w4: 'project-gone' },
      ...{ gap: '9 in', least: 'small', seed: 'x' },
    })
    expect(asked).toBeNull()
    expect([...problems.keys()].sort()).toEqual(['gap', 'least', 'm1', 'n1', 'seed', 'v2', 'w3', 'w4', 'z2'])
    expect([...askedFor({ w1: 'size', z1: '4 x 4', n1: '150', w2: 'size', z2: '5 x 5', n2: '60' }).problems.keys()]).toEqual([
      'n2',
    ])
  })

  it('takes one margin or four', () => {
    expect(readMargins('2 in', 'cm')).toEqual(allRound(2 * inch))
    expect(readMargins('2', 'in')).toEqual(allRound(2 * inch))
    expect(readMargins('1, 2, 3, 4 in', 'cm')).toEqual({ leftUm: inch, rightUm: 2 * inch, topUm: 3 * inch, bottomUm: 4 * inch })
    expect(readMargins('1 in, 2 cm, 3, 4 cm', 'in')).toEqual({ leftUm: inch, rightUm: 20_000, topUm: 30_000, bottomUm: 40_000 })
    expect(readMargins('2,5 cm', 'in')).toEqual(allRound(25_000))
    expect(readMargins('2 1/2 in', 'in')).toEqual(allRound(2.5 * inch))
    for (const text of ['wide', '1, 2', '1, 2, 3, 4, 5', '-1 in', '2 m']) expect(readMargins(text, 'in'), text).toBeNull()
  })
})
