// Published sets for cutting one sheet from edge to edge, sources and rules in the data files. An optimum marked as computed is not
// published: it was found by an exact search when the data were collected.
import { describe, expect, it } from 'vitest'
import { checkPlan, lastPlan, sizesAsRequest } from '#tests/property/cut-checks'
import limited from './data/cutting-cgcut.json'
import unlimited from './data/cutting-gcut.json'
import zeroWaste from './data/cutting-zero-waste.json'

const rules = { objective: 'most value', gapUm: 0, leastOffcutUm: 1 } as const

describe('Christofides and Whitlock 1977: limited copies, most value', () => {
  for (const { id, sheet, items, optimum, optimumTurned } of limited.problems)
    for (const [isTurnable, best] of [
      [false, optimum],
      [true, optimumTurned],
    ] as const)
      it(`cuts ${id} for ${best}${isTurnable ? ' where pieces may be turned' : ', proved'}`, () => {
        const request = sizesAsRequest({ ...rules, pieces: [sheet], items, isTurnable })
        const plan = lastPlan(request, isTurnable ? 600 : 3_000)
        checkPlan(plan, request)
        expect(plan.value).toBe(best)
        if (!isTurnable) expect(plan).toMatchObject({ isProved: true, valueBound: optimum })
        expect(plan.valueBound).toBeGreaterThanOrEqual(best)
      })
})

describe('Beasley 1985: any number of copies', () => {
  for (const { id, sheet, items, optimum, optimumTurned } of unlimited.problems)
    for (const [isTurnable, best] of [
      [false, optimum],
      [true, optimumTurned],
    ] as const)
      it(`cuts ${id} for ${best}, proved${isTurnable ? ', where pieces may be turned' : ''}`, () => {
        const [width = 0, height = 0] = sheet
        const copies = items.map(([w = 1, h = 1]) => [
          w,
          h,
          Math.max(Math.floor(width / w) * Math.floor(height / h), Math.floor(width / h) * Math.floor(height / w), 1),
          w * h,
        ])
        const request = sizesAsRequest({ ...rules, pieces: [sheet], items: copies, isTurnable })
        const plan = lastPlan(request)
        checkPlan(plan, request)
        expect(plan).toMatchObject({ value: best, valueBound: best, isProved: true })
      })
})

describe('Sheets that pieces make up exactly', () => {
  for (const { id, sheet, pieces, isWholeUpright, isWholeTurned } of zeroWaste.problems)
    for (const [isTurnable, isWhole] of [
      [false, isWholeUpright],
      [true, isWholeTurned],
    ] as const)
      it(`${isWhole ? 'rebuilds' : 'does not claim to rebuild'} ${id} ${isTurnable ? 'with' : 'without'} turning`, () => {
        const request = sizesAsRequest({ ...rules, pieces: [sheet], items: pieces, isTurnable })
        const plan = lastPlan(request, isWhole ? 2_000 : 300)
        checkPlan(plan, request)
        const [width = 0, height = 0] = sheet
        if (isWhole) expect(plan).toMatchObject({ value: width * height, wasteUm2: 0, leftOut: [], isProved: true })
        else expect(plan.value).toBeLessThan(width * height)
      })
})
