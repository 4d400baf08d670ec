import { describe, expect, it } from 'vitest'
import { judgeSwap } from '#lib/thread/substitution'
import { describeAgainst, describeFinding, differenceWords, isWorthALine } from '#words/swaps'
import { aThread, lab } from '../thread/swap-threads'

const naming = { nameOf: (threadId: string) => `Larkholm ${threadId}`, strands: 6, unit: 'm' as const }

// Scenario A5 once more, in words.
const judge = (candidate: ReturnType<typeof aThread>) =>
  judgeSwap({
    original: aThread('1204', lab(46, 38, 18)),
    candidate,
    others: [
      {
        chartedThreadId: '1205',
        chartedLab: lab(49.5, 35.5, 20.5),
        chosenThreadId: '1205',
        chosenLab: lab(49.5, 35.5, 20.5),
      },
    ],
    cloth: lab(82, 3, 14),
    need: { strandTenths: 300_000, strands: 2 },
    stock: { freeStrandTenths: 480_000, bestLotStrandTenths: 480_000, isSomeHeld: false },
  })

describe('a swap in words', () => {
  it('says each rule with its figures', () => {
    const verdict = judge(aThread('Y', lab(43.5, 39.5, 17)))
    expect(differenceWords(verdict)).toBe('2.57, usable, look first')
    expect(verdict.findings.map((finding) => describeFinding(finding, naming))).toEqual([
      'Solid for solid',
      'The same fibre, cotton',
      '2.57 from the charted colour: usable, look first',
      'Keeps clear of every other colour; nearest to trouble is Larkholm 1205, 6.67 away where 3.00 is asked',
      'The shading keeps its order, light to dark',
      'Shows on the cloth: 38.5 in lightness from it',
      'Enough of one lot: 8 m for 5 m',
    ])
  })

  it('says against a candidate what it breaks, and only where it breaks nothing what it crosses over in', () => {
    expect(describeAgainst(judge(aThread('X', lab(48, 36.5, 19.5), { fibre: 'silk' })), naming)).toEqual([
      'Too near Larkholm 1205: 1.75 apart where 3.00 is asked',
    ])
    const crossing = judge(aThread('Y', lab(43.5, 39.5, 17), { fibre: 'silk', dyeing: 'overdyed' }))
    expect(describeAgainst(crossing, naming)).toEqual([
      'Overdyed for solid: brings mottling',
      'Silk for cotton: another sheen and wear',
    ])
  })

  it('says a change of the design twice over, and a usable difference once', () => {
    const far = judge(aThread('Z', lab(30, 40, 10)))
    const usable = judge(aThread('Y', lab(43.5, 39.5, 17)))
    const lines = (verdict: typeof far) =>
      verdict.findings.filter((finding) => isWorthALine(finding, true)).filter(({ rule }) => rule === 'difference')
    expect(lines(far)).toHaveLength(1)
    expect(lines(usable)).toEqual([])
  })
})
