// The answers are those of scenarios of the trade worked by hand; see tests/published for each in full.
import { describe, expect, it } from 'vitest'
import { calculateClothSize } from '#api/cloth-size'
import { calculateCoverage } from '#api/coverage'
import { calculateThreadUse } from '#api/thread-use'
import { POST as clothSize } from '../../../app/api/v1/calculate/cloth-size/route'
import { POST as coverage } from '../../../app/api/v1/calculate/coverage/route'
import { POST as drumStrip } from '../../../app/api/v1/calculate/drum-strip/route'
import { POST as threadUse } from '../../../app/api/v1/calculate/thread-use/route'
import { ask } from './ask'

const inch = 25_400

async function askThreadUse(body: unknown) {
  const { status, body: answer } = await ask(threadUse, { body })
  expect(status).toBe(200)
  return calculateThreadUse.answer.parse(answer)
}
async function askClothSize(body: unknown) {
  const { status, body: answer } = await ask(clothSize, { body })
  expect(status).toBe(200)
  return calculateClothSize.answer.parse(answer)
}
async function askCoverage(body: unknown) {
  const { status, body: answer } = await ask(coverage, { body })
  expect(answer).not.toHaveProperty('errors')
  expect(status).toBe(200)
  return calculateCoverage.answer.parse(answer)
}

describe('POST calculate/thread-use', () => {
  it('sums crosses, outlines and knots to 78,964 mm of strand, 13.16 m of six', async () => {
    const answer = await askThreadUse({
      lines: [
        { tally: { full: 2_940, knotOneWrap: 30 }, strands: 2 },
        { tally: { backstitch: 120 }, strands: 1 },
      ],
      cloth: { count: '28', over: 2 },
      putUps: [480_000, 438_912, 274_320].map((putUpStrandTenths) => ({ putUpStrandTenths, strands: 6 })),
    })
    expect(Math.round(answer.need.strandMm)).toBe(78_964)
    expect(answer.need.strandTenths).toBe(answer.lines.reduce((sum, line) => sum + line.strandTenths, 0))
    expect(answer.putUps.map(({ wholePutUps }) => wholePutUps)).toEqual([2, 2, 3])
    expect(answer.putUps.map(({ exactPutUps }) => exactPutUps.toFixed(2))).toEqual(['1.65', '1.80', '2.88'])
    expect(answer.putUps.map(({ putUpText }) => putUpText)).toEqual([
      '8 m of 6 strands',
      '8 yd of 6 strands',
      '5 yd of 6 strands',
    ])
    expect(answer.putUps[0]?.needText).toBe('13.16 m of 6 strands')
    expect(answer.lines[0]?.arithmetic[0]).toBe('2,940 full crosses × 4.828 pitches of 1.814 mm × 2 strands = 51,509.661 mm')
  })

  it('takes a count by ends and picks, counted each in its own length', async () => {
    const answer = await askThreadUse({
      lines: [{ tally: { full: 1_000 }, strands: 2 }],
      cloth: { ends: { threads: 110, perUm: 100_000 }, picks: { threads: 110, perUm: 100_000 }, over: 2 },
    })
    // 110 per 10 cm over two: a pitch of 1.81818 mm; × 4.828427 × 1,000 × 2 × 1.5.
    expect(answer.need.strandMm).toBeCloseTo(26_336.9, 0)
  })
})

describe('POST calculate/cloth-size', () => {
  it('cuts 16 × 13 in for framing, and puts it turned on a fat eighth with nothing to spare', async () => {
    const answer = await askClothSize({
      stitches: { width: 140, height: 98 },
      cloth: { count: '28 over 2' },
      finishing: 'framed',
      pieces: [{ id: 'fat eighth', widthUm: 13 * inch, heightUm: 18 * inch }],
    })
    expect(answer.upright.finished).toMatchObject({ widthIn: 10, heightIn: 7 })
    expect(answer.upright.cut.text).toBe('16 × 13 in (40.64 × 33.02 cm)')
    expect(answer.fits[0]?.fit).toMatchObject({ kind: 'fits', isTurned: true, nothingToSpare: true, squareFirst: true })
    expect(answer).toMatchObject({ bestPieceId: 'fat eighth', toBuy: null })
  })

  it('reckons each way of linen that is not square apart', async () => {
    const answer = await askClothSize({
      stitches: { width: 96, height: 312 },
      cloth: { count: '34 x 31', over: 2 },
      marginUm: 3 * inch,
      pieces: [{ id: 'L1', widthUm: 18 * inch, heightUm: 27 * inch, isSquared: true }],
    })
    const { upright, turned } = answer
    expect([upright.finished.widthIn, upright.finished.heightIn].map((side) => side.toFixed(3))).toEqual(['5.647', '20.129'])
    expect(upright.cut).toMatchObject({ widthIn: 12, heightIn: 26.5 })
    expect([turned.exactCut.widthIn, turned.exactCut.heightIn].map((side) => side.toFixed(3))).toEqual(['12.194', '24.353'])
    expect(turned.cut).toMatchObject({ widthIn: 12.5, heightIn: 24.5 })
    expect(answer.fits[0]?.fit).toMatchObject({ kind: 'fits', isTurned: false, nothingToSpare: false })
  })

  it('says with what margin it would fit, or what is lacking and what to buy', async () => {
    const answer = await askClothSize({
      stitches: { width: 140, height: 98 },
      cloth: { count: '28', over: 2 },
      pieces: [
        { id: 'near', widthUm: 14 * inch, heightUm: 13 * inch, isTurnable: false, isSquared: true },
        { id: 'small', widthUm: 9 * inch, heightUm: 9 * inch, isSquared: true },
      ],
    })
    // 14 − 10 = 4 in of margin, 2 a side; 10 − 9 = 1 in lacking.
    expect(answer.fits[0]?.fit).toMatchObject({ kind: 'smaller-margin', dimension: 'width', marginUm: 2 * inch })
    expect(answer.fits[1]?.fit).toMatchObject({ kind: 'too-small', lackWidthUm: inch, lackHeightUm: 0 })
    expect(answer).toMatchObject({ ranked: ['near'], bestPieceId: null })
    expect(answer.toBuy?.text).toBe('16 × 13 in (40.64 × 33.02 cm)')
  })

  it('lays several motifs out by their threads, and says how a circle comes out', async () => {
    const answer = await askClothSize({
      stitches: { width: 128, height: 128 },
      cloth: { ends: { threads: 64, perUm: 2 * inch }, picks: { threads: 61, perUm: 2 * inch }, over: 2 },
      motifs: { across: 2, gapThreads: 16 },
      marginUm: 3 * inch,
    })
    // (2 × 256 + 16)/32 = 16.5 in wide; 256/30.5 = 8.393 high.
    expect(answer.upright.finished.widthIn).toBe(16.5)
    expect(answer.upright.finished.heightIn.toFixed(3)).toBe('8.393')
    expect(answer.arithmetic[0]).toMatch(/^Width: \(2 × 128 stitches × 2 \+ 1 × 16\) threads × 0\.794 mm = 419\.1 mm;/)
    expect(answer.distortion?.text).toBe('A circle 128 stitches across comes out 0.39 in (1.00 cm) taller than wide.')
  })

  it('says of a nominal piece what squaring makes of it', async () => {
    const answer = await askClothSize({
      stitches: { width: 140, height: 98 },
      cloth: { count: '28 over 2' },
      pieces: [
        { id: 'nominal', widthUm: 13 * inch, heightUm: 18 * inch },
        { id: 'squared', widthUm: 13 * inch, heightUm: 18 * inch, isSquared: true },
      ],
    })
    expect(answer.fits.map(({ afterSquaring }) => afterSquaring?.text ?? null)).toEqual([
      'Fits, turned, with a margin of 2¾ in (6.99 cm) above and below.',
      null,
    ])
  })

  it('reckons a piece with a count of its own by that', async () => {
    const answer = await askClothSize({
      stitches: { width: 140, height: 140 },
      cloth: { count: '28', over: 2 },
      pieces: [{ id: 'finer', widthUm: 14 * inch, heightUm: 14 * inch, count: '40' }],
    })
    // 140 / 20 = 7 in; with 6 in of margins 13 in, so it fits 14 where 28 count (16 in) would not.
    expect(answer.fits[0]?.fit).toMatchObject({ kind: 'fits', finished: { widthIn: 7 } })
  })
})

describe('POST calculate/drum-strip', () => {
  it('takes a drum by what it measures round or across, one of them', async () => {
    const strip = async (body: unknown) => (await ask(drumStrip, { body })).body as { cut?: { text: string }; status?: number }
    // 12 in round and 3 high: 13 × 6 in. 4 in across is 12.566 round: 13.566, up to 14.
    expect((await strip({ roundUm: 12 * inch, heightUm: 3 * inch })).cut?.text).toBe('13 × 6 in (33.02 × 15.24 cm)')
    expect((await strip({ acrossUm: 4 * inch, heightUm: 3 * inch })).cut?.text).toBe('14 × 6 in (35.56 × 15.24 cm)')
    expect((await strip({ heightUm: 3 * inch })).status).toBe(422)
    expect((await strip({ roundUm: inch, acrossUm: inch, heightUm: 3 * inch })).status).toBe(422)
  })
})

describe('POST calculate/coverage', () => {
  const handDyed = { maker: 'Oddny Loft', line: 'Hand-dyed cotton', code: 'Tarn Moss' }
  const cotton = { maker: 'Larkholm', line: 'Stranded cotton' }
  const cottonLine = { ...cotton, strands: 6, putUpStrandTenths: 480_000 }
  const crosses = (code: string) => ({ symbol: code, threads: [{ ...cotton, code, strands: 2 }], tally: { full: 2_940 } })
  const onOddny = (cloth: string) => ({
    threadLines: [{ maker: 'Oddny Loft', line: 'Hand-dyed cotton', putUpStrandTenths: 480_000 }],
    keyLines: [{ threads: [{ ...handDyed, strands: 2, stated: { hundredths: 200, putUpTenths: 45_720 } }] }],
    stash: [],
    advised: { count: '28', over: 2 },
    cloth: { count: cloth, over: 2 },
  })
  const metresOfSix = (tenths: number) => (tenths / 6 / 10_000).toFixed(3)

  it.each([
    ['36', '3.556', '7.112', 1],
    ['25', '5.121', '10.241', 2],
  ])('carries "2 skeins" over to %s count: above %s, up to %s m, planned as %i of 8 m', async (cloth, least, most, putUps) => {
    const [thread] = (await askCoverage(onOddny(cloth))).threads
    expect([metresOfSix(thread?.leastStrandTenths ?? 0), metresOfSix(thread?.need.strandTenths ?? 0)]).toEqual([least, most])
    expect(thread).toMatchObject({ needPutUps: putUps, shortPutUps: putUps, status: 'none' })
  })

  it('counts what is ready, a swap held, what is elsewhere and what is to buy', async () => {
    const answer = await askCoverage({
      threadLines: [cottonLine],
      keyLines: ['17', '0017', '20', '30', '40'].map(crosses),
      stash: [
        { ...cotton, code: '17', wholePutUps: 2 },
        { ...cotton, code: '21', wholePutUps: 3 },
        { ...cotton, code: '30', wholePutUps: 2, isOut: true },
        { ...cotton, code: '40', partStrandTenths: 0, partCertainty: 'some' },
      ],
      standIns: [{ of: { ...cotton, code: '20' }, use: { ...cotton, code: '21' } }],
      advised: { count: '28', over: 2 },
    })
    expect(answer.threads.map(({ thread, status }) => [thread.code, status])).toEqual([
      ['17', 'enough'],
      ['0017', 'none'],
      ['20', 'swap'],
      ['30', 'elsewhere'],
      ['40', 'unknown'],
    ])
    expect(answer.threads[2]?.standIn).toMatchObject({ code: '21' })
    expect(answer).toMatchObject({
      readyCount: 1,
      swapCount: 1,
      elsewhereCount: 1,
      unknownCount: 1,
      shortCount: 1,
      shortPutUps: 2,
    })
    expect(answer.toBuy).toEqual([{ thread: { threadId: null, ...cotton, code: '0017', name: null }, putUps: 2 }])
  })

  it('takes off what is promised, and asks one lot of a line whose lots matter', async () => {
    const inLots = await askCoverage({
      ...onOddny('28'),
      threadLines: [{ maker: 'Oddny Loft', line: 'Hand-dyed cotton', putUpStrandTenths: 274_320, lotsMatter: true }],
      stash: [
        { ...handDyed, lot: 'A4', wholePutUps: 1 },
        { ...handDyed, lot: 'B1', wholePutUps: 1 },
      ],
    })
    expect(inLots.threads[0]).toMatchObject({ status: 'lots', freeStrandTenths: 548_640, lotToBuy: { putUps: 2 } })
    const promised = await askCoverage({
      threadLines: [cottonLine],
      keyLines: [crosses('17')],
      stash: [{ ...cotton, code: '17', wholePutUps: 2, promisedStrandTenths: 480_000 }],
      advised: { count: '28', over: 2 },
    })
    expect(promised.threads[0]).toMatchObject({ status: 'elsewhere', freeStrandTenths: 480_000, promisedStrandTenths: 480_000 })
  })
})
