// Out and back: a booklet lent over a plan (trade notes, A15, by hand: Tue 3 Mar 2026 for 8 weeks is due Tue 28 Apr; planned from 20 Apr,
// nine days), a file that is not lent, a finished piece at the framer. Answers questions 40, 44, 55, 65, 79, 83 and 84.
import type { Locator, Page } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import { shop } from './sample-files'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse()

const alphabets = 'Hollin Staithe Alphabets'
const letters = ['Alphabet one', 'Alphabet two', 'Alphabet three', 'Alphabet four', 'Alphabet five']
const charts = `Chart,Design,Designer,Kind,Owner,Width,Height,Place
${letters.map((design) => `${alphabets},${design},Tilda Quennell,booklet,${shop},60,60,R2-3`).join('\n')}
Wick Lane,Wick Lane,Corvin Ashdale,leaflet,${shop},90,90,R2-3
Winter Post,Winter Post,Dorrit Quayle,leaflet,${shop},80,80,R2-4
Lamp in the Loft,Lamp in the Loft,Dorrit Quayle,file,${shop},80,80,
`

const api = async <Answer>(path: string, body?: object): Promise<Answer> => {
  const answer = await fetch(`${house.server().url}/api/v1${path}`, {
    ...(body && { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(body) }),
  })
  const said = await answer.text()
  expect(answer.ok, said).toBe(true)
  return JSON.parse(said)
}

type Listed = { designs: { designId: string; title: string; chart: { chartId: string } }[] }
let designs: Listed['designs']
const designOf = (title: string) => designs.find((design) => design.title === title) as Listed['designs'][number]
let ownerId: string

beforeAll(async () => {
  const answer = await fetch(`${house.server().url}/api/v1/imports?kind=charts`, {
    ...{ method: 'POST', headers: { 'content-type': 'text/csv' }, body: charts },
  })
  expect(answer.status, await answer.text()).toBe(200)
  designs = (await api<Listed>('/designs?limit=200')).designs
  ownerId = (await api<{ owners: { id: string }[] }>('/owners')).owners[0]?.id as string
  const start = { threadListId: null, ownerId }
  await api('/projects', { ...start, designId: designOf('Alphabet four').designId, plannedOn: '2026-04-20' })
  const { project } = await api<{ project: { projectId: string } }>('/projects', {
    ...{ ...start, designId: designOf('Winter Post').designId },
  })
  await api(`/projects/${project.projectId}/status`, { to: 'stitching', on: '2026-01-05' })
  await api(`/projects/${project.projectId}/finish`, { finishedOn: '2026-02-20', isClothUsed: false })
})

const main = (page: Page): Locator => page.getByRole('main')
const heading = (page: Page, name: string | RegExp) => page.getByRole('heading', { level: 1, name }).waitFor()

it('lends a booklet over a plan, with all its designs out, and has it back', async () => {
  const page = await house.visit()
  await page.goto(`/charts/${designOf('Alphabet one').chart.chartId}`)
  await main(page).getByText('It can be lent').waitFor()
  await main(page).getByRole('link', { name: 'Lend it' }).click()
  await heading(page, 'Lend')
  const form = main(page)
  // Before a day is said: who means to stitch from it.
  await form.getByText('Somebody means to stitch from it', { exact: true }).waitFor()
  await form.getByLabel(/^To whom/).fill('Ines Coldwell')
  await form.getByRole('button', { name: 'Lend it' }).click()
  // A loan has its reason and its day.
  await form.getByText('Say what for: every loan has its reason.').first().waitFor()
  await form.getByLabel(/^What for/).fill('to stitch the alphabet')
  await form.getByLabel(/^From/).fill('2026-03-03')
  await form.getByRole('button', { name: 'Lend it' }).click()
  await form.getByText('Say until when: so many weeks, or a day.').first().waitFor()
  await form.getByLabel(/^For how many weeks/).fill('8')
  await form.getByRole('button', { name: 'Lend it' }).click()
  await form.getByText(/9 days, Mon 20 Apr 2026 to Tue 28 Apr 2026/).waitFor()
  await form.getByRole('checkbox', { name: 'All the same' }).check()
  await form.getByRole('button', { name: 'Lend it' }).click()
  await heading(page, 'Lent to Ines Coldwell')
  const loan = page.url()
  await main(page).getByText('Tue 28 Apr 2026').first().waitFor()

  // 44, 79: who has it, and till when; each of its five designs says so.
  await page.goto('/charts')
  await main(page).getByText('chart out').nth(4).waitFor()
  expect(await main(page).getByText('chart out').count()).toBe(5)
  for (const title of letters) {
    await page.goto(`/designs/${designOf(title).designId}`)
    await main(page).getByText('Chart out: with Ines Coldwell').waitFor()
  }
  // Planning over the loan says the clash too. (It is overdue on the day of this test, so nobody knows till when.)
  await page.goto('/projects')
  await main(page).getByRole('link', { name: 'Alphabet four' }).first().click()
  await main(page).getByText('The chart is out when this is to be begun').waitFor()

  // 40: what is out, overdue first, on a phone.
  const hand = await house.visit({ viewport: phone })
  await hand.goto('/')
  await hand.getByRole('link', { name: '1 loan overdue' }).click()
  await heading(hand, 'Out and back')
  await main(hand).getByRole('heading', { name: 'Overdue' }).waitFor()
  await expectNoSidewaysScroll(hand)
  await main(hand).getByRole('link', { name: alphabets }).click()
  await heading(hand, 'Lent to Ines Coldwell')
  await expectNoSidewaysScroll(hand)
  await main(hand).getByRole('button', { name: 'Agree on another day' }).click()
  const later = main(hand).getByRole('form', { name: 'Agree on another day' })
  await later.getByLabel(/^Due/).fill('2027-12-01')
  await later.getByRole('button', { name: 'Change the day' }).click()
  await later.getByText(/It is wanted meanwhile/).waitFor()
  await later.getByRole('checkbox', { name: 'All the same' }).check()
  await later.getByRole('button', { name: 'Change the day' }).click()
  await later.getByText('The new day is noted.').waitFor()
  await main(hand).getByRole('button', { name: 'It is back' }).click()
  await main(hand)
    .getByText(/^back$/)
    .first()
    .waitFor()

  await page.goto(loan)
  await main(page).getByRole('heading', { name: 'What it was' }).waitFor()
  await page.goto('/loans')
  await main(page).getByText('Nothing is out').waitFor()
  await main(page).getByRole('heading', { name: 'Came back lately' }).waitFor()
  await page.goto('/charts')
  expect(await main(page).getByText('chart out').count()).toBe(0)
})

it('lends no file', async () => {
  const page = await house.visit()
  const { chartId } = designOf('Lamp in the Loft').chart
  await page.goto(`/charts/${chartId}`)
  await main(page).getByText('This is a file for one person; lend the bought paper copy or suggest they buy it.').waitFor()
  expect(await main(page).getByRole('link', { name: 'Lend it' }).count()).toBe(0)
  await page.goto(`/loans/lend?chart=${chartId}`)
  await main(page).getByText('Lamp in the Loft cannot be lent').waitFor()
  expect(await main(page).getByRole('button', { name: 'Lend it' }).count()).toBe(0)
})

it('sends a finished piece to the framer, sees where it is, since when and for what price, and has it back', async () => {
  const page = await house.visit({ viewport: phone })
  await page.goto('/finishes')
  await main(page).getByRole('link', { name: 'Winter Post' }).first().click()
  await main(page).getByRole('link', { name: 'Send away' }).click()
  await heading(page, 'Send away')
  await expectNoSidewaysScroll(page)
  await main(page)
    .getByLabel(/^To whom/)
    .fill('Maud Ferriby')
  await main(page)
    .getByLabel(/^What for/)
    .fill('to be framed')
  await main(page).getByLabel(/^From/).fill('2026-03-02')
  await main(page)
    .getByLabel(/^Price agreed/)
    .fill('140.00')
  await main(page)
    .getByLabel(/^What else goes along/)
    .fill('the oak moulding\nher own glass')
  await main(page).getByRole('button', { name: 'Send it' }).click()
  await heading(page, 'Sent to Maud Ferriby')
  // 65: what to ask back, as it prints.
  const asks = main(page).getByRole('table', { name: 'What went' })
  for (const thing of ['Winter Post', 'the oak moulding', 'her own glass']) await asks.getByText(thing).waitFor()
  // 55: where it is, from the piece itself.
  await asks.getByRole('link', { name: 'Winter Post' }).click()
  const away = main(page).getByRole('region', { name: 'Away' })
  await away.getByText('Mon 2 Mar 2026').waitFor()
  await away.getByText(/140\.00/).waitFor()
  await main(page).getByRole('link', { name: 'Maud Ferriby' }).first().click()
  await main(page).getByRole('heading', { name: 'On loan' }).waitFor()
  await main(page)
    .getByRole('link', { name: /Winter Post/ })
    .last()
    .click()
  await heading(page, 'Sent to Maud Ferriby')
  await main(page).getByRole('checkbox', { name: 'her own glass' }).uncheck()
  await main(page).getByLabel('Where the work is now').fill('Hall wall')
  await main(page).getByRole('button', { name: 'It is back' }).click()
  await main(page).getByText('Noted; 1 thing still to come.').waitFor()
  await asks.getByRole('link', { name: 'Winter Post' }).click()
  await main(page).getByText('Hall wall').waitFor()
})

it('writes down what was borrowed, and gives it back', async () => {
  const page = await house.visit()
  await page.goto('/loans')
  await main(page).getByRole('link', { name: 'Borrow' }).click()
  await heading(page, 'Borrow')
  await main(page)
    .getByLabel(/^What is borrowed/)
    .fill('her 12 in scroll frame')
  await main(page)
    .getByLabel(/^From whom/)
    .fill('Ines Coldwell')
  await main(page)
    .getByLabel(/^What for/)
    .fill('too big a piece for mine')
  await main(page).getByRole('button', { name: 'Write it down' }).click()
  await heading(page, 'Borrowed from Ines Coldwell')
  // 83: what have I borrowed from others?
  await page.goto('/loans')
  await main(page).getByRole('heading', { name: 'Borrowed from others' }).waitFor()
  await main(page).getByRole('link', { name: 'her 12 in scroll frame' }).click()
  await main(page).getByRole('button', { name: 'It is given back' }).click()
  await main(page).getByRole('heading', { name: 'What it was' }).waitFor()
})
