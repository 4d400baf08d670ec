import fc from 'fast-check'
import { expect, it } from 'vitest'
import { labelCode, mergeDark, quietSquares } from '#lib/printing/label-code'
import { labelFace, leastSquareMm } from '#lib/printing/label-face'
import type { Measure } from '#lib/printing/mark'

const measure: Measure = ({ text, size, isBold }) => text.length * size * (isBold ? 0.56 : 0.52)
const words = fc.array(fc.stringMatching(/^[A-Za-z0-9.›-]{1,30}$/), { minLength: 1, maxLength: 12 }).map((all) => all.join(' '))
const code = labelCode('http://192.168.1.20:4300/places/0192f0c1-7a3e-7c55-9d1b-000000000001', 'L')

it('keeps words and code of a label within it, however small the label and long the words', () => {
  fc.assert(
    fc.property(
      fc.double({ min: 10, max: 120, noNaN: true }),
      fc.double({ min: 6, max: 80, noNaN: true }),
      words,
      fc.option(words, { nil: '' }),
      (width, height, title, note) => {
        const outer = { x: 3, y: 5, width, height }
        const edge = { x: Math.min(2, width * 0.08), y: Math.min(2, height * 0.1) }
        const inside = { x: 3 + edge.x, y: 5 + edge.y, width: width - 2 * edge.x, height: height - 2 * edge.y }
        const { marks, hasCode } = labelFace({ title, note }, code, { outer, inside }, measure)
        const codes = marks.filter((mark) => mark.kind === 'squares')
        expect(codes).toHaveLength(hasCode ? 1 : 0)
        const [placed] = codes
        if (placed) {
          const quiet = quietSquares * placed.sideMm
          const side = code.squares * placed.sideMm
          expect(placed.sideMm).toBeGreaterThanOrEqual(leastSquareMm)
          expect(placed.x - quiet).toBeGreaterThanOrEqual(outer.x - 1e-9)
          expect(placed.y - quiet).toBeGreaterThanOrEqual(outer.y - 1e-9)
          expect(placed.y + side + quiet).toBeLessThanOrEqual(outer.y + outer.height + 1e-9)
          expect(placed.y + side).toBeLessThanOrEqual(inside.y + inside.height + 1e-9)
        }
        for (const mark of marks) {
          if (mark.kind !== 'words') continue
          expect(mark.x).toBeGreaterThanOrEqual(
            placed ? placed.x + (code.squares + quietSquares) * placed.sideMm - 1e-9 : inside.x,
          )
          expect(mark.x + measure(mark)).toBeLessThanOrEqual(inside.x + inside.width + 1e-9)
          // Letters reach nine tenths of their size above their line, their tails a quarter below it.
          expect(mark.y - 0.9 * mark.size).toBeGreaterThanOrEqual(inside.y - 1e-9)
          expect(mark.y + 0.25 * mark.size).toBeLessThanOrEqual(inside.y + inside.height + 1e-9)
        }
      },
    ),
    { seed: 18_004, numRuns: 400 },
  )
})

it('makes of any dark squares rectangles that cover each once and nothing else', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 12 }), fc.infiniteStream(fc.boolean()), (size, stream) => {
      const dark = Array.from({ length: size * size }, () => Number(stream.next().value))
      const covered = dark.map(() => 0)
      const runs = mergeDark(dark, size)
      for (let at = 0; at < runs.length; at += 4) {
        const [x, y, width, height] = runs.slice(at, at + 4) as [number, number, number, number]
        for (let row = y; row < y + height; row++)
          for (let column = x; column < x + width; column++)
            covered[row * size + column] = 1 + (covered[row * size + column] ?? 0)
      }
      expect(covered).toEqual(dark)
    }),
    { seed: 18_004, numRuns: 300 },
  )
})
