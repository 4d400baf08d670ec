import type { Page } from 'playwright-core'
import { expect, it } from 'vitest'
import { showStockOf } from './load-sample'
import { readSample, shop } from './sample-files'
import { desk, expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse({ hasSample: true })

async function atPlaces(viewport = desk): Promise<Page> {
  const page = await house.visit({ viewport })
  await page.goto('/places')
  await showStockOf(page, shop)
  return page
}

/** The page of the place a label means. */
async function openPlace(page: Page, label: string) {
  const answered = await page.request.get(`/api/v1/places/by-label?label=${encodeURIComponent(label)}`)
  const { meant } = (await answered.json()) as { meant: { placeId: string } | null }
  expect(meant).not.toBeNull()
  await page.goto(`/places/${meant?.placeId}`)
}

async function change(page: Page, label: string) {
  await openPlace(page, label)
  await page.getByRole('link', { name: 'Change it' }).click()
  await page.getByRole('heading', { level: 1, name: /^Change/ }).waitFor()
}

it('makes a wall of drawers by a pattern, says where a pattern does not read, and labels the next one by it', async () => {
  const page = await atPlaces()
  await page.getByRole('link', { name: 'Many at once' }).click()
  await page.getByRole('heading', { level: 1, name: 'Many places at once' }).waitFor()
  const pattern = page.getByRole('textbox', { name: /^Pattern/ })
  await pattern.fill('W[10-30 by 10 > .[1-4]')
  await page.getByLabel('They stand in').selectOption({ label: 'Kitting room' })
  await page.getByRole('button', { name: 'Look at what it makes' }).click()
  await page.getByText('Position 15: “>” cannot stand here.').waitFor()

  await pattern.fill('W[10-30 by 10] > .[1-4]')
  await page.getByRole('button', { name: 'Look at what it makes' }).click()
  const levels = page.getByRole('table', { name: 'By level' })
  await levels.getByText('W10.1 to W30.4').waitFor()
  await levels.getByText('12 to make').waitFor()
  await expectNoSidewaysScroll(page)
  await page.getByRole('button', { name: 'Make 15 places' }).click()
  await page.getByText('15 places made.').waitFor()
  await page.getByRole('table', { name: 'Patterns kept' }).getByText('W[10-30 by 10] > .[1-4]').first().waitFor()

  // Between W10 and W20 there is room for one more.
  await change(page, 'W10')
  await page.getByRole('link', { name: 'Add one after it' }).click()
  const label = page.getByRole('textbox', { name: /^Label/ })
  // The form that is left has a label, too.
  await expect.poll(() => label.inputValue()).toBe('W15')
  await page.getByRole('button', { name: 'Add the place' }).click()
  await page.getByRole('heading', { level: 1, name: /W15/ }).waitFor()
  await page.getByText(/does not fit the pattern kept for here/).waitFor()
})

it('renames a drawer and finds it by its old label, on a phone', async () => {
  const page = await atPlaces(phone)
  await change(page, 'T9.3')
  await page.getByRole('textbox', { name: /^Label/ }).fill('T9.30')
  await page.getByRole('button', { name: 'Save' }).click()
  await page.getByRole('heading', { level: 1, name: /T9\.30/ }).waitFor()
  await page.getByText(/Its label said T9\.3 until/).waitFor()
  await page.goto('/')
  await page.getByRole('searchbox').fill('t9.3')
  await page.getByText(/The old label says T9\.3; since .* that is T9\.30\./).waitFor()
  await expectNoSidewaysScroll(page)
  await page.getByRole('note').getByRole('link', { name: 'T9.30' }).click()
  await page.getByRole('heading', { level: 1, name: /T9\.30/ }).waitFor()
})

it('merges one drawer into another, follows its old code there, and takes it back', async () => {
  const page = await atPlaces()
  await openPlace(page, 'T9.2')
  const oldPage = page.url()
  await change(page, 'T9.2')
  await page.getByRole('link', { name: 'Merge it into another' }).click()
  await page.getByRole('button', { name: 'Merge T9.2' }).click()
  await page.getByText('Choose the place it goes into.').first().waitFor()
  await page.getByLabel(/^Goes into/).selectOption({ label: 'Kitting room › Cabinet T › T9 › T9.1' })
  await page.getByRole('button', { name: 'Merge T9.2' }).click()
  await page.getByText('Done: all of T9.2 is in T9.1 now.').waitFor()

  // The code on the old label leads to the page the drawer had.
  await page.goto(oldPage)
  await page.getByText(/The old label says T9\.2; since .* all of it is in T9\.1\./).waitFor()
  await page.getByRole('heading', { level: 1, name: /T9\.1/ }).waitFor()

  await page.goto('/places/changes')
  await page.getByRole('link', { name: 'T9.2 merged into T9.1' }).click()
  await page.getByRole('button', { name: 'Take it back' }).click()
  await page.getByRole('dialog').getByRole('button', { name: 'Take it back' }).click()
  await page.getByText('Everything is as it was before.').waitFor()
  await page.goto(oldPage)
  await page.getByRole('heading', { level: 1, name: /T9\.2/ }).waitFor()
})

it('splits part of a drawer off, by keyboard', async () => {
  const page = await atPlaces()
  await change(page, 'T4.4')
  await page.getByRole('link', { name: 'Split part of it off' }).click()
  await page.getByRole('button', { name: 'Split it' }).click()
  await page.getByText('Give the place a label: what is written on it.').first().waitFor()
  await page.getByRole('textbox', { name: /^Label of the new place/ }).fill('T4.5')
  const ticks = page.getByRole('table', { name: /What lives in T4\.4/ }).getByRole('checkbox')
  await ticks.nth(0).focus()
  await page.keyboard.press('Space')
  await ticks.nth(1).focus()
  await page.keyboard.press('Space')
  await page.getByRole('button', { name: 'Split it' }).focus()
  await page.keyboard.press('Enter')
  await page.getByText('Done: 2 things of T4.4 live in T4.5 now.').waitFor()
  await page.getByRole('link', { name: 'Look at T4.5' }).click()
  await page.getByText(/What lives here was under the label T4\.4 until/).waitFor()
})

it('shows which drawers are over three-quarters full', async () => {
  // What the sample says each drawer holds, and the different threads that live in it, by its own files.
  const rooms = readSample('places').filter((row) => row.Capacity !== '')
  const held = readSample('threads').filter((row) => Number(row.Skeins) > 0 || row.Part !== '')
  const livesIn = (label: string) =>
    new Set(held.filter((row) => row.Place === label).map((row) => `${row.Maker} ${row.Line} ${row.Code}`)).size
  const page = await atPlaces(phone)
  await page.getByRole('link', { name: /over three-quarters full/ }).click()
  const table = page.getByRole('table', { name: 'Places over three-quarters full' })
  await table.waitFor()
  const told = await table.getByRole('link').allInnerTexts()
  const expected = rooms
    .filter((row) => livesIn(row.Label as string) * 4 > Number(row.Capacity) * 3)
    .map((row) => row.Label as string)
  expect(told.toSorted()).toEqual(expected.toSorted())
  await expectNoSidewaysScroll(page)
  await page.getByRole('textbox', { name: /^Fuller than/ }).fill('500')
  await page.getByRole('button', { name: 'Show' }).click()
  await page.getByText('No place is over 500 % full. There is room to grow.').waitFor()
})

it('puts drawers in another order by keyboard', async () => {
  const page = await atPlaces()
  await change(page, 'T9')
  await page.getByRole('link', { name: 'Put it in order' }).click()
  const list = page.getByRole('list', { name: 'In walking order' })
  await list.getByRole('button', { name: 'Down T9.1' }).focus()
  await page.keyboard.press('Enter')
  await page.getByText('T9.1 is number 2 of 3 now.').waitFor()
  await page.getByRole('button', { name: 'Keep this order' }).click()
  await page.waitForURL(/\/places\/(?!order)[^/?]+$/)
  await change(page, 'T9')
  await page.getByRole('link', { name: 'Put it in order' }).click()
  await list.waitFor()
  const labels = (await list.getByRole('listitem').allInnerTexts()).map((text) => /T9\.\d+/.exec(text)?.[0])
  expect(labels.indexOf('T9.1')).toBe(1)
})

it('makes a place once, however often its form is sent, with scripts and without', async () => {
  const page = await atPlaces()
  await page.goto('/places/new')
  await page.route('**/places/new', async (route) => {
    // A slow answer, so that the second press comes while the first is at work.
    if (route.request().method() === 'POST') await new Promise((resolve) => setTimeout(resolve, 400))
    await route.continue()
  })
  await page.getByRole('textbox', { name: /^Label/ }).fill('Q7')
  await page.getByRole('button', { name: 'Add the place' }).dblclick()
  await page.getByRole('heading', { level: 1, name: /Q7/ }).waitFor()

  const context = await page.context().browser()?.newContext({ javaScriptEnabled: false, baseURL: house.server().url })
  const plain = await context?.newPage()
  if (!context || !plain) throw new Error('no browser')
  try {
    await plain.goto('/places/new')
    await plain.getByRole('textbox', { name: /^Label/ }).fill('Q8')
    const sent = plain.waitForRequest((request) => request.method() === 'POST')
    await plain.getByRole('button', { name: 'Add the place' }).click()
    await plain.getByRole('heading', { level: 1, name: /Q8/ }).waitFor()
    const made = plain.url()
    // What a browser sends when a page that was sent is loaded again.
    const request = await sent
    const again = await page.request.post(request.url(), {
      data: request.postDataBuffer() ?? '',
      headers: { 'content-type': (await request.headerValue('content-type')) ?? '', origin: house.server().url },
      maxRedirects: 0,
    })
    expect(again.status()).toBe(303)
    expect(new URL(again.headers().location ?? '', made).href).toBe(made)
  } finally {
    await context.close()
  }
})
