import { expect, it } from 'vitest'
import { RowsByText } from '#lib/coverage/rows-by-text'
import { seededRandom } from '#seed/random'

it('finds, replaces and forgets rows by their texts as a Map does, through many changes', () => {
  const random = seededRandom('rows by text')
  const texts = Array.from({ length: 300 }, (_, i) => `design ${i % 7} ${i}`)
  const [rows, map] = [new RowsByText((row) => texts[row % 300] as string, 4), new Map<string, number>()]
  for (let turn = 0; turn < 20_000; turn++) {
    const row = random.int(0, 899)
    const text = texts[row % 300] as string
    if (random.chance(0.3)) {
      rows.delete(text)
      map.delete(text)
    } else {
      rows.set(text, row)
      map.set(text, row)
    }
    if (turn % 500 === 0) for (const one of texts) expect(rows.get(one)).toBe(map.get(one) ?? -1)
  }
  expect(rows.get('never there')).toBe(-1)
})
