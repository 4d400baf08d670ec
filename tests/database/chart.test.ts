import { beforeAll, expect, it } from 'vitest'
import { addChart } from '#lib/db/chart/add-chart'
import { addDesign, type DesignInput } from '#lib/db/chart/add-design'
import { editChart } from '#lib/db/chart/edit-chart'
import { editDesign } from '#lib/db/chart/edit-design'
import { findDesign } from '#lib/db/chart/find-design'
import { moveChart } from '#lib/db/chart/move-chart'
import { findChart, findDesignCard, listChartOptions } from '#lib/db/chart/queries'
import { removeChart } from '#lib/db/chart/remove-chart'
import { removeDesign } from '#lib/db/chart/remove-design'
import { restoreChart } from '#lib/db/chart/restore-chart'
import { lendThings } from '#lib/db/loan/lend'
import { newId } from '#lib/db/new-id'
import { findPlaceByLabel } from '#lib/db/place/queries'
import { removePlace } from '#lib/db/place/remove-place'
import { returnChart } from '#lib/db/place/return-chart'
import { UM_PER_INCH } from '#lib/quantity/cloth-length'
import { describeOnEachEngine } from './engines'
import { hanneDrewitt, theShop } from './things'

const aDesign = (over: Partial<DesignInput> = {}): DesignInput => ({
  title: 'Wick Lane',
  size: { kind: 'stitches', width: 140, height: 98 },
  advised: { count: { threads: 28, perUm: UM_PER_INCH }, over: 2 },
  weave: 'single',
  insistsOnWeave: false,
  clothName: null,
  coverKind: 'picture',
  allowance: null,
  note: null,
  themes: { season: ['Winter'], subject: ['houses', 'Trees'], form: [] },
  ...over,
})

describeOnEachEngine('charts', ({ open }) => {
  const shop = theShop()
  const hanne = hanneDrewitt()
  let count = 0

  beforeAll(async () => {
    await open().prisma.owner.createMany({ data: [shop, hanne] })
  })

  const aChart = (over: Partial<Parameters<typeof addChart>[0]> = {}) => {
    const title = over.title ?? `Chart ${++count}`
    return {
      title,
      designers: ['Corvin Ashdale'],
      kind: 'leaflet' as const,
      ownerId: shop.id,
      copies: 1,
      edition: null,
      partsNeeded: 1,
      partsHeld: 1,
      boughtOn: '2026-02-12',
      priceMinor: 1_350,
      note: null,
      placeLabel: 'R2-3',
      isAnother: false,
      design: aDesign({ title }),
      ...over,
    }
  }
  async function added(over: Parameters<typeof aChart>[0] = {}): Promise<{ chartId: string; designId: string }> {
    const result = await addChart(aChart(over))
    if (!result.ok) throw new Error(`not added: ${result.error.kind}`)
    return result.value
  }
  const chartOf = async (id: string) => {
    const chart = await findChart(id)
    if (!chart) throw new Error('no such chart')
    return chart
  }
  const move = async (id: string, toPlaceLabel: string, how: 'take' | 'home') =>
    moveChart({ id, version: (await chartOf(id)).version, toPlaceLabel, how, reason: null })
  const lend = (id: string, withLabel = 'Ines Coldwell', count = 1) =>
    lendThings({
      ...{ withLabel, withKind: 'person', ownerId: shop.id, reason: 'to try', note: null },
      ...{ fromOn: '2026-03-03', dueOn: '2026-04-28', things: [{ noun: 'chart', id, count }] },
    })
  const remove = async (id: string) => removeChart({ id, version: (await chartOf(id)).version, ending: 'slip', note: null })
  const touchedSince = async (revision: number) => {
    const rows = await open().prisma.change.findMany({
      where: { revision: { gt: revision } },
      select: { noun: true, nounId: true },
    })
    return rows.map(({ noun, nounId }) => `${noun}:${nounId}`)
  }
  const revisionNow = async () => (await open().prisma.revision.findUniqueOrThrow({ where: { id: 'main' } })).number
  /** The journal's own count of each chart: its copies while it is held, 0 once gone. */
  async function expectJournalToAgree() {
    const charts = await open().prisma.chart.findMany({ include: { movements: { select: { wholeDelta: true } } } })
    for (const chart of charts) {
      const sum = chart.movements.reduce((total, { wholeDelta }) => total + wholeDelta, 0)
      expect([chart.id, sum]).toEqual([chart.id, chart.goneAt === null ? chart.copies : 0])
    }
  }

  it('comes in with its first design, its designers and themes, and a movement for its copies', async () => {
    const before = await revisionNow()
    const { chartId, designId } = await added({
      title: 'Rook Hill in Snow',
      designers: ['Mirabel Stoat', 'Saskia Thrupp', 'mirabel  stoat'],
      copies: 4,
    })
    expect(await findChart(chartId)).toMatchObject({
      title: 'Rook Hill in Snow',
      copies: 4,
      home: { label: 'R2-3' },
      current: { label: 'R2-3' },
      outSince: null,
      isGone: false,
      designers: [{ name: 'Mirabel Stoat' }, { name: 'Saskia Thrupp' }],
      designs: [{ design: { id: designId, title: 'Rook Hill in Snow', size: { kind: 'stitches', width: 140, height: 98 } } }],
      movements: [{ kind: 'receive', wholeDelta: 4, to: { label: 'R2-3' }, toOwnerName: shop.name }],
    })
    expect((await findDesignCard(designId))?.input).toEqual({
      ...aDesign({ title: 'Rook Hill in Snow' }),
      themes: { season: ['Winter'], subject: ['houses', 'Trees'], form: [] },
    })
    const place = await findPlaceByLabel('R2-3')
    const touched = await touchedSince(before)
    expect(touched).toEqual(expect.arrayContaining([`chart:${chartId}`, `design:${designId}`, `place:${place?.id}`]))
    expect(touched.filter((one) => one.startsWith('designer:'))).toHaveLength(2)
    await expectJournalToAgree()
  })

  it('is not put where only the record puts things, and is out since the day it left home', async () => {
    const { chartId: id } = await added({ title: 'Gull Alphabet' })
    const refusal = { ok: false, error: { kind: 'kept-by-record', label: 'Not found' } }
    expect(await move(id, 'Not found', 'home')).toEqual(refusal)
    expect(await move(id, 'not found', 'take')).toEqual(refusal)
    expect(await addChart(aChart({ title: 'Thread Winder', placeLabel: 'Not found' }))).toEqual(refusal)
    await move(id, 'Bag K-51', 'take')
    const left = new Date('2026-03-01T10:00:00Z')
    await open().prisma.chart.update({ where: { id }, data: { outSince: left } })
    await move(id, 'Bag K-52', 'take')
    expect((await chartOf(id)).outSince).toEqual(left)
    expect(await returnChart({ id, version: (await chartOf(id)).version })).toMatchObject({ ok: true })
    expect((await chartOf(id)).outSince).toBeNull()
  })

  it('asks before a title that is held comes in again', async () => {
    const { chartId } = await added({ title: 'Nine Wrens' })
    expect(await addChart(aChart({ title: 'nine  wrens' }))).toMatchObject({
      error: { kind: 'title-held', charts: [{ id: chartId, ownerName: shop.name, copies: 1, placeLabel: 'R2-3' }] },
    })
    expect((await addChart(aChart({ title: 'nine  wrens', isAnother: true }))).ok).toBe(true)
    expect(await addChart(aChart({ ownerId: 'nobody' }))).toMatchObject({ error: { kind: 'no-such-owner' } })
  })

  it('keeps one designer and one theme however they are spelt, and offers them again', async () => {
    await added({
      designers: ['Dorrit Quayle'],
      design: aDesign({ themes: { season: ['Midwinter'], subject: [], form: ['ornament'] } }),
    })
    await added({
      designers: ['DORRIT QUAYLE'],
      design: aDesign({ themes: { season: [], subject: ['ornament'], form: ['Ornament'] } }),
    })
    const options = await listChartOptions()
    expect(options.designers.filter((name) => /quayle/i.test(name))).toEqual(['Dorrit Quayle'])
    expect(options.themes.form).toEqual(['ornament'])
    expect(options.themes.subject).toContain('ornament')
  })

  it('writes a chart anew, its copies and owner in the journal, and its only design takes a new title along', async () => {
    const { chartId, designId } = await added({ title: 'Little Barge', copies: 3 })
    const { placeLabel, isAnother, design, ...card } = aChart({
      title: 'Little Barges',
      copies: 5,
      ownerId: hanne.id,
      designers: [],
    })
    const edit = { ...card, id: chartId, version: (await chartOf(chartId)).version }
    expect((await editChart(edit)).ok).toBe(true)
    expect(await editChart(edit)).toEqual({ ok: false, error: { kind: 'changed-meanwhile' } })
    const chart = await chartOf(chartId)
    expect(chart).toMatchObject({ title: 'Little Barges', owner: { name: hanne.name }, copies: 5, designers: [] })
    expect(chart.designs[0]?.design).toMatchObject({ id: designId, title: 'Little Barges' })
    expect(chart.movements.map(({ kind, wholeDelta }) => [kind, wholeDelta])).toEqual(
      expect.arrayContaining([
        ['transfer', 0],
        ['correct', 2],
        ['receive', 3],
      ]),
    )
    await expectJournalToAgree()
  })

  it('goes out to a new place and comes back home', async () => {
    const { chartId, designId } = await added()
    const before = await revisionNow()
    expect((await move(chartId, 'Bag K-07', 'take')).ok).toBe(true)
    expect(await touchedSince(before)).toEqual(expect.arrayContaining([`chart:${chartId}`, `design:${designId}`]))
    const out = await chartOf(chartId)
    expect(out).toMatchObject({ home: { label: 'R2-3' }, current: { label: 'Bag K-07', kind: 'bag' } })
    expect(out.outSince).toBeInstanceOf(Date)
    expect(await move(chartId, 'bag k-07', 'take')).toMatchObject({ error: { kind: 'already-there' } })
    expect((await returnChart({ id: chartId, version: (await chartOf(chartId)).version })).ok).toBe(true)
    const back = await chartOf(chartId)
    expect(back).toMatchObject({ current: { label: 'R2-3' }, outSince: null })
    expect(back.movements.map(({ kind }) => kind)).toEqual(['return', 'take', 'receive'])
  })

  it('taken to the place it lives in, it is put back', async () => {
    const { chartId } = await added()
    await move(chartId, 'Class table', 'take')
    await move(chartId, 'R2-3', 'take')
    expect(await chartOf(chartId)).toMatchObject({ outSince: null, movements: [{ kind: 'return' }, { kind: 'take' }, {}] })
  })

  it('lent, it is with a person; handed to a person it is always lent', async () => {
    const { chartId } = await added({ title: 'Hollin Staithe Alphabets' })
    expect((await lend(chartId)).ok).toBe(true)
    expect(await chartOf(chartId)).toMatchObject({ current: { label: 'Ines Coldwell', kind: 'person' }, home: { label: 'R2-3' } })
    expect((await chartOf(chartId)).outSince).toBeInstanceOf(Date)
    const other = await added({ title: 'Plum Stone Rhyme' })
    expect(await move(other.chartId, 'Ines Coldwell', 'take')).toEqual({
      ok: false,
      error: { kind: 'is-lending', label: 'Ines Coldwell' },
    })
  })

  it('a file is lent to nobody and goes to no person, but may be moved', async () => {
    const { chartId } = await added({ title: 'Wick Lane', kind: 'file', placeLabel: 'Charts folder' })
    expect(await lend(chartId, 'Peregrine Tolliver')).toMatchObject({ error: { kind: 'is-a-file' } })
    expect(await findPlaceByLabel('Peregrine Tolliver')).toBeNull()
    for (const how of ['take', 'home'] as const)
      expect(await move(chartId, 'Ines Coldwell', how)).toEqual({ ok: false, error: { kind: 'is-a-file' } })
    expect((await move(chartId, 'Office box', 'home')).ok).toBe(true)
    expect(await addChart(aChart({ kind: 'file', placeLabel: 'Ines Coldwell' }))).toMatchObject({ error: { kind: 'is-a-file' } })
  })

  it('a paper chart that is with a person cannot be called a file', async () => {
    const { chartId } = await added()
    await lend(chartId)
    const { placeLabel, isAnother, design, ...card } = aChart({ kind: 'file' })
    expect(await editChart({ ...card, id: chartId, version: (await chartOf(chartId)).version })).toMatchObject({
      error: { kind: 'is-a-file' },
    })
  })

  it('without a home it finds one where it is put, and is not lent before', async () => {
    const { chartId } = await added({ placeLabel: null })
    expect(await lend(chartId)).toMatchObject({ error: { kind: 'no-home' } })
    await move(chartId, 'Chart box', 'take')
    expect(await chartOf(chartId)).toMatchObject({
      home: { label: 'Chart box' },
      outSince: null,
      movements: [{ kind: 'move' }, {}],
    })
    await move(chartId, 'R4-1', 'home')
    expect(await chartOf(chartId)).toMatchObject({ home: { label: 'R4-1' }, current: { label: 'R4-1' }, outSince: null })
  })

  it('stays while a project works from it; finished ones do not hold it', async () => {
    const { chartId, designId } = await added()
    const project = await open().prisma.project.create({ data: { id: newId(), designId, ownerId: shop.id, status: 'stitching' } })
    expect(await remove(chartId)).toMatchObject({
      error: { kind: 'in-work', projects: [{ id: project.id, status: 'stitching' }] },
    })
    await open().prisma.project.update({ where: { id: project.id }, data: { status: 'finished', finishedOn: '2026-09-01' } })
    expect((await remove(chartId)).ok).toBe(true)
  })

  it('removed, it is seen no more but keeps its history, and can be brought back where it was', async () => {
    const { chartId, designId } = await added({ copies: 2 })
    await lend(chartId, 'Ines Coldwell', 2)
    const { version } = await chartOf(chartId)
    expect((await removeChart({ id: chartId, version, ending: 'lost', note: 'never came back' })).ok).toBe(true)
    await expectJournalToAgree()
    expect(await findDesign(designId)).toBeNull()
    expect(await findChart(chartId)).toMatchObject({
      isGone: true,
      movements: [{ kind: 'correct', wholeDelta: -2, reason: 'lost: never came back' }, { kind: 'take' }, {}],
    })
    expect(await removeChart({ id: chartId, version, ending: 'lost', note: null })).toMatchObject({
      error: { kind: 'changed-meanwhile' },
    })
    expect(await move(chartId, 'R2-3', 'home')).toMatchObject({ error: { kind: 'changed-meanwhile' } })

    const before = await revisionNow()
    expect((await restoreChart({ id: chartId, version: version + 1 })).ok).toBe(true)
    expect(await touchedSince(before)).toEqual(expect.arrayContaining([`chart:${chartId}`, `design:${designId}`]))
    expect(await restoreChart({ id: chartId, version: version + 1 })).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    const back = await chartOf(chartId)
    expect(back).toMatchObject({ isGone: false, copies: 2, home: { label: 'R2-3' }, current: { label: 'Ines Coldwell' } })
    expect(back.outSince).toBeInstanceOf(Date)
    await expectJournalToAgree()
  })

  it('brought back when its place is gone, it has no place', async () => {
    const { chartId } = await added({ placeLabel: 'Box soon gone' })
    await remove(chartId)
    const place = await findPlaceByLabel('Box soon gone')
    expect((await removePlace({ id: place?.id as string, version: place?.version as number })).ok).toBe(true)
    expect((await restoreChart({ id: chartId, version: (await chartOf(chartId)).version })).ok).toBe(true)
    expect(await chartOf(chartId)).toMatchObject({ home: null, current: null, isGone: false })
  })

  it('holds several designs, each by its own title', async () => {
    const { chartId } = await added({ title: 'The Salt Road', kind: 'booklet' })
    const second = await addDesign({ chartId, design: aDesign({ title: 'Ferry' }) })
    expect(second.ok).toBe(true)
    expect(await addDesign({ chartId, design: aDesign({ title: 'FERRY' }) })).toEqual({
      ok: false,
      error: { kind: 'design-taken', title: 'FERRY' },
    })
    expect(await addDesign({ chartId: 'none', design: aDesign() })).toMatchObject({ error: { kind: 'no-such-chart' } })
    expect((await chartOf(chartId)).designs.map(({ design }) => design.title)).toEqual(['The Salt Road', 'Ferry'])
  })

  it('writes a design anew, known by a ruled size or none, and drops themes it no longer has', async () => {
    const { designId, chartId } = await added({ title: 'Moth and Candle' })
    await addDesign({ chartId, design: aDesign({ title: 'Candle' }) })
    const design = aDesign({
      title: 'Moth',
      size: { kind: 'measured', widthUm: 8 * UM_PER_INCH, heightUm: 6 * UM_PER_INCH },
      advised: { count: { threads: 110, perUm: 100_000 }, over: 2 },
      weave: null,
      insistsOnWeave: true,
      clothName: 'Linen',
      coverKind: null,
      allowance: { profile: 'own', hundredths: 142 },
      note: 'Ruled from the picture.',
      themes: { season: [], subject: ['Trees', 'moths'], form: [] },
    })
    expect((await editDesign({ id: designId, version: 0, design })).ok).toBe(true)
    expect((await findDesignCard(designId))?.input).toEqual({
      ...design,
      themes: { season: [], subject: ['moths', 'Trees'], form: [] },
    })
    expect(await editDesign({ id: designId, version: 0, design })).toMatchObject({ error: { kind: 'changed-meanwhile' } })
    expect(await editDesign({ id: designId, version: 1, design: { ...design, title: 'candle' } })).toMatchObject({
      error: { kind: 'design-taken' },
    })
    const bare = { ...design, size: { kind: 'unknown' as const }, advised: null }
    expect((await editDesign({ id: designId, version: 1, design: bare })).ok).toBe(true)
    expect((await findDesignCard(designId))?.input).toMatchObject({
      size: { kind: 'unknown' },
      advised: null,
      clothName: 'Linen',
    })
  })

  it('a design goes only when another is left and it was never a project', async () => {
    const { designId, chartId } = await added({ title: 'Fourth Sunday' })
    expect(await removeDesign({ id: designId, version: 0 })).toEqual({ ok: false, error: { kind: 'only-design' } })
    const other = await addDesign({ chartId, design: aDesign({ title: 'Fifth Sunday' }) })
    await open().prisma.project.create({
      data: { id: newId(), designId, ownerId: shop.id, status: 'finished', finishedOn: '2026-01-01' },
    })
    expect(await removeDesign({ id: designId, version: 0 })).toMatchObject({
      error: { kind: 'design-worked', projects: [{ title: 'Fourth Sunday', status: 'finished' }] },
    })
    const otherId = other.ok ? other.value.id : ''
    const before = await revisionNow()
    expect(await removeDesign({ id: otherId, version: 0 })).toEqual({ ok: true, value: { chartId } })
    expect(await touchedSince(before)).toEqual(expect.arrayContaining([`design:${otherId}`, `chart:${chartId}`]))
    expect((await chartOf(chartId)).designs).toHaveLength(1)
  })

  it('of two people moving one chart at once, one is told', async () => {
    const { chartId } = await added()
    const { version } = await chartOf(chartId)
    const results = await Promise.all(
      ['Box A1', 'Box A2'].map((toPlaceLabel) => moveChart({ id: chartId, version, toPlaceLabel, how: 'take', reason: null })),
    )
    expect(results.map(({ ok }) => ok).sort()).toEqual([false, true])
  })
})
