import { beforeAll, expect, it } from 'vitest'
import { readScannedOperation } from '#api/scan'
import { findScanned } from '#lib/db/label/find-scanned'
import { newId } from '#lib/db/new-id'
import { addThread } from '#lib/db/thread/add-thread'
import { rememberBarcode } from '#lib/db/thread/barcodes'
import { GET as scanRoute } from '../../app/api/v1/scan/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aPlace, aThread, stranded } from './things'

describeOnEachEngine('what is scanned', ({ open }) => {
  const ids = { drawer: newId(), gone: newId(), thread: '' }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.place.createMany({ data: [aPlace(ids.drawer, 'T2.1-14', 'compartment'), aPlace(ids.gone, 'T9.9', 'drawer')] })
    await prisma.place.update({ where: { id: ids.gone }, data: { goneAt: new Date(), labelKey: `t9.9 (removed ${ids.gone})` } })
    await prisma.formerLabel.create({
      data: {
        id: newId(),
        placeId: ids.drawer,
        label: 'OLD-3',
        labelKey: 'old-3',
        why: 'renamed',
        until: new Date(Date.UTC(2026, 2, 3)),
      },
    })
    ids.thread = granted(await addThread({ ...aThread('0017'), line: stranded() })).threadId
    granted(await rememberBarcode({ code: '4006381333931', threadId: ids.thread }))
  })

  it('opens the link of a label, whatever address it was printed with', async () => {
    const read = await findScanned(`http://192.168.1.20:3000/places/${ids.drawer}`)
    expect(read).toMatchObject({ how: 'link', things: [{ noun: 'place', id: ids.drawer }] })
    expect(await findScanned(`http://192.168.1.20:3000/threads/${ids.thread}`)).toMatchObject({ things: [{ noun: 'thread' }] })
  })

  it('knows bars, labels however they are spelt, old labels and exact codes', async () => {
    expect(await findScanned('4006381333931')).toMatchObject({ how: 'bars', things: [{ noun: 'thread', id: ids.thread }] })
    expect(await findScanned(' t2.1-14 ')).toMatchObject({ how: 'words', things: [{ noun: 'place', id: ids.drawer }] })
    expect(await findScanned('0017')).toMatchObject({ how: 'words', things: [{ noun: 'thread', id: ids.thread }] })
    expect(await findScanned('17')).toMatchObject({ how: 'none', things: [] })
    const old = await findScanned('OLD-3')
    expect(old).toMatchObject({ how: 'words', things: [] })
    expect(old.old?.former.map(({ place }) => place.label)).toEqual(['T2.1-14'])
  })

  it('answers nothing to what is none of ours, and shows it as plain text', async () => {
    const link = `https://elsewhere.example/places/${newId()}`
    expect(await findScanned(link)).toEqual({ how: 'none', text: link, things: [], old: null })
    expect(await findScanned(`http://shop.example/places/${ids.gone}`)).toMatchObject({ how: 'none', things: [] })
    expect(await findScanned('javascript:alert(1)')).toMatchObject({ how: 'none', text: 'javascript:alert(1)', things: [] })
    expect(await findScanned('\u202E')).toMatchObject({ how: 'none', text: '', things: [] })
  })

  it('answers over the API', async () => {
    const read = await answer(readScannedOperation, scanRoute, { path: 'scan?text=T2.1-14' })
    expect(read.things).toEqual([
      { noun: 'place', id: ids.drawer, title: 'T2.1-14', label: 'T2.1-14', path: `/places/${ids.drawer}` },
    ])
    expect((await answer(readScannedOperation, scanRoute, { path: 'scan?text=OLD-3' })).meant).toEqual([
      { placeId: ids.drawer, label: 'T2.1-14' },
    ])
    expect(await problem(scanRoute, { path: 'scan' })).toMatchObject({ status: 400 })
  })
})
