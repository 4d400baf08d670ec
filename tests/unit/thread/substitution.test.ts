import { describe, expect, it } from 'vitest'
import { judgeSwap, type SwapFinding, type SwapQuestion, shadingStep } from '#lib/thread/substitution'
import { aThread, lab } from './swap-threads'

const grey = lab(50, 0, 0)
const plenty = { freeStrandTenths: 480_000, bestLotStrandTenths: 480_000, isSomeHeld: false }

const judge = (question: Partial<SwapQuestion>) =>
  judgeSwap({
    original: aThread('original', grey),
    candidate: aThread('candidate', grey),
    others: [],
    cloth: lab(90, 0, 5),
    need: { strandTenths: 100_000, strands: 2 },
    stock: plenty,
    ...question,
  })

const kinds = (findings: readonly SwapFinding[], rule: SwapFinding['rule']) =>
  findings.filter((finding) => finding.rule === rule).map(({ kind, weight }) => `${kind} ${weight}`)

describe('behaviour', () => {
  it('flags a solid for an overdyed thread as losing the mottling, and the other way round as bringing it', () => {
    const overdyed = { dyeing: 'overdyed' as const }
    const loses = judge({ original: aThread('original', grey, overdyed) })
    const brings = judge({ candidate: aThread('candidate', grey, overdyed) })
    const other = judge({
      original: aThread('original', grey, overdyed),
      candidate: aThread('candidate', grey, { dyeing: 'variegated' }),
    })
    expect(kinds(loses.findings, 'behaviour')).toEqual(['loses-mottling flagged'])
    expect(kinds(brings.findings, 'behaviour')).toEqual(['brings-mottling flagged'])
    expect(kinds(other.findings, 'behaviour')).toEqual(['other-mottling flagged'])
    expect(loses.isAccepted).toBe(true)
  })
})

describe('fibre and thickness', () => {
  it('takes fibres alike however they are spelt, and flags another or an unknown one', () => {
    expect(kinds(judge({ candidate: aThread('c', grey, { fibre: ' Cotton' }) }).findings, 'fibre')).toEqual(['same-fibre passes'])
    expect(kinds(judge({ candidate: aThread('c', grey, { fibre: 'silk' }) }).findings, 'fibre')).toEqual(['other-fibre flagged'])
    expect(kinds(judge({ candidate: aThread('c', grey, { fibre: null }) }).findings, 'fibre')).toEqual([
      'fibre-not-known flagged',
    ])
  })

  it('works out the strands from what a length weighs, and scales the need by them', () => {
    // Half the weight in the same length: two strands take the place of one, so the need doubles.
    const heavy = { putUpMilligrams: 2_000 }
    const light = { putUpMilligrams: 1_000 }
    const verdict = judge({ original: aThread('o', grey, heavy), candidate: aThread('c', grey, light) })
    expect(verdict.findings).toContainEqual(
      expect.objectContaining({ kind: 'other-strands', chartedStrands: 2, strands: 4, by: 'weight' }),
    )
    expect(verdict.needStrandTenths).toBe(200_000)
  })

  it('uses an undividable thread once where two strands were charted, and says that its thickness is not known', () => {
    const verdict = judge({ candidate: aThread('c', grey, { strands: 1 }) })
    expect(kinds(verdict.findings, 'fibre')).toEqual([
      'same-fibre passes',
      'thickness-not-known flagged',
      'other-strands flagged',
    ])
    expect(verdict.needStrandTenths).toBe(50_000)
  })
})

describe('difference', () => {
  it.each([
    [1, 'same passes'],
    [1.9, 'very-near passes'],
    [4.5, 'usable flagged'],
    [6, 'design-change rejects'],
  ])('at mid-grey a lightness step of %s is %s', (step, expected) => {
    // At L 50 the lightness weight of CIEDE2000 is 1 and falls off slowly on both sides.
    const verdict = judge({ original: aThread('o', lab(50 - step / 2, 0, 0)), candidate: aThread('c', lab(50 + step / 2, 0, 0)) })
    expect(kinds(verdict.findings, 'difference')).toEqual([expected])
  })

  it('proposes nothing whose colour is not known, but takes the designer’s own whatever its colour', () => {
    const unknown = aThread('c', null)
    expect(judge({ candidate: unknown })).toMatchObject({ isAccepted: false, deltaE: null })
    expect(judge({ candidate: unknown, isDesignersOwn: true }).isAccepted).toBe(true)
    expect(judge({ candidate: aThread('c', lab(30, 40, 10)), isDesignersOwn: true }).findings).toContainEqual(
      expect.objectContaining({ kind: 'designers-own', weight: 'passes' }),
    )
  })
})

describe('keeping colours apart', () => {
  const other = (chosen: string, colour = lab(60, 0, 0)) => ({
    chartedThreadId: 'other',
    chartedLab: lab(60, 0, 0),
    chosenThreadId: chosen,
    chosenLab: colour,
  })

  it('looks at the colour as chosen, not as charted', () => {
    const stillClear = judge({ candidate: aThread('c', lab(52, 0, 0)), others: [other('other')] })
    const cameNear = judge({ candidate: aThread('c', lab(52, 0, 0)), others: [other('moved', lab(54, 0, 0))] })
    expect(stillClear.isAccepted).toBe(true)
    expect(cameNear.findings).toContainEqual(expect.objectContaining({ kind: 'too-near', chosenThreadId: 'moved' }))
  })

  it('never lets two charted colours come to one thread without a merge that was asked for', () => {
    const question = { candidate: aThread('shared', lab(52, 0, 0)), others: [other('shared', lab(52, 0, 0))] }
    expect(judge(question)).toMatchObject({ isAccepted: false })
    const merged = judge({ ...question, mergedWith: new Set(['other']) })
    expect(merged.isAccepted).toBe(true)
    expect(kinds(merged.findings, 'apart')).toEqual(['merged flagged', 'kept-apart passes'])
  })

  it('says how many others it could not judge', () => {
    const verdict = judge({ others: [{ ...other('other'), chosenLab: null }] })
    expect(kinds(verdict.findings, 'apart')).toEqual(['others-not-known flagged'])
  })
})

describe('light–dark order', () => {
  it('is read within a hue run only, from a lightness step of 2 on', () => {
    expect(shadingStep(lab(40, 20, 0), lab(50, 20, 5))).toBe(-10)
    expect(shadingStep(lab(40, 20, 0), lab(41.5, 20, 5))).toBeNull()
    expect(shadingStep(lab(40, 20, 0), lab(50, -20, 0))).toBeNull()
    expect(shadingStep(lab(40, 1, 0), lab(50, -2, 1))).toBe(-10)
    expect(shadingStep(lab(40, 1, 0), lab(50, 30, 0))).toBeNull()
    // Hues either side of the turn from −180° to 180°.
    expect(shadingStep(lab(60, -30, 1), lab(50, -30, -1))).toBe(10)
  })

  it('rejects a swap that turns a step of a run', () => {
    const others = [{ chartedThreadId: 'dark', chartedLab: lab(40, 20, 5), chosenThreadId: 'dark', chosenLab: lab(40, 20, 5) }]
    const original = aThread('light', lab(44, 26, 5))
    const kept = judge({ original, candidate: aThread('c', lab(43, 27, 5)), others })
    const turned = judge({ original, candidate: aThread('c', lab(39.5, 27, 5)), others })
    expect(kinds(kept.findings, 'order')).toEqual(['order-kept passes'])
    expect(turned.findings).toContainEqual(expect.objectContaining({ kind: 'order-turned', chartedStep: 4, step: -0.5 }))
  })
})

describe('contrast with the cloth', () => {
  it('asks for a lightness gap of 15, or 0.8 of the gap where the original was tone on tone', () => {
    const cloth = lab(65, 0, 0)
    const faint = judge({ candidate: aThread('c', lab(51, 0, 0)), cloth })
    expect(faint.findings).toContainEqual(expect.objectContaining({ kind: 'too-faint', gap: 14, least: 15 }))
    const toneOnTone = judge({ candidate: aThread('c', lab(52, 0, 0)), cloth: lab(60, 0, 0) })
    expect(toneOnTone.findings).toContainEqual(expect.objectContaining({ kind: 'shows', gap: 8, least: 8, isToneOnTone: true }))
    const lost = judge({ candidate: aThread('c', lab(52.5, 0, 0)), cloth: lab(60, 0, 0) })
    expect(lost.isAccepted).toBe(false)
  })

  it('is flagged where the cloth’s colour is not known', () => {
    expect(kinds(judge({ cloth: null }).findings, 'contrast')).toEqual(['cloth-not-known flagged'])
  })
})

describe('enough length', () => {
  const need = { strandTenths: 500_000, strands: 2 }
  const twoLots = { freeStrandTenths: 600_000, bestLotStrandTenths: 300_000, isSomeHeld: false }

  it('takes one lot that holds it all, flags a mix of lots, and refuses a mix where lots matter', () => {
    const one = { ...twoLots, bestLotStrandTenths: 500_000 }
    expect(kinds(judge({ need, stock: one }).findings, 'length')).toEqual(['one-lot passes'])
    expect(kinds(judge({ need, stock: twoLots }).findings, 'length')).toEqual(['mixed-lots flagged'])
    const dyed = aThread('c', grey, { lotsMatter: true })
    expect(kinds(judge({ need, stock: twoLots, candidate: dyed }).findings, 'length')).toEqual(['lots-too-small rejects'])
  })

  it('refuses too little, and does not ask at all where only the colour is asked about', () => {
    const little = { freeStrandTenths: 499_999, bestLotStrandTenths: 499_999, isSomeHeld: true }
    expect(kinds(judge({ need, stock: little }).findings, 'length')).toEqual(['too-little rejects'])
    expect(kinds(judge({ need: null, stock: null }).findings, 'length')).toEqual([])
  })
})
