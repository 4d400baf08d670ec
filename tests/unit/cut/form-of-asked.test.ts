import { describe, expect, it } from 'vitest'
import type { AskedCut } from '#lib/coverage/asked-cut'
import type { CutProject, CutSources } from '#lib/db/cut-plan/read-cut-sources'
import { settingsSchema } from '#lib/settings/settings'
import { askedOf, cutQuery, readCutForm } from '../../../app/cloth/cut/choices'
import { formOfAsked } from '../../../app/cloth/cut/form-of-asked'

const settings = settingsSchema.parse({})
const design = {
  id: 'd1',
  title: 'Nine Wrens',
  chartTitle: 'Nine Wrens',
  size: { kind: 'stitches', width: 60, height: 60 },
  advised: null,
} as const
const project: CutProject = {
  ...{ id: 'p1', ownerId: 'shop', designId: 'd1', title: 'Nine Wrens', status: 'planned', quantity: 1, over: 2 },
  ...{ forWhom: null, finishing: null },
}
const sources: CutSources = { designs: new Map([['d1', design]]), projects: new Map([['p1', project]]) }

const asked: AskedCut = {
  wishes: [
    {
      ...{ kind: 'design', designId: 'd1', projectId: null, over: 1, cloth: 'any', copies: 3, priority: 'must have', worth: 5 },
      margins: { leftUm: 50_800, rightUm: 50_800, topUm: 76_200, bottomUm: 12_345 },
    },
    {
      ...{ kind: 'design', designId: 'd1', projectId: 'p1', over: 2, cloth: 'advised', copies: 1, priority: 'wanted', worth: 1 },
      margins: { leftUm: 63_500, rightUm: 63_500, topUm: 63_500, bottomUm: 63_500 },
    },
    // 17.7 cm is no whole number of quarter inches, nor of thousandths.
    { kind: 'size', widthUm: 177_000, heightUm: 279_400, mayTurn: false, copies: 2, priority: 'if there is room', worth: 1 },
  ],
  pieceIds: ['c1', 'c2'],
  ...{ objective: 'fewest cuts', gapUm: 6_350, leastOffcutUm: 127_000, seed: 7 },
}

describe('formOfAsked', () => {
  it('asks for the very same cuts again, from its address too', () => {
    const query = cutQuery(formOfAsked(asked, ['c1', 'c2'], 'in'))
    const params = new URLSearchParams(query)
    const fields = Object.fromEntries([...new Set(params.keys())].map((name) => [name, params.getAll(name)]))
    expect(askedOf(readCutForm(fields, 'in'), sources, settings)).toEqual({ asked, problems: new Map() })
  })

  it('leaves the pieces to be suggested when none of them is there any more', () => {
    expect(formOfAsked(asked, [], 'cm').pieceIds).toBeNull()
  })
})
