// What is dark, held against the names of the ISCC–NBS system: K. L. Kelly and D. B. Judd, "Color: Universal Language and Dictionary of
// Names", NBS Special Publication 440, 1976; the 267 centroids in data/ (see colour-families.test.ts).
import { readFileSync } from 'node:fs'
import { expect, it } from 'vitest'
import { isDark } from '#lib/cloth/care'

const rows = readFileSync(new URL('./data/colour-iscc-nbs-centroids.csv', import.meta.url), 'utf8')
  .trim()
  .split(/\r?\n/)
  .slice(1)
  .map((line) => line.split(','))
  .map((cells) => ({ name: cells[1] as string, lab: { L: Number(cells[6]), a: 0, b: 0 } }))
const named = (words: RegExp) => rows.filter(({ name }) => words.test(name))

it('takes for dark 45 of the 52 colours called dark or black, and none of the 80 called light, pale, brilliant or white', () => {
  const dark = named(/Dark|Blackish|^Black$/)
  const light = named(/Light|Pale|Whit|Brilliant/).filter(({ name }) => !/Dark|Blackish|Deep/.test(name))
  expect([dark.length, light.length]).toEqual([52, 80])
  expect(dark.filter(({ lab }) => isDark(lab))).toHaveLength(45)
  expect(light.filter(({ lab }) => isDark(lab))).toEqual([])
})

it('leaves out of the dark ones only pinks, yellows and their kin, which are called dark while they are light', () => {
  const others = named(/Dark|Blackish|^Black$/).filter(({ lab }) => !isDark(lab))
  expect(
    others.every(({ name }) => /Pink|Yellow/.test(name)),
    others.map(({ name }) => name).join(', '),
  ).toBe(true)
})
