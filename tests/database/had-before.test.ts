import { beforeAll, expect, it } from 'vitest'
import { addChart } from '#lib/db/chart/add-chart'
import { addDesign } from '#lib/db/chart/add-design'
import { removeChart } from '#lib/db/chart/remove-chart'
import { lendThings } from '#lib/db/loan/lend'
import { findHadByCover, findHadByWords } from '#lib/db/merging/had-before'
import { mergeCharts } from '#lib/db/merging/merge-charts'
import { newId } from '#lib/db/new-id'
import { describeOnEachEngine } from './engines'
import { granted } from './granted'
import { aDesign, aLeaflet, hanneDrewitt, theShop } from './things'

describeOnEachEngine('“have I bought this before?”', ({ open }) => {
  const [shop, hanne] = [theShop(), hanneDrewitt()]
  const chart = (title: string, over: object = {}) =>
    addChart({ ...aLeaflet(title, shop.id), isAnother: true, design: aDesign(title), ...over })
  let rook = { chartId: '', designId: '' }

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [shop, hanne] })
    rook = granted(
      await chart('Rook Hill in Snow', { designers: ['Corvin Ashdale'], copies: 2, placeLabel: 'R1', edition: '2nd' }),
    )
    const book = granted(await chart('Oxmarsh Year Book', { kind: 'booklet', ownerId: hanne.id }))
    granted(await addDesign({ chartId: book.chartId, design: aDesign('Kettle at Wend Cross') }))
    const passed = granted(await chart('Salt Road'))
    granted(await removeChart({ id: passed.chartId, version: 0, ending: 'passed on', note: 'to the guild' }))
    await prisma.project.create({
      data: { id: newId(), designId: rook.designId, ownerId: shop.id, status: 'finished', finishedOn: '2024-11-02' },
    })
    granted(
      await lendThings({
        things: [{ noun: 'chart', id: rook.chartId, count: 1 }],
        ...{ withLabel: 'Ines Coldwell', withKind: 'person', ownerId: shop.id, reason: 'to look at', note: null },
        ...{ fromOn: '2026-03-03', dueOn: '2027-03-03' },
      }),
    )
    await prisma.chart.update({ where: { id: rook.chartId }, data: { coverHash: '0f0f0f0f0f0f0f0f' } })
  })

  it('says what is held, where, in which edition, lent to whom, and when it was finished', async () => {
    const { sure } = await findHadByWords('rook hill in the SNOW')
    expect(sure).toMatchObject([
      {
        ...{ chartId: rook.chartId, copies: 2, edition: '2nd', ownerName: shop.name, reason: { kind: 'title' }, left: null },
        ...{
          place: { label: 'R1' },
          lentTo: [{ label: 'Ines Coldwell', dueOn: '2027-03-03', copies: 1 }],
          finishedOn: ['2024-11-02'],
        },
      },
    ])
  })

  it('forgives slips, looks into booklets, and knows designers', async () => {
    expect((await findHadByWords('rok hil snow')).near[0]).toMatchObject({ title: 'Rook Hill in Snow' })
    expect((await findHadByWords('kettle at wend cross')).near[0]).toMatchObject({
      title: 'Oxmarsh Year Book',
      reason: { kind: 'design', title: 'Kettle at Wend Cross' },
    })
    expect((await findHadByWords('Ashdale')).near[0]).toMatchObject({ reason: { kind: 'designer', name: 'Corvin Ashdale' } })
    expect(await findHadByWords('Bell Tower Band')).toMatchObject({ sure: [], near: [] })
  })

  it('makes nothing of little words, whichever of two alike has them', async () => {
    for (const title of ['Tern on a Post', 'The Tern on the Post']) granted(await chart(title))
    for (const asked of ['the tern on the post', 'tern on a post', 'tern post']) {
      const { sure } = await findHadByWords(asked)
      expect(sure.map(({ title }) => title).sort(), asked).toEqual(['Tern on a Post', 'The Tern on the Post'])
    }
  })

  it('remembers what was passed on, and tells of a double once', async () => {
    expect((await findHadByWords('the salt road')).sure).toMatchObject([{ left: { reason: 'passed on: to the guild' } }])
    const one = granted(await chart('Nine Wrens'))
    const two = granted(await chart('Wrens, Nine of Them'))
    granted(await mergeCharts({ keptId: one.chartId, goneId: two.chartId }))
    expect((await findHadByWords('wrens nine of them')).sure).toMatchObject([
      { chartId: one.chartId, copies: 2, reason: { kind: 'other-title', title: 'Wrens, Nine of Them' } },
    ])
  })

  it('knows a cover by what it looks like', async () => {
    // Two bits of 64 differ, then twelve, then all.
    expect((await findHadByCover(['0f0f0f0f0f0f0f0c'])).sure).toMatchObject([{ reason: { kind: 'cover', bits: 2 } }])
    expect((await findHadByCover(['0f0f0f0f0f0f0000', 'f0f0f0f0f0f0ffff'])).sure).toMatchObject([{ reason: { bits: 8 } }])
    expect((await findHadByCover(['0f0f0f0f0f000000'])).near).toMatchObject([{ reason: { bits: 12 } }])
    expect(await findHadByCover(['f0f0f0f0f0f0f0f0'])).toEqual({ sure: [], near: [], covers: 1 })
  })
})
