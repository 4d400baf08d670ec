// Kits for a class of twelve and a spare: how many of everything, how many can be made now, what stops the thirteenth, what one costs.
// The figures are scenario A6 of the project's trade notes. Questions 61, 62, 63, 66 and 67.
import type { Page } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import { shop } from './sample-files'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse()

const title = 'Seven Lanterns'
/** A kit's length in parts of a put-up, to a hundredth, which gives as many cuts as the length itself. One skein of 0311 too few. */
const threads = [
  { maker: 'Larkholm', line: 'Stranded Cotton', code: '0311', perKit: '0.39', putUp: '8 m', lots: 'no', all: 7, have: 6 },
  { maker: 'Larkholm', line: 'Stranded Cotton', code: '0742', perKit: '0.19', putUp: '8 m', lots: 'no', all: 3, have: 3 },
  { maker: 'Larkholm', line: 'Stranded Cotton', code: 'Ecru', perKit: '0.12', putUp: '8 m', lots: 'no', all: 2, have: 2 },
  {
    maker: 'Oddny Loft',
    line: 'Hand-dyed Cotton',
    code: 'Tarn Blue',
    perKit: '0.26',
    putUp: '5 yd',
    lots: 'yes',
    all: 5,
    have: 5,
  },
  { maker: 'Quillwater', line: 'Filament', code: '12', perKit: '0.04', putUp: '50 m', lots: 'no', all: 1, have: 1 },
]
const files = {
  threads: [
    'Owner,Maker,Line,Code,Strands,Put-up,Put-up word,Dyed,Lots matter,Lot,Skeins',
    ...threads.map(
      ({ maker, line, code, putUp, lots, have }) =>
        `${shop},${maker},${line},${code},6,${putUp},skein,${lots === 'yes' ? 'overdyed' : 'solid'},${lots},18,${have}`,
    ),
  ],
  charts: [
    'Chart,Design,Kind,Owner,Copies,Width,Height,Count,Weave,Price',
    `${title},${title},card,${shop},12,84,84,28 over 2,evenweave,5.50`,
  ],
  lists: [
    'Chart,Design,Maker,Line,Code,Strands,Skeins,Put-up',
    ...threads.map(({ maker, line, code, perKit, putUp }) => `${title},${title},${maker},${line},${code},2,${perKit},${putUp}`),
  ],
  // 5 across by 3 rows of 10 × 10 in, as off the bolt.
  cloth: [
    'Owner,Label,Cloth,Weave,Count,Colour,Size,Squared',
    `${shop},E-01,Marl Evenweave,evenweave,28,Parchment,54 x 31 in,yes`,
  ],
}

const api = (path: string, init?: RequestInit) => fetch(`${house.server().url}/api/v1${path}`, init)

beforeAll(async () => {
  for (const [kind, lines] of Object.entries(files)) {
    const init = { method: 'POST', headers: { 'content-type': 'text/csv' }, body: lines.join('\n') }
    const answer = await api(`/imports?kind=${kind}`, init)
    expect(answer.status, await answer.text()).toBe(200)
  }
  const { owners } = (await (await api('/owners')).json()) as { owners: { id: string; name: string }[] }
  const needles = {
    ...{ ownerId: owners.find(({ name }) => name === shop)?.id, kind: 'needle', name: 'Tapestry needles', size: 'size 24' },
    ...{ count: 6, packOf: 6, priceMinor: 20, placeLabel: 'Drawer N1' },
  }
  const init = { method: 'POST', headers: { 'content-type': 'application/json' }, body: JSON.stringify(needles) }
  expect((await api('/notions', init)).status).toBe(201)
}, 120_000)

const textOf = async (page: Page, name: RegExp) =>
  ((await page.getByRole('row', { name }).allInnerTexts())[0] ?? '').replace(/\s+/g, ' ')

it('starts twelve kits and a spare, and answers what they take, what stops the thirteenth, and what one costs', async () => {
  const page = await house.visit()
  await page.goto('/charts')
  await page.getByRole('table').getByRole('link', { name: title }).first().click()
  const main = page.getByRole('main')
  const howMany = main.getByRole('form', { name: 'How many kits' })
  await howMany.getByLabel('Kits', { exact: true }).fill('12')
  await howMany.getByLabel('Kits', { exact: true }).press('Enter')
  await main.getByRole('link', { name: 'Start 12 kits and 1 spare' }).click()
  await page.waitForURL('**/projects/new**')
  expect(await main.getByLabel('How many').inputValue()).toBe('12')
  expect(await main.getByLabel('Spare kits').inputValue()).toBe('1')
  await main.getByLabel('Cloth').selectOption({ label: 'None for now' })
  await main.getByRole('button', { name: 'Start it' }).click()
  await page.waitForURL(/\/projects\/[0-9a-f-]{36}$/)
  // An ornament has 2 in of cloth on each side: 6 + 4 is 10 in.
  await main.getByRole('button', { name: 'Change the details' }).click()
  await main.getByLabel('Finishing').fill('ornament')
  await main.getByRole('button', { name: 'Save' }).click()
  await main.getByText('Saved.').waitFor()
  await main.getByRole('link', { name: 'Kits', exact: true }).click()
  await main.getByText('12 kits and 1 spare, from the goods of', { exact: false }).waitFor()

  for (const { maker, code, all } of threads) {
    const row = await textOf(page, new RegExp(`${maker} ${code}\\b`))
    expect(row, code).toContain(all === 1 ? '1 skein' : `${all} skeins`)
  }
  expect(await textOf(page, /Tarn Blue/)).toContain('all of one lot')
  expect(await textOf(page, /^Cloth Marl/)).toMatch(/10 × 10 in .*31½ in \(⅞ yd\), 15 cuts .*13 from what is free: E-01/)
  expect(await textOf(page, /^Chart bought/)).toMatch(/12 copies .*12 copies on record .*13 kits/)
  await main.getByText('You can make 12 kits now.').waitFor()
  await main.getByText('0311 stops the 13th: buy 1 skein.', { exact: false }).waitFor()
  await main.getByText('Reserved').first().waitFor()
  await main.getByText('Yes, of every thread whose lots matter.').waitFor()

  // Six needles are there: with one to a kit they stop the seventh.
  await main.getByRole('button', { name: /^Add one needle: Tapestry needles, size 24/ }).click()
  await main.getByText('You can make 6 kits now.').waitFor()
  await main.getByText('Tapestry needle, size 24 stops the seventh: buy 1 pack, 1 short.', { exact: false }).waitFor()
  expect(await textOf(page, /Tapestry needle/)).toMatch(/13, 3 packs 6 reserved 6 kits 2 packs, 7 short/)
  await page.goto('/notions')
  await page.getByText('2 packs to buy, 7 short').waitFor()
  await page.goBack()

  // A price is a number; then what is left of it. A kit has its chart at 5.50 and a needle at 0.20.
  await main.getByLabel('Price of one kit').fill('a lot')
  await main.getByRole('button', { name: 'Keep the price' }).click()
  await main.getByText('Give the price of one kit as 24.50, or leave it out.').first().waitFor()
  await main.getByLabel('Price of one kit').fill('24.50')
  await main.getByRole('button', { name: 'Keep the price' }).click()
  const sum = main.getByRole('table', { name: 'One kit' })
  await sum.getByText(/18\.80, 76\.7 %/).waitFor()
  expect((await sum.allInnerTexts()).join(' ')).toMatch(/Goes into it[\s\S]*at least € 5\.70/)
  await main.getByText(/No price is known of 0311, 0742/).waitFor()

  // What else goes in, and out again.
  const add = main.getByRole('form', { name: 'Add something to each kit' })
  await main.getByRole('button', { name: 'Add something to each kit' }).click()
  await add.getByLabel(/^Name/).fill('Class sheet')
  await add.getByLabel('What it is').selectOption({ label: 'Class sheet' })
  await add.getByRole('button', { name: 'Add it' }).click()
  await main.getByText('Not counted: Class sheet.').waitFor()
  await main.getByRole('button', { name: 'Up with Class sheet' }).click()
  await main.getByRole('button', { name: 'Down with Class sheet' }).waitFor()
  await main.getByRole('button', { name: 'Remove Class sheet' }).click()
  await page.getByRole('dialog').getByRole('button', { name: 'Leave it out' }).click()
  await expect.poll(() => main.getByText('Not counted: Class sheet.').count(), { timeout: 20_000 }).toBe(0)

  await page.setViewportSize(phone)
  await page.reload()
  await main.getByText('You can make 6 kits now.').waitFor()
  await expectNoSidewaysScroll(page)
})
