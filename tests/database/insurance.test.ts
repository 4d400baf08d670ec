import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import path from 'node:path'
import sharp from 'sharp'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { keepFile } from '#lib/db/file/keep-file'
import { prepareFile } from '#lib/db/file/prepare-file'
import { findWorth } from '#lib/db/insurance/find-worth'
import { keepWorth } from '#lib/db/insurance/keep-worth'
import { readInsured } from '#lib/db/insurance/read-insured'
import { newId } from '#lib/db/new-id'
import { preparePhoto } from '#lib/db/photo/prepare-photo'
import { printedPhoto } from '#lib/db/photo/printed-photo'
import { insuranceList } from '#lib/insurance/insurance-list'
import { noReplacement } from '#lib/insurance/insured'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { addSmallWorld, type SmallWorld } from './small-world'

describeOnEachEngine('the insurance list', ({ open }) => {
  let folder = ''
  let world: SmallWorld
  const before = process.env.LARDER_DATA

  beforeAll(async () => {
    folder = mkdtempSync(path.join(tmpdir(), 'larder-insurance-'))
    process.env.LARDER_DATA = folder
    world = await addSmallWorld(open())
  })
  afterAll(() => {
    if (before === undefined) delete process.env.LARDER_DATA
    else process.env.LARDER_DATA = before
    rmSync(folder, { recursive: true, force: true })
  })

  it('takes prices from where they are kept, of the owners asked for and of nobody else', async () => {
    const { prisma } = open()
    const [shopId, hanneId] = world.ownerIds as [string, string]
    const [solidId, dyedId] = world.lineIds as [string, string]
    await prisma.threadLine.update({ where: { id: solidId }, data: { priceMinor: 115 } })
    await prisma.threadLine.update({ where: { id: dyedId }, data: { priceMinor: 360 } })
    const piece = await prisma.clothPiece.findFirstOrThrow({ where: { ownerId: hanneId }, orderBy: { id: 'asc' } })
    const chart = await prisma.chart.findFirstOrThrow({ where: { ownerId: hanneId } })
    granted(await keepWorth({ noun: 'cloth', id: piece.id, version: piece.version, priceMinor: 14_500 }))
    granted(await keepWorth({ noun: 'chart', id: chart.id, version: chart.version, isOutOfPrint: true }))
    // Somebody was there first.
    expect(await keepWorth({ noun: 'cloth', id: piece.id, version: piece.version, priceMinor: 1 })).toMatchObject({ ok: false })

    const list = insuranceList(await readInsured([hanneId]), {
      replacement: { ...noReplacement, charts: 1_100 },
      dearMinor: 5_000,
    })
    const total = Object.fromEntries(list.totals.map((one) => [one.class, one]))
    // Of the small world: five solid and three hand-dyed threads, each in two batches of Hanne's, with parts of known length at most once each.
    const held = await prisma.batch.findMany({ where: { ownerId: hanneId }, include: { thread: true } })
    const wholeOf = (lineId: string) =>
      held.filter(({ thread }) => thread.lineId === lineId).reduce((sum, { wholePutUps }) => sum + wholePutUps, 0)
    const partsMinor = (lineId: string, priceMinor: number) =>
      held
        .filter(({ thread }) => thread.lineId === lineId)
        .reduce((sum, { partStrandTenths, putUpStrandTenths }) => sum + (partStrandTenths / putUpStrandTenths) * priceMinor, 0)
    expect(total.solid?.count).toBe(wholeOf(solidId))
    expect(total['hand-dyed']?.count).toBe(wholeOf(dyedId))
    for (const [of, lineId, priceMinor] of [
      ['solid', solidId, 115],
      ['hand-dyed', dyedId, 360],
    ] as const) {
      const exact = wholeOf(lineId) * priceMinor + partsMinor(lineId, priceMinor)
      // Rounded down once a thread: five threads at most.
      expect(total[of]?.valueMinor).toBeLessThanOrEqual(exact)
      expect(total[of]?.valueMinor).toBeGreaterThan(exact - 6)
    }
    expect(total.cloth).toMatchObject({ count: 2, valueMinor: 14_500, unvalued: 1 })
    // Her one chart is out of print: apart, at its class's value.
    expect(total.charts).toMatchObject({ count: 0, valueMinor: 0 })
    expect(list.apart).toMatchObject([{ id: chart.id, valueMinor: 1_100, valuedBy: 'class' }])
    expect(total.notions?.count).toBe(0)
    expect(new Set(list.things.map(({ ownerName }) => ownerName))).toEqual(new Set(['Hanne Drewitt']))
    expect(list.things.every(({ recordedOn }) => recordedOn !== null)).toBe(true)
    const both = await readInsured([shopId, hanneId])
    expect(both.length).toBeGreaterThan(list.things.length + list.apart.length)
  })

  it('knows a finished piece by what its framer asked, and a kit batch as none', async () => {
    const { prisma } = open()
    const hanneId = world.ownerIds[1] as string
    const project = await prisma.project.findFirstOrThrow({ where: { ownerId: hanneId } })
    const framer = await prisma.place.findFirstOrThrow({ where: { kind: 'framer' } })
    await prisma.project.update({
      where: { id: project.id },
      data: { status: 'finished', finishedOn: '2026-11-20', placeId: null },
    })
    await prisma.loan.create({
      data: {
        ...{ id: newId(), kind: 'send', placeId: framer.id, ownerId: hanneId, reason: 'framing', fromOn: '2026-10-01' },
        ...{ closedOn: '2026-11-20', priceMinor: 14_000, projectId: project.id },
      },
    })
    const finished = async () => (await readInsured([hanneId])).filter((thing) => thing.class === 'finished')
    expect(await finished()).toMatchObject([{ id: project.id, priceMinor: 14_000, count: 1, irreplaceable: 'own-work' }])
    await prisma.project.update({ where: { id: project.id }, data: { quantity: 5 } })
    expect(await finished()).toEqual([])
  })

  it('says of a dear thing that there is a photograph and a receipt', async () => {
    const hanneId = world.ownerIds[1] as string
    const piece = await open().prisma.clothPiece.findFirstOrThrow({ where: { ownerId: hanneId }, orderBy: { id: 'asc' } })
    const png = await sharp({ create: { width: 40, height: 30, channels: 3, background: '#8e2f2b' } })
      .png()
      .toBuffer()
    const photo = granted(await preparePhoto(png))
    granted(await keepWorth({ noun: 'cloth', id: piece.id, version: piece.version, priceMinor: 14_500, photo }))
    const file = granted(await prepareFile('receipt.png', png))
    granted(await keepFile({ thing: { noun: 'cloth', id: piece.id }, role: 'receipt', file, pages: null, isAnother: false }))
    const kept = (await findWorth('cloth', piece.id))?.photoFile as string
    expect((await readInsured([hanneId])).find(({ id }) => id === piece.id)).toMatchObject({ photoFile: kept, receiptCount: 1 })
    const printed = await printedPhoto(kept)
    expect((await sharp(printed as Uint8Array).metadata()).format).toBe('jpeg')
    expect(await printedPhoto('../larder.db')).toBeNull()
  })
})
