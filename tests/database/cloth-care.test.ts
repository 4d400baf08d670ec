import { beforeAll, expect, it } from 'vitest'
import {
  addClothPiece,
  changeClothPiece,
  countClothPiece,
  getClothPiece,
  testClothBleeding,
  washClothPiece,
} from '#api/cloth-pieces'
import { addCloth, type ClothInput } from '#lib/db/cloth/add-cloth'
import { countCloth } from '#lib/db/cloth/count-cloth'
import { cutCloth } from '#lib/db/cloth/cut-cloth'
import { editCloth } from '#lib/db/cloth/edit-cloth'
import { findClothCard, findClothPiece } from '#lib/db/cloth/queries'
import { recordBleedTest } from '#lib/db/cloth/test-bleeding'
import { washCloth } from '#lib/db/cloth/wash-cloth'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { POST as bleedTest } from '../../app/api/v1/cloth/[clothPieceId]/bleed-test/route'
import { POST as count } from '../../app/api/v1/cloth/[clothPieceId]/count/route'
import { POST as change, GET as get } from '../../app/api/v1/cloth/[clothPieceId]/route'
import { POST as wash } from '../../app/api/v1/cloth/[clothPieceId]/wash/route'
import { POST as add } from '../../app/api/v1/cloth/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { theShop } from './things'

const inches = (width: number, height: number) => ({ widthUm: width * UM_PER_INCH, heightUm: height * UM_PER_INCH })
const perInch = (threads: number) => ({ threads, perUm: UM_PER_INCH })
const inTwoInches = (...threads: number[]) => threads.map((each) => ({ threads: each, lengthUm: 2 * UM_PER_INCH }))

const aCard = (over: Partial<ClothInput> = {}): ClothInput => ({
  ...{ label: null, makerName: 'Harrowmere Looms', name: 'Linen', colourName: 'Night Blue', lab: { L: 26, a: 1, b: -18 } },
  ...{ weave: 'single', ends: perInch(28), picks: perInch(28), ...inches(18, 27), isSquared: true, sizeCertainty: 'measured' },
  ...{ countCertainty: 'label', isTurnable: true, oneWayBecause: null, dyeing: 'hand-dyed', washState: 'new', washedOn: null },
  note: null,
  ...over,
})

describeOnEachEngine('care of cloth', ({ open }) => {
  const shop = theShop()

  beforeAll(async () => {
    await open().prisma.owner.create({ data: shop })
  })

  async function added(over: Partial<ClothInput> = {}): Promise<string> {
    const result = await addCloth({ ...aCard(over), ownerId: shop.id, placeLabel: 'C3' })
    if (!result.ok) throw new Error(`not added: ${result.error.kind}`)
    return result.value.id
  }
  const found = async (id: string) => {
    const piece = await findClothPiece(id)
    if (!piece) throw new Error(`no piece ${id}`)
    return piece
  }
  const ruled = { unit: 'in' as const, isTurnable: null, note: null }

  it('keeps how a piece was dyed and washed and why it lies one way, and lets go of a reason that no longer holds', async () => {
    const card = { isTurnable: false, oneWayBecause: 'dye', washState: 'washed', washedOn: '2026-03-01' } as const
    const id = await added(card)
    expect(await findClothCard(id)).toEqual(aCard(card))
    expect((await editCloth({ ...aCard({ ...card, isTurnable: true, washState: 'never' }), id, version: 0 })).ok).toBe(true)
    expect(await found(id)).toMatchObject({ isTurnable: true, oneWayBecause: null, washState: 'never', washedOn: null })
  })

  it('takes the count along a ruler for the piece’s own, and its readings into the journal', async () => {
    const id = await added({ dyeing: null })
    const across = inTwoInches(64, 64, 64)
    expect((await countCloth({ ...ruled, id, version: 0, across, up: inTwoInches(61), note: 'in daylight' })).ok).toBe(true)
    expect(await found(id)).toMatchObject({
      ...{ ends: perInch(32), picks: { threads: 61, perUm: 2 * UM_PER_INCH }, countCertainty: 'measured', isTurnable: true },
      history: [
        {
          kind: 'correct',
          wholeDelta: 0,
          reason: 'counted 64, 64 and 64 in 2 in across and 61 in 2 in up: 28 count to 32 × 30.5 count; in daylight',
        },
        { kind: 'receive' },
      ],
    })
    expect(await countCloth({ ...ruled, id, version: 0, across, up: across })).toEqual({
      ok: false,
      error: { kind: 'changed-meanwhile' },
    })
    const refusal = { ok: false, error: { kind: 'no-reading', way: 'picks' } }
    expect(await countCloth({ ...ruled, id, version: 1, across, up: [] })).toEqual(refusal)
    expect((await found(id)).version).toBe(1)
  })

  it('says with a count whether the piece may still be turned, and keeps another reason that was there', async () => {
    const counted = { ...ruled, across: inTwoInches(64), up: inTwoInches(61) }
    const plain = await added()
    await countCloth({ ...counted, id: plain, version: 0, isTurnable: false })
    expect(await found(plain)).toMatchObject({ isTurnable: false, oneWayBecause: 'count' })
    await countCloth({ ...counted, id: plain, version: 1, isTurnable: true })
    expect(await found(plain)).toMatchObject({ isTurnable: true, oneWayBecause: null })
    const striped = await added({ isTurnable: false, oneWayBecause: 'stripe' })
    await countCloth({ ...counted, id: striped, version: 0, isTurnable: false })
    expect(await found(striped)).toMatchObject({ isTurnable: false, oneWayBecause: 'stripe' })
  })

  it('marks the count for taking again when it is washed, until it is', async () => {
    const id = await added()
    const measured = { ...inches(17.5, 26), isSquared: true }
    expect((await washCloth({ id, version: 0, washedOn: '2026-03-01', measured, note: null })).ok).toBe(true)
    expect(await found(id)).toMatchObject({
      ...{ washState: 'washed', washedOn: '2026-03-01', isCountStale: true, ...measured, sizeCertainty: 'measured' },
      history: [{ kind: 'correct', reason: 'washed 2026-03-01; 45.72 × 68.58 cm squared to 44.45 × 66.04 cm squared' }, {}],
    })
    expect((await editCloth({ ...aCard({ washState: 'washed', ...measured }), id, version: 1 })).ok).toBe(true)
    expect((await found(id)).isCountStale).toBe(true)
    expect((await countCloth({ ...ruled, id, version: 2, across: inTwoInches(57), up: inTwoInches(57) })).ok).toBe(true)
    expect((await found(id)).isCountStale).toBe(false)
    expect((await washCloth({ id, version: 3, washedOn: '2026-04-01', measured: null, note: null })).ok).toBe(true)
    const written = { ...aCard({ washState: 'washed', ...measured }), ends: perInch(29), picks: perInch(29) }
    expect((await editCloth({ ...written, id, version: 4 })).ok).toBe(true)
    const piece = await found(id)
    expect(piece.isCountStale).toBe(false)
    expect(piece.history[0]?.reason).toBe('28.5 count to 29 count')
  })

  it('keeps the last test for bleeding, and every one in the journal', async () => {
    const id = await added()
    await recordBleedTest({ id, version: 0, result: 'passed', testedOn: '2026-03-01', note: null })
    await recordBleedTest({ id, version: 1, result: 'bled', testedOn: '2026-04-01', note: 'warm water' })
    expect(await found(id)).toMatchObject({
      ...{ bleedTest: 'bled', bleedTestedOn: '2026-04-01' },
      history: [
        { reason: 'tried wet on white 2026-04-01: the dye ran; warm water' },
        { reason: 'tried wet on white 2026-03-01: no dye ran' },
        {},
      ],
    })
    expect(await recordBleedTest({ id, version: 1, result: 'passed', testedOn: '2026-05-01', note: null })).toMatchObject({
      error: { kind: 'changed-meanwhile' },
    })
  })

  it('goes with an offcut: what its parent is dyed, washed and tried as', async () => {
    const id = await added({ isTurnable: false, oneWayBecause: 'dye', countCertainty: 'measured' })
    await washCloth({ id, version: 0, washedOn: '2026-03-01', measured: null, note: null })
    await recordBleedTest({ id, version: 1, result: 'passed', testedOn: '2026-03-02', note: null })
    const offcuts = [{ ...inches(6, 27), label: null, placeLabel: null }]
    const cut = await cutCloth({ id, version: 2, remaining: inches(12, 27), offcuts, projectId: null, note: null })
    if (!cut.ok) throw new Error(cut.error.kind)
    expect(await found(cut.value.offcutIds[0] as string)).toMatchObject({
      ...{ dyeing: 'hand-dyed', washState: 'washed', washedOn: '2026-03-01', isCountStale: true, countCertainty: 'measured' },
      ...{ isTurnable: false, oneWayBecause: 'dye', bleedTest: 'passed', bleedTestedOn: '2026-03-02' },
    })
  })

  it('is written and read by the API', async () => {
    const card = { ownerId: shop.id, name: 'Linen', weave: 'single', count: '28', ...inches(18, 27), dyeing: 'hand-dyed' }
    expect(await problem(add, { body: card })).toMatchObject({ status: 422, errors: [{ field: '/isTurnable' }] })
    const piece = await answer(addClothPiece, add, { body: { ...card, isTurnable: false, oneWayBecause: 'dye' } })
    expect(piece).toMatchObject({ version: 0, countText: '28 count', washState: 'unknown', care: [{ kind: 'test-first' }] })
    const parts = { clothPieceId: piece.clothPieceId }

    const readings = { across: inTwoInches(64), up: inTwoInches(61) }
    const counted = await answer(countClothPiece, count, { parts, body: { ...readings, version: 0 } })
    expect(counted).toMatchObject({ version: 1, countText: '32 × 30.5 count', countCertainty: 'measured', oneWayBecause: 'dye' })
    expect(await problem(count, { parts, body: { ...readings, version: 0 } })).toMatchObject({ status: 409 })
    expect(await problem(count, { parts, body: { ...readings, up: inTwoInches(1) } })).toMatchObject({
      status: 422,
      errors: [{ field: '/up' }],
    })

    const washed = await answer(washClothPiece, wash, { parts, body: { washedOn: '2026-03-01' } })
    expect(washed).toMatchObject({
      washState: 'washed',
      isCountStale: true,
      care: [{ kind: 'test-first' }, { kind: 'count-again' }],
    })
    expect(await problem(wash, { parts, body: { washedOn: '9999-01-01' } })).toMatchObject({ errors: [{ field: '/washedOn' }] })
    await answer(testClothBleeding, bleedTest, { parts, body: { result: 'bled', testedOn: '2026-03-02' } })

    await answer(changeClothPiece, change, { parts, body: { washState: 'never', colourName: 'Slate' } })
    expect(await answer(getClothPiece, get, { parts })).toMatchObject({
      ...{ colourName: 'Slate', washState: 'never', washedOn: null, bleedTest: 'bled', widthUm: 18 * UM_PER_INCH },
      care: [{ kind: 'do-not-wash' }, { kind: 'bled' }, { kind: 'count-again' }],
    })
    expect(await problem(get, { parts: { clothPieceId: 'nothing' } })).toMatchObject({ status: 404 })
  })

  it('may not be turned without a word once a change makes it a question', async () => {
    const id = await added({ dyeing: 'dyed' })
    const parts = { clothPieceId: id }
    expect(await problem(change, { parts, body: { dyeing: 'hand-dyed' } })).toMatchObject({ errors: [{ field: '/isTurnable' }] })
    const turnable = { dyeing: 'hand-dyed', isTurnable: true }
    expect(await answer(changeClothPiece, change, { parts, body: turnable })).toMatchObject({ isTurnable: true })
    expect(await answer(changeClothPiece, change, { parts, body: { note: 'from the trunk' } })).toMatchObject({
      isTurnable: true,
    })
  })
})
