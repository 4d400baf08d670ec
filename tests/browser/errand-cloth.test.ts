// Four cuts from a fat quarter, planned, printed, made and put away: 11 × 11, two of 8 × 8 and 6 × 12 in, from 18 × 27. By hand: cut at 12
// along the 27, 11 and 6 lie side by side; cut at 8 above that, so do 8 and 8; left is 18 × 7, and from 17½ × 26½ the same leaves 17½ × 6½.
import type { Locator, Page } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import { type ReadPage, readPdf } from '../unit/printing/read-pdf'
import { factOf, rowOf } from './bring-in-steps'
import { press, typeInto } from './by-keyboard'
import { keepPlan } from './cut-steps'
import { shop } from './sample-files'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

const house = openHouse()

/** Over two of 28 threads, 14 to the inch: 84 stitches are 6 in, 56 are 4, and 118 × 103 are 8.43 × 7.36. */
const charts = `Chart,Designer,Kind,Owner,Width,Height,Count,Weave
Seven Lanterns,Dorrit Quayle,card,${shop},84,84,28 over 2,evenweave
Small Blue Ship,Halfpenny Staithe,card,${shop},56,56,28 over 2,evenweave
Nine Wrens,Corvin Ashdale,leaflet,${shop},118,103,28 over 2,evenweave
`
const cloth = `Owner,Label,Maker,Cloth,Weave,Count,Colour,Size,Squared,May turn,Place
${shop},E-31,Ostravane,Ostravane Evenweave,evenweave,28,Parchment,18 x 27 in,yes,yes,C2
${shop},E-32,Ostravane,Ostravane Evenweave,evenweave,28,White,36 x 27 in,yes,yes,C2
`

beforeAll(async () => {
  for (const [kind, body] of Object.entries({ charts, cloth })) {
    const answer = await fetch(`${house.server().url}/api/v1/imports?kind=${kind}`, {
      ...{ method: 'POST', headers: { 'content-type': 'text/csv' }, body },
    })
    expect(answer.status, await answer.text()).toBe(200)
  }
})

const textOf = async (seen: Locator): Promise<string> => (await seen.allInnerTexts()).join('\n')

async function openPiece(page: Page, label: string): Promise<Locator> {
  await page.goto('/cloth')
  const main = page.getByRole('main')
  await main.getByRole('link', { name: label }).first().click()
  await page.getByRole('heading', { level: 1, name: new RegExp(`^${label}`) }).waitFor()
  return main
}

/** From the list of charts to the page of a design's cloth. */
async function openItsCloth(page: Page, title: string) {
  await page.goto('/charts')
  const main = page.getByRole('main')
  await main.getByRole('link', { name: title }).first().click()
  await main.getByRole('link', { name: 'Other margins, counts and ways round' }).click()
  await page.getByRole('heading', { level: 1, name: `Cloth for ${title}` }).waitFor()
}

/** What to cut, and the piece that is offered for it. */
const offerOn = (page: Page): Promise<string> =>
  textOf(page.getByRole('main').getByRole('paragraph').filter({ hasText: /^Cut / }).first())

/** From the piece's page to a plan of the four cuts, without the mouse. */
async function askByKeyboard(page: Page) {
  const main = await openPiece(page, 'E-31')
  await press(page, main.getByRole('link', { name: 'Plan a cut from it' }))
  await page.getByRole('heading', { level: 1, name: 'Plan a cut' }).waitFor()
  const wish = (name: string) => main.getByRole('group', { name, exact: true })

  await typeInto(page, main.getByLabel('Add a design'), 'lanterns')
  await page.keyboard.press('Enter')
  await press(page, main.getByRole('button', { name: 'Add Seven Lanterns' }))
  await press(page, wish('Seven Lanterns').getByText('Margins, threads and what goes first'))
  await typeInto(page, wish('Seven Lanterns').getByLabel('Own margins'), '2 1/2 in')
  await page.keyboard.press('Enter')
  await wish('Seven Lanterns').getByText('cut 11 × 11 in').waitFor()

  await typeInto(page, main.getByLabel('Add a design'), 'small blue')
  await page.keyboard.press('Enter')
  await press(page, main.getByRole('button', { name: 'Add Small Blue Ship' }))
  await typeInto(page, wish('Small Blue Ship').getByLabel('Copies'), '2')
  await typeInto(page, wish('Small Blue Ship').getByLabel('Finished as'), 'orn')
  await wish('Small Blue Ship').getByText('cut 8 × 8 in').waitFor()

  await typeInto(page, main.getByLabel('Add a plain size'), '6 x 12 in')
  await page.keyboard.press('Enter')
  await wish('A plain size').waitFor()
  expect(await main.getByRole('checkbox', { name: /^Cut from E-31/ }).isChecked()).toBe(true)
  expect(await main.getByRole('checkbox', { name: /^Cut from E-32/ }).isChecked()).toBe(false)
  await press(page, main.getByRole('button', { name: 'Find the best way to cut it' }))
}

/** What was found: all four, the offcut as it should be, drawn and told in order. */
async function expectFound(page: Page, offcut: string) {
  await page.getByRole('heading', { level: 1, name: 'A way to cut it' }).waitFor()
  const main = page.getByRole('main')
  await main.getByText('Proved: nothing better exists.').waitFor()
  expect(await factOf(page, 'Cut')).toBe('4 of 4')
  expect(await factOf(page, 'Offcuts kept')).toContain(offcut)
  expect(await main.getByRole('list', { name: 'Left out' }).count()).toBe(0)
}

const isNear = (one: number, other: number) => Math.abs(one - other) <= 0.1
const boxesOf = (page: ReadPage | undefined, widthMm: number, heightMm: number) =>
  page?.boxes.filter(({ width, height }) => isNear(width, widthMm) && isNear(height, heightMm)) ?? []

async function sheetOf(page: Page, link: string): Promise<ReadPage[]> {
  const href = await page.getByRole('link', { name: link }).first().getAttribute('href')
  const answer = await page.request.get(href as string)
  expect(answer.headers()['content-type']).toBe('application/pdf')
  return (await readPdf(new Uint8Array(await answer.body()))).pages
}

it('cuts four things from a fat quarter: found, drawn, kept, printed, refused once, carried out, and what is left put away', async () => {
  const page = await house.visit()
  const main = page.getByRole('main')
  // Of two pieces that take it the smaller: 8.43 + 6 by 7.36 + 6 in, up to the next half.
  await openItsCloth(page, 'Nine Wrens')
  const forAnother = page.url()
  expect(await offerOn(page)).toMatch(/^Cut 14½ × 13½ in from E-31/)

  await askByKeyboard(page)
  await expectFound(page, '18 × 7 in')
  const asked = page.url()
  const drawing = main.getByRole('img', { name: /E-31/ })
  expect(await drawing.count()).toBe(1)
  const steps = main.getByRole('list', { name: 'The cuts in order' }).getByRole('listitem')
  const told = await steps.allInnerTexts()
  expect(told.map((step) => Number.parseInt(step, 10))).toEqual(told.map((_, at) => at + 1))
  // A first cut up the piece would leave nothing 18 in wide.
  expect(told[0]).toMatch(/Cut straight across, \d+ in from the foot\./)
  expect(told.join('\n')).toMatch(/18 × 7 in, is offcut 1: keep it/)
  await expectNoSidewaysScroll(page)

  await typeInto(page, page.getByLabel('What it is for'), 'Winter table')
  await press(page, page.getByRole('button', { name: 'Keep this plan' }))
  await page.getByRole('heading', { level: 1, name: 'Winter table' }).waitFor()
  const plan = page.url()

  // 18 × 27 in is 114.3 × 171.45 mm at 1 : 4; 11 in are 69.85 mm, 8 are 50.8, 6 and 12 are 38.1 and 76.2.
  const [sheet] = await sheetOf(page, 'Drawings to scale, A4')
  expect(sheet?.words.some(({ text }) => text.includes('1 : 4'))).toBe(true)
  expect(boxesOf(sheet, 114.3, 171.45)).toHaveLength(1)
  expect(boxesOf(sheet, 69.85, 69.85)).toHaveLength(1)
  expect(boxesOf(sheet, 50.8, 50.8)).toHaveLength(2)
  expect(boxesOf(sheet, 38.1, 76.2).length + boxesOf(sheet, 76.2, 38.1).length).toBe(1)
  expect(boxesOf(sheet, 114.3, 44.45)).toHaveLength(1)
  // In actual size, over several sheets: 8 in are 203.2 mm.
  const pattern = await sheetOf(page, 'Pattern in actual size, A4')
  expect(pattern.some((one) => boxesOf(one, 203.2, 203.2).length > 0)).toBe(true)

  // Kept for the plan, the piece is offered for nothing else.
  const other = await house.visit()
  await other.goto(forAnother)
  expect(await offerOn(other)).toMatch(/^Cut 14½ × 13½ in from E-32/)

  // While the sizes are being written down the piece turns out to have been squared to less.
  await page.goto(plan)
  await main.getByRole('link', { name: 'It is cut' }).click()
  await page.getByRole('form', { name: 'What was cut' }).waitFor()
  await openPiece(other, 'E-31')
  await other.getByRole('button', { name: 'Measure it again' }).click()
  const measure = other.getByRole('form', { name: 'Measure the piece' })
  await measure.getByLabel('It measures').fill('17 1/2 x 26 1/2 in')
  await measure.getByRole('button', { name: 'Write it down' }).click()
  await other.getByText('17½ × 26½ in').first().waitFor()
  await main.getByRole('button', { name: 'Write it down' }).click()
  const refusal = main.getByRole('alert')
  await refusal.waitFor()
  expect(await textOf(refusal)).toContain(
    'E-31 was 18 × 27 in when the plan was made and is 17½ × 26½ in now. Make the plan again.',
  )
  await main.getByRole('link', { name: 'Not yet' }).click()
  await main.getByText('E-31 changed since this plan was made').waitFor()
  await main.getByRole('button', { name: 'Give it up' }).click()
  await page.getByRole('dialog').getByRole('button', { name: 'Give it up' }).click()
  await main
    .getByText(/given up/)
    .first()
    .waitFor()

  // Made again, it still goes.
  await page.goto(asked)
  await main.getByRole('button', { name: 'Search again' }).click()
  await page.waitForURL((address) => address.href !== asked)
  await expectFound(page, '17½ × 6½ in')
  await keepPlan(page, 'Winter table again')

  await main.getByRole('link', { name: 'It is cut' }).click()
  const made = page.getByRole('form', { name: 'What was cut' })
  const offcut = made.getByRole('group', { name: /^Offcut 1/ })
  await offcut.getByLabel('It measures').fill('17 1/2 x 6 1/4 in')
  await offcut.getByLabel('Label').fill('ER-31')
  await offcut.getByLabel('Place').fill('Offcut box')
  const lanterns = made.getByRole('group', { name: /Seven Lanterns/ })
  await lanterns.getByLabel('It measures').fill('11 x 10 3/4 in')
  await lanterns.getByLabel('Label').fill('E-31-A')
  await made.getByRole('button', { name: 'Write it down' }).click()
  await page.getByRole('heading', { level: 2, name: 'What was cut' }).waitFor()
  const cut = await textOf(page.getByRole('region', { name: 'What was cut' }).getByRole('listitem'))
  for (const words of ['E-31-A, 11 × 10¾ in', 'ER-31, 17½ × 6¼ in', '8 × 8 in']) expect(cut).toContain(words)

  // At the drawer: the offcut is on the list of cloth, with where it comes from, and both histories tell of the cut.
  const drawer = await house.visit({ viewport: phone })
  await drawer.goto('/cloth?offcuts=1')
  const offcuts = drawer.getByRole('table', { name: /^Cloth/ })
  const row = await textOf(rowOf(offcuts, 'ER-31'))
  expect(row).toContain('17½ × 6¼ in')
  expect(row).toContain('Offcut box')
  expect(await textOf(offcuts)).not.toContain('E-32')
  await expectNoSidewaysScroll(drawer)
  await rowOf(offcuts, 'ER-31')
    .getByRole('link', { name: /^ER-31/ })
    .click()
  await drawer.getByRole('heading', { level: 1, name: /^ER-31/ }).waitFor()
  expect(await factOf(drawer, 'Cut from')).toBe('E-31, 17½ × 26½ in, gone')
  expect(await textOf(drawer.getByRole('region', { name: 'History' }))).toContain('cut off a larger piece')
  await drawer.getByRole('link', { name: /^E-31,/ }).click()
  await drawer.getByText('This piece is gone; its history stays.').waitFor()
  expect(await textOf(drawer.getByRole('region', { name: 'History' }))).toContain('cut up, none left')
  expect(await drawer.getByRole('region', { name: 'Cut from it' }).getByRole('listitem').count()).toBeGreaterThanOrEqual(5)
  await expectNoSidewaysScroll(drawer)
})
