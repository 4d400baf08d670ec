import { describe, expect, it } from 'vitest'
import { deltaE00 } from '#lib/colour/convert'
import type { Lab } from '#lib/colour/lab'
import { judgeSwap, leastDistance, type SwapFinding } from '#lib/thread/substitution'
import { aThread, lab } from '../unit/thread/swap-threads'

// The worked substitution scenario: original 1204 with 1205 beside it, candidates X and Y, all figures worked by hand or given there.
const original = lab(46, 38, 18)
const neighbour = lab(49.5, 35.5, 20.5)
const cloth = lab(82, 3, 14)
const x = lab(48, 36.5, 19.5)
const y = lab(43.5, 39.5, 17)

/** The plain distance in CIELAB: CIE 1976. */
const plain = (one: Lab, other: Lab) => Math.hypot(one.L - other.L, one.a - other.a, one.b - other.b)

const judge = (colour: Lab) =>
  judgeSwap({
    original: aThread('1204', original),
    candidate: aThread('candidate', colour),
    others: [{ chartedThreadId: '1205', chartedLab: neighbour, chosenThreadId: '1205', chosenLab: neighbour }],
    cloth,
    need: { strandTenths: 100_000, strands: 2 },
    stock: { freeStrandTenths: 480_000, bestLotStrandTenths: 480_000, isSomeHeld: false },
  })

const findingOf = (findings: readonly SwapFinding[], rule: SwapFinding['rule']) =>
  findings.find((finding) => finding.rule === rule && finding.weight !== 'passes') ??
  findings.find((finding) => finding.rule === rule)

describe('scenario A5: a stand-in for 1204 that does not look like 1205', () => {
  it('comes to the same figures by the plain difference', () => {
    expect(plain(original, neighbour)).toBeCloseTo(4.97, 2)
    expect(leastDistance(plain(original, neighbour))).toBe(3)
    expect(plain(original, x)).toBeCloseTo(2.92, 2)
    expect(plain(neighbour, x)).toBeCloseTo(2.06, 2)
    expect(plain(original, y)).toBeCloseTo(3.08, 2)
    expect(plain(neighbour, y)).toBeCloseTo(8.02, 2)
  })

  it('comes to the given figures by CIEDE2000, and asks for 3 between them', () => {
    expect(deltaE00(original, neighbour)).toBeCloseTo(4.12, 2)
    expect(leastDistance(deltaE00(original, neighbour))).toBe(3)
    expect(deltaE00(original, x)).toBeCloseTo(2.36, 2)
    expect(deltaE00(neighbour, x)).toBeCloseTo(1.75, 2)
    expect(deltaE00(original, y)).toBeCloseTo(2.57, 2)
    expect(deltaE00(neighbour, y)).toBeCloseTo(6.67, 2)
  })

  it('rejects X, though it is nearer, for coming within 3 of 1205', () => {
    const verdict = judge(x)
    expect(verdict.isAccepted).toBe(false)
    expect(verdict.findings.filter(({ weight }) => weight === 'rejects')).toMatchObject([
      { rule: 'apart', kind: 'too-near', chosenThreadId: '1205', least: 3 },
    ])
  })

  it('accepts Y: far enough from 1205, darker still, and seen on the cloth', () => {
    const verdict = judge(y)
    expect(verdict.isAccepted).toBe(true)
    expect(findingOf(verdict.findings, 'difference')).toMatchObject({ kind: 'usable', weight: 'flagged' })
    expect(findingOf(verdict.findings, 'apart')).toMatchObject({
      kind: 'kept-apart',
      nearest: { chartedThreadId: '1205', least: 3 },
    })
    expect(findingOf(verdict.findings, 'order')).toMatchObject({ kind: 'order-kept', pairs: 1 })
    expect(findingOf(verdict.findings, 'contrast')).toMatchObject({ kind: 'shows', gap: 38.5, least: 15, isToneOnTone: false })
  })
})
