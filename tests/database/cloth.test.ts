import { beforeAll, expect, it } from 'vitest'
import { addCloth } from '#lib/db/cloth/add-cloth'
import { type CutInput, cutCloth } from '#lib/db/cloth/cut-cloth'
import { editCloth, measureCloth } from '#lib/db/cloth/edit-cloth'
import { moveCloth, returnCloth } from '#lib/db/cloth/move-cloth'
import { findClothPiece, listCloth, listClothPieces } from '#lib/db/cloth/queries'
import { removeCloth } from '#lib/db/cloth/remove-cloth'
import { restoreCloth } from '#lib/db/cloth/restore-cloth'
import { transferCloth } from '#lib/db/cloth/transfer-cloth'
import { newId } from '#lib/db/new-id'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { describeOnEachEngine } from './engines'
import { aPlace, hanneDrewitt, theShop } from './things'

const inches = (width: number, height: number) => ({ widthUm: width * UM_PER_INCH, heightUm: height * UM_PER_INCH })
const perInch = (threads: number) => ({ threads, perUm: UM_PER_INCH })

const aCard = (over: object = {}) => ({
  label: null,
  makerName: 'Harrowmere Looms',
  name: 'Linen',
  colourName: 'Flax',
  lab: null,
  weave: 'single' as const,
  ends: perInch(34),
  picks: perInch(31),
  ...inches(18, 27),
  isSquared: false,
  sizeCertainty: 'label' as const,
  isTurnable: false,
  countCertainty: 'label' as const,
  oneWayBecause: null,
  dyeing: null,
  washState: 'unknown' as const,
  washedOn: null,
  note: null,
  ...over,
})

describeOnEachEngine('cloth', ({ open }) => {
  const shop = theShop()
  const hanne = hanneDrewitt()
  let designId = ''

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [shop, hanne] })
    const chart = await prisma.chart.create({
      data: {
        id: newId(),
        title: 'Wick Lane',
        titleKey: 'wick lane',
        ownerId: shop.id,
        designs: { create: { id: newId(), title: 'Wick Lane', titleKey: 'wick lane' } },
      },
      include: { designs: true },
    })
    designId = chart.designs[0]?.id as string
  })

  async function added(over: object = {}, placeLabel: string | null = 'Box L3'): Promise<string> {
    const result = await addCloth({ ...aCard(over), ownerId: shop.id, placeLabel })
    if (!result.ok) throw new Error(`not added: ${result.error.kind}`)
    return result.value.id
  }
  const versionOf = async (id: string) => (await open().prisma.clothPiece.findUniqueOrThrow({ where: { id } })).version
  const keptFor = (clothPieceId: string) =>
    open().prisma.project.create({ data: { id: newId(), designId, ownerId: shop.id, clothPieceId, status: 'planned' } })
  /** The journal's own count of each piece: 1 while it is held, 0 once gone. */
  async function expectJournalToAgree() {
    const pieces = await open().prisma.clothPiece.findMany({ include: { movements: { select: { wholeDelta: true } } } })
    for (const piece of pieces) {
      const sum = piece.movements.reduce((total, { wholeDelta }) => total + wholeDelta, 0)
      expect([piece.id, sum]).toEqual([piece.id, piece.goneAt === null ? 1 : 0])
    }
  }

  it('keeps both counts, the size and where it lies', async () => {
    const id = await added({ label: 'L-12' })
    expect(await findClothPiece(id)).toMatchObject({
      label: 'L-12',
      ends: perInch(34),
      picks: perInch(31),
      ...inches(18, 27),
      isReserved: false,
      isOffcut: false,
      home: { label: 'Box L3', kind: 'box' },
      current: { label: 'Box L3' },
      history: [{ kind: 'receive', wholeDelta: 1, to: { label: 'Box L3' }, toOwnerName: shop.name }],
    })
    expect(await addCloth({ ...aCard({ label: 'l-12' }), ownerId: shop.id, placeLabel: null })).toEqual({
      ok: false,
      error: { kind: 'label-taken', label: 'l-12' },
    })
    expect((await addCloth({ ...aCard({ label: 'L-12' }), ownerId: hanne.id, placeLabel: null })).ok).toBe(true)
    expect(await addCloth({ ...aCard(), ownerId: 'nobody', placeLabel: null })).toMatchObject({
      error: { kind: 'no-such-owner' },
    })
  })

  it('is not put where only the record puts things, and is out since the day it left home', async () => {
    await open().prisma.place.create({ data: aPlace(newId(), 'Not found', 'not found') })
    const id = await added({ label: 'L-77' })
    const move = async (toPlaceLabel: string, becomesHome = false) =>
      moveCloth({ id, version: await versionOf(id), toPlaceLabel, becomesHome })
    const refusal = { ok: false, error: { kind: 'kept-by-record', label: 'Not found' } }
    expect(await move('not found', true)).toEqual(refusal)
    expect(await addCloth({ ...aCard(), ownerId: shop.id, placeLabel: 'NOT FOUND' })).toEqual(refusal)
    expect(await findClothPiece(id)).toMatchObject({ home: { label: 'Box L3' }, current: { label: 'Box L3' } })
    const { widthUm, heightUm } = await open().prisma.clothPiece.findUniqueOrThrow({ where: { id } })
    const offcuts = [{ label: null, placeLabel: 'Not found', widthUm: Math.floor(widthUm / 2), heightUm }]
    const cut = { id, version: await versionOf(id), remaining: null, offcuts, projectId: null, note: null }
    expect(await cutCloth(cut)).toEqual(refusal)
    await move('Bag K-41')
    const left = new Date('2026-03-01T10:00:00Z')
    await open().prisma.clothPiece.update({ where: { id }, data: { outSince: left } })
    await move('Bag K-42')
    const outSince = async () => (await open().prisma.clothPiece.findUniqueOrThrow({ where: { id } })).outSince
    expect(await outSince()).toEqual(left)
    await move('Box L3')
    expect(await outSince()).toBeNull()
  })

  it('is reserved only while the project that keeps it is under way', async () => {
    const id = await added()
    const project = await keptFor(id)
    const isReserved = async () => (await listClothPieces([shop.id])).find((piece) => piece.id === id)?.isReserved
    expect(await isReserved()).toBe(true)
    expect((await listCloth([shop.id])).find((piece) => piece.id === id)?.reservedBy).toEqual([
      { projectId: project.id, title: 'Wick Lane', status: 'planned' },
    ])
    await open().prisma.project.update({ where: { id: project.id }, data: { status: 'finished', finishedOn: '2026-09-07' } })
    expect(await isReserved()).toBe(false)
  })

  it('journals what a piece measured before and after squaring', async () => {
    const id = await added()
    const measured = { ...inches(17.5, 26.5), isSquared: true, sizeCertainty: 'measured' as const }
    expect((await measureCloth({ id, version: 0, note: 'selvedge off', ...measured })).ok).toBe(true)
    const piece = await findClothPiece(id)
    expect(piece).toMatchObject(measured)
    expect(piece?.history[0]).toMatchObject({
      kind: 'correct',
      wholeDelta: 0,
      reason: '45.72 × 68.58 cm to 44.45 × 67.31 cm squared; selvedge off',
    })
    expect(await measureCloth({ id, version: 0, note: null, ...measured })).toEqual({
      ok: false,
      error: { kind: 'changed-meanwhile' },
    })
    expect((await editCloth({ ...aCard({ ...measured, colourName: 'Oat' }), id, version: 1 })).ok).toBe(true)
    expect((await findClothPiece(id))?.history).toHaveLength(2)
  })

  it('is out when laid elsewhere for a while, and comes back', async () => {
    const id = await added()
    const move = { id, toPlaceLabel: 'Bag K-07', becomesHome: false }
    expect((await moveCloth({ ...move, version: 0 })).ok).toBe(true)
    expect(await findClothPiece(id)).toMatchObject({ home: { label: 'Box L3' }, current: { label: 'Bag K-07' } })
    expect((await findClothPiece(id))?.outSince).toBeInstanceOf(Date)
    expect(await moveCloth({ ...move, version: 1 })).toEqual({ ok: false, error: { kind: 'already-there' } })
    expect((await returnCloth({ id, version: 1 })).ok).toBe(true)
    expect(await returnCloth({ id, version: 2 })).toEqual({ ok: false, error: { kind: 'already-there' } })
    expect((await moveCloth({ ...move, version: 2, becomesHome: true })).ok).toBe(true)
    const piece = await findClothPiece(id)
    expect(piece).toMatchObject({ home: { label: 'Bag K-07' }, outSince: null })
    expect(piece?.history.map(({ kind }) => kind)).toEqual(['move', 'return', 'move', 'receive'])
    const loose = await added({}, null)
    expect(await returnCloth({ id: loose, version: 0 })).toEqual({ ok: false, error: { kind: 'no-home' } })
    expect((await moveCloth({ id: loose, version: 0, toPlaceLabel: 'Box L3', becomesHome: false })).ok).toBe(true)
    expect(await findClothPiece(loose)).toMatchObject({ home: { label: 'Box L3' }, outSince: null })
  })

  it('cuts a piece smaller and keeps the offcuts, with their parent, kind and place', async () => {
    const id = await added({ label: 'FQ-1' })
    const cut: CutInput = {
      id,
      version: 0,
      remaining: inches(12, 26.5),
      offcuts: [{ ...inches(6, 27), label: 'FQ-1a', placeLabel: null }],
      projectId: null,
      note: null,
    }
    const result = await cutCloth(cut)
    // 18 × 27 less 12 × 26.5 and 6 × 27 leaves a sliver of 12 × 0.5 inches.
    expect(result).toMatchObject({ ok: true, value: { wasteUm2: 6 * UM_PER_INCH ** 2 } })
    const piece = await findClothPiece(id)
    expect(piece).toMatchObject({ ...inches(12, 26.5), sizeCertainty: 'measured', offcuts: [{ label: 'FQ-1a' }] })
    const offcut = await findClothPiece(piece?.offcuts[0]?.id as string)
    expect(offcut).toMatchObject({
      ...inches(6, 27),
      isOffcut: true,
      name: 'Linen',
      colourName: 'Flax',
      ends: perInch(34),
      isTurnable: false,
      home: { label: 'Box L3' },
      parent: { id, label: 'FQ-1' },
      history: [{ kind: 'cut', wholeDelta: 1 }],
    })
    expect(await cutCloth(cut)).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
  })

  it('lets nothing of a refused cut stand', async () => {
    const id = await added({ label: 'FQ-2' })
    const offcut = { ...inches(6, 27), label: 'FQ-2a', placeLabel: 'Box new' }
    const cut: CutInput = { id, version: 0, remaining: inches(12, 27), offcuts: [offcut], projectId: null, note: null }
    expect(await cutCloth({ ...cut, remaining: inches(12.25, 27) })).toMatchObject({ error: { kind: 'more-than-it-was' } })
    expect(await cutCloth({ ...cut, remaining: inches(19, 2) })).toMatchObject({ ok: true })
    const other = await added({ label: 'FQ-3' })
    expect(await cutCloth({ ...cut, id: other })).toMatchObject({ error: { kind: 'label-taken', label: 'FQ-2a' } })
    const twice = [
      { ...offcut, label: 'FQ-3a' },
      { ...offcut, label: 'fq-3A' },
    ]
    expect(await cutCloth({ ...cut, id: other, remaining: null, offcuts: twice })).toMatchObject({
      error: { kind: 'label-taken' },
    })
    expect(await findClothPiece(other)).toMatchObject({ version: 0, offcuts: [], isGone: false })
  })

  it('does not let a piece that a project keeps be cut for something else, taken away or passed on', async () => {
    const id = await added()
    const project = await keptFor(id)
    const cut: CutInput = { id, version: 0, remaining: inches(9, 9), offcuts: [], projectId: null, note: null }
    const refusal = { ok: false, error: { kind: 'reserved', titles: ['Wick Lane'] } }
    expect(await cutCloth(cut)).toEqual(refusal)
    expect(await removeCloth({ id, version: 0, ending: 'used', note: null })).toEqual(refusal)
    expect(await transferCloth({ id, version: 0, toOwnerId: hanne.id, reason: null })).toEqual(refusal)
    expect((await cutCloth({ ...cut, projectId: project.id })).ok).toBe(true)
  })

  it('is passed to another owner, whose labels it must not repeat', async () => {
    const id = await added({ label: 'T-1' })
    await addCloth({ ...aCard({ label: 't-1' }), ownerId: hanne.id, placeLabel: null })
    const transfer = { id, version: 0, toOwnerId: hanne.id, reason: 'borrowed for the class' }
    expect(await transferCloth(transfer)).toMatchObject({ error: { kind: 'label-taken' } })
    expect((await editCloth({ ...aCard({ label: 'T-2' }), id, version: 0 })).ok).toBe(true)
    expect((await transferCloth({ ...transfer, version: 1 })).ok).toBe(true)
    expect(await findClothPiece(id)).toMatchObject({
      ownerId: hanne.id,
      history: [{ kind: 'transfer', fromOwnerName: shop.name, toOwnerName: hanne.name }, { kind: 'receive' }],
    })
    expect(await transferCloth({ ...transfer, version: 2 })).toMatchObject({ error: { kind: 'already-theirs' } })
  })

  it('leaves the lists when it is used up, keeps its history, and frees its label', async () => {
    const id = await added({ label: 'U-1' })
    expect((await removeCloth({ id, version: await versionOf(id), ending: 'used', note: 'class kits' })).ok).toBe(true)
    expect((await listClothPieces([shop.id])).map((piece) => piece.id)).not.toContain(id)
    expect(await findClothPiece(id)).toMatchObject({ isGone: true, history: [{ kind: 'use', wholeDelta: -1 }, {}] })
    await added({ label: 'U-1' })
    const whole = await added({ label: 'U-2' })
    const offcuts = [{ ...inches(9, 27), label: 'U-2', placeLabel: null }]
    expect((await cutCloth({ id: whole, version: 0, remaining: null, offcuts, projectId: null, note: null })).ok).toBe(true)
    expect(await findClothPiece(whole)).toMatchObject({ isGone: true, offcuts: [{ label: 'U-2', isGone: false }] })
    await expectJournalToAgree()
  })

  it('comes back when it was taken off the list by hand, unless its label was given away meanwhile', async () => {
    const id = await added({ label: 'V-1' })
    const removed = async () => removeCloth({ id, version: await versionOf(id), ending: 'lost', note: null })
    expect((await removed()).ok).toBe(true)
    expect((await findClothPiece(id))?.isRestorable).toBe(true)
    expect(await restoreCloth({ id, version: 0 })).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    expect((await restoreCloth({ id, version: await versionOf(id) })).ok).toBe(true)
    expect(await findClothPiece(id)).toMatchObject({
      ...{ isGone: false, isRestorable: false, label: 'V-1' },
      history: [{ kind: 'undo', wholeDelta: 1 }, { kind: 'correct', wholeDelta: -1 }, {}],
    })
    expect((await removed()).ok).toBe(true)
    await added({ label: 'v-1' })
    const refusal = { ok: false, error: { kind: 'label-taken', label: 'V-1' } }
    expect(await restoreCloth({ id, version: await versionOf(id) })).toEqual(refusal)
    await expectJournalToAgree()
  })

  it('stays gone once it was cut up', async () => {
    const id = await added({ label: 'W-1' })
    const offcuts = [{ ...inches(9, 27), label: null, placeLabel: null }]
    expect((await cutCloth({ id, version: 0, remaining: null, offcuts, projectId: null, note: null })).ok).toBe(true)
    expect((await findClothPiece(id))?.isRestorable).toBe(false)
    expect(await restoreCloth({ id, version: await versionOf(id) })).toEqual({ ok: false, error: { kind: 'worked-up' } })
  })
})
