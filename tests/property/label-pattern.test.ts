import fc from 'fast-check'
import { expect, it } from 'vitest'
import {
  countPlaces,
  expandLabelPattern,
  type LabelPattern,
  labelBetween,
  levelInPattern,
  longestLabel,
  mostPlaces,
  nextFreeLabel,
  parseLabelPattern,
  printLabelPattern,
} from '#lib/place/label-pattern'
import type { Place } from '#lib/place/place'
import { compareLabels, walkOrder } from '#lib/place/walk-order'
import { textKey } from '#lib/quantity/text-key'

const settings = { seed: 20261129, numRuns: 400 }

const pieces = ['T', 'Box ', '.', '-', '/', ' ', 'é', '2', '07', 'ſ', '(', '+', ' no. ', '²']
const bracketText = fc.oneof(
  fc
    .record({ from: fc.nat(14), more: fc.nat(14), step: fc.integer({ min: 1, max: 6 }), width: fc.constantFrom(0, 2, 3) })
    .map(({ from, more, step, width }) => {
      const write = (value: number) => String(value).padStart(width, '0')
      return `[${write(from)}-${write(from + more)}${step > 1 ? ` by ${step}` : ''}]`
    }),
  fc.record({ from: fc.nat(20), more: fc.nat(5), lower: fc.boolean() }).map(({ from, more, lower }) => {
    const letter = (at: number) => String.fromCharCode((lower ? 97 : 65) + at)
    return `[${letter(from)}-${letter(from + more)}]`
  }),
  fc.uniqueArray(fc.nat(30), { minLength: 1, maxLength: 4 }).map((values) => `[${values.sort((a, b) => a - b).join(', ')}]`),
)
const partText = fc.oneof({ weight: 2, arbitrary: bracketText }, { weight: 1, arbitrary: fc.constantFrom(...pieces) })
const levelText = fc.array(partText, { minLength: 1, maxLength: 3 }).map((parts) => parts.join(''))
const patternText = fc.array(levelText, { minLength: 1, maxLength: 3 }).map((levels) => levels.join(' > '))

/** Patterns that read; most of those drawn do. */
const pattern = patternText
  .map((text) => parseLabelPattern(text))
  .filter((result) => result.ok)
  .map((result) => (result.ok ? result.value : ([] as LabelPattern)))
  .filter((read) => countPlaces(read) <= 1_500)

it('reads what it prints as the same pattern', () => {
  fc.assert(
    fc.property(pattern, (read) => {
      expect(parseLabelPattern(printLabelPattern(read))).toEqual({ ok: true, value: read })
    }),
    settings,
  )
})

it('reads any text or says where it does not, within it', () => {
  const anything = fc.oneof(patternText, fc.string({ unit: fc.constantFrom(...'T[]-,>by 0123AF.'), maxLength: 24 }))
  fc.assert(
    fc.property(anything, (text) => {
      const result = parseLabelPattern(text)
      if (result.ok) expect(countPlaces(result.value)).toBeLessThanOrEqual(mostPlaces)
      else if ('at' in result.error) {
        expect(result.error.at).toBeGreaterThanOrEqual(1)
        expect(result.error.at).toBeLessThanOrEqual(text.length + 1)
      }
    }),
    { ...settings, numRuns: 2_000 },
  )
})

it('makes as many labels as it says, each once however it is spelt, none too long, each at its own level', () => {
  fc.assert(
    fc.property(pattern, (read) => {
      const labels = expandLabelPattern(read)
      expect(labels).toHaveLength(countPlaces(read))
      expect(new Set(labels.map(({ label }) => textKey(label))).size).toBe(labels.length)
      for (const { label, level, insideLabel } of labels) {
        expect(label.length).toBeLessThanOrEqual(longestLabel)
        expect(levelInPattern(read, label)).toBe(level)
        expect(label.startsWith(insideLabel ?? '')).toBe(true)
      }
    }),
    settings,
  )
})

it('makes them in the order one walks past them', () => {
  fc.assert(
    fc.property(pattern, (read) => {
      const places = expandLabelPattern(read).map(
        ({ label, insideLabel }): Place => ({
          ...{ id: label, label, parentId: insideLabel, name: null, kind: 'box', path: '/' },
          ...{ walkOrder: null, capacity: null },
        }),
      )
      expect(walkOrder(places.toReversed()).map(({ label }) => label)).toEqual(places.map(({ label }) => label))
    }),
    settings,
  )
})

it('finds as next free the first label in walking order that nobody has', () => {
  fc.assert(
    fc.property(pattern, fc.nat(9), (read, every) => {
      const labels = expandLabelPattern(read)
      const taken = new Set(labels.filter((_, index) => index % 10 <= every).map(({ label }) => label))
      for (const insideLabel of [null, labels[0]?.label as string]) {
        const level = insideLabel === null ? 0 : 1
        const first = labels.find((one) => one.level === level && one.insideLabel === insideLabel && !taken.has(one.label))
        expect(nextFreeLabel(read, level, insideLabel, (label) => taken.has(label))).toBe(first?.label ?? null)
      }
    }),
    settings,
  )
})

it('puts a label between two only where it falls between them on the walk', () => {
  const number = fc.record({ value: fc.nat(400), width: fc.constantFrom(0, 3) })
  fc.assert(
    fc.property(
      fc.constantFrom(...pieces.filter((piece) => !/\d/.test(piece))),
      number,
      fc.nat(30),
      (text, { value, width }, more) => {
        const label = (at: number) => `${text}${String(at).padStart(width, '0')}`
        const between = labelBetween(label(value), label(value + more))
        expect(between !== null).toBe(more >= 2)
        if (between === null) return
        expect(compareLabels(label(value), between)).toBeLessThan(0)
        expect(compareLabels(between, label(value + more))).toBeLessThan(0)
      },
    ),
    settings,
  )
})
