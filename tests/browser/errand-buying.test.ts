import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse({ hasSample: true })

const three = ['Kettle at Wend Cross', 'Rook Hill in Snow', 'Holly Ring']

const get = async (page: Page, path: string) => (await page.request.get(`/api/v1${path}`)).json()
const sent = (page: Page) => page.getByText('All ticks are sent').waitFor({ timeout: 40_000 })
const progress = (page: Page, done: number) => page.getByRole('status').filter({ hasText: new RegExp(`^${done} of \\d+ bought`) })
const rowsOf = (page: Page) =>
  page
    .getByRole('main')
    .getByRole('listitem')
    .filter({ has: page.getByRole('checkbox') })

/** Without what a browser has only on a secure page: a shop's own network is plain HTTP. */
async function onPlainHttp(page: Page): Promise<Page> {
  await page.addInitScript(() => {
    Object.defineProperty(window.crypto, 'randomUUID', { value: undefined })
    Object.defineProperty(window.navigator, 'clipboard', { value: undefined })
    Object.defineProperty(window.navigator, 'serviceWorker', { value: undefined })
  })
  return page
}

/** Put-ups of a thread by where they live. */
async function heldAt(page: Page, threadId: string): Promise<Record<string, number>> {
  const { batches } = await get(page, `/threads/${threadId}`)
  const held: Record<string, number> = {}
  for (const { home, wholePutUps } of batches) {
    const label = home?.label ?? 'nowhere'
    held[label] = (held[label] ?? 0) + wholePutUps
  }
  return held
}

it('says what a line costs in other lengths and packs, and buys it as it costs least', async () => {
  const page = await house.visit()
  await page.goto('/buy')
  for (const title of three) {
    await page.getByLabel('Add a design').fill(title)
    await page.getByRole('button', { name: 'Find' }).click()
    await page
      .getByRole('list', { name: 'Found' })
      .getByRole('link', { name: `Add ${title}`, exact: true })
      .click()
    await page.getByRole('list', { name: 'Chosen' }).getByRole('link', { name: title, exact: true }).waitFor()
  }
  const list = page.url()
  const larkholm = page.getByRole('table', { name: 'To buy: Larkholm' })
  const row = larkholm.getByRole('row').filter({ hasText: '0742' }).first()
  await row.getByRole('button', { name: '1 skein' }).click()
  await larkholm.getByRole('link', { name: 'How it is sold' }).first().click()

  // A skein of 8 m has a price, and a card of 10 m costs less.
  await page.getByLabel('One costs').fill('1.50')
  await page.getByRole('button', { name: 'Keep the changes' }).click()
  await page.waitForURL(/\/threads\?line=/)
  await page.goBack()
  await page.getByRole('heading', { name: 'How it is sold' }).waitFor()
  const form = page.getByRole('form', { name: 'A way it is sold' })
  await form.getByLabel('Length of one').fill('10 m')
  await form.getByLabel('One pack costs').fill('dear')
  await form.getByRole('button', { name: 'Put it down' }).click()
  await form.getByRole('link', { name: 'Give what one pack costs, such as 1.50' }).waitFor()
  await form.getByLabel('Sold by').fill('Marl Street')
  await form.getByLabel('One is called a').fill('card')
  await form.getByLabel('One pack costs').fill('1.20')
  await form.getByRole('button', { name: 'Put it down' }).click()
  const sold = page.getByRole('table', { name: 'How the line is sold' })
  await sold.getByRole('cell', { name: 'one card of 10 m', exact: true }).waitFor()
  await sold.getByRole('link', { name: /^Change/ }).click()
  await page.getByRole('heading', { level: 1, name: 'A way it is sold' }).waitFor()
  await page.getByLabel('One pack costs').fill('1.25')
  await page.getByRole('button', { name: 'Keep the changes' }).click()
  await sold.getByText('1.25').first().waitFor()

  await page.goto(list)
  await row.getByRole('button', { name: '1 card of 10 m' }).waitFor()
  await row.getByText('the cheapest way it is sold').first().waitFor()
  await page.getByRole('link', { name: 'With prices' }).click()
  await row.getByText('1.25').first().waitFor()
  await row.getByRole('button', { name: /1 card of 10 m from Marl Street/ }).click()
  await larkholm
    .getByText(/1 skein of 8 m, .*1\.50/)
    .filter({ visible: true })
    .first()
    .waitFor()
  await larkholm.getByRole('link', { name: 'Which length is cheaper?' }).first().waitFor()
  await page.setViewportSize(phone)
  await expectNoSidewaysScroll(page)
}, 180_000)

it('shops by a list with two phones: ticks wait without a network, then the stock is in its place; unticked, it is gone', async () => {
  const hanne = await onPlainHttp(await house.visit({ viewport: phone }))
  const { designs } = await get(hanne, '/designs?limit=200')
  const ids = three.map((title) => designs.find((design: { title: string }) => design.title === title)?.designId as string)
  const address = `/buy?${ids.map((id) => `design=${id}`).join('&')}`
  await hanne.goto(address)
  const take = hanne.getByRole('form', { name: 'Take it to the shop' })
  await take.getByLabel('What it is called').fill('Saturday')
  await take.getByRole('button').click()
  await hanne.waitForURL(/\/buy\/lists\/[0-9a-f-]{36}$/)
  await hanne.getByRole('heading', { level: 1, name: 'Saturday' }).waitFor()
  await expectNoSidewaysScroll(hanne)
  const listId = hanne.url().split('/').at(-1) as string
  const boxes = hanne.getByRole('checkbox')
  const count = await boxes.count()
  expect(count).toBeGreaterThan(2)

  // What is on it is not to be bought twice.
  const desk = await house.visit()
  await desk.goto(address)
  await desk.getByText('already on the list Saturday').first().waitFor()

  const { lines } = await get(hanne, `/buy/lists/${listId}`)
  const [first, second, third] = lines
  const before = await heldAt(hanne, first.thread.threadId)
  const rowFor = (page: Page, { thread }: { thread: { maker: string; code: string } }) =>
    rowsOf(page).filter({ hasText: `${thread.maker} ${thread.code}` })
  await hanne.getByLabel('Who is shopping?').fill('Hanne Drewitt')

  // The network goes.
  await hanne.context().setOffline(true)
  await rowFor(hanne, first).getByRole('checkbox').check()
  await hanne.getByText('1 tick waiting to be sent').waitFor()
  await rowFor(hanne, second)
    .getByRole('button', { name: /how many, lot, price/ })
    .click()
  const sheet = hanne.getByRole('dialog')
  await sheet.getByLabel('How many').fill('2')
  await sheet.getByLabel('Paid for all of it').fill('3.10')
  await sheet.getByLabel('Lot').fill('W 18')
  await sheet.getByLabel('Goes to').fill('Bag New thread')
  await sheet.getByRole('button', { name: 'Bought', exact: true }).click()
  await rowFor(hanne, third)
    .getByRole('button', { name: /: not there$/ })
    .click()
  await hanne.getByText(/3 ticks waiting to be sent.*kept on this device/).waitFor({ timeout: 40_000 })
  await progress(hanne, 2).waitFor()
  expect(await heldAt(desk, first.thread.threadId)).toEqual(before)

  // It comes back, and the other phone sees it.
  const ines = await onPlainHttp(await house.visit({ viewport: phone }))
  await ines.goto(hanne.url())
  await hanne.context().setOffline(false)
  await sent(hanne)
  await progress(ines, 2).waitFor({ timeout: 40_000 })
  await rowFor(ines, second)
    .getByText(/2 bought by Hanne Drewitt, lot W 18, .*3\.10, in stock in Bag New thread/)
    .waitFor()
  await rowFor(ines, third).getByText('Not there, says Hanne Drewitt').waitFor()
  const where = first.home?.label ?? 'nowhere'
  expect(await heldAt(desk, first.thread.threadId)).toEqual({ ...before, [where]: (before[where] ?? 0) + first.putUps })
  expect((await heldAt(desk, second.thread.threadId))['Bag New thread']).toBe(2)

  // It was a mistake.
  await rowFor(ines, first).getByRole('checkbox').uncheck()
  await sent(ines)
  await progress(hanne, 1).waitFor({ timeout: 40_000 })
  expect(await heldAt(desk, first.thread.threadId)).toEqual(before)

  // Another thread was there instead.
  await rowFor(ines, third)
    .getByRole('button', { name: /how many, lot, price/ })
    .click()
  const instead = ines.getByRole('dialog')
  await instead.getByLabel('Which?').fill(`${first.thread.maker} ${first.thread.code}`)
  await instead.getByRole('button', { name: 'Find' }).click()
  await instead
    .getByRole('button', { name: /^Take this/ })
    .first()
    .click()
  await instead.getByRole('button', { name: 'This was bought instead' }).click()
  await rowFor(ines, third)
    .getByText(/instead: /)
    .waitFor()
  await sent(ines)

  // What is no thread stands in words, and the list is sent to somebody without prices.
  const more = ines.getByRole('form', { name: 'Put more on the list' })
  await more.getByLabel('What').fill('needles 26')
  await more.getByLabel('How many').fill('2')
  await more.getByRole('button').click()
  await ines.getByText('On the list in words: needles 26').waitFor()
  await rowsOf(ines).filter({ hasText: 'needles 26' }).getByRole('checkbox').check()
  await sent(ines)
  await rowsOf(hanne).filter({ hasText: 'needles 26' }).waitFor({ timeout: 40_000 })
  const text = await ines.getByLabel('The list as text').inputValue()
  expect(text).toContain('needles 26 × 2')
  expect(text).not.toContain('3.10')
  await ines.getByRole('button', { name: 'Copy it' }).click()
  await ines.getByText('It is marked').waitFor()

  await ines.getByRole('button', { name: 'End the list' }).click()
  await ines.getByRole('dialog').getByRole('button', { name: 'End it' }).click()
  await ines.getByText(/This list is done/).waitFor()
  await hanne.getByText(/This list is done/).waitFor({ timeout: 40_000 })
  await ines.goto('/buy/lists')
  await ines.getByRole('link', { name: 'Saturday' }).waitFor()
  await expectNoSidewaysScroll(ines)
}, 240_000)
