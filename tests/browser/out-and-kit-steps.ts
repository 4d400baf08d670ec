import type { Page } from 'playwright-core'
import { askApi, bringRows, designCalled, ownerCalled, placeLabelled } from './api-steps'
import { shop } from './sample-files'
import type { House } from './visitor'

const title = 'The Weighing Room'
const rows = {
  charts: `Chart,Designer,Kind,Owner,Copies,Width,Height,Count,Weave\n${title},Dorrit Quayle,card,${shop},13,84,84,28 over 2,evenweave`,
  threads: [
    'Owner,Maker,Line,Code,Strands,Put-up,Put-up word,Dyed,Lots matter,Lot,Skeins,Place',
    `${shop},Oddny Loft,Hand-dyed Cotton,Marl Rose,6,5 yd,skein,overdyed,yes,7,6,T10.1`,
  ].join('\n'),
  lists: `Chart,Maker,Line,Code,Symbol,Strands,Skeins,Put-up\n${title},Oddny Loft,Hand-dyed Cotton,Marl Rose,x,2,0.26,5 yd`,
}

type Started = { project: { projectId: string } }

/** Twelve kits and a spare with the sample about them, all cut, the first bag packed: the id of their project. */
export async function packFirstKit(house: House): Promise<string> {
  for (const kind of ['charts', 'threads', 'lists'] as const) await bringRows(house, kind, rows[kind])
  const [{ designId }, ownerId] = await Promise.all([designCalled(house, title), ownerCalled(house, shop)])
  const { lists } = await askApi<{ lists: { listId: string }[] }>(house, `/designs/${designId}`)
  const { project } = await askApi<Started>(house, '/projects', {
    ...{ designId, threadListId: lists[0]?.listId, ownerId, quantity: 13, spares: 1 },
  })
  const bags = `/projects/${project.projectId}/kit-bags`
  await askApi(house, `/projects/${project.projectId}/kit/items`, { kind: 'needle', name: 'Tapestry needle', perKit: 1 })
  await askApi(house, `${bags}/cut`, { by: 'Nell Oxtoby' })
  await askApi(house, `${bags}/step`, { step: 'pack', bags: [1], by: 'Nell Oxtoby' })
  return project.projectId
}

/** A pull of the sample's projects, begun and not walked: its address. */
export async function openPull(house: House): Promise<string> {
  const { designId } = await designCalled(house, 'Kettle at Wend Cross')
  const { projects } = await askApi<{ projects: { projectId: string }[] }>(house, `/designs/${designId}`)
  const { walkId } = await askApi<{ walkId: string }>(house, '/walks', {
    ...{ projectIds: projects.map(({ projectId }) => projectId), by: 'Ines Coldwell' },
  })
  return `/walks/${walkId}`
}

/**
 * Something of everything that goes out of its place and comes back, on the sample, and the addresses that show it: those no link leads to,
 * and those a link leads to in a barer form.
 */
export async function openOutAndKits(house: House): Promise<string[]> {
  const [chart, ownerId] = await Promise.all([designCalled(house, 'Rook Hill in Snow'), ownerCalled(house, shop)])
  const agreed = { ownerId, reason: 'for the guild table', fromOn: '2026-03-03' }
  const { loanId } = await askApi<{ loanId: string }>(house, '/loans/lend', {
    ...{ ...agreed, with: 'Ines Coldwell', dueOn: '2026-04-28', acceptsClash: true },
    things: [{ noun: 'chart', id: chart.chart.chartId }],
  })
  const things = [{ noun: 'text', text: 'her scroll frame' }]
  await askApi(house, '/loans/borrow', { ...agreed, with: 'Joss Tarrow', things })

  const kits = await packFirstKit(house)
  const walk = await openPull(house)

  const bag = await placeLabelled(house, 'K-07')
  const { threads } = await askApi<{ threads: { batchId: string }[] }>(house, `/places/${bag}/unpack`)
  const [gone, lost, empty, back, later] = threads.map(({ batchId }) => batchId)
  const unpacked = await askApi<{ walkId: string; missingIds: string[] }>(house, `/places/${bag}/unpack`, {
    threads: [
      { batchId: gone, outcome: { kind: 'not-there' } },
      { batchId: lost, outcome: { kind: 'not-there' } },
      { batchId: empty, outcome: { kind: 'used-up' } },
      { batchId: back, outcome: { kind: 'as-it-was' } },
    ],
  })
  await askApi(house, `/missing/${unpacked.missingIds[1]}/give-up`, { reason: 'Looked in every drawer' })
  const { startedAt } = await askApi<{ startedAt: string }>(house, `/walks/${unpacked.walkId}`)

  const [drawer, cabinet] = await Promise.all([placeLabelled(house, 'T2.1'), placeLabelled(house, 'T2')])
  const [kept, given] = await Promise.all(
    ['W1', 'W2'].map((label) => askApi<{ placeId: string }>(house, '/places', { label, kind: 'drawer' })),
  )
  const { changeId } = await askApi<{ changeId: string }>(house, `/places/${given?.placeId}/merge`, {
    ...{ version: 0, intoId: kept?.placeId },
  })
  const { countId } = await askApi<{ countId: string }>(house, '/counts', { placeId: drawer, by: 'Joss Tarrow' })
  return [
    `/count/${countId}`,
    `/loans/lend?chart=${chart.chart.chartId}`,
    `/loans/send?project=${kits}`,
    `/loans/${loanId}`,
    `/walks/new?project=${kits}`,
    walk,
    '/missing',
    '/missing?settled=1',
    `/missing/${unpacked.missingIds[0]}`,
    `/missing/new?noun=thread&id=${later}`,
    `/places/${bag}/unpack`,
    `/places/${bag}/unpack?at=${Date.parse(startedAt)}`,
    '/places/many?pattern=T[1-2]',
    `/places/order?inside=${cabinet}`,
    '/places',
    '/places?full=75',
    `/places/changes/${changeId}`,
    `/places/${drawer}/merge`,
    `/places/${drawer}/split`,
    `/projects/${kits}/kit`,
    `/projects/${kits}/kit/bags/lines?line=cloth`,
    '/scan',
    '/scan?text=nothing',
  ]
}

/** A new colour that falls among those a drawer holds, and what makes room for it: the address. */
export async function openFilingPlan(page: Page): Promise<string> {
  await page.goto('/places/filing')
  const main = page.getByRole('main')
  await main.getByLabel('Line').selectOption({ label: 'Larkholm Stranded Cotton' })
  await main.getByLabel('Codes to come in').fill('0312')
  await page.keyboard.press('Enter')
  await main.getByText('Room for 1 more code').waitFor()
  return page.url()
}
