// A design's cloth, its frame and the ways of finishing, as programs ask for them.
import { beforeAll, expect, it } from 'vitest'
import { getDesignCloth, getDesignFrame } from '#api/design-cloth'
import { listFinishingsOperation, removeFinishingOperation, saveFinishingOperation, saveFramingOperation } from '#api/finishings'
import { newId } from '#lib/db/new-id'
import { GET as designCloth } from '../../app/api/v1/designs/[designId]/cloth/route'
import { GET as designFrame } from '../../app/api/v1/designs/[designId]/frame/route'
import { POST as saveFraming } from '../../app/api/v1/finishings/framing/route'
import { POST as removeFinishing } from '../../app/api/v1/finishings/remove/route'
import { GET as finishings, POST as saveFinishing } from '../../app/api/v1/finishings/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { addLarkholm, hanneDrewitt, skein, theShop } from './things'

const inch = 25_400
const allRound = (inches: number) => ({
  leftUm: inches * inch,
  rightUm: inches * inch,
  topUm: inches * inch,
  bottomUm: inches * inch,
})

describeOnEachEngine('the API on a design’s cloth', ({ open }) => {
  const ids = { shop: newId(), hanne: newId(), design: newId(), sizeless: newId(), list: newId(), grey: newId(), pale: newId() }
  const parts = { designId: ids.design }
  const pieces = { eighth: newId(), linen: newId(), hannes: newId() }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    const lineId = newId()
    const makerId = await addLarkholm(open())
    await prisma.threadLine.create({
      data: { id: lineId, makerId, name: 'Stranded cotton', nameKey: 'stranded cotton', strands: 6, putUpStrandTenths: skein },
    })
    const colour = (L: number) => ({ labL: L, labA: 3, labB: 14, labCertainty: 'label' })
    await prisma.thread.createMany({
      data: [
        { id: ids.grey, lineId, code: '0017', name: 'Rook Grey', ...colour(40) },
        { id: ids.pale, lineId, code: '17', name: 'Larch Pale', ...colour(75) },
      ],
    })
    const chartId = newId()
    const title = { title: 'Rook Hill in Snow', titleKey: 'rook hill in snow' }
    await prisma.chart.create({ data: { id: chartId, ...title, ownerId: ids.shop } })
    await prisma.design.create({
      data: {
        ...{ id: ids.design, chartId, ...title, widthStitches: 140, heightStitches: 98 },
        ...{ advisedThreads: 28, advisedPerUm: inch, advisedOver: 2, advisedWeave: 'single' },
      },
    })
    await prisma.design.create({ data: { id: ids.sizeless, chartId, title: 'Nine Wrens', titleKey: 'nine wrens' } })
    await prisma.threadList.create({ data: { id: ids.list, designId: ids.design, name: 'Cotton', nameKey: 'cotton' } })
    for (const [position, threadId] of [ids.grey, ids.pale].entries()) {
      const keyLineId = newId()
      await prisma.keyLine.create({
        data: { id: keyLineId, threadListId: ids.list, position, symbol: 'xo'[position], hasTally: true, full: 2_940 },
      })
      await prisma.keyLineThread.create({ data: { id: newId(), keyLineId, position: 0, threadId, strands: 2 } })
    }
    const single = { weave: 'single', name: 'Harrowmere linen', isTurnable: true }
    const count = (ends: number, picks: number) => ({ endsThreads: ends, endsPerUm: inch, picksThreads: picks, picksPerUm: inch })
    const size = (widthIn: number, heightIn: number) => ({ widthUm: widthIn * inch, heightUm: heightIn * inch })
    await prisma.clothPiece.createMany({
      data: [
        {
          ...{
            id: pieces.eighth,
            ownerId: ids.shop,
            label: 'L-09',
            labelKey: 'l-09',
            ...single,
            ...count(28, 28),
            ...size(13, 18),
          },
          ...{ isSquared: false, labL: 82, labA: 3, labB: 14 },
        },
        {
          ...{
            id: pieces.linen,
            ownerId: ids.shop,
            label: 'L-01',
            labelKey: 'l-01',
            ...single,
            ...count(34, 31),
            ...size(18, 27),
          },
          ...{ isSquared: true },
        },
        {
          ...{
            id: pieces.hannes,
            ownerId: ids.hanne,
            label: 'HL-1',
            labelKey: 'hl-1',
            ...single,
            ...count(28, 28),
            ...size(18, 27),
          },
          ...{ isSquared: true },
        },
      ],
    })
  })

  it('says both of a nominal piece, both ways round, which threads show, and the frame', async () => {
    const { shown, kinds, bestPieceId, stitches, ranked } = await answer(getDesignCloth, designCloth, { parts })
    expect([stitches, bestPieceId]).toEqual([{ width: 140, height: 98, isEstimated: false }, pieces.eighth])
    expect(shown).toMatchObject({
      ...{ over: 2, fit: { kind: 'fits', isTurned: true, nothingToSpare: true }, upright: { kind: 'smaller-margin' } },
      // 13 less a quarter of an inch on either side is 12.5: (12.5 − 7) / 2 = 2.75.
      afterSquaring: { kind: 'smaller-margin', dimension: 'height', marginUm: 2.75 * inch },
      ...{ distortion: null, isTurnable: true, isReserved: false },
      // The pale thread is 82 − 75 = 7 from the cloth; grey 42.
      contrast: { isClothKnown: true, faint: [{ thread: { code: '17' }, gap: 7 }], notJudged: [] },
      frame: {
        opening: { widthIn: 11.5, heightIn: 8.5 },
        board: { widthIn: 12, heightIn: 9 },
        cut: { widthIn: 15.5, heightIn: 12.5 },
      },
    })
    expect(ranked.map(({ piece }) => piece.clothPieceId)).toEqual([pieces.eighth])
    expect(kinds.map(({ kind, best, isOnlyTurned }) => [kind, best.piece.label, isOnlyTurned])).toEqual([
      ['single 28', 'L-09', true],
      ['single 34 × 31', 'L-01', false],
    ])
    // 98 stitches over two: 98/17 = 5.765 wide, 98/15.5 = 6.323 tall. The colour of that piece is not on record.
    expect(kinds[1]?.distortion).toMatchObject({ stitches: 98, way: 'taller' })
    expect((kinds[1]?.distortion?.differenceUm ?? 0) / inch).toBeCloseTo(98 / 15.5 - 98 / 17, 4)
    expect(kinds[1]?.contrast).toMatchObject({ isClothKnown: false, faint: [] })
  })

  it('reckons with other margins, over one, several motifs, another piece and another owner', async () => {
    const ask = (query: string) => answer(getDesignCloth, designCloth, { parts, path: `x?${query}` })
    const ornament = await ask('finishing=Ornament&topUm=76200')
    expect(ornament.margins).toEqual({ ...allRound(2), topUm: 3 * inch })
    expect(ornament.shown?.fit.cut).toMatchObject({ widthIn: 14, heightIn: 12 })
    // 140/28 = 5 in, 98/28 = 3.5 in.
    expect((await ask('over=1')).shown?.fit.finished).toMatchObject({ widthIn: 5, heightIn: 3.5 })
    // Two across, 9 threads between: (2 × 280 + 9)/28 = 20.3214 in.
    const two = await ask(`across=2&gapThreads=9&piece=${pieces.eighth}`)
    expect(two.shown?.fit.finished.widthIn).toBe(20.3214)
    expect(two.shown?.fit.kind).toBe('too-small')
    expect((await ask(`owner=${ids.hanne}`)).bestPieceId).toBe(pieces.hannes)
  })

  it('tries a count that is not on hand', async () => {
    const { tried } = await answer(getDesignCloth, designCloth, { parts, path: 'x?count=36' })
    expect(tried.map(({ over, heldCount, best, upright }) => [over, heldCount, best, upright.cut.text])).toEqual([
      [2, 0, null, '14 × 11½ in (35.56 × 29.21 cm)'],
      [1, 0, null, '10 × 9 in (25.4 × 22.86 cm)'],
    ])
  })

  it('refuses what it does not know', async () => {
    const ask = (query: string) => problem(designCloth, { parts, path: `x?${query}` })
    expect(await ask('finishing=tea%20cosy')).toMatchObject({ status: 400, errors: [{ parameter: 'finishing' }] })
    expect(await ask('count=fine')).toMatchObject({ status: 400, errors: [{ parameter: 'count' }] })
    expect(await ask(`piece=${pieces.hannes}`)).toMatchObject({ status: 404 })
    expect(await ask('list=gone')).toMatchObject({ status: 404 })
    expect(await problem(designCloth, { parts: { designId: 'gone' } })).toMatchObject({ status: 404 })
    expect(await problem(designFrame, { parts, path: 'x?widthUm=127000' })).toMatchObject({ errors: [{ parameter: 'heightUm' }] })
  })

  it('says nothing of a design without a size', async () => {
    const sizeless = { parts: { designId: ids.sizeless } }
    expect(await answer(getDesignCloth, designCloth, sizeless)).toMatchObject({
      stitches: null,
      shown: null,
      kinds: [],
      finishings: [],
    })
    expect(await answer(getDesignFrame, designFrame, sizeless)).toMatchObject({ stitches: null, own: null, counts: null })
  })

  it('holds an opening against every count', async () => {
    const { own, counts } = await answer(getDesignFrame, designFrame, {
      parts,
      path: `x?widthUm=${9 * inch}&heightUm=${12 * inch}`,
    })
    expect(own).toMatchObject({ piece: { label: 'L-09' }, frame: { opening: { widthIn: 11.5, heightIn: 8.5 } } })
    const held = counts?.filter(({ pieceCount }) => pieceCount > 0) ?? []
    // 12 × 9 around 10 × 7, hung the other way; 15.75 × 12.75 to cut, up to 16 × 13: the nominal 13 × 18 holds it, turned.
    expect(held.find(({ countText, over }) => countText === '28 count' && over === 2)).toMatchObject({
      ...{ kind: 'fits', opening: { widthIn: 12, heightIn: 9 }, cut: { widthIn: 16, heightIn: 13 } },
      ...{ seenAcrossUm: inch, seenUpUm: inch, pieces: [{ piece: { label: 'L-09' }, turnBackUm: 1.5 * inch }] },
    })
  })

  it('keeps ways of finishing that are added, and reckons for them at once', async () => {
    const added = await answer(saveFinishingOperation, saveFinishing, { body: { name: 'Needle book', margins: allRound(1) } })
    expect(added.finishings.at(-1)).toEqual({ name: 'Needle book', isOwn: true, margins: allRound(1) })
    const cutFor = async (name: string) =>
      (await answer(getDesignCloth, designCloth, { parts })).finishings.find((each) => each.name === name)?.cut.text
    expect(await cutFor('Needle book')).toBe('12 × 9 in (30.48 × 22.86 cm)')
    await answer(saveFinishingOperation, saveFinishing, { body: { name: 'needle book', margins: allRound(2) } })
    expect(await cutFor('Needle book')).toBe('14 × 11 in (35.56 × 27.94 cm)')
    await answer(removeFinishingOperation, removeFinishing, { body: { name: 'Needle book' } })
    expect(await cutFor('Needle book')).toBeUndefined()
    expect(await problem(removeFinishing, { body: { name: 'Framed' } })).toMatchObject({ status: 409 })
  })

  it('sets what a framed margin is made of, and makes it the margin when asked', async () => {
    const before = await answer(listFinishingsOperation, finishings)
    expect([before.framingSumUm, before.framingMarginUm]).toEqual([2.625 * inch, 3 * inch])
    // An inch more seen: 3.625, up to 4.
    const framing = { seenUm: 1.75 * inch, rabbetUm: 0.25 * inch, boardUm: 0.125 * inch, turnBackUm: 1.5 * inch }
    const kept = await answer(saveFramingOperation, saveFraming, { body: framing })
    expect([kept.framingMarginUm, kept.finishings[0]?.margins]).toEqual([4 * inch, allRound(3)])
    const used = await answer(saveFramingOperation, saveFraming, { body: { ...framing, apply: true } })
    expect(used.finishings[0]?.margins).toEqual(allRound(4))
    // 10 + 8 and 7 + 8 in.
    expect((await answer(getDesignCloth, designCloth, { parts })).finishings[0]?.cut.text).toBe('18 × 15 in (45.72 × 38.1 cm)')
  })
})
