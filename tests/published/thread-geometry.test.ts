// Thread per stitch by plane geometry on the holes of a square cloth. No published yield is known: these two tables
// (data/thread-geometry.json, data/thread-routes.json) are derivations made apart from each other and from lib/thread, each held against a
// simulated needle path. They agree with the orders of holes in Christie, "Embroidery and Tapestry Weaving", 1906 (crosses one by one),
// and with the two-line cross of a public-domain needlework encyclopedia (in rows). The put-up of 8 m and six strands is common
// practice, no published source.
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { pitchUm } from '#lib/quantity/count'
import { stitchLengthUm } from '#lib/thread/stitch-geometry'
import type { Stitch, Working } from '#lib/thread/stitches'
import { threadUse } from '#lib/thread/thread-use'

const read = (name: string) => JSON.parse(readFileSync(new URL(`./data/${name}`, import.meta.url), 'utf8'))

type Geometry = {
  stitches: { id: string; totalPitches: number }[]
  fabrics: ({ fabric: string; count: number; over: 1 | 2; pitchMm: number } & Record<string, number>)[]
  skein: { table: { fabric: string; stitch: string; strands1: number; strands2: number; strands3: number }[] }
}
const geometry = read('thread-geometry.json') as Geometry
const routes = (read('thread-routes.json') as { perStitchLimit: Record<string, number> }).perStitchLimit

/** The names in the tables, and ours. A three-quarter stitch worked quarter first is not offered. */
const ours: Record<string, [Stitch, Working]> = {
  'full-rows': ['full', 'rows'],
  'full-one-at-a-time': ['full', 'crosses'],
  'half-row': ['half', 'rows'],
  'half-tent': ['tent', 'rows'],
  'quarter-row': ['quarter', 'rows'],
  'three-quarter-half-first': ['threeQuarter', 'rows'],
  backstitch: ['backstitch', 'rows'],
  'backstitch-diagonal': ['backstitchDiagonal', 'rows'],
}
const inRoutes: Record<string, [Stitch, Working]> = {
  danishFull: ['full', 'rows'],
  englishFull: ['full', 'crosses'],
  halfRow: ['half', 'rows'],
  quarterInRow: ['quarter', 'rows'],
  threeQuarterInRow: ['threeQuarter', 'rows'],
  backstitch: ['backstitch', 'rows'],
}

const lengthUm = (names: Record<string, [Stitch, Working]>, id: string, pitch: number) => {
  const [stitch, working] = names[id] as [Stitch, Working]
  return stitchLengthUm(stitch, working, { acrossUm: pitch, upUm: pitch })
}

describe('thread per stitch against the derived tables', () => {
  it.each(geometry.stitches.filter(({ id }) => id in ours))('$id takes $totalPitches pitches', ({ id, totalPitches }) => {
    expect(lengthUm(ours, id, 1)).toBeCloseTo(totalPitches, 8)
  })

  it.each(Object.keys(inRoutes))('%s takes the length of the second derivation', (id) => {
    expect(lengthUm(inRoutes, id, 1)).toBeCloseTo(routes[id] as number, 8)
  })

  it.each(geometry.fabrics)('$fabric has the pitch and the lengths of the table', (fabric) => {
    const pitch = pitchUm({ threads: fabric.count, perUm: 25_400 }, fabric.over)
    expect(pitch / 1_000).toBeCloseTo(fabric.pitchMm, 8)
    for (const id of Object.keys(ours)) expect(lengthUm(ours, id, pitch) / 1_000).toBeCloseTo(fabric[id] as number, 5)
  })

  it('works as many stitches from 8 m of six strands, with no allowance, as the table says, and not one more', () => {
    const rows = geometry.skein.table.filter(({ stitch }) => stitch in ours)
    expect(rows).toHaveLength(56)
    for (const row of rows) {
      const fabric = geometry.fabrics.find((entry) => entry.fabric === row.fabric)
      if (!fabric) throw new Error(row.fabric)
      const pitch = pitchUm({ threads: fabric.count, perUm: 25_400 }, fabric.over)
      const [stitch, working] = ours[row.stitch] as [Stitch, Working]
      for (const [strands, most] of [
        [1, row.strands1],
        [2, row.strands2],
        [3, row.strands3],
      ] as const) {
        const need = (tally: number) =>
          threadUse({ tally: { [stitch]: tally }, strands, working, acrossUm: pitch, upUm: pitch, allowance: 1 }).strandTenths
        expect(need(most)).toBeLessThanOrEqual(480_000)
        expect(need(most + 1)).toBeGreaterThan(480_000)
      }
    }
  })
})
