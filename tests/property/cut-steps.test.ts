import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { type CutBox, type CutLayout, type CutNode, nodesOf } from '#lib/cloth/cut-plan'
import { type CutPart, type CutStep, cutSteps, listOffcuts } from '#lib/cloth/cut-steps'

/** Pieces of whole units, cut at random from edge to edge, with or without something lost at each cut. */
const layouts: fc.Arbitrary<CutLayout> = fc
  .record({
    width: fc.integer({ min: 1, max: 30 }),
    height: fc.integer({ min: 1, max: 30 }),
    gapUm: fc.constantFrom(0, 0, 1, 2),
    choices: fc.array(fc.nat({ max: 1_000 }), { minLength: 40, maxLength: 40 }),
  })
  .map(({ width, height, gapUm, choices }) => {
    let copies = 0
    const next = () => {
      const choice = choices.shift() ?? 0
      choices.push((choice * 7 + 3) % 1_001)
      return choice
    }
    function grow(box: CutBox, depth: number): CutNode {
      const choice = next()
      const way = choice % 2 ? 'across' : 'up'
      const side = way === 'across' ? box.heightUm : box.widthUm
      if (depth === 0 || side < 2 || choice % 5 === 0) {
        const kind = (['wanted', 'wanted', 'offcut', 'waste'] as const)[choice % 4]
        return kind === 'wanted'
          ? { ...box, kind, wishId: `wish ${choice % 3}`, copy: ++copies, isTurned: choice % 7 === 0 }
          : { ...box, kind: kind ?? 'waste' }
      }
      const atUm = 1 + (next() % (side - 1))
      const restUm = side - atUm - gapUm
      const first = grow(way === 'across' ? { ...box, heightUm: atUm } : { ...box, widthUm: atUm }, depth - 1)
      if (restUm <= 0) return { ...box, kind: 'cut', way, atUm, first, second: null }
      const rest =
        way === 'across'
          ? { ...box, yUm: box.yUm + atUm + gapUm, heightUm: restUm }
          : { ...box, xUm: box.xUm + atUm + gapUm, widthUm: restUm }
      return { ...box, kind: 'cut', way, atUm, first, second: grow(rest, depth - 1) }
    }
    return { pieceId: 'piece', root: grow({ xUm: 0, yUm: 0, widthUm: width, heightUm: height }, 5) }
  })

const run = (check: (layout: CutLayout, steps: CutStep[]) => void) =>
  fc.assert(
    fc.property(layouts, (layout) => check(layout, cutSteps(layout))),
    { seed: 41, numRuns: 2_000 },
  )

const partsOf = ({ off, rest }: CutStep): CutPart[] => (rest ? [...off, rest] : off)

describe('cutting steps', () => {
  it('cut the lines of the plan and no others, each once', () => {
    run((layout, steps) => {
      const planned = [...nodesOf(layout.root)].flatMap((node) =>
        node.kind !== 'cut'
          ? []
          : node.way === 'across'
            ? [`across ${node.yUm + node.atUm}: ${node.xUm} to ${node.xUm + node.widthUm}`]
            : [`up ${node.xUm + node.atUm}: ${node.yUm} to ${node.yUm + node.heightUm}`],
      )
      const told = steps.flatMap(({ lines, way }) =>
        lines.map(({ x1Um, y1Um, x2Um, y2Um }) =>
          way === 'across' ? `across ${y1Um}: ${x1Um} to ${x2Um}` : `up ${x1Um}: ${y1Um} to ${y2Um}`,
        ),
      )
      expect(told.sort()).toEqual(planned.sort())
    })
  })

  it('are numbered on, and cut only what an earlier step left there', () => {
    run((_, steps) => {
      for (const [at, { number, table }] of steps.entries()) {
        expect(number).toBe(at + 1)
        if (at === 0) expect(table.from.kind).toBe('whole')
        else expect(table.from.kind !== 'whole' && table.from.step < number).toBe(true)
      }
      const promised = steps.flatMap(partsOf).flatMap(({ fate }) => (fate.kind === 'cut' ? [fate.atStep] : []))
      expect(promised.sort((one, other) => one - other)).toEqual(steps.slice(1).map(({ number }) => number))
    })
  })

  it('hand out every wanted copy once and every offcut by its number', () => {
    run((layout, steps) => {
      if (layout.root.kind !== 'cut') return
      const parts = steps.flatMap(partsOf)
      const copies = parts.flatMap(({ fate }) => (fate.kind === 'wanted' ? fate.copies : []))
      const numbers = parts.flatMap(({ fate }) => (fate.kind === 'offcut' ? fate.numbers : []))
      const wanted = [...nodesOf(layout.root)].flatMap((node) => (node.kind === 'wanted' ? [node.copy] : []))
      expect(copies.sort((one, other) => one - other)).toEqual(wanted.sort((one, other) => one - other))
      expect(numbers.sort((one, other) => one - other)).toEqual(listOffcuts(layout).map(({ number }) => number))
    })
  })

  it('are measured so that a person with a tape finds the line', () => {
    run((_, steps) => {
      for (const { way, table, atUm, lines, off } of steps) {
        const side = way === 'across' ? table.heightUm : table.widthUm
        expect(lines).toHaveLength(atUm.length * table.count)
        for (const [at, um] of atUm.entries()) {
          expect(um).toBeGreaterThan(at === 0 ? 0 : (atUm[at - 1] as number))
          expect(um).toBeLessThan(side)
        }
        // What comes off lies within what was on the table.
        const sizes = off.map(({ widthUm, heightUm }) => (way === 'across' ? heightUm : widthUm))
        expect(new Set(sizes).size).toBe(1)
        for (const part of off)
          expect(way === 'across' ? part.widthUm : part.heightUm).toBe(way === 'across' ? table.widthUm : table.heightUm)
      }
    })
  })
})
