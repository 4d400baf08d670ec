import type { Page } from 'playwright-core'
import { beforeAll, expect, it } from 'vitest'
import { bringInFile, openPreview, rowOf } from './bring-in-steps'
import { expectNoSidewaysScroll, openHouse, phone } from './visitor'

// Scenario A9 of the project's trade notes, worked by hand there: bag K-07 unpacked, 8 = 4 back + 3 used up + 1 missing.

const house = openHouse()

const shop = 'The Oxmarsh Needle Room'
const head = 'Owner,Maker,Line,Code,Fibre,Strands,Put-up,Put-up word,Dyed,Lots matter,Lot,Skeins,Part,Place,Now at'
const cotton = (code: string, skeins: number, home: string) =>
  `${shop},Larkholm,Stranded Cotton,${code},cotton,6,8 m,skein,solid,no,,${skeins},,${home},Bag K-07`
const file = [
  head,
  cotton('0087', 1, 'T2.1-14'),
  cotton('0311', 2, 'T2.2-05'),
  cotton('Ecru', 1, 'T2.3-01'),
  `${shop},Oddny Loft,Hand-dyed Cotton,Tarn Blue,cotton,6,5 yd,skein,overdyed,yes,18,2,,T10.1-03,Bag K-07`,
  `${shop},Quillwater,Filament,12,metallic,1,50 m,spool,solid,no,,1,,T4.3-01,Bag K-07`,
  cotton('1204', 1, 'T3.1-01'),
].join('\n')

beforeAll(async () => {
  const page = await house.visit()
  await openPreview(page, { name: 'bag.csv', content: Buffer.from(file) })
  await bringInFile(page, 'bag.csv')
  await page.context().close()
}, 300_000)

async function openBag(page: Page) {
  await page.goto('/places')
  await page.getByRole('main').getByRole('link', { name: 'Bag K-07' }).first().click()
  await page.getByRole('link', { name: 'Unpack it' }).click()
  await page.getByRole('heading', { level: 1, name: 'Unpack Bag K-07' }).waitFor()
}

it('unpacks K-07, puts back by the list, and finds what was missing', async () => {
  const page = await house.visit({ viewport: phone })
  await openBag(page)
  const form = page.getByRole('form', { name: 'Unpack Bag K-07' })
  const left = (code: string) => form.getByLabel(new RegExp(`^So much is left of .*${code}`))
  const fate = (code: string) => form.getByLabel(new RegExp(`^What became of it of .*${code}`))
  await left('0087').fill('0.7')
  await left('0311').fill('3')
  await fate('Ecru').selectOption({ label: 'Used up' })
  await left('Tarn Blue').fill('0.5')
  await fate('1204').selectOption({ label: 'Not in the bag' })
  await form.getByLabel(/^Who unpacks it/).fill('Nell Oxtoby')
  await expectNoSidewaysScroll(page)

  // Three skeins cannot be left of two: it is said, and what was typed stays.
  await form.getByRole('button', { name: 'Unpack', exact: true }).press('Enter')
  const refusal = page.getByRole('alert').filter({ hasText: 'cannot be left' })
  await refusal.waitFor()
  expect(await left('0087').inputValue()).toBe('0.7')
  expect(await fate('1204').inputValue()).toBe('not-there')
  await left('0311').fill('0.8 skein')
  await form.getByRole('button', { name: 'Unpack', exact: true }).click()

  await page.getByText(/^Check: 4 back \+ 3 used up \+ 1 missing = 8/).waitFor()
  const list = page.getByRole('table', { name: /^What goes back/ })
  const rows = (await list.getByRole('row').allInnerTexts()).slice(1)
  expect(rows.map((row) => /T\d+\.\d-\d\d/.exec(row)?.[0])).toEqual(['T2.1-14', 'T2.2-05', 'T4.3-01', 'T10.1-03'])
  expect(rows[0]).toContain('5.6 m')
  expect(rows[3]).toContain('lot 18')
  const usedUp = await page.getByRole('region', { name: 'Used up' }).textContent()
  for (const words of ['0311 (1 skein)', 'Ecru (1 skein)', 'Tarn Blue, lot 18 (1 skein)']) expect(usedUp).toContain(words)
  await page.getByText('out, last seen here').waitFor()
  await expectNoSidewaysScroll(page)

  await page.getByRole('link', { name: 'Tick the list' }).click()
  const boxes = page.getByRole('checkbox')
  await boxes.first().waitFor()
  for (let at = 0; at < 4; at++) await boxes.nth(at).check()
  await page.getByRole('form', { name: 'Carry out what is ticked' }).getByRole('button').click()
  await page.getByText(/This walk is done/).waitFor()

  // Only what is missing is still out, and it is asked for.
  await page.goto('/')
  await page.getByRole('link', { name: '1 thing missing' }).click()
  const missing = page.getByRole('table', { name: /^Open questions/ })
  const question = rowOf(missing, '1204')
  expect(await question.textContent()).toMatch(/K-07[\s\S]*Nell Oxtoby/)
  await expectNoSidewaysScroll(page)
  await question.getByRole('link', { name: /^Found or given up/ }).click()
  await page.getByRole('heading', { level: 1, name: /^Where is .*1204/ }).waitFor()
  await expectNoSidewaysScroll(page)
  const found = page.getByRole('form', { name: 'Found' })
  await found.getByRole('radio', { name: 'at home, in T3.1-01' }).check()
  await found.getByLabel('Who found it').fill('Joss Tarrow')
  await found.getByRole('button', { name: 'It is found' }).click()
  await page.getByRole('heading', { level: 1, name: /^Found: .*1204/ }).waitFor()
  await page.goto('/missing')
  await page.getByText('Nothing is missing').waitFor()
})

it('reports a skein that is not in its drawer, and gives it up with a reason', async () => {
  const page = await house.visit({ viewport: phone })
  await page.goto('/places')
  await page
    .getByRole('main')
    .getByRole('link', { name: /T3\.1-01/ })
    .first()
    .click()
  await page.getByRole('link', { name: /^not there\? Larkholm 1204/ }).click()
  await page.getByRole('button', { name: 'It is not there' }).click()
  await page.getByRole('heading', { level: 1, name: /^Where is Larkholm 1204/ }).waitFor()
  const giveUp = page.getByRole('form', { name: 'Given up' })
  await giveUp.getByRole('button', { name: 'Give it up' }).click()
  await page.getByText('Say why it is given up: it stays in the journal.').first().waitFor()
  await giveUp.getByLabel(/^Why/).fill('Looked in every drawer of T3')
  await giveUp.getByRole('button', { name: 'Give it up' }).click()
  await page.getByRole('heading', { level: 1, name: /^Given up: Larkholm 1204/ }).waitFor()
  await page.goto('/missing?settled=1')
  const settled = page.getByRole('table', { name: /^Settled questions/ })
  expect(await rowOf(settled, 'given up').textContent()).toContain('Looked in every drawer of T3')
})
