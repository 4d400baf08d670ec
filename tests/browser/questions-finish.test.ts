// What is asked of work that is kitted, stitched and finished, and by an insurer: numbers 49, 53 to 58 and 75 to 78 of the questions this is
// for. Rook Hill in Snow is scenario A1 of the project's trade notes, the prices are those of A17.
import type { Locator, Page } from 'playwright-core'
import { beforeAll, describe, expect, it } from 'vitest'
import { askApi, bringRows, designCalled, ownerCalled } from './api-steps'
import { rowOf } from './bring-in-steps'
import { hanne } from './sample-files'
import { desk, expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse()

const [rook, lanterns, hare, wrens] = ['Rook Hill in Snow', 'Seven Lanterns', 'Hare by the Pump', 'Nine Wrens']
const rows = {
  threads: ['Owner,Maker,Line,Code,Name,Skeins,Put-up,Place', `${hanne},Larkholm,Stranded Cotton,0017,Straw,40,8 m,T2.1`].join(
    '\n',
  ),
  charts: [
    'Chart,Design,Kind,Owner,Copies,Width,Height,Count,Weave,Price',
    `${rook},${rook},leaflet,${hanne},1,140,98,28 over 2,evenweave,11.00`,
    `${lanterns},${lanterns},leaflet,${hanne},1,84,84,28 over 2,evenweave,11.00`,
    `${hare},${hare},leaflet,${hanne},1,100,100,28 over 2,evenweave,11.00`,
    `${wrens},${wrens},leaflet,${hanne},1,120,120,28 over 2,evenweave,11.00`,
  ].join('\n'),
  lists: [
    'Chart,Design,List,Symbol,Maker,Line,Code,Strands,Full,Skeins,Put-up',
    // Counted stitches: what is measured of it later is then kept as a reading.
    `${rook},${rook},Cotton,x,Larkholm,Stranded Cotton,0017,2,1000,,`,
    ...[lanterns, hare, wrens].map((title) => `${title},${title},Cotton,x,Larkholm,Stranded Cotton,0017,2,,1,8 m`),
  ].join('\n'),
  cloth: [
    'Owner,Label,Cloth,Weave,Count,Size,Squared,May turn',
    `${hanne},E-1,Evenweave,evenweave,28,18 x 27 in,yes,yes`,
    `${hanne},E-2,Evenweave,evenweave,28,10 x 10 in,yes,yes`,
  ].join('\n'),
}

/** The day so many days from today, yyyy-mm-dd, on this machine's calendar. */
function dayFrom(days: number): string {
  const now = new Date()
  return new Date(Date.UTC(now.getFullYear(), now.getMonth(), now.getDate() + days)).toISOString().slice(0, 10)
}
/** "Mon 30 Nov 2026". */
const dayWords = (iso: string): string => {
  const [weekday, day, month, year] = new Date(`${iso}T00:00:00Z`).toUTCString().replace(',', '').split(' ')
  return `${weekday} ${Number(day)} ${month} ${year}`
}
const year = dayFrom(0).slice(0, 4)

const projects = new Map<string, string>()
const idOf = (title: string) => projects.get(title) as string
const tell = (title: string, what: string, said: object) => askApi(house, `/projects/${idOf(title)}/${what}`, said)

beforeAll(async () => {
  for (const kind of ['threads', 'charts', 'lists', 'cloth'] as const) await bringRows(house, kind, rows[kind])
  const ownerId = await ownerCalled(house, hanne)
  const { pieces } = await askApi<{ pieces: { clothPieceId: string; label: string | null }[] }>(house, `/cloth?owner=${ownerId}`)
  const pieceOf = (label: string) => pieces.find((piece) => piece.label === label)?.clothPieceId as string
  for (const [title, clothPieceId] of [
    [rook, pieceOf('E-1')],
    [lanterns, pieceOf('E-2')],
    [hare, null],
    [wrens, null],
  ] as const) {
    const { designId } = await designCalled(house, title)
    const { lists } = await askApi<{ lists: { listId: string }[] }>(house, `/designs/${designId}`)
    const { project } = await askApi<{ project: { projectId: string } }>(house, '/projects', {
      ...{ designId, ownerId, clothPieceId, threadListId: lists[0]?.listId },
    })
    projects.set(title, project.projectId)
    await tell(title, 'kit', { bagLabel: `K-${projects.size}` })
  }
  for (const title of [rook, hare, wrens]) await tell(title, 'status', { to: 'stitching', on: dayFrom(-30) })
  await tell(hare, 'work', { day: dayFrom(-9), stitches: 900, minutes: 600 })
  for (const title of [hare, wrens]) await tell(title, 'status', { to: 'stitched', on: dayFrom(-8) })
  await askApi(house, '/loans/send', {
    ...{ with: 'Maud Ferriby', ownerId, reason: 'to be framed', fromOn: dayFrom(-6), dueOn: dayFrom(20) },
    ...{ projectId: idOf(wrens), priceMinor: 4_500 },
  })
  const { threads } = await askApi<{ threads: { thread: { threadId: string } }[] }>(house, `/threads?owner=${ownerId}`)
  await tell(rook, 'finish', {
    ...{ finishedOn: dayFrom(0), hoursTenths: 1_120, stitchesDone: 11_270, forWhom: 'Ines Coldwell', finishing: 'Framed' },
    // All of the skein in its bag but 2 m: 6 m.
    leftovers: [{ threadId: threads[0]?.thread.threadId, how: 'measured', strandTenths: 120_000 }],
  })
  await askApi(house, '/insurance/values', {
    replacement: { solid: 115, 'hand-dyed': 360, cloth: 1_450, charts: 1_100, notions: null, finished: 14_000 },
    dearMinor: 10_000,
  })
}, 120_000)

async function textOf(seen: Locator): Promise<string> {
  await seen.first().waitFor()
  return (await seen.allInnerTexts()).join(' ').replace(/\s+/g, ' ')
}

async function open(address: string, viewport = phone): Promise<{ page: Page; main: Locator }> {
  const page = await house.visit({ viewport })
  await page.goto(address)
  await page.getByRole('heading', { level: 1 }).first().waitFor()
  return { page, main: page.getByRole('main') }
}

describe('plan', () => {
  it('49 What small travelling piece is kitted?', async () => {
    const { page, main } = await open('/projects')
    await main.getByRole('button', { name: 'A small kitted piece to take along' }).click()
    await main.getByLabel('Comes out no larger than').fill('6 in')
    await main.getByRole('button', { name: 'Show what is kitted' }).click()
    const section = main.getByRole('region', { name: 'A small kitted piece to take along' })
    // 84 ÷ 14 is six inches; the rest are larger or no longer only kitted.
    expect(await textOf(rowOf(section.getByRole('table'), lanterns))).toMatch(/6 × 6 in.*E-2.*K-2/)
    expect(await section.getByRole('table').getByRole('link').count()).toBe(1)
    await expectNoSidewaysScroll(page)
    await section.getByLabel('Comes out no larger than').fill('a hand')
    await section.getByRole('button', { name: 'Show what is kitted' }).click()
    await main.getByText('That is no size.', { exact: false }).waitFor()
  })
})

describe('finish', () => {
  it('53 What did I finish this year, stitches and pieces?', async () => {
    const { page, main } = await open('/finishes')
    expect(await textOf(main.getByRole('list', { name: `Finished in ${year}, the latest first` }))).toMatch(
      new RegExp(`${rook}.*${dayWords(dayFrom(0))}.*11,270 stitches, 112 h.*Ines Coldwell has it`),
    )
    await main.getByRole('link', { name: year, exact: true }).click()
    await page.getByRole('heading', { level: 1, name: year }).waitFor()
    await main.getByText('1 piece, 11,270 stitches and 112 hours').waitFor()
    await main.getByRole('button', { name: 'The numbers' }).click()
    await main.getByRole('table', { name: 'Month by month' }).waitFor()
    await expectNoSidewaysScroll(page)
  })

  it('54 What is stitched but not framed?', async () => {
    const { main } = await open('/finishes')
    const table = main.getByRole('table', { name: 'Stitched, not framed yet' })
    expect(await textOf(rowOf(table, hare))).toContain(`Stitched, not sent anywhere last stitched ${dayWords(dayFrom(-9))}`)
  })

  it('55 At which framer, since when, what price?', async () => {
    const { page, main } = await open('/finishes')
    const row = rowOf(main.getByRole('table', { name: 'Stitched, not framed yet' }), wrens)
    const said = await textOf(row)
    expect(said).toContain(`With Maud Ferriby, framer since ${dayWords(dayFrom(-6))}, due ${dayWords(dayFrom(20))}`)
    expect(said).toContain('45.00')
    await expectNoSidewaysScroll(page)
    await row.getByRole('link').first().click()
    const section = main.getByRole('region', { name: 'Frame and finisher' })
    expect(await textOf(section)).toMatch(/Now with Maud Ferriby, framer: since .*45\.00/)
  })

  it('56 Which colours did I really use?', async () => {
    const { page, main } = await open(`/projects/${idOf(rook)}`)
    const section = main.getByRole('region', { name: 'Colours really used' })
    expect(await textOf(rowOf(section.getByRole('table'), '0017'))).toMatch(/what was left was measured.*6 m/)
    // 6 of 8 m at no price of the line; the chart at 11.00, and the cloth nobody priced.
    const cost = main.getByRole('region', { name: 'What it cost' })
    expect(await textOf(cost)).toMatch(/11\.00, without 2 things nobody has priced/)
    await cost.getByRole('button', { name: 'How this is reckoned' }).click()
    expect(await textOf(cost.getByRole('table'))).toContain('6 m; its line has no price')
    await expectNoSidewaysScroll(page)
  })

  it('57 Who has the finished piece?', async () => {
    const { main } = await open(`/projects/${idOf(rook)}`)
    expect(await textOf(main.getByRole('region', { name: 'Frame and finisher' }))).toContain('Who has it Ines Coldwell')
  })

  it('58 What frame size is it?', async () => {
    const { page, main } = await open(`/projects/${idOf(rook)}`)
    const section = main.getByRole('region', { name: 'Frame and finisher' })
    // 140 × 98 at 14 to the inch is 10 × 7 in; with 0.75 in seen all round 11.5 × 8.5 in.
    expect(await textOf(section)).toContain('an opening of 11.5 × 8.5 in, by the sum')
    await section.getByRole('button', { name: 'Say the frame’s size and other costs' }).click()
    const form = section.getByRole('form', { name: 'Frame and other costs' })
    await form.getByLabel('Frame, outside').fill('fourteen')
    await form.getByRole('button', { name: 'Keep these' }).click()
    await form.getByRole('link', { name: /^Give the frame as width by height/ }).waitFor()
    await form.getByLabel('Frame, outside').fill('14 x 11 in')
    await form.getByLabel('Other costs').fill('6.50')
    await form.getByRole('button', { name: 'Keep these' }).click()
    await section.getByText('14 × 11 in outside, as measured').waitFor()
    // 11.00 and 6.50.
    expect(await textOf(main.getByRole('region', { name: 'What it cost' }))).toContain('17.50')
    await expectNoSidewaysScroll(page)
  })
})

describe('insurance', () => {
  it('75 What is the total to replace, by class of thing?', async () => {
    const { page, main } = await open('/insurance', desk)
    const table = main.getByRole('table', { name: 'What it would cost to replace, by class' })
    // 39 whole skeins and a quarter of one: 1.15 × 39.25 = 45.1375, of which no penny that is not there is claimed.
    expect(await textOf(rowOf(table, 'Solid threads'))).toContain('45.13')
    expect(await textOf(rowOf(table, 'Charts'))).toMatch(/4 copies.*44\.00/)
    expect(await textOf(rowOf(table, 'Cloth'))).toMatch(/1 piece.*14\.50/)
    expect(await textOf(rowOf(table, 'Finished pieces'))).toMatch(/1 piece.*140\.00/)
    // 45.13 + 44.00 + 14.50, and 140.00 more.
    await main.getByText('103.63').first().waitFor()
    await main.getByText('243.63').first().waitFor()
    await page.setViewportSize(phone)
    await expectNoSidewaysScroll(page)
  })

  it('76 Which items cannot be replaced?', async () => {
    const { page, main } = await open('/insurance', desk)
    const section = main.getByRole('region', { name: 'Cannot be replaced' })
    expect(await textOf(rowOf(section.getByRole('table'), rook))).toContain('worked by hand')
    const { chart } = await designCalled(house, hare)
    await page.goto(`/charts/${chart.chartId}`)
    await main.getByRole('checkbox', { name: /Out of print/ }).check()
    await main.getByRole('region', { name: 'For the insurer' }).getByRole('button', { name: 'Keep' }).click()
    await main.getByText('Kept.', { exact: true }).waitFor()
    await page.goto('/insurance')
    expect(await textOf(rowOf(section.getByRole('table'), hare))).toContain('out of print')
    await main.getByText(/In no total, since they cannot be bought; last known .*11\.00 together/).waitFor()
  })

  it('77 Photo and receipt for each dear item', async () => {
    const { main } = await open('/insurance', desk)
    const table = main.getByRole('table', { name: 'Dear things, with what proves them' })
    expect(await textOf(rowOf(table, rook))).toContain('no photograph, no receipt')
    await rowOf(table, rook).getByRole('link').first().click()
    await main.getByRole('region', { name: 'Receipts' }).waitFor()
  })

  it('78 A copy I can keep elsewhere', async () => {
    const { page, main } = await open('/insurance', desk)
    const pdf = await page.request.get(
      (await main.getByRole('link', { name: 'PDF with photographs' }).getAttribute('href')) ?? '',
    )
    expect(pdf.headers()['content-type']).toBe('application/pdf')
    const csv = await page.request.get((await main.getByRole('link', { name: 'CSV' }).getAttribute('href')) ?? '')
    expect(await csv.text()).toContain(rook)
    await main.getByText(/Keep a copy of the PDF, with a backup, in another house/).waitFor()
  })
})

describe('looking rather than reading', () => {
  it('shows pace, stash, seasons, cloth and what is out, each with its numbers and as CSV', async () => {
    const { page, main } = await open('/finishes')
    await main.getByRole('link', { name: 'In pictures' }).click()
    await page.getByRole('heading', { level: 1, name: 'In pictures' }).waitFor()
    const stash = main.getByRole('figure', { name: 'Stash in and out, month by month' })
    await stash.getByRole('img', { name: /put-ups of thread/ }).waitFor()
    await stash.getByRole('button', { name: 'The numbers' }).click()
    // Forty skeins came in, three quarters of one are used.
    expect(await textOf(stash.getByRole('row').last())).toMatch(/40 .*0\.75/)
    await expectNoSidewaysScroll(page)
    const csv = await page.request.get('/finishes/plots/numbers/stash.csv')
    expect(csv.headers()['content-type']).toContain('text/csv')
    expect(await csv.text()).toMatch(new RegExp(`${dayFrom(0).slice(0, 7)},40,0\\.75`))
    expect((await page.request.get('/finishes/plots/numbers/nothing.csv')).status()).toBe(404)
  })

  it('says on Find what the day holds, and on a page of its own what the week did', async () => {
    const { page, main } = await open('/')
    await main.getByRole('heading', { name: 'Today' }).waitFor()
    await main.getByRole('region', { name: 'Today' }).getByRole('link', { name: 'The week' }).click()
    await page.getByRole('heading', { level: 1, name: 'The week' }).waitFor()
    const happened = main.getByRole('region', { name: 'What happened' })
    expect(await textOf(happened)).toContain(`Finished ${rook}, ${dayWords(dayFrom(0))}`)
    await main.getByRole('link', { name: 'A week back' }).click()
    await page.getByRole('heading', { level: 1, name: `The week to ${dayWords(dayFrom(-7))}` }).waitFor()
    expect(await textOf(happened)).toContain(`Stitched, 900 stitches, 10 h ${hare}: 900 stitches, 10 h, on 1 day`)
    await expectNoSidewaysScroll(page)
  })
})
