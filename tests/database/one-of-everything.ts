import { createHash } from 'node:crypto'
import type { Database } from '#lib/db/client'
import { storeFile } from '#lib/db/file/file-store'
import { newId } from '#lib/db/new-id'
import { keepPhoto } from '#lib/db/photo/photo-files'

/**
 * A row, made by hand, in tables that a small world and some days in it leave empty, and files on the disk for those that name some. Words
 * and figures are such as are easily lost on the way: zeros, marks of every kind, tenths, a moment to the millisecond.
 */
export async function addOneOfEverything({ prisma }: Database): Promise<void> {
  const at = new Date('2026-11-30T23:59:59.007Z')
  const chart = await prisma.chart.findFirstOrThrow({ orderBy: { id: 'asc' } })
  const design = await prisma.design.findFirstOrThrow({ orderBy: { id: 'asc' } })
  const thread = await prisma.thread.findFirstOrThrow({ where: { code: '0017' } })
  const other = await prisma.thread.findFirstOrThrow({ where: { id: { not: thread.id } }, orderBy: { id: 'asc' } })
  const project = await prisma.project.findFirstOrThrow({ orderBy: { id: 'asc' } })
  const piece = await prisma.clothPiece.findFirstOrThrow({ orderBy: { id: 'asc' } })
  const place = await prisma.place.findFirstOrThrow({ where: { kind: 'bag' } })
  const batch = await prisma.batch.findFirstOrThrow({ where: { goneAt: null }, orderBy: { id: 'asc' } })
  const notion = await prisma.notion.findFirstOrThrow({ orderBy: { id: 'asc' } })
  const ownerId = chart.ownerId

  const coverFile = await keepPhoto({
    full: Buffer.from('the cover'),
    thumb: Buffer.from('the cover, small'),
    thumbAvif: Buffer.from('avif'),
  })
  await prisma.chart.update({ where: { id: chart.id }, data: { coverFile, coverHash: '00ff00ff00ff00ff', isOutOfPrint: true } })
  const bytes = Buffer.from('%PDF-1.7 a chart')
  const fileName = await storeFile(bytes, 'application/pdf')
  const sha256 = createHash('sha256').update(bytes).digest('hex')
  await prisma.keptFile.create({
    data: {
      ...{ id: newId(), role: 'chart', ownerId, chartId: chart.id, name: 'Kettle “at” Wend Cross.pdf', mime: 'application/pdf' },
      ...{ bytes: bytes.length, sha256, pages: 3, fileName, addedAt: at },
    },
  })
  await prisma.setting.upsert({
    where: { key: 'lengthUnit' },
    create: { key: 'lengthUnit', valueJson: '"cm"', version: 2 },
    update: { valueJson: '"cm"' },
  })
  await prisma.thread.update({
    where: { id: thread.id },
    data: { labL: 88.4, labA: -7.3, labB: 0.1 + 0.2, labCertainty: 'guess', note: 'Ecru\n"=1+2",\t\\ ☂ 🧵 é' },
  })
  const designer = await prisma.designer.create({ data: { id: newId(), name: 'Mirabel Stoat', nameKey: 'mirabel stoat' } })
  await prisma.chartDesigner.create({ data: { chartId: chart.id, designerId: designer.id, position: 4 } })
  await prisma.formerDesignerName.create({
    data: { id: newId(), designerId: designer.id, name: 'M. Stoat', nameKey: 'm stoat' },
  })
  await prisma.formerTitle.create({ data: { id: newId(), chartId: chart.id, title: 'Kettle', titleKey: 'kettle' } })
  await prisma.formerThreadCode.create({
    data: { id: newId(), threadId: thread.id, makerName: 'Larkholm', lineName: 'Old', code: '017', codeKey: 'larkholm old 017' },
  })
  const [firstId, secondId] = [thread.id, other.id].sort() as [string, string]
  await prisma.toldApart.create({ data: { id: newId(), noun: 'thread', firstId, secondId, at, who: 'Nell Oxtoby' } })
  const theme = await prisma.theme.create({ data: { id: newId(), axis: 'season', name: 'Winter', nameKey: 'winter' } })
  await prisma.designTheme.create({ data: { designId: design.id, themeId: theme.id } })
  await prisma.conversion.create({
    data: { id: newId(), sourceName: 'Card', sourceKey: 'card', threadId: thread.id, otherThreadId: other.id },
  })
  await prisma.threadBarcode.create({ data: { id: newId(), code: '0012345678905', threadId: thread.id } })
  await prisma.reorderRule.create({
    data: { id: newId(), threadId: thread.id, ownerId, kind: 'minimum', minimumPutUps: 0 },
  })
  await prisma.threadOrder.create({
    data: { id: newId(), threadId: thread.id, ownerId, putUpStrandTenths: 480_000, putUps: 3, orderedOn: '2026-11-01' },
  })
  await prisma.standIn.create({ data: { id: newId(), threadId: thread.id, standInThreadId: other.id } })
  // Cut from one another the wrong way round, and each kept for a project: what is named stands further down.
  const offcut = await prisma.clothPiece.create({
    data: { ...piece, id: '00000000-0000-7000-8000-000000000001', label: 'O-1', labelKey: 'o-1', parentId: piece.id, version: 0 },
  })
  await prisma.clothPiece.update({ where: { id: offcut.id }, data: { keptForProjectId: project.id } })
  await prisma.project.update({ where: { id: project.id }, data: { clothPieceId: piece.id } })
  const plan = await prisma.cutPlan.create({
    data: { id: newId(), title: 'Autumn', askedJson: '{}', planJson: '[]', createdAt: at },
  })
  await prisma.cutPlanPiece.create({
    data: { id: newId(), cutPlanId: plan.id, clothPieceId: piece.id, widthUm: 254_001, heightUm: 1 },
  })
  await prisma.projectSwap.create({
    data: { id: newId(), projectId: project.id, threadId: thread.id, standInThreadId: other.id },
  })
  await prisma.useReading.create({
    data: {
      ...{ id: newId(), projectId: project.id, threadId: thread.id, usedStrandTenths: 2_000_000_000, plainStrandTenths: 1 },
      ...{ flatStrandTenths: 0, how: 'weighed', at },
    },
  })
  const imported = await prisma.importBatch.create({
    data: { id: newId(), kind: 'notions', fileName: 'notions.csv', fileHash: 'f', at, mappingJson: '{}' },
  })
  await prisma.importRow.create({
    data: { id: newId(), importId: imported.id, rowNumber: 2, rowKey: 'k', noun: 'notion', nounId: notion.id },
  })
  await prisma.importStep.create({
    data: { id: newId(), importId: imported.id, position: 0, did: 'added', noun: 'notion', nounId: notion.id, versionAfter: 0 },
  })
  await prisma.importMapping.create({ data: { id: newId(), shapeKey: 'notions|kind', mappingJson: '{}' } })
  await prisma.labelPrint.create({ data: { id: newId(), noun: 'place', thingId: place.id, text: 'K-01', printedAt: at } })
  await prisma.placeCapacity.create({ data: { id: newId(), placeId: place.id, putUpWord: 'card', most: 12 } })
  await prisma.formerLabel.create({
    data: { id: newId(), placeId: place.id, label: 'B1', labelKey: 'b1', why: 'renamed', until: at },
  })
  const count = await prisma.stockCount.create({ data: { id: newId(), title: 'Drawer', placeId: place.id, startedAt: at } })
  await prisma.stockCountLine.create({
    data: { id: newId(), countId: count.id, batchId: batch.id, placeId: place.id, expected: 0, counted: 0 },
  })
  const loan = await prisma.loan.create({
    data: {
      id: newId(),
      kind: 'lend',
      placeId: place.id,
      ownerId,
      reason: 'to look at',
      fromOn: '2026-01-31',
      dueOn: '2026-02-28',
      priceMinor: 0,
    },
  })
  await prisma.loanLine.create({ data: { id: newId(), loanId: loan.id, position: 0, text: 'a frame' } })
  const walk = await prisma.walk.create({ data: { id: newId(), kind: 'pull', title: 'Pull', startedAt: at } })
  await prisma.walkProject.create({ data: { walkId: walk.id, projectId: project.id, position: 0 } })
  await prisma.walkLine.create({
    data: { id: newId(), walkId: walk.id, position: 0, batchId: batch.id, projectId: project.id, tickedAt: at, revision: 3 },
  })
  await prisma.missingThing.create({
    data: { id: newId(), batchId: batch.id, askedAt: at, walkId: walk.id, status: 'given up', settledAt: at },
  })
  const bag = await prisma.kitBag.create({ data: { id: newId(), projectId: project.id, number: 999 } })
  await prisma.kitBagCheck.create({ data: { id: newId(), bagId: bag.id, item: 'cloth', status: 'short', at } })
  await prisma.kitItem.create({
    data: { id: newId(), projectId: project.id, position: 99, kind: 'needle', name: 'Needle 26', perKit: 1, notionId: notion.id },
  })
  await prisma.kitLot.create({
    data: { id: newId(), projectId: project.id, batchId: batch.id, threadId: batch.threadId, fromBag: 1, toBag: 1, at },
  })
  const photoFile = await keepPhoto({
    full: Buffer.from('half done'),
    thumb: Buffer.from('half done, small'),
    thumbAvif: Buffer.from('avif'),
  })
  await prisma.workEntry.create({
    data: {
      ...{ id: newId(), projectId: project.id, day: '2026-02-28', stitches: -120, minutes: 1, donePerMille: 0, note: '½ “done”' },
      ...{ photoFile, who: 'Hanne Drewitt', at, goneAt: at },
    },
  })
  await prisma.workTimer.create({ data: { projectId: project.id, startedAt: at } })
  await prisma.timeAway.create({ data: { id: newId(), ownerId, fromOn: '2026-12-24', toOn: '2026-12-24', what: 'the sea' } })
  await prisma.rotationTurn.create({ data: { projectId: project.id, position: 0, weekdays: 127 } })
  await prisma.project.update({
    where: { id: project.id },
    data: { stars: 5, occasionKey: 'christmas', frameWidthUm: 1, frameHeightUm: 254_001, otherCostMinor: 0 },
  })
  await prisma.occasion.create({
    data: { id: newId(), ownerId, name: 'Guild fair', nameKey: 'guild fair', rule: 'last monday of 5' },
  })
  await prisma.stitchAlongPart.create({
    data: {
      id: newId(),
      projectId: project.id,
      position: 0,
      name: 'Part ½',
      comesOn: '2026-01-31',
      dueOn: '2026-02-28',
      stitches: 0,
    },
  })
  await prisma.threadOffer.create({
    data: {
      ...{ id: newId(), lineId: thread.lineId, threadId: thread.id, supplier: 'Oxmarsh', putUpStrandTenths: 480_000 },
      ...{ packPutUps: 12, priceMinor: 0, note: 'box of “12”' },
    },
  })
  const buyList = await prisma.buyList.create({
    data: { id: newId(), title: 'Spring', ownerId, startedAt: at, status: 'dropped' },
  })
  await prisma.buyListFor.create({
    data: {
      id: newId(),
      buyListId: buyList.id,
      position: 0,
      designId: project.designId,
      projectId: project.id,
      listName: 'cotton',
    },
  })
  await prisma.buyListLine.create({
    data: {
      ...{ id: newId(), buyListId: buyList.id, position: 0, threadId: thread.id, putUpStrandTenths: 480_000, putUps: 0 },
      ...{ isOneLot: true, matchLot: '018', priceMinor: 0, status: 'instead', boughtPutUps: 0, lot: '0', paidMinor: 0 },
      ...{ insteadThreadId: other.id, tickedAt: at, revision: 3, carriedAt: at, batchId: batch.id },
    },
  })
  await prisma.bulkEdit.create({
    data: { id: newId(), at, what: 'moved 3 threads', stepsJson: JSON.stringify({ x: 'y'.repeat(9) }) },
  })
}
