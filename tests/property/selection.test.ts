import fc from 'fast-check'
import { expect, it } from 'vitest'
import { RunLines } from '#lib/listing/runs'
import { allChosen, chosenOf, countChosen, nothingChosen, readSelection, selectionText, withChosen } from '#lib/listing/selection'

const seed = 20_261_130
const size = 40
const ids = Array.from({ length: size }, (_, at) => `d${at}`)

const act = fc.oneof(
  fc.record({ kind: fc.constant('run' as const), from: fc.nat(size - 1), to: fc.nat(size - 1), isIn: fc.boolean() }),
  fc.record({ kind: fc.constantFrom('all' as const, 'none' as const) }),
)

it('chooses as a plain set of ids would, whatever runs are put in and taken out', () => {
  fc.assert(
    fc.property(fc.array(act, { maxLength: 30 }), (acts) => {
      let selection = nothingChosen
      let plain = new Set<string>()
      for (const one of acts) {
        if (one.kind !== 'run') {
          selection = one.kind === 'all' ? allChosen : nothingChosen
          plain = new Set(one.kind === 'all' ? ids : [])
          continue
        }
        const run = ids.slice(Math.min(one.from, one.to), Math.max(one.from, one.to) + 1)
        selection = withChosen(selection, run, one.isIn)
        for (const id of run) one.isIn ? plain.add(id) : plain.delete(id)
      }
      expect(chosenOf(selection, ids)).toEqual(ids.filter((id) => plain.has(id)))
      expect(countChosen(selection, size)).toBe(plain.size)
      expect(readSelection(selectionText(selection))).toEqual(selection)
    }),
    { seed, numRuns: 300 },
  )
})

it('lays out headings and rows as writing them all down would', () => {
  fc.assert(
    fc.property(fc.nat(30), fc.array(fc.nat(29), { maxLength: 8 }), (total, firsts) => {
      const runs = firsts
        .filter((first) => first < total)
        .sort((a, b) => a - b)
        .map((first, at) => ({ title: `${at}`, note: '', first }))
      const written: string[] = []
      for (let row = 0; row < total; row++) {
        for (const run of runs) if (run.first === row) written.push(`head ${run.title}`)
        written.push(`row ${row}`)
      }
      const lines = new RunLines(runs, total)
      const drawn = Array.from({ length: lines.count }, (_, at) => lines.at(at))
      expect(drawn.map((line) => (line.kind === 'head' ? `head ${line.run.title}` : `row ${line.row}`))).toEqual(written)
      for (let row = 0; row < total; row++) expect(written[lines.lineOf(row)]).toBe(`row ${row}`)
    }),
    { seed, numRuns: 300 },
  )
})
