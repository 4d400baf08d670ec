import { describe, expect, it } from 'vitest'
import { bleedRisk, type CareFacts, careOf, clothBleedReason, turningQuestion } from '#lib/cloth/care'
import { aPiece, toTheInch } from './cloth-pieces'

const barnRed = { L: 45, a: 42, b: 18 }
const nightBlue = { L: 26, a: 1, b: -18 }
const paleGrey = { L: 80, a: 0, b: 1 }

const aCard = (over: Partial<CareFacts> = {}): CareFacts => ({ ...aPiece(), bleedTest: null, ...over })
const kinds = (over: Partial<CareFacts>) => careOf(aCard(over)).map(({ kind }) => kind)

describe('what to mind with a piece', () => {
  it('is nothing for square, light, undyed cloth', () => {
    expect(careOf(aCard({ dyeing: 'plain', lab: paleGrey, washState: 'washed' }))).toEqual([])
    expect(careOf(aCard())).toEqual([])
  })

  it('is a test for bleeding for what is hand-dyed, red or dark, unless it was never dyed', () => {
    expect(careOf(aCard({ dyeing: 'dyed', lab: nightBlue }))).toEqual([{ kind: 'test-first', because: 'dark' }])
    expect(careOf(aCard({ lab: barnRed }))).toEqual([{ kind: 'test-first', because: 'red' }])
    expect(clothBleedReason({ dyeing: 'hand-dyed', lab: paleGrey })).toBe('hand-dyed')
    expect(clothBleedReason({ dyeing: 'hand-dyed', lab: null })).toBe('hand-dyed')
    expect(clothBleedReason({ dyeing: 'plain', lab: nightBlue })).toBeNull()
    expect(clothBleedReason({ dyeing: 'dyed', lab: paleGrey })).toBeNull()
  })

  it('keeps a test in sight: a pass is no guarantee, and a dye that ran is never let go of', () => {
    expect(kinds({ lab: nightBlue, bleedTest: 'passed' })).toEqual(['passed'])
    expect(kinds({ lab: nightBlue, bleedTest: 'bled' })).toEqual(['bled'])
    expect(kinds({ lab: paleGrey, bleedTest: 'bled' })).toEqual(['bled'])
  })

  it('tests nothing wet that is never to be washed', () => {
    expect(kinds({ lab: barnRed, washState: 'never' })).toEqual(['do-not-wash'])
    expect(kinds({ lab: barnRed, washState: 'never', bleedTest: 'bled' })).toEqual(['do-not-wash', 'bled'])
  })

  it('asks for the count again after a wash, and for a look before hand-dyed or uneven cloth is turned', () => {
    expect(kinds({ washState: 'washed', isCountStale: true })).toEqual(['count-again'])
    expect(careOf(aCard({ picks: toTheInch(31) }))).toEqual([{ kind: 'look-before-turning', why: 'count' }])
    expect(kinds({ picks: toTheInch(31), isTurnable: false })).toEqual([])
    expect(kinds({ dyeing: 'hand-dyed', bleedTest: 'passed' })).toEqual(['passed', 'look-before-turning'])
  })

  it('asks how cloth may lie by its count first', () => {
    const square = { ends: toTheInch(28), picks: toTheInch(28) }
    expect(turningQuestion({ ...square, dyeing: 'hand-dyed' })).toBe('dye')
    expect(turningQuestion({ ...square, picks: toTheInch(27), dyeing: 'hand-dyed' })).toBe('count')
    expect(turningQuestion({ ...square, dyeing: 'dyed' })).toBeNull()
  })
})

describe('dyes that may run in a design', () => {
  const threads = [
    { id: 'red', lab: barnRed, isHandDyed: false },
    { id: 'grey', lab: paleGrey, isHandDyed: false },
    { id: 'navy', lab: nightBlue, isHandDyed: false },
    { id: 'moss', lab: null, isHandDyed: true },
    { id: 'unknown', lab: null, isHandDyed: false },
  ]
  const cloth = { dyeing: null, lab: paleGrey, washState: 'new' as const, bleedTest: null }

  it('are those of red, dark and hand-dyed threads on light cloth', () => {
    expect(bleedRisk({ cloth, threads })).toEqual({
      cloth: null,
      threads: [
        { id: 'red', because: 'red' },
        { id: 'navy', because: 'dark' },
        { id: 'moss', because: 'hand-dyed' },
      ],
    })
    expect(bleedRisk({ cloth: { ...cloth, lab: null }, threads }).threads).toHaveLength(3)
  })

  it('are the cloth’s own where that is dark, and the threads’ do not show on it', () => {
    expect(bleedRisk({ cloth: { ...cloth, lab: nightBlue }, threads })).toEqual({ cloth: 'dark', threads: [] })
    expect(bleedRisk({ cloth: { ...cloth, lab: nightBlue, bleedTest: 'passed' }, threads }).cloth).toBeNull()
    expect(bleedRisk({ cloth: { ...cloth, bleedTest: 'bled' }, threads: [] }).cloth).toBe('bled')
  })

  it('are none where nothing will be washed', () => {
    expect(bleedRisk({ cloth: { ...cloth, lab: nightBlue, washState: 'never' }, threads })).toEqual({ cloth: null, threads: [] })
  })
})
