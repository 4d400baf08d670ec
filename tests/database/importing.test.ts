import { mkdtempSync, rmSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { getAnswers } from '#lib/db/answers/get-answers'
import type { Database } from '#lib/db/client'
import { bringIn } from '#lib/db/importing/bring-in'
import type { ImportChoices } from '#lib/db/importing/import-service'
import { listImports } from '#lib/db/importing/imports'
import { previewImport } from '#lib/db/importing/preview-import'
import { bringInSample, readSampleFile } from '#lib/db/importing/sample'
import { stageFile } from '#lib/db/importing/stage-file'
import { undoImport } from '#lib/db/importing/undo-import'
import { editPlace } from '#lib/db/place/edit-place'
import { mergePlace } from '#lib/db/place/merge-place'
import { importKinds } from '#lib/importing/fields'
import { describeOnEachEngine } from './engines'

const folder = mkdtempSync(path.join(tmpdir(), 'larder-import-'))
const before = process.env.LARDER_DATA
beforeAll(() => {
  process.env.LARDER_DATA = folder
})
afterAll(() => {
  process.env.LARDER_DATA = before
  rmSync(folder, { recursive: true, force: true })
})

const stage = async (text: string, name = 'mine.csv') => (await stageFile(name, new TextEncoder().encode(text))).stagedId
const bring = async (text: string, choices: ImportChoices = {}) => {
  const result = await bringIn(await stage(text), choices)
  if (!result.ok) throw new Error(JSON.stringify(result.error))
  return result.value
}
async function stockEqualsMovements({ prisma }: Database) {
  const [batches, movements] = await Promise.all([
    prisma.batch.findMany(),
    prisma.movement.groupBy({ by: ['batchId'], _sum: { wholeDelta: true, partDeltaStrandTenths: true } }),
  ])
  const sums = new Map(movements.map(({ batchId, _sum }) => [batchId, _sum]))
  for (const batch of batches) {
    expect(sums.get(batch.id)?.wholeDelta ?? 0).toBe(batch.wholePutUps)
    expect(sums.get(batch.id)?.partDeltaStrandTenths ?? 0).toBe(batch.partStrandTenths)
  }
}

describeOnEachEngine('bringing in the sample', ({ open }) => {
  it('brings the whole sample in, and the second time finds all of it there', async () => {
    const first = await bringInSample()
    expect(first).toMatchObject({ ok: true, value: { counts: { refused: 0, changed: 0 } } })
    expect(first.ok && first.value.counts.added).toBeGreaterThan(4_000)
    const there = await Promise.all([
      open().prisma.batch.count(),
      open().prisma.design.count(),
      open().prisma.keyLine.count(),
      open().prisma.clothPiece.count(),
      open().prisma.movement.count(),
    ])
    expect(there[1]).toBe(220)
    expect(there[3]).toBe(90)
    for (const kind of importKinds) {
      const { stagedId } = await stageFile(`${kind}.csv`, await readSampleFile(kind))
      expect(await previewImport(stagedId, { kind }), kind).toMatchObject({
        ok: true,
        value: { counts: { added: 0, changed: 0, refused: 0 } },
      })
    }
    await stockEqualsMovements(open())
  })

  it('answers for every design of the sample', async () => {
    const answers = await getAnswers()
    expect(answers.catalogue.size).toBe(220)
    const owners = [...answers.world.owners.keys()]
    const kettle = answers.search.search('ketle wend', { limit: 5, noun: 'design' }).hits[0]
    expect(kettle?.title).toBe('Kettle at Wend Cross')
    expect(answers.coverage(owners).answerFor(kettle?.id.slice('design:'.length) ?? '')?.best.threadCount).toBe(8)
  })
})

describeOnEachEngine('bringing in', ({ open }) => {
  it('reads another person’s headers, separator and units, keeps zeros, and makes the places it names', async () => {
    const file = await readFile(path.resolve('tests/database/data/other-headers.csv'))
    const { stagedId } = await stageFile('garn.csv', file)
    const preview = await previewImport(stagedId, { ownerName: 'Ines Coldwell' })
    expect(preview).toMatchObject({
      ok: true,
      value: { kind: 'threads', found: { separator: ';' }, counts: { added: 3, refused: 1 } },
    })
    const result = await bringIn(stagedId, { ownerName: 'Ines Coldwell' })
    expect(result).toMatchObject({ ok: true, value: { counts: { added: 3, refused: 1 } } })
    const held = await open().prisma.batch.findMany({
      where: { owner: { name: 'Ines Coldwell' } },
      select: {
        wholePutUps: true,
        partStrandTenths: true,
        homePlace: { select: { label: true } },
        thread: { select: { code: true } },
      },
      orderBy: { thread: { code: 'asc' } },
    })
    expect(held.map(({ thread, wholePutUps, homePlace }) => [thread.code, wholePutUps, homePlace?.label])).toEqual([
      ['0017', 2, 'Dose 4'],
      ['17', 1, 'Dose 4'],
      ['3-12', 0, 'Dose 5'],
    ])
    // 1,5 m of six strands.
    expect(held[2]?.partStrandTenths).toBe(90_000)
    await stockEqualsMovements(open())
  })

  it('takes an import back, leaving what was changed since, and lets it come in again', async () => {
    const text = 'Maker,Line,Code,Skeins,Place\nTessaly,Cotton,A1,3,Box 90\nTessaly,Cotton,A2,2,Box 90\n'
    const { importId } = await bring(text, { ownerName: 'Hanne Drewitt' })
    const changed = await open().prisma.batch.findFirstOrThrow({ where: { thread: { code: 'A2' }, goneAt: null } })
    await open().prisma.batch.update({ where: { id: changed.id }, data: { version: { increment: 1 } } })
    const undone = await undoImport(importId)
    expect(undone).toMatchObject({ ok: true })
    expect(undone.ok && undone.value.left.map(({ noun, why }) => [noun, why])).toEqual(
      expect.arrayContaining([
        ['batch', 'changed-since'],
        ['thread', 'in-use'],
        ['place', 'in-use'],
      ]),
    )
    expect(await open().prisma.batch.count({ where: { goneAt: null, thread: { code: { in: ['A1', 'A2'] } } } })).toBe(1)
    await stockEqualsMovements(open())
    expect(await undoImport(importId)).toEqual({ ok: false, error: { kind: 'already-undone', importId } })
    await bring(text, { ownerName: 'Hanne Drewitt' })
    const answers = await getAnswers()
    const thread = [...answers.world.threads.values()].find(({ code }) => code === 'A1')
    expect(thread).toBeDefined()
    await stockEqualsMovements(open())
  })

  it('corrects the stock a later file counts otherwise, and an undo sets it back', async () => {
    await bring('Maker,Line,Code,Skeins,Place\nTessaly,Cotton,B7,3,Box 91\n', { ownerName: 'Hanne Drewitt' })
    const later = await bring('Maker,Line,Code,Skeins,Place\nTessaly,Cotton,B7,5,Box 91\n', { ownerName: 'Hanne Drewitt' })
    expect(later.counts).toMatchObject({ changed: 1 })
    const skeins = async () =>
      (await open().prisma.batch.findFirstOrThrow({ where: { thread: { code: 'B7' }, goneAt: null } })).wholePutUps
    expect(await skeins()).toBe(5)
    await stockEqualsMovements(open())
    expect(await undoImport(later.importId)).toMatchObject({ ok: true, value: { left: [] } })
    expect(await skeins()).toBe(3)
    await stockEqualsMovements(open())
  })

  it('brings notions in, counts them anew from a later file, and takes both back', async () => {
    const head = 'Item,Type,Size,Qty,Pack of,Reorder at,Cost,Where kept\n'
    const text = `${head}Tapestry needles,Needles,26,12,6,6,1.80,Tin 93\nBeech ring,Hoop,10 in,1,,,9.50,Shelf 93\nOdd one,wozzle,,1,,,,\n`
    const mine = { ownerName: 'Hanne Drewitt' }
    const preview = await previewImport(await stage(text), mine)
    expect(preview).toMatchObject({ ok: true, value: { kind: 'notions', counts: { added: 2, refused: 1 } } })
    const first = await bring(text, mine)
    const held = () =>
      open().prisma.notion.findMany({
        where: { goneAt: null, homePlace: { label: { endsWith: ' 93' } } },
        orderBy: { name: 'asc' },
        include: { homePlace: true, movements: { orderBy: { id: 'asc' } } },
      })
    const journalled = async () => {
      for (const { id, count, goneAt } of await open().prisma.notion.findMany()) {
        const sum = await open().prisma.movement.aggregate({ where: { notionId: id }, _sum: { wholeDelta: true } })
        expect([id, sum._sum.wholeDelta]).toEqual([id, goneAt === null ? count : 0])
      }
    }
    expect(await held()).toMatchObject([
      { kind: 'hoop', name: 'Beech ring', count: 1, priceMinor: 950, homePlace: { label: 'Shelf 93' } },
      // The key by which sizes are put in order: needles go by their number.
      { kind: 'needle', count: 12, packOf: 6, minimum: 6, priceMinor: 180, sizeKey: '1 000000000026' },
    ])
    expect(await bring(text, mine)).toMatchObject({ counts: { added: 0, changed: 0, same: 2 } })
    const later = await bring(text.replace(',12,', ',10,'), mine)
    expect(later.counts).toMatchObject({ added: 0, changed: 1, same: 1 })
    expect((await held())[1]).toMatchObject({ count: 10, movements: [{ kind: 'receive' }, { kind: 'correct', wholeDelta: -2 }] })
    await journalled()
    expect(await undoImport(later.importId)).toMatchObject({ ok: true, value: { left: [] } })
    expect((await held())[1]).toMatchObject({ count: 12 })
    // The needles were changed and changed back since, so they stay; the hoop goes.
    expect(await undoImport(first.importId)).toMatchObject({ ok: true })
    expect((await held()).map(({ kind }) => kind)).toEqual(['needle'])
    await journalled()
  })

  it('never calls a design stitchable whose list came in with rows refused, until they are mended', async () => {
    await bring('Chart,Width,Height\nLamp by the Door,40,40\n', { ownerName: 'Ines Coldwell' })
    const key = 'Chart,Maker,Line,Code,Strands,Skeins\nLamp by the Door,Larkholm,Sticktwist,0017,2,1\n'
    const broken = await bring(`${key}Lamp by the Door,Larkholm,Sticktwist,17,2,lots\n`)
    expect(broken.counts).toMatchObject({ added: 1, refused: 1 })
    const answerOf = async () => {
      const answers = await getAnswers()
      const ines = [...answers.world.owners].find(([, name]) => name === 'Ines Coldwell')?.[0] ?? ''
      const lamp = [...answers.world.designs.values()].find(({ design }) => design.title === 'Lamp by the Door')
      return answers.coverage([ines]).answerFor(lamp?.design.id ?? '')?.best
    }
    expect(await answerOf()).toMatchObject({ threadCount: 1, readyCount: 1, isIncomplete: true, isStitchable: false })
    await bring(`${key}Lamp by the Door,Larkholm,Sticktwist,17,2,1\n`)
    expect(await answerOf()).toMatchObject({ threadCount: 2, readyCount: 2, isIncomplete: false, isStitchable: true })
  })

  it('takes what lies in a kitted project’s bag to be the project’s, and lets go of it with an undo', async () => {
    const owner = { ownerName: 'Maud of the Framing Bench' }
    await bring('Chart,Width,Height\nBarge by Night,40,40\n', owner)
    await bring('Chart,Maker,Line,Code,Strands,Skeins\nBarge by Night,Larkholm,Bag Cotton,0500,2,1\n')
    const threads = await bring('Maker,Line,Code,Skeins,Place,Now at\nLarkholm,Bag Cotton,0500,2,Tin 1,Bag 77\n', owner)
    const projects = await bring('Design,Status,Place\nBarge by Night,kitted,Bag 77\n', owner)
    const batch = await open().prisma.batch.findFirstOrThrow({ where: { thread: { code: '0500' } }, include: { promises: true } })
    expect(batch.promises.map(({ strandTenths }) => strandTenths)).toEqual([480_000])
    const answers = await getAnswers()
    expect(answers.freeOf(batch.threadId, [batch.ownerId])).toMatchObject({ freeStrandTenths: 0, outStrandTenths: 960_000 })

    expect(await undoImport(projects.importId)).toMatchObject({ ok: true, value: { left: [] } })
    expect(await open().prisma.stockPromise.count({ where: { batchId: batch.id } })).toBe(0)
    // Its thread is still in the key that came in before.
    expect(await undoImport(threads.importId)).toMatchObject({ ok: true, value: { left: [] } })
    await stockEqualsMovements(open())
  })

  it('puts what an old label names where that is now, and says so', async () => {
    await bring('Label,Kind\nCupboard 91,cabinet\nCupboard 92,cabinet\nCupboard 93,cabinet\n')
    const place = (label: string) => open().prisma.place.findFirstOrThrow({ where: { label } })
    const card = { name: null, kind: 'cabinet' as const, walkOrder: null, capacity: null, note: null }
    const [renamed, merged] = await Promise.all([place('Cupboard 91'), place('Cupboard 92')])
    const into = await place('Cupboard 93')
    expect(await editPlace({ ...card, label: 'Cupboard 94', id: renamed.id, version: renamed.version })).toMatchObject({
      ok: true,
    })
    const merge = { id: merged.id, version: merged.version, intoId: into.id, addsRoom: true, who: 'Nell Oxtoby' }
    expect(await mergePlace(merge)).toMatchObject({ ok: true })

    const file = 'Maker,Line,Code,Skeins,Place,Now at\nLarkholm,Bag Cotton,0777,2,Cupboard 91,Cupboard 92\n'
    const choices = { ownerName: 'Maud of the Framing Bench' }
    const preview = await previewImport(await stage(file), choices)
    expect(preview).toMatchObject({
      ok: true,
      value: {
        warnings: [
          { field: 'place', kind: 'old-label', raw: 'Cupboard 91', accepted: ['Cupboard 94'] },
          { field: 'nowAt', kind: 'old-label', raw: 'Cupboard 92', accepted: ['Cupboard 93'] },
        ],
      },
    })
    await bring(file, choices)
    const batch = await open().prisma.batch.findFirstOrThrow({ where: { thread: { code: '0777' } } })
    expect(batch).toMatchObject({ homePlaceId: renamed.id, currentPlaceId: into.id })
    expect(await place('Cupboard 92')).toMatchObject({ goneAt: expect.any(Date) })
    expect(await open().prisma.place.count({ where: { label: 'Cupboard 91' } })).toBe(0)
  })

  it('refuses a file that is none of ours and changes nothing', async () => {
    const count = (await listImports(1_000)).length
    expect(await bringIn(await stage('PK\u0003\u0004'), {})).toMatchObject({ ok: false })
    expect(await bringIn(await stage('apples,pears\n1,2\n', 'fruit.csv'), {})).toMatchObject({
      ok: false,
      error: { kind: 'unknown-kind', fileName: 'fruit.csv' },
    })
    expect(await bringIn(await stage('apples,pears\n1,2\n', 'fruit.csv'), { kind: 'places' })).toMatchObject({
      ok: false,
      error: { kind: 'mapping-incomplete', fileName: 'fruit.csv' },
    })
    expect(await bringIn('../../etc/passwd', {})).toMatchObject({ ok: false, error: { kind: 'no-such-file' } })
    expect((await listImports(1_000)).length).toBe(count)
  })
})
