import { beforeAll, expect, it } from 'vitest'
import { getDesignCloth } from '#api/design-cloth'
import { getDesign, getDesignCoverage, listDesigns, searchEverything } from '#api/designs'
import { addMovement, listMovementsOperation } from '#api/movements'
import { getPlace, listPlacesOperation } from '#api/places'
import { addProject, finishProjectOperation, getProject, kitProjectOperation, listProjects } from '#api/projects'
import type { Handler } from '#api/serve'
import { getHealth, getReady } from '#api/service'
import { getThread, listClothOperation, listOwnersOperation, listThreadsOperation } from '#api/stock'
import { getAnswers } from '#lib/db/answers/get-answers'
import { addCloth } from '#lib/db/cloth/add-cloth'
import { newId } from '#lib/db/new-id'
import { GET as cloth } from '../../app/api/v1/cloth/route'
import { GET as designCloth } from '../../app/api/v1/designs/[designId]/cloth/route'
import { GET as designCoverage } from '../../app/api/v1/designs/[designId]/coverage/route'
import { GET as design } from '../../app/api/v1/designs/[designId]/route'
import { GET as designs } from '../../app/api/v1/designs/route'
import { GET as health } from '../../app/api/v1/health/route'
import { GET as movements, POST as postMovement } from '../../app/api/v1/movements/route'
import { GET as owners } from '../../app/api/v1/owners/route'
import { GET as place } from '../../app/api/v1/places/[placeId]/route'
import { GET as places } from '../../app/api/v1/places/route'
import { POST as abandon } from '../../app/api/v1/projects/[projectId]/abandon/route'
import { POST as finish } from '../../app/api/v1/projects/[projectId]/finish/route'
import { POST as kit } from '../../app/api/v1/projects/[projectId]/kit/route'
import { GET as project } from '../../app/api/v1/projects/[projectId]/route'
import { POST as status } from '../../app/api/v1/projects/[projectId]/status/route'
import { POST as work } from '../../app/api/v1/projects/[projectId]/work/route'
import { GET as projects, POST as start } from '../../app/api/v1/projects/route'
import { GET as ready } from '../../app/api/v1/ready/route'
import { GET as search } from '../../app/api/v1/search/route'
import { GET as thread } from '../../app/api/v1/threads/[threadId]/route'
import { GET as threads } from '../../app/api/v1/threads/route'
import { answer, problem } from './api-caller'
import { describeOnEachEngine } from './engines'
import { addLarkholm, hanneDrewitt, skein, theShop } from './things'

const inch = 25_400

describeOnEachEngine('the API on a collection', ({ open }) => {
  const ids = {
    shop: newId(),
    hanne: newId(),
    rack: newId(),
    cabinet: newId(),
    drawer: newId(),
    bag: newId(),
    chart: newId(),
    design: newId(),
    list: newId(),
    designer: newId(),
    season: newId(),
    grey: newId(),
    green: newId(),
  }
  const receive = (threadId: string, wholePutUps: number, more: object = {}) =>
    answer(addMovement, postMovement, {
      body: { kind: 'receive', threadId, ownerId: ids.shop, wholePutUps, homePlaceId: ids.drawer, ...more },
    })

  beforeAll(async () => {
    const { prisma } = open()
    await prisma.owner.createMany({ data: [theShop(ids.shop), hanneDrewitt(ids.hanne)] })
    const tree = [
      { id: ids.rack, label: 'R1', kind: 'rack', parentId: null, path: `/${ids.rack}/` },
      { id: ids.cabinet, label: 'T2', kind: 'cabinet', parentId: null, path: `/${ids.cabinet}/` },
      { id: ids.drawer, label: 'T2.1', kind: 'drawer', parentId: ids.cabinet, path: `/${ids.cabinet}/${ids.drawer}/` },
      { id: ids.bag, label: 'K-07', kind: 'bag', parentId: null, path: `/${ids.bag}/` },
    ]
    for (const one of tree) await prisma.place.create({ data: { ...one, labelKey: one.label.toLowerCase() } })
    const lineId = newId()
    const makerId = await addLarkholm(open())
    await prisma.threadLine.create({
      data: { id: lineId, makerId, name: 'Stranded cotton', nameKey: 'stranded cotton', strands: 6, putUpStrandTenths: skein },
    })
    await prisma.thread.createMany({
      data: [
        { id: ids.grey, lineId, code: '0017', name: 'Rook Grey' },
        { id: ids.green, lineId, code: '17', name: 'Larch Green' },
      ],
    })
    await prisma.designer.create({ data: { id: ids.designer, name: 'Mirabel Stoat', nameKey: 'mirabel stoat' } })
    await prisma.theme.create({ data: { id: ids.season, axis: 'season', name: 'Winter', nameKey: 'winter' } })
    const title = { title: 'Rook Hill in Snow', titleKey: 'rook hill in snow' }
    await prisma.chart.create({
      data: { id: ids.chart, ...title, ownerId: ids.shop, homePlaceId: ids.rack, currentPlaceId: ids.rack },
    })
    await prisma.chartDesigner.create({ data: { chartId: ids.chart, designerId: ids.designer, position: 0 } })
    await prisma.design.create({
      data: {
        ...{ id: ids.design, chartId: ids.chart, ...title, widthStitches: 140, heightStitches: 98 },
        ...{ advisedThreads: 28, advisedPerUm: inch, advisedOver: 2, advisedWeave: 'single' },
      },
    })
    await prisma.designTheme.create({ data: { designId: ids.design, themeId: ids.season } })
    await prisma.threadList.create({ data: { id: ids.list, designId: ids.design, name: 'Cotton', nameKey: 'cotton' } })
    for (const [position, threadId] of [ids.grey, ids.green].entries()) {
      const keyLineId = newId()
      await prisma.keyLine.create({
        data: { id: keyLineId, threadListId: ids.list, position, symbol: 'xo'[position], hasTally: true, full: 2_940 },
      })
      await prisma.keyLineThread.create({ data: { id: newId(), keyLineId, position: 0, threadId, strands: 2 } })
    }
    const piece = await addCloth({
      ...{ ownerId: ids.shop, label: 'L-12', makerName: null, name: 'Ostravane evenweave', colourName: 'Oat', lab: null },
      ...{ weave: 'single', ends: { threads: 28, perUm: inch }, picks: { threads: 28, perUm: inch } },
      ...{ widthUm: 18 * inch, heightUm: 27 * inch, isSquared: true, sizeCertainty: 'measured', isTurnable: true },
      ...{ countCertainty: 'label', oneWayBecause: null, dyeing: null, washState: 'unknown', washedOn: null },
      ...{ note: null, placeLabel: 'R1' },
    })
    if (!piece.ok) throw new Error(piece.error.kind)
  })

  it('is up, and says whose goods there are and which places', async () => {
    expect(await answer(getHealth, health)).toEqual({ status: 'ok' })
    await getAnswers()
    expect(await answer(getReady, ready)).toEqual({ status: 'ready' })
    const { owners: found } = await answer(listOwnersOperation, owners)
    expect(found.map(({ name }) => name)).toEqual(['The Oxmarsh Needle Room', 'Hanne Drewitt'])
    const { places: first, next } = await answer(listPlacesOperation, places, { path: 'places?limit=3' })
    expect(first).toHaveLength(3)
    const rest = await answer(listPlacesOperation, places, { path: `places?limit=3&after=${next}` })
    const all = [...first, ...rest.places]
    expect(rest.next).toBeNull()
    expect(all.map(({ label }) => label).sort()).toEqual(['K-07', 'R1', 'T2', 'T2.1'])
    expect(all.find(({ label }) => label === 'T2.1')).toMatchObject({ depth: 1, pathText: 'T2 › T2.1' })
  })

  it('finds by words with a wrong letter and says where the thing is', async () => {
    const { hits } = await answer(searchEverything, search, { path: 'search?q=rook+hil+snwo&noun=design' })
    expect(hits).toEqual([
      {
        noun: 'design',
        id: ids.design,
        title: 'Rook Hill in Snow',
        label: null,
        match: 'words',
        places: [{ placeId: ids.rack, label: 'R1' }],
      },
    ])
    const byCode = await answer(searchEverything, search, { path: 'search?q=17&noun=thread' })
    expect(byCode.hits.map(({ id, match }) => [id, match])).toEqual([
      [ids.green, 'exact'],
      [ids.grey, 'close'],
    ])
    // What is written on a place is what one looks for it by, whatever it is called.
    const [drawer] = (await answer(searchEverything, search, { path: 'search?q=T2.1&noun=place' })).hits
    expect(drawer).toMatchObject({ label: 'T2.1', match: 'exact', places: [{ label: 'T2' }] })
  })

  it('takes thread in, with its line in the journal, and answers designs from it at once', async () => {
    const before = await answer(listDesigns, designs, { path: 'designs?stitchableNow=true' })
    expect(before).toMatchObject({ ownerIds: [ids.shop], total: 0, designs: [] })
    const received = await receive(ids.grey, 2, { who: 'Nell Oxtoby' })
    expect(received.movements).toMatchObject([{ kind: 'receive', wholeDelta: 2, who: 'Nell Oxtoby', to: { label: 'T2.1' } }])

    const short = await answer(listDesigns, designs, { path: 'designs?shortByAtMost=2&facets=true' })
    expect(short.designs[0]).toMatchObject({ designId: ids.design, cloth: 'fits', threads: { readyCount: 1, shortPutUps: 2 } })
    expect(short.facets).toMatchObject({
      designer: [{ id: ids.designer, name: 'Mirabel Stoat', count: 1 }],
      season: [{ name: 'Winter', count: 1 }],
    })
    await receive(ids.green, 2)
    const now = await answer(listDesigns, designs, { path: `designs?stitchableNow=true&clothFits=true&season=${ids.season}` })
    expect(now.designs.map(({ title }) => title)).toEqual(['Rook Hill in Snow'])
    const hers = await answer(listDesigns, designs, { path: `designs?stitchableNow=true&owner=${ids.hanne}` })
    expect(hers).toMatchObject({ ownerIds: [ids.hanne], total: 0 })
    const fromHers = await answer(listDesigns, designs, { path: `designs?chartOwner=any&owner=${ids.hanne}` })
    expect(fromHers).toMatchObject({ total: 1, designs: [{ cloth: 'none', threads: { status: 'none', shortPutUps: 4 } }] })
  })

  it('shows one design with its coverage by thread, its arithmetic, and its cloth', async () => {
    const parts = { designId: ids.design }
    const detail = await answer(getDesign, design, { parts })
    expect(detail).toMatchObject({ advised: { countText: '28 count', over: 2 }, lists: [{ name: 'Cotton', keyLineCount: 2 }] })
    const { cover, list } = await answer(getDesignCoverage, designCoverage, { parts })
    expect(list.name).toBe('Cotton')
    expect(cover).toMatchObject({ isStitchable: true, readyCount: 2 })
    // 2,940 crosses at 14 to the inch, 2 strands, allowance 1.5: 51,509.66 × 1.5 mm.
    expect(cover.threads[0]?.need.strandMm).toBeCloseTo(77_264.5, 1)
    expect(cover.threads[0]).toMatchObject({ thread: { maker: 'Larkholm', code: '0017' }, status: 'enough', needPutUps: 2 })
    expect(cover.threads[0]?.arithmetic[0]?.steps).toHaveLength(2)
    const { ranked, bestPieceId, toBuy } = await answer(getDesignCloth, designCloth, { parts })
    expect(ranked[0]).toMatchObject({ piece: { label: 'L-12', home: { label: 'R1' } }, fit: { kind: 'fits', isTurned: false } })
    expect(ranked[0]?.fit.cut.text).toBe('16 × 13 in (40.64 × 33.02 cm)')
    expect([bestPieceId, toBuy]).toEqual([ranked[0]?.piece.clothPieceId, null])
    const { pieces } = await answer(listClothOperation, cloth, { path: 'cloth?free=true' })
    expect(pieces.map(({ label }) => label)).toEqual(['L-12'])
  })

  it('lists threads with what is held, and what lies in a place, batch by batch', async () => {
    const { threads: rows, total } = await answer(listThreadsOperation, threads, { path: 'threads?limit=1' })
    expect([total, rows.length]).toEqual([2, 1])
    const second = await answer(listThreadsOperation, threads, { path: 'threads?limit=1&after=1' })
    expect([...rows, ...second.threads].map((row) => [row.thread.code, row.wholePutUps])).toEqual([
      ['0017', 2],
      ['17', 2],
    ])
    expect(second.next).toBeNull()
    const here = await answer(getPlace, place, { parts: { placeId: ids.drawer } })
    expect(here.threads.map((batch) => batch.thread.code)).toEqual(['0017', '17'])
    const { batches } = await answer(getThread, thread, { parts: { threadId: ids.grey } })
    expect(batches).toMatchObject([{ batchId: here.threads[0]?.batchId, wholePutUps: 2, home: { label: 'T2.1' } }])
  })

  it('uses, takes, returns and corrects, each with its line; a repeat with the same key does nothing again', async () => {
    const { batches } = await answer(getThread, thread, { parts: { threadId: ids.green } })
    const batchId = batches[0]?.batchId as string
    const use = { body: { kind: 'use', batchId, strandTenths: 60_000 }, headers: { 'idempotency-key': newId() } }
    const used = await answer(addMovement, postMovement, use)
    expect(await answer(addMovement, postMovement, use)).toEqual(used)
    const after = await answer(getThread, thread, { parts: { threadId: ids.green } })
    expect(after.batches[0]).toMatchObject({ wholePutUps: 1, partStrandTenths: 420_000 })

    const taken = await answer(addMovement, postMovement, {
      body: { kind: 'take', batchId, takesPart: true, toPlaceId: ids.bag },
    })
    expect(taken.batchId).not.toBe(batchId)
    await answer(addMovement, postMovement, { body: { kind: 'return', batchId: taken.batchId } })
    const version = (await answer(getThread, thread, { parts: { threadId: ids.green } })).batches[0]?.version
    await answer(addMovement, postMovement, {
      body: { kind: 'correct', batchId, version, wholePutUps: 2, reason: 'counted' },
    })
    const stale = { kind: 'correct', batchId, version, wholePutUps: 3, reason: 'counted' }
    expect(await problem(postMovement, { body: stale })).toMatchObject({ status: 409, type: '/reference#problem-refused' })

    const journal = await answer(listMovementsOperation, movements, { path: `movements?batch=${batchId}&limit=2` })
    expect(journal.movements[0]).toMatchObject({ kind: 'correct', reason: 'counted' })
    const kinds: string[] = journal.movements.map(({ kind }) => kind)
    for (let { next } = journal; next !== null; ) {
      const page = await answer(listMovementsOperation, movements, { path: `movements?batch=${batchId}&limit=2&after=${next}` })
      kinds.push(...page.movements.map(({ kind }) => kind))
      next = page.next
    }
    expect(kinds.sort()).toEqual(['correct', 'merge', 'receive', 'split', 'use'])
    const tomorrow = new Date(Date.now() + 86_400_000).toISOString()
    expect((await answer(listMovementsOperation, movements, { path: `movements?since=${tomorrow}` })).movements).toEqual([])
  })

  it('starts, kits, stitches and finishes a project; stock is less after', async () => {
    const begun = await answer(addProject, start, {
      body: { designId: ids.design, threadListId: ids.list, ownerId: ids.shop, bagLabel: 'K-07' },
    })
    const { projectId } = begun.project
    expect(begun.project).toMatchObject({ status: 'planned', place: { label: 'K-07' } })
    expect(begun.promised.map((promise) => promise.thread.code).sort()).toEqual(['0017', '17'])
    expect(begun.short).toEqual([])
    const parts = { projectId }
    expect(await answer(kitProjectOperation, kit, { parts, body: { bagLabel: 'K-07' } })).toMatchObject({ status: 'kitted' })
    await answer(getProject, status, { parts, body: { to: 'stitching', on: '2026-09-08' } })
    await answer(getProject, work, { parts, body: { hoursTenths: 25, stitches: 310 } })
    expect(await answer(getProject, project, { parts })).toMatchObject({ startedOn: '2026-09-08', hoursTenths: 25 })
    expect((await answer(listProjects, projects)).projects.map((row) => row.projectId)).toEqual([projectId])

    const early = await problem(finish, { parts, body: { finishedOn: '2026-09-01' } })
    expect(early).toMatchObject({ status: 409, detail: 'It was started on 2026-09-08, so it cannot be finished before.' })
    const done = await answer(finishProjectOperation, finish, { parts, body: { finishedOn: '2026-11-20', finishing: 'framed' } })
    expect(done.project).toMatchObject({ status: 'finished', finishedOn: '2026-11-20', hoursTenths: 25 })
    expect(done.putBack.map(({ thread: { code }, place: home }) => [code, home?.label])).toEqual([
      ['0017', 'T2.1'],
      ['17', 'T2.1'],
    ])
    const { threads: rows } = await answer(listThreadsOperation, threads)
    // 960,000 less 772,645 of strand.
    expect(rows.map((row) => row.ownedStrandTenths)).toEqual([187_355, 187_355])
    const finishes = await answer(listProjects, projects, { path: 'projects?state=finished' })
    expect(finishes.projects.map((row) => row.projectId)).toEqual([projectId])
    expect(await problem(abandon, { parts, body: {} })).toMatchObject({ status: 409 })
  })

  it('answers what there is not, and what cannot be, with problems', async () => {
    const none = newId()
    for (const [handler, parts] of [
      [design, { designId: none }],
      [designCoverage, { designId: none }],
      [designCloth, { designId: none }],
      [place, { placeId: none }],
      [thread, { threadId: none }],
      [project, { projectId: none }],
    ] as [Handler, Record<string, string>][])
      expect((await problem(handler, { parts })).status).toBe(404)
    expect((await problem(design, { parts: { designId: 'a\u0000b' } })).status).toBe(400)
    const parts = { designId: ids.design }
    expect((await problem(designCoverage, { parts, path: `x?list=${none}` })).status).toBe(404)
    expect((await problem(designCoverage, { parts, path: `x?piece=${none}` })).status).toBe(404)
    expect((await problem(designs, { path: `designs?owner=${none}` })).errors).toMatchObject([{ parameter: 'owner' }])
    expect((await problem(designs, { path: `designs?after=${none}` })).status).toBe(400)
    expect((await problem(movements, { path: `movements?after=${none}` })).status).toBe(400)
    expect((await problem(movements, { path: 'movements?since=yesterday' })).status).toBe(400)
    expect((await problem(projects, { path: 'projects?limit=2&after=1' })).status).toBe(400)
    for (const [change, field] of [
      [{ threadId: none }, '/threadId'],
      [{ ownerId: none }, '/ownerId'],
      [{ homePlaceId: none }, '/homePlaceId'],
      [{ lot: 'A\u0000' }, '/lot'],
      [{ wholePutUps: 1e9 }, '/wholePutUps'],
      [{ partStrandTenths: 5 }, '/partCertainty'],
      [{ kind: 'steal' }, '/kind'],
    ] as [object, string][]) {
      const body = { kind: 'receive', threadId: ids.grey, ownerId: ids.shop, wholePutUps: 1, homePlaceId: ids.drawer, ...change }
      expect((await problem(postMovement, { body })).errors, JSON.stringify(change)).toMatchObject([{ field }])
    }
    const { batches } = await answer(getThread, thread, { parts: { threadId: ids.grey } })
    const tooMuch = { kind: 'use', batchId: batches[0]?.batchId, strandTenths: 900_000_000 }
    expect(await problem(postMovement, { body: tooMuch })).toMatchObject({ status: 409, title: 'Refused' })
    const begun = { designId: none, ownerId: ids.shop }
    expect((await problem(start, { body: begun })).errors).toMatchObject([{ field: '/designId' }])
  })
})
